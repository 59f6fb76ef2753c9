package rakelight.ground.witness;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;

/**
 * An earlier list as a table.
 *
 * @param columns by field, the column it is taken from
 * @param passedOver columns that no field is taken from; their cells are kept all the same
 */
public record WitnessFile(
    List<String> header,
    List<WitnessRow> rows,
    Map<String, String> columns,
    List<String> passedOver) {
  public WitnessFile {
    header = List.copyOf(header);
    rows = List.copyOf(rows);
    columns = Map.copyOf(columns);
    passedOver = List.copyOf(passedOver);
  }

  /**
   * Reads a mapping of columns such as {@code number=Grave No,name=Name}.
   *
   * @throws ArchiveException if it isn't one
   */
  public static Map<String, String> mapping(String words) {
    Map<String, String> mapping = new LinkedHashMap<>();
    for (String pair : words.split(",", -1)) {
      int equals = pair.indexOf('=');
      String field = equals < 0 ? pair.strip() : pair.substring(0, equals).strip();
      if (equals < 0 || !WitnessRow.FIELDS.contains(field)) {
        throw new ArchiveException(
            "“"
                + pair.strip()
                + "” isn't FIELD=COLUMN; the fields are "
                + String.join(", ", WitnessRow.FIELDS)
                + ".");
      }
      mapping.put(field, pair.substring(equals + 1).strip());
    }
    return mapping;
  }

  /**
   * Reads the whole file.
   *
   * @param mapping by field, the column; a field that isn't in it is taken from a column of its own
   *     name
   * @throws Table.RefusedException if it isn't a table
   * @throws ArchiveException if a column isn't there, or nothing says of which stone a row speaks
   */
  public static WitnessFile read(Path file, Map<String, String> mapping)
      throws IOException, Table.RefusedException {
    Table table = Table.read(file);
    Map<String, Integer> places = new TreeMap<>();
    for (String field : WitnessRow.FIELDS) {
      String column = mapping.getOrDefault(field, field);
      table.place(column).ifPresent(place -> places.put(field, place));
      if (mapping.containsKey(field) && !places.containsKey(field)) {
        throw new ArchiveException(
            file
                + ", line 1: there is no column “"
                + column
                + "”; there are "
                + String.join(", ", table.columns())
                + ".");
      }
    }
    if (List.of("number", "name", "surname", "text").stream().noneMatch(places::containsKey)) {
      throw new ArchiveException(
          file
              + ", line 1: no column says number, name, surname or text. Name one with --columns"
              + " \"name=COLUMN\"; there are "
              + String.join(", ", table.columns())
              + ".");
    }
    table.requireRows(file.toString());
    List<WitnessRow> rows = new ArrayList<>();
    for (Table.Row row : table.rows()) {
      Map<String, String> fields = new TreeMap<>();
      places.forEach(
          (field, place) -> {
            if (!row.cells().get(place).isEmpty()) {
              fields.put(field, row.cells().get(place));
            }
          });
      rows.add(new WitnessRow(rows.size() + 1, row.line(), row.cells(), fields));
    }
    Map<String, String> columns = new TreeMap<>();
    places.forEach((field, place) -> columns.put(field, table.columns().get(place)));
    List<String> passedOver = new ArrayList<>(table.columns());
    passedOver.removeAll(columns.values());
    return new WitnessFile(table.columns(), rows, columns, passedOver);
  }
}
