package rakelight.ground.witness;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A row of an earlier list.
 *
 * @param number from 1, in the order of the list
 * @param line of the file
 * @param cells all of them, as written, in the order of the columns
 * @param fields what the mapping of columns takes from it, by {@link #FIELDS}
 */
public record WitnessRow(int number, long line, List<String> cells, Map<String, String> fields) {
  /** What may be taken from a list. */
  public static final List<String> FIELDS =
      List.of("number", "row", "place", "name", "given", "surname", "died", "born", "text");

  public WitnessRow {
    cells = List.copyOf(cells);
    fields = java.util.Collections.unmodifiableMap(new TreeMap<>(fields));
  }

  /** What it has in a field; empty where it says nothing. */
  public String field(String field) {
    return fields.getOrDefault(field, "");
  }

  /** What it calls who lies there: the name, else the first words of the text. */
  public String called() {
    String name =
        field("name").isEmpty() ? (field("given") + " " + field("surname")).strip() : field("name");
    String text = field("text");
    return name.isEmpty() ? (text.length() > 40 ? text.substring(0, 40) + "…" : text) : name;
  }

  /** The letters that it says are on the stone; where it gives no text, its names and dates. */
  public String letters() {
    return field("text").isEmpty()
        ? String.join(" ", called(), field("born"), field("died")).strip()
        : field("text");
  }
}
