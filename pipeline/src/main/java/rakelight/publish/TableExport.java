package rakelight.publish;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
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
 * tables: CSV by RFC 4180, UTF-8, the first row naming the columns. What each column holds stands
 * beside them as metadata for CSV on the Web (W3C, Metadata Vocabulary for Tabular Data, 2015),
 * which is their data dictionary too.
 */
public final class TableExport {
  private static final CSVFormat TABLE = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

  private static final String READINGS_FILE = "readings.csv";
  private static final String STATEMENTS_FILE = "statements.csv";

  private static final List<Column> READINGS =
      List.of(
          new Column("marker", "string", "Number of the marker."),
          new Column("face", "string", "Name of its face."),
          new Column("line", "positiveInteger", "Number of the line, from 1."),
          new Column("text", "string", "The line in Leiden signs; empty where part is withheld."),
          new Column("withheld", "string", "Why something of the line is withheld, if it is."),
          new Column("reader", "string", "Who signed the reading."),
          new Column("signed", "dateTime", "When it was signed, UTC."),
          new Column("basis", "string", "What it was read from."),
          new Column("witness", "string", "The earlier witness it was read from, if any."));

  private static final List<Column> STATEMENTS =
      List.of(
          new Column("marker", "string", "Number of the marker."),
          new Column("face", "string", "Name of its face."),
          new Column(
              "person", "nonNegativeInteger", "Number of the person on the face; 0 for nobody."),
          new Column("kind", "string", "What is stated: name, birth, death, age, kin and others."),
          new Column("line", "positiveInteger", "The first line it is read from."),
          new Column("text", "string", "The words as carved; a slash parts lines."),
          new Column(
              "value",
              "string",
              "EDTF for dates, an ISO 8601 duration for ages, given|surname for names, else words."),
          new Column("standing", "string", "read, or supplied where it is worked out."),
          new Column("reason", "string", "By what it is worked out, if it is."));

  /** A column of a table: its name, the datatype of its cells, and what they say. */
  private record Column(String name, String datatype, String description) {}

  private final ExportFolder folder;

  /**
   * @param folder where the tables go
   */
  public TableExport(ExportFolder folder) {
    this.folder = folder;
  }

  /** Writes {@code readings.csv}; a line of which something is withheld has no text. */
  public Path readings(List<ToldFace> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
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
    return write(READINGS_FILE, READINGS, rows);
  }

  /** Writes {@code statements.csv}. */
  public Path statements(List<ToldFace> faces) throws IOException {
    List<List<Object>> rows = new ArrayList<>();
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
    return write(STATEMENTS_FILE, STATEMENTS, rows);
  }

  /**
   * Writes {@code csv-metadata.json}, which describes both tables.
   *
   * @param ground whose readings they are
   */
  public Path metadata(String ground) throws IOException {
    ObjectNode group = JsonNodeFactory.instance.objectNode();
    group.putArray("@context").add("http://www.w3.org/ns/csvw").addObject().put("@language", "en");
    group.put("dc:title", "Readings of the grave markers of " + ground);
    ArrayNode tables = group.putArray("tables");
    table(tables, READINGS_FILE, "A row a line of a face that is told.", READINGS)
        .putArray("primaryKey")
        .add("marker")
        .add("face")
        .add("line");
    table(tables, STATEMENTS_FILE, "A row a statement that is told.", STATEMENTS);
    return folder.put("csv-metadata.json", group.toPrettyString() + "\n");
  }

  private static ObjectNode table(
      ArrayNode tables, String file, String description, List<Column> columns) {
    ObjectNode table = tables.addObject();
    table.put("url", file);
    table.put("dc:description", description);
    ObjectNode schema = table.putObject("tableSchema");
    ArrayNode all = schema.putArray("columns");
    for (Column column : columns) {
      all.addObject()
          .put("name", column.name())
          .put("titles", column.name())
          .put("dc:description", column.description())
          .put("datatype", column.datatype());
    }
    return schema;
  }

  private Path write(String name, List<Column> columns, List<List<Object>> rows)
      throws IOException {
    return folder.put(
        name,
        out -> {
          // They belong to the stream, which is closed with the file.
          Writer words = new OutputStreamWriter(out, StandardCharsets.UTF_8);
          CSVPrinter table = new CSVPrinter(words, TABLE);
          table.printRecord(columns.stream().map(Column::name).toList());
          table.printRecords(rows);
          table.flush();
        });
  }
}
