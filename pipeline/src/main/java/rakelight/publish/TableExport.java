package rakelight.publish;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.person.Statement;

/**
 * Writes the readings of an edition, a row a line, and what they assert, a row a statement, as
 * tables: CSV by RFC 4180, UTF-8, the first row naming the columns.
 */
public final class TableExport {
  private static final CSVFormat TABLE = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

  private final Path folder;

  /**
   * @param folder where the tables go; made if need be
   */
  public TableExport(Path folder) {
    this.folder = folder.toAbsolutePath().normalize();
  }

  /** Writes {@code readings.csv}; a line of which something is withheld has no text. */
  public Path readings(List<ToldFace> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "marker", "face", "line", "text", "withheld", "reader", "signed", "basis", "witness"));
    for (ToldFace face : faces) {
      Reading reading = face.says().reading().orElseThrow();
      List<String> texts = Leiden.printLines(reading.inscription());
      List<List<Sign>> lines = reading.inscription().lines();
      for (int i = 0; i < lines.size(); i++) {
        Set<String> why = new TreeSet<>();
        for (Sign sign : lines.get(i)) {
          Optional.ofNullable(face.withheld().get(sign.id())).ifPresent(why::add);
        }
        rows.add(
            List.of(
                face.says().marker().number(),
                face.says().face().name(),
                i + 1,
                why.isEmpty() ? texts.get(i) : "",
                String.join("; ", why),
                reading.reader(),
                reading.at(),
                reading.basis().kind().label(),
                reading.basis().witness().orElse("")));
      }
    }
    return write("readings.csv", rows);
  }

  /** Writes {@code statements.csv}. */
  public Path statements(List<ToldFace> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
    rows.add(
        List.of("marker", "face", "person", "kind", "line", "text", "value", "standing", "reason"));
    for (ToldFace face : faces) {
      for (Statement statement : face.says().statements()) {
        rows.add(
            List.of(
                face.says().marker().number(),
                face.says().face().name(),
                statement.person(),
                statement.kind().name().toLowerCase(Locale.ROOT),
                statement.firstLine(),
                statement.text(),
                statement.value(),
                statement.supplied().isPresent() ? "supplied" : "read",
                statement.supplied().orElse("")));
      }
    }
    return write("statements.csv", rows);
  }

  private Path write(String name, List<List<Object>> rows) throws IOException {
    Files.createDirectories(folder);
    Path part = folder.resolve(name + ".part");
    try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8);
        CSVPrinter table = new CSVPrinter(out, TABLE)) {
      table.printRecords(rows);
    }
    return Files.move(part, folder.resolve(name), StandardCopyOption.REPLACE_EXISTING);
  }
}
