package rakelight.ground.removal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import rakelight.archive.Table;
import rakelight.person.Written;
import rakelight.person.calendar.CalendarChange;

/**
 * A register of removals as a {@link Table} in which every row has every column. What a row says is
 * taken as it is written, also a day that never was; the account names such faults. A file with a
 * row that isn't whole, or says of no ground, isn't taken.
 *
 * @param lines of the file, by row: where each row begins
 * @param columns by field, the column of the file it was taken from
 * @param passedOver columns that were asked for by no field
 */
public record RemovalFile(
    List<Removal> rows, List<Long> lines, Map<String, String> columns, List<String> passedOver) {
  /** What a row may hold; {@code name} stands for {@code given} and {@code surname} in one. */
  public static final List<String> FIELDS =
      List.of(
          "ground",
          "name",
          "given",
          "surname",
          "died",
          "old-row",
          "old-number",
          "new-row",
          "new-number",
          "moved",
          "stone",
          "note");

  private static final int MOST_FAULTS = 50;
  private static final Set<String> NOBODY =
      Set.of("", "unknown", "not known", "unnamed", "name not known", "n.n.", "?");

  public RemovalFile {
    rows = List.copyOf(rows);
    columns = Map.copyOf(columns);
    passedOver = List.copyOf(passedOver);
    lines = List.copyOf(lines);
  }

  /** A fault with the lines of the file that it is on, in one line. */
  public String told(RemovalFault fault) {
    String at =
        fault.rows().stream()
            .map(row -> String.valueOf(lines.get(row - 1)))
            .collect(Collectors.joining(", "));
    return (at.isEmpty() ? "" : (fault.rows().size() == 1 ? "line " : "lines ") + at + ", ")
        + fault.told();
  }

  /**
   * Reads the whole file.
   *
   * @param columns by field, the column to take it from; a field that isn't in it is taken from the
   *     column of its own name
   * @param oldGround of every row, where no column says it
   * @param change the calendar of the ground, for dates in words
   * @throws Table.RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static RemovalFile read(
      Path file, Map<String, String> columns, Optional<String> oldGround, CalendarChange change)
      throws IOException, Table.RefusedException {
    return new Reader(file.toString(), columns, oldGround, change).parse(Table.read(file));
  }

  /** Reads one file. */
  private static final class Reader {
    private final String file;
    private final Map<String, String> asked;
    private final Optional<String> oldGround;
    private final CalendarChange change;
    private final Map<String, String> columns = new TreeMap<>();
    private final Map<String, Integer> places = new TreeMap<>();
    private final List<String> passedOver = new ArrayList<>();
    private final List<String> problems = new ArrayList<>();
    private final List<Long> lines = new ArrayList<>();
    private final List<Removal> rows = new ArrayList<>();

    Reader(
        String file, Map<String, String> asked, Optional<String> oldGround, CalendarChange change) {
      this.file = file;
      this.asked = asked;
      this.oldGround = oldGround;
      this.change = change;
    }

    RemovalFile parse(Table table) throws Table.RefusedException {
      header(table.columns());
      if (problems.isEmpty()) {
        table.requireRows(file);
        int number = 0;
        for (Table.Row row : table.rows()) {
          number++;
          Optional<String> shortness = table.shortness(row);
          if (shortness.isPresent()) {
            problems.add(file + ", line " + row.line() + ": " + shortness.get());
          } else {
            row(row.cells(), number, row.line());
          }
        }
      }
      if (!problems.isEmpty()) {
        throw new Table.RefusedException(
            problems.subList(0, Math.min(MOST_FAULTS, problems.size())));
      }
      return new RemovalFile(rows, lines, columns, passedOver);
    }

    private void header(List<String> record) {
      Map<String, Integer> named = new TreeMap<>();
      for (int i = 0; i < record.size(); i++) {
        String column = plain(record.get(i));
        if (named.put(column, i) != null) {
          problems.add(file + ", line 1: column " + column + " is there twice.");
        }
      }
      for (String field : FIELDS) {
        String column = plain(asked.getOrDefault(field, field));
        if (named.containsKey(column)) {
          columns.put(field, column);
          places.put(field, named.get(column));
        } else if (asked.containsKey(field)) {
          problems.add(
              file
                  + ", line 1: there is no column “"
                  + column
                  + "”; there are "
                  + String.join(", ", named.keySet())
                  + ".");
        }
      }
      named.keySet().stream()
          .filter(column -> !columns.containsValue(column))
          .forEach(passedOver::add);
      if (!places.containsKey("ground") && oldGround.isEmpty()) {
        problems.add(
            file
                + ", line 1: no column says the old ground. Name it with --old-ground, or the"
                + " column with --column ground=COLUMN.");
      }
      if (!places.containsKey("new-number") && !places.containsKey("old-number")) {
        problems.add(
            file
                + ", line 1: no column says a number in the old or the new ground. Name one with"
                + " --column old-number=COLUMN.");
      }
    }

    private void row(List<String> record, int number, long line) {
      String place = file + ", line " + line + ": ";
      String ground = cell(record, "ground");
      if (ground.isEmpty()) {
        ground = oldGround.orElse("");
      }
      if (ground.isEmpty()) {
        problems.add(place + "says of no old ground; fill in the cell, or give --old-ground");
        return;
      }
      String[] name = name(record);
      String died = cell(record, "died");
      String moved = cell(record, "moved");
      String stone = cell(record, "stone");
      lines.add(line);
      rows.add(
          new Removal(
              number,
              ground,
              name[0],
              name[1],
              died,
              Written.date(died, change),
              cell(record, "old-row"),
              cell(record, "old-number"),
              cell(record, "new-row"),
              cell(record, "new-number"),
              moved,
              Written.date(moved, change),
              stone,
              cell(record, "note")));
    }

    private String[] name(List<String> record) {
      String given = cell(record, "given");
      String surname = cell(record, "surname");
      String whole = cell(record, "name");
      if (NOBODY.contains(plain(given + " " + surname))) {
        return NOBODY.contains(plain(whole)) ? new String[] {"", ""} : Written.name(whole);
      }
      return new String[] {given, surname};
    }

    private String cell(List<String> record, String field) {
      Integer at = places.get(field);
      return at == null ? "" : record.get(at);
    }

    private static String plain(String text) {
      return text.strip().toLowerCase(Locale.ROOT);
    }
  }
}
