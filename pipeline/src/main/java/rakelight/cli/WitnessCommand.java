package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.ground.witness.WitnessFile;
import rakelight.ground.witness.WitnessList;
import rakelight.ground.witness.WitnessMatch;
import rakelight.ground.witness.WitnessMatches;
import rakelight.ground.witness.WitnessStore;
import rakelight.marker.Caution;
import rakelight.person.SourceStore;
import rakelight.work.ReaderStore;

@Command(
    name = "witness",
    description = {
      "Earlier lists of the ground's stones, each a witness beside the stone. Without WHAT: the"
          + " lists.",
      "  take FILE.csv --source 5 --columns \"number=No,text=Inscription\"   takes a list in",
      "  work          rows whose stone is in doubt or not found, with what speaks for which",
      "  is 5.3 17     the row speaks of that marker;  not 5.3 17: it doesn't",
      "  differences   where list and stone differ, letter under letter"
    })
final class WitnessCommand extends ArchiveCommand {
  private static final Set<String> LISTS = Set.of("", "work", "differences");

  @Parameters(
      index = "1..*",
      arity = "0..3",
      paramLabel = "WHAT",
      description = "Nothing, or take, work, is, not, differences.")
  private List<String> what = List.of();

  @Option(names = "--source", paramLabel = "SOURCE", description = "Whose list it is, as 5.")
  private Optional<String> source = Optional.empty();

  @Option(
      names = "--columns",
      paramLabel = "MAPPING",
      description =
          "FIELD=COLUMN, parted by commas, of the fields number, row, place, name, given, surname,"
              + " died, born, text; or the name of a mapping that was kept.")
  private Optional<String> columns = Optional.empty();

  @Option(
      names = "--keep-columns-as",
      paramLabel = "NAME",
      description = "Keeps the mapping under a name, for the next list.")
  private String called = "";

  @Option(names = "--note", paramLabel = "WORDS", description = "What speaks for it.")
  private String note = "";

  @Option(
      names = "--out",
      paramLabel = "FILE.csv",
      description = "Writes the list of work or differences as a table.")
  private Optional<Path> table = Optional.empty();

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to take or decide.")
  private @Nullable String reader;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws IOException {
    String verb = what.isEmpty() ? "" : what.get(0);
    boolean taking = verb.equals("take") && what.size() == 2 && source.isPresent();
    boolean judging = (verb.equals("is") || verb.equals("not")) && what.size() == 3;
    if (!taking && !judging && !(LISTS.contains(verb) && what.size() <= 1)) {
      throw wrong(
          "Give take FILE.csv --source 5, or is 5.3 17, or not 5.3 17, or work, or differences");
    }
    if (taking || judging) {
      if (reader == null) {
        throw wrong("Give your name (--reader)");
      }
      new ReaderStore(archive).atTheTerminal(reader).requireDeciding();
    }
    if (taking) {
      return take(archive, Path.of(what.get(1)), reader == null ? "" : reader);
    }
    if (judging) {
      new WitnessStore(archive)
          .judge(what.get(1), what.get(2), verb.equals("is"), note, reader == null ? "" : reader);
      out().println(what.get(1) + ": " + verb + " " + what.get(2));
      return 0;
    }
    WitnessMatches matches = new WitnessMatches(archive);
    WitnessStore store = new WitnessStore(archive);
    List<WitnessList> lists = source.map(one -> List.of(store.list(one))).orElseGet(store::lists);
    List<WitnessMatch> all = lists.stream().flatMap(list -> matches.of(list).stream()).toList();
    switch (verb) {
      case "work" -> work(all.stream().filter(match -> !match.isSettled()).toList());
      case "differences" -> differences(matches.differences(all));
      default -> lists(lists, all, matches);
    }
    return 0;
  }

  private int take(Archive archive, Path file, String by) throws IOException {
    WitnessStore store = new WitnessStore(archive);
    try {
      Map<String, String> mapping =
          columns
              .map(words -> store.mapping(words).orElseGet(() -> WitnessFile.mapping(words)))
              .orElse(Map.of());
      WitnessFile list = WitnessFile.read(file, mapping);
      String name =
          called.isEmpty()
              ? columns.filter(one -> store.mapping(one).isPresent()).orElse("")
              : called;
      store.take(
          new SourceStore(archive).source(source.orElseThrow()),
          String.valueOf(file.getFileName()),
          list,
          name,
          by);
      list.passedOver()
          .forEach(
              column ->
                  err()
                      .println(
                          file + ": column " + column + " is kept, and nothing is read of it."));
      out()
          .println(
              Counted.of(list.rows().size(), "row")
                  + " taken in. `witness` tells of which stones they speak.");
      return 0;
    } catch (Table.RefusedException e) {
      throw new ArchiveException(String.join(" ", e.problems()) + " Nothing was taken.", e);
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    }
  }

  private void lists(List<WitnessList> lists, List<WitnessMatch> all, WitnessMatches matches) {
    for (WitnessList list : lists) {
      List<WitnessMatch> own =
          all.stream().filter(match -> match.list().source().equals(list.source())).toList();
      long settled = own.stream().filter(WitnessMatch::isSettled).count();
      long doubtful = of(own, WitnessMatch.State.DOUBTFUL);
      long none = of(own, WitnessMatch.State.NONE);
      int differing = matches.differences(own).size();
      if (json) {
        ObjectNode object =
            JsonLines.object()
                .put("source", list.sourceNumber())
                .put("title", list.title())
                .put("file", list.file())
                .put("mapping", list.called())
                .put("rows", own.size())
                .put("settled", settled)
                .put("doubtful", doubtful)
                .put("none", none)
                .put("differing", differing);
        ObjectNode columnsRead = object.putObject("columns");
        list.columns().entrySet().stream()
            .sorted(Map.Entry.comparingByKey())
            .forEach(column -> columnsRead.put(column.getKey(), column.getValue()));
        JsonLines.print(out(), object);
      } else {
        out()
            .println(
                list.sourceNumber()
                    + "  "
                    + list.title()
                    + ": "
                    + Counted.of(own.size(), "row")
                    + ", "
                    + settled
                    + " settled, "
                    + doubtful
                    + " doubtful, "
                    + none
                    + " without a stone; "
                    + differing
                    + " differ from the stone"
                    + (list.called().isEmpty() ? "" : " (columns " + list.called() + ")"));
      }
    }
  }

  private static long of(List<WitnessMatch> matches, WitnessMatch.State state) {
    return matches.stream().filter(match -> match.state() == state).count();
  }

  private void work(List<WitnessMatch> open) throws IOException {
    if (table.isPresent()) {
      try (CSVPrinter printer =
          printer(table.get(), "row", "line", "called", "letters", "state", "markers", "reasons")) {
        for (WitnessMatch match : open) {
          printer.printRecord(
              match.place(),
              match.row().line(),
              match.row().called(),
              match.row().letters(),
              match.state().words(),
              String.join(
                  " ", match.candidates().stream().map(WitnessMatch.Candidate::number).toList()),
              String.join(
                  " | ",
                  match.candidates().stream()
                      .map(one -> String.join("; ", one.reasons()))
                      .toList()));
        }
      }
      out().println(Counted.of(open.size(), "row") + " written to " + table.get() + ".");
      return;
    }
    for (WitnessMatch match : open) {
      if (json) {
        ObjectNode object =
            JsonLines.object()
                .put("row", match.place())
                .put("called", match.row().called())
                .put("letters", match.row().letters())
                .put("state", match.state().words());
        for (WitnessMatch.Candidate one : match.candidates()) {
          ObjectNode candidate =
              object
                  .withArray("candidates")
                  .addObject()
                  .put("marker", one.number())
                  .put("weight", one.weight());
          one.reasons().forEach(reason -> candidate.withArray("reasons").add(reason));
        }
        JsonLines.print(out(), object);
      } else {
        out().println(match.place() + "  " + match.row().called() + "  " + match.state().words());
        match
            .candidates()
            .forEach(
                one ->
                    out()
                        .println(
                            "    perhaps "
                                + one.number()
                                + "  ("
                                + String.join("; ", one.reasons())
                                + ")"));
      }
    }
  }

  private void differences(List<WitnessMatch.Difference> differences) throws IOException {
    if (table.isPresent()) {
      try (CSVPrinter printer =
          printer(table.get(), "row", "marker", "face", "what", "stone", "list", "marks")) {
        for (WitnessMatch.Difference one : differences) {
          printer.printRecord(
              one.match().place(),
              one.match().candidates().get(0).number(),
              one.faceName(),
              one.letters().sort().words(),
              one.letters().stone(),
              one.letters().list(),
              one.letters().marks());
        }
      }
      out()
          .println(
              Counted.of(differences.size(), "difference") + " written to " + table.get() + ".");
      return;
    }
    if (!json && !differences.isEmpty()) {
      out().println(Caution.LOOK_ONLY);
    }
    for (WitnessMatch.Difference one : differences) {
      String marker = one.match().candidates().get(0).number();
      if (json) {
        JsonLines.print(
            out(),
            JsonLines.object()
                .put("row", one.match().place())
                .put("marker", marker)
                .put("face", one.faceName())
                .put("what", one.letters().sort().words())
                .put("stone", one.letters().stone())
                .put("list", one.letters().list())
                .put("marks", one.letters().marks()));
      } else {
        out()
            .println(
                one.match().place()
                    + "  marker "
                    + marker
                    + ", "
                    + one.faceName()
                    + ": "
                    + one.letters().sort().words());
        out().println("    stone  " + one.letters().stone());
        out().println("    list   " + one.letters().list());
        out().println("           " + one.letters().marks().stripTrailing());
      }
    }
  }

  private static CSVPrinter printer(Path file, String... header) throws IOException {
    Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
    return new CSVPrinter(out, CSVFormat.RFC4180.builder().setHeader(header).get());
  }
}
