package rakelight.person;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import rakelight.archive.Table;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.calendar.CalendarChange;

/**
 * Persons sought, from a roll or register as a {@link Table}. {@code surname} is needed, or {@code
 * name} ("Wren, John" or "John Wren"); {@code given}, {@code born}, {@code died}, {@code buried},
 * {@code age}, {@code kin}, {@code unit}, {@code reference}, {@code note} may be there. Dates are
 * EDTF or words as on a stone ("3 May 1848"); an age is whole years, words, or an ISO 8601
 * duration.
 *
 * @param unknown columns that mean nothing here and are passed over
 */
public record SoughtFile(List<Sought.Row> rows, List<String> unknown) {
  private static final Set<String> COLUMNS =
      Set.of(
          "name",
          "given",
          "surname",
          "born",
          "died",
          "buried",
          "age",
          "kin",
          "unit",
          "reference",
          "note");
  private static final int MOST_FAULTS = 20;

  public SoughtFile {
    rows = List.copyOf(rows);
    unknown = List.copyOf(unknown);
  }

  /**
   * Reads the whole file.
   *
   * @param change the calendar of the ground, for dates in words
   * @throws Table.RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static SoughtFile read(Path file, CalendarChange change)
      throws IOException, Table.RefusedException {
    return parse(Table.text(file), file.toString(), change);
  }

  /**
   * One row that somebody writes by himself.
   *
   * @param cells by the names of their columns
   * @throws Table.RefusedException saying what is wrong with it
   */
  public static SoughtFile row(Map<String, String> cells, CalendarChange change)
      throws Table.RefusedException {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      Map<String, String> sorted = new TreeMap<>(cells);
      printer.printRecord(sorted.keySet());
      printer.printRecord(sorted.values());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    try {
      return parse(text.toString(), "", change);
    } catch (Table.RefusedException e) {
      throw new Table.RefusedException(
          e.problems().stream().map(one -> one.replaceFirst("^, line [0-9]+: ", "It ")).toList());
    }
  }

  static SoughtFile parse(String text, String file, CalendarChange change)
      throws Table.RefusedException {
    List<String> problems = new ArrayList<>();
    List<Sought.Row> rows = new ArrayList<>();
    List<String> unknown = new ArrayList<>();
    Table table = Table.parse(text, file);
    Map<String, Integer> columns = new TreeMap<>();
    header(table.columns(), columns, unknown, problems, file);
    if (problems.isEmpty()) {
      table.requireRows(file);
      for (Table.Row row : table.rows()) {
        String place = file + ", line " + row.line() + ": ";
        row(row.cells(), columns, rows.size() + 1, change)
            .ifPresentOrElse(
                rows::add, () -> problems.add(place + fault(row.cells(), columns, change)));
      }
    }
    if (!problems.isEmpty()) {
      throw new Table.RefusedException(problems.subList(0, Math.min(MOST_FAULTS, problems.size())));
    }
    return new SoughtFile(rows, unknown);
  }

  private static void header(
      List<String> record,
      Map<String, Integer> columns,
      List<String> unknown,
      List<String> problems,
      String file) {
    for (int i = 0; i < record.size(); i++) {
      String column = record.get(i).toLowerCase(Locale.ROOT);
      if (!COLUMNS.contains(column)) {
        unknown.add(column);
      } else if (columns.put(column, i) != null) {
        problems.add(file + ", line 1: column " + column + " is there twice.");
      }
    }
    if (!columns.containsKey("surname") && !columns.containsKey("name")) {
      problems.add(
          file + ", line 1: the first line must name the columns, surname or name at least.");
    }
  }

  private static Optional<Sought.Row> row(
      List<String> record, Map<String, Integer> columns, int number, CalendarChange change) {
    if (!fault(record, columns, change).isEmpty()) {
      return Optional.empty();
    }
    String[] name = name(record, columns);
    return Optional.of(
        new Sought.Row(
            number,
            name[0],
            name[1],
            Written.date(cell(record, columns, "born"), change),
            Written.date(cell(record, columns, "died"), change),
            Written.date(cell(record, columns, "buried"), change),
            age(cell(record, columns, "age")),
            cell(record, columns, "kin"),
            cell(record, columns, "unit"),
            cell(record, columns, "reference"),
            cell(record, columns, "note")));
  }

  /** What is wrong with a row; empty when nothing is. */
  private static String fault(
      List<String> record, Map<String, Integer> columns, CalendarChange change) {
    String[] name = name(record, columns);
    if (name[1].isEmpty()) {
      return "has no surname";
    }
    for (String column : List.of("born", "died", "buried")) {
      String cell = cell(record, columns, column);
      if (!cell.isEmpty() && Written.date(cell, change).isEmpty()) {
        return column + " “" + cell + "” is no date; write 1848-05-03 or 3 May 1848";
      }
    }
    String age = cell(record, columns, "age");
    return age.isEmpty() || age(age).isPresent() ? "" : "age “" + age + "” is no age; write 49";
  }

  private static String cell(List<String> record, Map<String, Integer> columns, String column) {
    Integer at = columns.get(column);
    return at == null ? "" : record.get(at);
  }

  private static String[] name(List<String> record, Map<String, Integer> columns) {
    String given = cell(record, columns, "given");
    String surname = cell(record, columns, "surname");
    String whole = cell(record, columns, "name");
    if (!surname.isEmpty() || whole.isEmpty()) {
      return new String[] {given, surname};
    }
    return Written.name(whole);
  }

  private static Optional<String> age(String cell) {
    if (cell.matches("[0-9]{1,3}")) {
      return Optional.of("P" + Integer.parseInt(cell) + "Y");
    }
    if (cell.matches("P([0-9]+[YMWD])+|PT[0-9]+H")) {
      return Optional.of(cell);
    }
    try {
      List<CarvedWord> words = CarvedWord.of(Leiden.parse("aged " + cell));
      return new AgeWords(words)
          .at(0)
          .filter(found -> found.end() == words.size())
          .map(AgeWords.Found::value);
    } catch (LeidenException e) {
      return Optional.empty();
    }
  }
}
