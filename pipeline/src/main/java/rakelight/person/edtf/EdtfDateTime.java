package rakelight.person.edtf;

import java.util.Optional;

/**
 * A day with a time of that day.
 *
 * @param time {@code hh:mm:ss}, then nothing (local time), {@code Z} or an offset
 */
public record EdtfDateTime(EdtfDate date, String time) implements Edtf {
  private static final String FORM =
      "([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](Z|[+-]([01][0-9]|2[0-3])(:[0-5][0-9])?)?";

  public EdtfDateTime {
    if (date.precision() != 4 || date.level() != 0) {
      throw new IllegalArgumentException("a time needs a plain day before it");
    }
    if (!time.matches(FORM)) {
      throw new IllegalArgumentException("time must read hh:mm:ss, then Z or +hh:mm or nothing");
    }
  }

  @Override
  public Optional<Day> earliest() {
    return date.earliest();
  }

  @Override
  public Optional<Day> latest() {
    return date.latest();
  }

  @Override
  public int level() {
    return 0;
  }

  @Override
  public boolean admits(Day day) {
    return date.admits(day);
  }

  @Override
  public String toString() {
    return date + "T" + time;
  }
}
