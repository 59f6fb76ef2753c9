package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import rakelight.index.QueryException;

/** The form for those who don't want to write a query: it writes one. */
final class SearchForm {
  static final List<String> FIELDS =
      List.of("given", "surname", "from", "to", "died", "within", "place");

  private SearchForm() {}

  /**
   * The query that a filled form means.
   *
   * @param field what stands in a field; empty if nothing does
   * @throws QueryException if a year isn't one
   */
  static String query(UnaryOperator<String> field) throws QueryException {
    List<String> parts = new ArrayList<>();
    String name = words(field.apply("given") + " " + field.apply("surname"));
    if (!name.isEmpty()) {
      parts.add(quoted("name", name));
    }
    String from = year(field.apply("from"));
    String to = year(field.apply("to"));
    if (!from.isEmpty() || !to.isEmpty()) {
      parts.add("year:" + (from.equals(to) ? from : from + ".." + to));
    }
    String died = year(field.apply("died"));
    String within = field.apply("within").strip();
    if (!within.isEmpty() && !within.matches("[0-9]{1,3}")) {
      throw new QueryException("“" + within + "” isn't a number of years; give one such as 5");
    }
    if (!died.isEmpty()) {
      int years = within.isEmpty() ? 0 : Integer.parseInt(within);
      int year = Integer.parseInt(died);
      parts.add(
          "died:" + (years == 0 ? died : Math.max(1000, year - years) + ".." + (year + years)));
    }
    String place = words(field.apply("place"));
    if (!place.isEmpty()) {
      parts.add(quoted("place", place));
    }
    return String.join(" ", parts);
  }

  private static String words(String given) {
    return given.replace('"', ' ').strip().replaceAll("\\s+", " ");
  }

  private static String quoted(String field, String words) {
    return field + ":" + (words.contains(" ") ? "\"" + words + "\"" : words);
  }

  private static String year(String given) throws QueryException {
    String year = given.strip();
    if (!year.isEmpty() && !year.matches("[12][0-9]{3}")) {
      throw new QueryException("“" + year + "” isn't a year; give its four figures, such as 1850");
    }
    return year;
  }
}
