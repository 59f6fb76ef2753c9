package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.ground.removal.Removal;
import rakelight.ground.removal.RemovalAccount;
import rakelight.ground.removal.RemovalFault;
import rakelight.ground.removal.RemovalFigure;
import rakelight.ground.removal.RemovalFile;
import rakelight.ground.removal.RemovalRegister;
import rakelight.ground.removal.RemovalStore;
import rakelight.ground.removal.Removals;
import rakelight.ground.removal.RemovedGrave;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.person.calendar.CalendarChange;
import rakelight.publish.Edition;

@Command(
    name = "removals",
    description = {
      "The account of each older ground from which graves were moved here: recorded, moved,"
          + " marked,",
      "unknown, unaccounted for, with the sums and the faults of the register. Needs --as-of.",
      "  import FILE.csv --source 5   takes a register of removals",
      "  is 5.17 15:E:1               the stone speaks of the person of that row",
      "  not 5.17 15:E:1              it speaks of another; not proposed again"
    })
final class RemovalsCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "0..3",
      paramLabel = "WHAT",
      description = "Nothing for the accounts; else import, is or not.")
  private List<String> what = List.of();

  @Option(names = "--source", paramLabel = "SOURCE", description = "Whose rows they are, as 5.")
  private Optional<String> source = Optional.empty();

  @Option(
      names = "--column",
      paramLabel = "FIELD=COLUMN",
      description =
          "From which column of the file a field is taken, such as died=\"Date of death\".")
  private Map<String, String> columns = new LinkedHashMap<>();

  @Option(
      names = "--like",
      paramLabel = "SOURCE",
      description = "Takes the columns as the register of that source had them.")
  private Optional<String> like = Optional.empty();

  @Option(
      names = "--old-ground",
      paramLabel = "NAME",
      description = "Importing: the ground of every row that names none. Else: only that account.")
  private Optional<String> oldGround = Optional.empty();

  @Option(
      names = "--stated",
      paramLabel = "FIGURE=NUMBER",
      description =
          "A figure the register gives itself, such as recorded=240; with several grounds"
              + " \"NAME/recorded=240\".")
  private Map<String, Integer> stated = new LinkedHashMap<>();

  @Option(names = "--dry-run", description = "Says what would be taken and what is wrong with it.")
  private boolean dryRun;

  @Option(
      names = "--show",
      paramLabel = "FIGURE",
      description = "Lists the graves behind a figure, such as unaccounted.")
  private Optional<String> show = Optional.empty();

  @Option(
      names = "--as-of",
      paramLabel = "DAY",
      description = "The day by which it is reckoned what may be told, such as 2026-11-25.")
  private Optional<LocalDate> asOf = Optional.empty();

  @Option(names = "--note", paramLabel = "WORDS", description = "What speaks for it.")
  private String note = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to decide.")
  private @Nullable String reader;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws IOException {
    String verb = what.isEmpty() ? "" : what.get(0);
    boolean importing = verb.equals("import") && what.size() == 2 && source.isPresent();
    boolean judging = (verb.equals("is") || verb.equals("not")) && what.size() == 3;
    if (!verb.isEmpty() && !importing && !judging) {
      throw wrong("Give import FILE.csv --source 5, or is 5.17 15:E:1, or not 5.17 15:E:1");
    }
    if (!verb.isEmpty() && reader == null) {
      throw wrong("Give your name (--reader)");
    }
    String by = reader == null ? "" : reader;
    if (importing) {
      return take(archive, Path.of(what.get(1)), by);
    }
    if (judging) {
      Mention mention = People.mention(archive, what.get(2));
      new RemovalStore(archive).judge(what.get(1), mention, verb.equals("is"), note, by);
      out().println(what.get(1) + ": " + verb + " " + what.get(2));
      return 0;
    }
    return tell(archive);
  }

  // Importing

  private int take(Archive archive, Path file, String by) throws IOException {
    PrintWriter err = err();
    RemovalStore store = new RemovalStore(archive);
    Map<String, String> asked =
        new LinkedHashMap<>(
            like.map(store::register).map(RemovalRegister::columns).orElse(Map.of()));
    asked.putAll(columns);
    for (String field : asked.keySet()) {
      if (!RemovalFile.FIELDS.contains(field)) {
        throw wrong(field + ": no such field; there are " + String.join(", ", RemovalFile.FIELDS));
      }
    }
    try {
      RemovalFile register =
          RemovalFile.read(file, asked, oldGround, CalendarChange.of(archive.ground()));
      List<RemovalRegister.Stated> figures = stated(register);
      register
          .passedOver()
          .forEach(column -> err.println(file + ": column " + column + " is passed over."));
      Source of = new SourceStore(archive).source(source.orElseThrow());
      String name = String.valueOf(file.getFileName());
      if (!dryRun) {
        store.list(of, name, register, figures, by);
      }
      RemovalRegister taken =
          new RemovalRegister(
              of.id(),
              of.number(),
              of.title(),
              name,
              register.columns(),
              figures,
              register.rows(),
              of.decision());
      Removals.with(archive, taken).stream()
          .filter(account -> account.register().source().equals(of.id()))
          .flatMap(account -> account.faults().stream())
          .forEach(fault -> err.println(file + ": " + register.told(fault)));
      out()
          .println(
              register.rows().size()
                  + (dryRun ? " rows would be taken" : " rows taken")
                  + " as they are written");
      return 0;
    } catch (Table.RefusedException e) {
      e.problems().forEach(err::println);
      err.println(file + ": no row was taken.");
      return 1;
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    }
  }

  private List<RemovalRegister.Stated> stated(RemovalFile register) {
    List<String> grounds = register.rows().stream().map(Removal::oldGround).distinct().toList();
    List<RemovalRegister.Stated> all = new ArrayList<>();
    stated.forEach(
        (key, count) -> {
          int slash = key.lastIndexOf('/');
          String ground = slash < 0 ? grounds.get(0) : key.substring(0, slash).strip();
          RemovalFigure figure =
              RemovalFigure.of(key.substring(slash + 1))
                  .orElseThrow(
                      () -> wrong(key + ": no such figure; there are " + RemovalFigure.labels()));
          if (!grounds.contains(ground) || (slash < 0 && grounds.size() > 1)) {
            throw wrong(
                key
                    + ": name one of its grounds, "
                    + String.join(", ", grounds)
                    + ", as NAME/"
                    + key);
          }
          all.add(new RemovalRegister.Stated(ground, figure, count));
        });
    return all;
  }

  // Telling

  private int tell(Archive archive) {
    LocalDate day = asOf.orElseThrow(() -> wrong("Give the day by which it is told (--as-of)"));
    Optional<RemovalFigure> figure =
        show.map(
            label ->
                RemovalFigure.of(label)
                    .orElseThrow(
                        () ->
                            wrong(
                                label + ": no such figure; there are " + RemovalFigure.labels())));
    List<RemovalAccount> accounts =
        Edition.of(archive, day).told(Removals.of(archive)).stream()
            .filter(account -> oldGround.isEmpty() || account.oldGround().equals(oldGround.get()))
            .filter(
                account ->
                    source.isEmpty()
                        || source.get().equals(Long.toString(account.register().sourceNumber())))
            .toList();
    for (RemovalAccount account : accounts) {
      if (json) {
        JsonLines.print(out(), object(account));
        account.behind(figure.orElse(RemovalFigure.RECORDED)).stream()
            .map(grave -> object(account, grave))
            .forEach(grave -> JsonLines.print(out(), grave));
      } else {
        print(account, figure);
      }
    }
    if (!json && !accounts.isEmpty()) {
      out().println(Caution.LOOK_ONLY);
    }
    return 0;
  }

  private void print(RemovalAccount account, Optional<RemovalFigure> figure) {
    PrintWriter out = out();
    out.println(
        account.oldGround()
            + ", by source "
            + account.register().sourceNumber()
            + " ("
            + account.register().title()
            + ")");
    for (RemovalFigure one : RemovalFigure.values()) {
      out.println(String.format(Locale.ROOT, "%6d %s", account.count(one), one.words()));
    }
    account.sums().forEach(sum -> out.println("  " + sum.told()));
    account.faults().forEach(fault -> out.println("  fault: " + fault.told()));
    if (!account.unclaimed().isEmpty()) {
      out.println(
          "  “unknown” stones to which no row leads: "
              + String.join(", ", account.unclaimed().stream().map(Marker::number).toList()));
    }
    out.println("  " + RemovalAccount.MAY_REMAIN);
    List<RemovedGrave> listed =
        figure
            .map(account::behind)
            .orElse(
                account.graves().stream().filter(grave -> !grave.proposals().isEmpty()).toList());
    for (RemovedGrave grave : listed) {
      out.println("  " + grave.place() + "  " + grave.told());
      grave.found().ifPresent(m -> out.println("      is " + m.label() + " " + m.called()));
      grave.proposals().forEach(match -> out.println("      " + SoughtCommand.words(match)));
    }
  }

  private static ObjectNode object(RemovalAccount account) {
    ObjectNode object =
        JsonLines.object()
            .put("kind", "account")
            .put("source", account.register().sourceNumber())
            .put("title", account.register().title())
            .put("oldGround", account.oldGround())
            .put("rows", account.rows());
    ObjectNode figures = object.putObject("figures");
    for (RemovalFigure figure : RemovalFigure.values()) {
      figures.put(figure.label(), account.count(figure));
    }
    for (RemovalAccount.Sum sum : account.sums()) {
      ObjectNode one =
          object
              .withArray("sums")
              .addObject()
              .put("sum", sum.words())
              .put("left", sum.left())
              .put("right", sum.right())
              .put("closes", sum.closes());
      sum.rows().forEach(one.withArray("rows")::add);
    }
    for (RemovalFault fault : account.faults()) {
      ObjectNode one =
          object
              .withArray("faults")
              .addObject()
              .put("fault", fault.kind().label())
              .put("words", fault.words());
      fault.rows().forEach(one.withArray("rows")::add);
    }
    account.unclaimed().forEach(marker -> object.withArray("unclaimed").add(marker.number()));
    ObjectNode from = object.putObject("columns");
    account.register().columns().entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .forEach(column -> from.put(column.getKey(), column.getValue()));
    return object.put("mayRemain", RemovalAccount.MAY_REMAIN);
  }

  private static ObjectNode object(RemovalAccount account, RemovedGrave grave) {
    Removal row = grave.row();
    ObjectNode object =
        JsonLines.object()
            .put("kind", "grave")
            .put("grave", grave.place())
            .put("oldGround", account.oldGround())
            .put("called", grave.called());
    grave.numbers().forEach(object.withArray("rows")::add);
    object
        .put("died", row.died())
        .put("oldRow", row.oldRow())
        .put("oldNumber", row.oldNumber())
        .put("newRow", row.newRow())
        .put("newNumber", row.newNumber())
        .put("moved", row.moved())
        .put("stone", row.stoneKind().label())
        .put("note", row.note())
        .put("standing", grave.standing().label())
        .put("why", grave.why())
        .put("nameWithheld", grave.nameWithheld())
        .put("placeWithheld", grave.placeWithheld());
    grave.marker().ifPresent(marker -> object.put("marker", marker.number()));
    grave.found().ifPresent(mention -> object.put("found", mention.label()));
    for (Linkage.Match match : grave.proposals()) {
      ObjectNode one =
          object
              .withArray("matches")
              .addObject()
              .put("mention", match.mention().label())
              .put("called", match.mention().called())
              .put("probability", match.probability())
              .put("odds", Linkage.odds(match.probability()));
      match.reasons().forEach(reason -> one.withArray("reasons").add(reason.words()));
    }
    return object;
  }
}
