package rakelight.ground;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Table;

/**
 * Links to confirm, from a {@link Table}, in which every row has every column: {@code from} (a
 * marker), {@code type} (a kind of link), {@code to} (a marker for footstones, else a person in
 * words); {@code note} may be missing, other columns are passed over.
 */
public record LinkFile(List<Row> rows) {
  /**
   * One link.
   *
   * @param line of the file, from 1
   */
  public record Row(int line, String from, Link.Kind kind, String to, String note) {}

  public LinkFile {
    rows = List.copyOf(rows);
  }

  /**
   * Reads the whole file.
   *
   * @throws Table.RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static LinkFile read(Path file) throws IOException, Table.RefusedException {
    Table table = Table.readVerbatim(file);
    if (List.of("from", "type", "to").stream().anyMatch(name -> table.place(name).isEmpty())) {
      throw new Table.RefusedException(
          List.of(file + ", line 1: the first line must name the columns from, type, to."));
    }
    table.requireRows(file.toString());
    List<Row> rows = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    for (Table.Row row : table.rows()) {
      String place = file + ", line " + row.line() + ": ";
      String from = table.cell(row, "from");
      String to = table.cell(row, "to");
      String type = table.cell(row, "type");
      Optional<Link.Kind> kind = Link.Kind.of(type);
      Optional<String> shortness = table.shortness(row);
      if (shortness.isPresent()) {
        problems.add(place + shortness.get());
      } else if (from.isEmpty() || to.isEmpty()) {
        problems.add(place + "a link needs from and to");
      } else if (kind.isEmpty()) {
        problems.add(place + "no such link as “" + type + "”; there are " + kinds());
      } else {
        rows.add(new Row((int) row.line(), from, kind.get(), to, table.cell(row, "note")));
      }
    }
    if (!problems.isEmpty()) {
      throw new Table.RefusedException(problems);
    }
    return new LinkFile(rows);
  }

  /** The kinds of link, for messages. */
  public static String kinds() {
    return String.join(", ", Arrays.stream(Link.Kind.values()).map(Link.Kind::label).toList());
  }
}
