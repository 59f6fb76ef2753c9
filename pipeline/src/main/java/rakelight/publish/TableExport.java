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
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.LivingRule;
import rakelight.person.Statement;

/**
 * Writes confirmed readings, a row a line, and what they assert, a row a statement, as tables: CSV
 * by RFC 4180, UTF-8, the first row naming the columns.
 */
public final class TableExport {
  private static final CSVFormat TABLE = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

  private final Path folder;
  private final LivingRule.Withheld withheld;

  /**
   * @param folder where the tables go; made if need be
   * @param withheld what may not be published: such a line has no text, such a statement no row
   */
  public TableExport(Path folder, LivingRule.Withheld withheld) {
    this.folder = folder.toAbsolutePath().normalize();
    this.withheld = withheld;
  }

  /** Writes {@code readings.csv}. */
  public Path readings(List<FaceStatements> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "marker", "face", "line", "text", "withheld", "reader", "signed", "basis", "witness"));
    for (FaceStatements face : faces) {
      Reading reading = face.reading().orElseThrow();
      Published published =
          Published.of(reading.inscription(), sign -> withheld.covers(face.face().id(), sign));
      List<String> texts = Leiden.printLines(published.inscription());
      List<List<Sign>> lines = published.inscription().lines();
      for (int i = 0; i < lines.size(); i++) {
        boolean kept =
            lines.get(i).stream().map(Sign::id).noneMatch(published.withheld()::contains);
        rows.add(
            List.of(
                face.marker().number(),
                face.face().name(),
                i + 1,
                kept ? texts.get(i) : "",
                kept ? "" : "may be living",
                reading.reader(),
                reading.at(),
                reading.basis().kind().label(),
                reading.basis().witness().orElse("")));
      }
    }
    return write("readings.csv", rows);
  }

  /** Writes {@code statements.csv}. */
  public Path statements(List<FaceStatements> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
    rows.add(
        List.of("marker", "face", "person", "kind", "line", "text", "value", "standing", "reason"));
    for (FaceStatements face : faces) {
      for (Statement statement : face.statements()) {
        if (statement.signs().stream().anyMatch(sign -> withheld.covers(face.face().id(), sign))) {
          continue;
        }
        rows.add(
            List.of(
                face.marker().number(),
                face.face().name(),
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
