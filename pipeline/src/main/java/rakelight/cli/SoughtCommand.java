package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.SoughtFile;
import rakelight.person.SoughtMatches;
import rakelight.person.SourceStore;
import rakelight.person.calendar.CalendarChange;

@Command(
    name = "sought",
    description = {
      "Lists the persons whom rolls and registers say are buried here somewhere, each with the",
      "stones that may be his and the odds.",
      "  import FILE.csv --source 5   takes a roll or register",
      "  found 5.3 15:E:1             the stone speaks of that person",
      "  not 5.3 15:E:1               it speaks of another; not proposed again"
    })
final class SoughtCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "0..3",
      paramLabel = "WHAT",
      description = "Nothing to list; else import, found or not.")
  private List<String> what = List.of();

  @Option(names = "--source", paramLabel = "SOURCE", description = "Whose rows they are, as 5.")
  private Optional<String> source = Optional.empty();

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
    boolean judging = (verb.equals("found") || verb.equals("not")) && what.size() == 3;
    if (!verb.isEmpty() && !importing && !judging) {
      throw wrong("Give import FILE.csv --source 5, or found 5.3 15:E:1, or not 5.3 15:E:1");
    }
    if (!verb.isEmpty() && reader == null) {
      throw wrong("Give your name (--reader)");
    }
    if (importing) {
      return list(archive, Path.of(what.get(1)), name());
    }
    if (judging) {
      SourceStore store = new SourceStore(archive);
      Mention mention = People.mention(archive, what.get(2));
      store.judge(store.sought(what.get(1)), mention, verb.equals("found"), note, name());
      out().println(what.get(1) + ": " + verb + " " + what.get(2));
      return 0;
    }
    SoughtMatches.of(archive).results().forEach(this::print);
    return 0;
  }

  private String name() {
    return reader == null ? "" : reader;
  }

  private int list(Archive archive, Path file, String by) throws IOException {
    PrintWriter err = err();
    try {
      SoughtFile rows = SoughtFile.read(file, CalendarChange.of(archive.ground()));
      SourceStore store = new SourceStore(archive);
      store.list(store.source(source.orElseThrow()), String.valueOf(file.getFileName()), rows, by);
      rows.unknown()
          .forEach(column -> err.println(file + ": column " + column + " is passed over."));
      out().println(rows.rows().size() + " persons sought");
      return 0;
    } catch (Table.RefusedException e) {
      e.problems().forEach(err::println);
      err.println(file + ": nobody was taken.");
      return 1;
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    }
  }

  private void print(SoughtMatches.Result result) {
    PrintWriter out = out();
    if (json) {
      JsonLines.print(out, object(result));
      return;
    }
    StringBuilder line = new StringBuilder(result.sought().label());
    line.append("  ").append(result.sought().row().called());
    result.sought().row().died().ifPresent(day -> line.append("  died ").append(day));
    result.sought().row().buried().ifPresent(day -> line.append("  buried ").append(day));
    result
        .found()
        .ifPresent(
            mention ->
                line.append("  found: ")
                    .append(mention.label())
                    .append(" ")
                    .append(mention.called()));
    out.println(line);
    result.matches().forEach(match -> out.println("    " + words(match)));
  }

  /** Says who is sought that the stones of these markers may speak of. */
  static void tell(Archive archive, Set<String> markers, PrintWriter out) {
    for (Linkage.Match match : SoughtMatches.of(archive).on(markers)) {
      out.println(
          match.sought().label()
              + " "
              + match.sought().row().called()
              + " is sought: "
              + words(match));
    }
  }

  /** A match in words, with its odds and what speaks for and against. */
  static String words(Linkage.Match match) {
    return "perhaps "
        + match.mention().label()
        + " "
        + match.mention().called()
        + "  "
        + Linkage.odds(match.probability())
        + "  ("
        + String.join("; ", match.reasons().stream().map(Linkage.Reason::words).toList())
        + ")";
  }

  private static ObjectNode object(SoughtMatches.Result result) {
    var row = result.sought().row();
    ObjectNode object =
        JsonLines.object()
            .put("sought", result.sought().place())
            .put("given", row.given())
            .put("surname", row.surname());
    row.born().ifPresent(v -> object.put("born", v));
    row.died().ifPresent(v -> object.put("died", v));
    row.buried().ifPresent(v -> object.put("buried", v));
    row.age().ifPresent(v -> object.put("age", v));
    object
        .put("kin", row.kin())
        .put("unit", row.unit())
        .put("reference", row.reference())
        .put("note", row.note());
    result.found().ifPresent(mention -> object.put("found", mention.label()));
    for (Linkage.Match match : result.matches()) {
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
