package rakelight.person;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.edtf.Edtf;

/** What the cells of a roll or register say, as people write names and dates there. */
public final class Written {
  private static final Pattern NUMBER = Pattern.compile("[0-9]+(/[0-9]+)?");

  private Written() {}

  /**
   * A date: EDTF, or words as on a stone ({@code 3 May 1848}).
   *
   * @param change the calendar of the ground, for dates in words
   * @return EDTF; empty where the cell is no date, also of a day that never was
   */
  public static Optional<String> date(String cell, CalendarChange change) {
    if (cell.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(Edtf.parse(cell).toString());
    } catch (IllegalArgumentException inWords) {
      try {
        List<CarvedWord> words = CarvedWord.of(Leiden.parse(cell));
        return new DateWords(words, change)
            .at(0)
            .filter(found -> found.end() == words.size() && found.hasYear())
            .map(DateWords.Found::value)
            .filter(value -> !value.isEmpty() && !isOfNoDay(cell, value));
      } catch (LeidenException e) {
        return Optional.empty();
      }
    }
  }

  /** A stone's 30 February leaves its month; a list's is a slip that somebody should look at. */
  private static boolean isOfNoDay(String cell, String value) {
    return value.matches("[0-9]{4}-[0-9]{2}") && NUMBER.matcher(cell).results().count() > 1;
  }

  /** Given name and surname of {@code Wren, John} or {@code John Wren}; either may be empty. */
  public static String[] name(String whole) {
    int comma = whole.indexOf(',');
    if (comma >= 0) {
      return new String[] {whole.substring(comma + 1).strip(), whole.substring(0, comma).strip()};
    }
    int space = whole.lastIndexOf(' ');
    return new String[] {space < 0 ? "" : whole.substring(0, space), whole.substring(space + 1)};
  }
}
