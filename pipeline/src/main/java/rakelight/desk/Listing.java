package rakelight.desk;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A long list that can be held to some of it: the one shape of the pages of persons, persons
 * sought, statements, dates, questions and sources.
 *
 * @param about what is listed, in a line
 * @param refused why what is asked can't be answered; empty if it can
 * @param notices what else is to be known of the list
 * @param fields by which it is held to some rows
 * @param one what a row is, such as {@code person}
 * @param what the rows are, such as {@code persons}
 * @param whole how many there are without the fields
 */
public record Listing(
    String title,
    String path,
    String about,
    String refused,
    List<String> notices,
    List<Field> fields,
    String one,
    String what,
    int whole,
    Paged<Row> rows) {
  /** Some screens; common practice, no source. */
  static final int ROWS_ON_PAGE = 50;

  public Listing {
    notices = List.copyOf(notices);
    fields = List.copyOf(fields);
  }

  /**
   * By what rows are chosen.
   *
   * @param choices of which one is taken; empty for words that somebody writes
   */
  public record Field(
      String name, String label, String value, List<Choice> choices, String example) {
    static Field written(String name, String label, String value, String example) {
      return new Field(name, label, value, List.of(), example);
    }

    static Field chosen(String name, String label, String value, Choice... choices) {
      List<Choice> all = new ArrayList<>(List.of(choices));
      return new Field(name, label, value, all, "");
    }
  }

  /** One of several. */
  public record Choice(String value, String words) {}

  /**
   * One of what is listed.
   *
   * @param state in a word or two; may be empty
   * @param facts one below the other
   */
  public record Row(String address, String words, String state, List<String> facts) {
    public Row {
      facts = facts.stream().filter(fact -> !fact.isEmpty()).toList();
    }
  }

  /** The pages of these lists, in their order, by address. */
  public static Map<String, String> all(boolean guest) {
    Map<String, String> all = new LinkedHashMap<>();
    all.put("/persons", "Persons");
    if (!guest) {
      all.put("/pairs", "May be one person");
    }
    all.put("/sought", "Sought");
    all.put("/statements", "Statements");
    all.put("/dates", "Dates");
    all.put("/questions", "Questions");
    all.put("/sources", "Sources");
    if (!guest) {
      all.put("/earlier-lists", "Earlier lists");
    }
    return all;
  }

  /** What is asked, by field. */
  static Map<String, String> asked(List<Field> fields) {
    Map<String, String> asked = new TreeMap<>();
    fields.forEach(field -> asked.put(field.name(), field.value()));
    return asked;
  }

  /** How many rows there are, in a line. */
  public String count() {
    if (!refused.isEmpty()) {
      return "";
    }
    String all = whole + " " + (whole == 1 ? one : what);
    return whole == 0 ? "None." : rows.of() < whole ? rows.of() + " of " + all : all;
  }

  /** Whether anything is asked, so that less than all may be shown. */
  public boolean isHeld() {
    return fields.stream().anyMatch(field -> !field.value().isEmpty());
  }
}
