package rakelight.ground.removal;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * Something in a register that can't be, or not all of it.
 *
 * @param rows by number, ascending; empty where it is of the whole
 * @param words what it is, in a line without the rows
 */
public record RemovalFault(Kind kind, List<Integer> rows, String words) {
  /** What is wrong. */
  public enum Kind {
    ROW_TWICE("a row is written twice"),
    NUMBER_TWICE("two graves have one number in the old ground"),
    NO_OLD_NUMBER("no number in the old ground"),
    NO_SUCH_DAY("a day that never was"),
    NO_SUCH_STONE("a kind of stone that isn't known"),
    MOVED_BEFORE_DEATH("moved before the death"),
    TWO_PLACES("one person with two places here"),
    NO_SUCH_ROW("there is no such row here"),
    NO_SUCH_MARKER("there is no such marker here"),
    SEVERAL_MARKERS("several markers answer to that number"),
    MARKER_TWICE("one marker for more graves than it can mark"),
    NAMES_ANOTHER("the stone names somebody else"),
    CONFIRMED_ELSEWHERE("people confirmed another marker"),
    STATED_OTHERWISE("a figure that the register gives isn't the one counted");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** As JSON writes it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** In general, without naming anybody. */
    public String words() {
      return words;
    }
  }

  public RemovalFault {
    rows = rows.stream().distinct().sorted().toList();
  }

  /** Its rows and what it is. */
  public String told() {
    return rows.isEmpty() ? words : inWords(rows) + ": " + words;
  }

  /** The same, naming nobody and no place. */
  public RemovalFault inGeneral() {
    return new RemovalFault(kind, rows, kind.words());
  }

  static String inWords(List<Integer> rows) {
    return (rows.size() == 1 ? "row " : "rows ")
        + rows.stream().map(String::valueOf).collect(Collectors.joining(", "));
  }
}
