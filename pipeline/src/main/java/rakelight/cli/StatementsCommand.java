package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.person.Agreement;
import rakelight.person.Statement;
import rakelight.person.Statements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;
import rakelight.photo.MarkerRow;
import rakelight.photo.PhotoStore;

@Command(
    name = "statements",
    description = "Lists what confirmed readings assert: names, dates, ages, kinship, service.")
final class StatementsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  /** A reading with the place it is of. */
  private record Placed(String marker, String face, Reading reading) {}

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Archive archive = Archive.open(root, Projections.all())) {
      PhotoStore photographs = new PhotoStore(archive);
      List<Placed> readings =
          new ReadingStore(archive)
              .current().stream()
                  .map(reading -> place(photographs, reading))
                  .sorted(Comparator.comparing(Placed::marker).thenComparing(Placed::face))
                  .toList();
      for (Placed placed : readings) {
        List<Statement> statements =
            Statements.of(placed.reading().inscription(), CalendarChange.BRITISH);
        statements.forEach(statement -> print(out, placed, statement));
        Agreement.of(statements).forEach(finding -> print(out, placed, finding));
      }
    }
    return 0;
  }

  private static Placed place(PhotoStore photographs, Reading reading) {
    Face face =
        photographs
            .face(reading.face())
            .orElseThrow(() -> new IllegalStateException("no face " + reading.face()));
    String marker =
        photographs
            .marker(face.marker())
            .map(MarkerRow::number)
            .orElseGet(() -> face.marker().toString());
    return new Placed(marker, face.name(), reading);
  }

  private void print(PrintWriter out, Placed placed, Statement statement) {
    String kind = statement.kind().name().toLowerCase(Locale.ROOT);
    if (!json) {
      out.println(
          placed.marker()
              + " "
              + placed.face()
              + " "
              + statement.firstLine()
              + "  "
              + kind
              + "  "
              + statement.value()
              + "  “"
              + statement.text()
              + "”"
              + statement.supplied().map(reason -> "  (" + reason + ")").orElse(""));
      return;
    }
    ObjectNode object =
        object(placed)
            .put("person", statement.person())
            .put("line", statement.firstLine())
            .put("lastLine", statement.lastLine())
            .put("kind", kind)
            .put("text", statement.text());
    if (statement.kind() == Statement.Kind.NAME) {
      int bar = statement.value().indexOf('|');
      object.put("given", statement.value().substring(0, bar));
      object.put("surname", statement.value().substring(bar + 1));
    } else {
      object.put("value", statement.value());
    }
    object.put("standing", statement.supplied().isPresent() ? "supplied" : "read");
    statement.supplied().ifPresent(reason -> object.put("reason", reason));
    statement.signs().forEach(sign -> object.withArray("signs").add(sign.number()));
    JsonLines.print(out, object);
  }

  private void print(PrintWriter out, Placed placed, Agreement.Finding finding) {
    String kind = finding.contradiction() ? "contradiction" : "reckoned";
    if (json) {
      JsonLines.print(
          out,
          object(placed)
              .put("person", finding.person())
              .put("kind", kind)
              .put("text", finding.words()));
    } else {
      out.println(placed.marker() + " " + placed.face() + "  " + kind + "  " + finding.words());
    }
  }

  private static ObjectNode object(Placed placed) {
    return JsonLines.object()
        .put("marker", placed.marker())
        .put("face", placed.face())
        .put("reading", placed.reading().id().toString());
  }
}
