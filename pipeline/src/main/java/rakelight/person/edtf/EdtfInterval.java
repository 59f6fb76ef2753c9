package rakelight.person.edtf;

import java.util.Optional;

/**
 * From one date to another; either may be open (none set) or unknown (nobody knows it), not both.
 */
public record EdtfInterval(End start, End end) implements Edtf {

  /** One end of an interval. */
  public sealed interface End {}

  /** The end is this date. */
  public record Known(EdtfDate date) implements End {
    @Override
    public String toString() {
      return date.toString();
    }
  }

  /** There is no end. */
  public record Open() implements End {
    @Override
    public String toString() {
      return "..";
    }
  }

  /** There is an end, which nobody knows. */
  public record Unknown() implements End {
    @Override
    public String toString() {
      return "";
    }
  }

  public EdtfInterval {
    if (!(start instanceof Known) && !(end instanceof Known)) {
      throw new IllegalArgumentException("an interval needs one known end");
    }
    if (start instanceof Known from
        && end instanceof Known to
        && from.date().earliest().orElseThrow().compareTo(to.date().latest().orElseThrow()) > 0) {
      throw new IllegalArgumentException("the interval ends before it begins");
    }
  }

  public static EdtfInterval between(EdtfDate first, EdtfDate last) {
    return new EdtfInterval(new Known(first), new Known(last));
  }

  @Override
  public Optional<Day> earliest() {
    return start instanceof Known from ? from.date().earliest() : Optional.empty();
  }

  @Override
  public Optional<Day> latest() {
    return end instanceof Known to ? to.date().latest() : Optional.empty();
  }

  @Override
  public boolean admits(Day day) {
    return mayTouch(day, day);
  }

  @Override
  public int level() {
    return Math.max(levelOf(start), levelOf(end));
  }

  private static int levelOf(End end) {
    if (end instanceof Known known) {
      return known.date().isMasked() ? 2 : known.date().level();
    }
    return 1;
  }

  @Override
  public String toString() {
    return start + "/" + end;
  }
}
