package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;

/**
 * Changes to one line of a reading, letter by letter. Letters and gaps are counted from 1, spaces
 * aren't counted. Lines go in and out as Leiden text.
 */
public final class LineEditing {
  private LineEditing() {}

  /** A change that can't be made, and what to do instead. */
  public static final class RefusedException extends Exception {
    public RefusedException(String message) {
      super(message);
    }
  }

  /** The letters and gaps of a line. */
  public static List<Sign> ink(String line) throws LeidenException {
    return Leiden.parse(line).signs().stream().filter(LineEditing::isInk).toList();
  }

  /** The letters could be others. */
  public static String unclear(String line, int from, int to)
      throws LeidenException, RefusedException {
    return replace(
        line,
        from,
        to,
        sign -> {
          if (sign instanceof Letter letter) {
            return letter.withStanding(Standing.UNCLEAR);
          }
          throw new RefusedException("there is no letter at that place; change the line's text");
        });
  }

  /** The letters are seen for sure after all. */
  public static String clear(String line, int from, int to)
      throws LeidenException, RefusedException {
    return replace(
        line,
        from,
        to,
        sign -> {
          if (sign instanceof Letter letter) {
            return letter.withStanding(Standing.CLEAR);
          }
          throw new RefusedException("there is no letter at that place; change the line's text");
        });
  }

  /** Marks remain, nobody can say what; or the surface is gone. */
  public static String gap(String line, int from, int to, Gap.Reason reason)
      throws LeidenException, RefusedException {
    return replace(
        line,
        from,
        to,
        sign ->
            sign instanceof Gap gap
                ? new Gap(gap.id(), reason, gap.extent(), gap.unit(), gap.erased(), false)
                : Gap.of(sign.id(), reason, new Extent.Exact(1)));
  }

  /** Another letter, or several that it may be, parted by {@code /} and the favoured one first. */
  public static String letter(String line, int at, String letters)
      throws LeidenException, RefusedException {
    String[] options = letters.length() > 1 ? letters.split("/", -1) : new String[] {letters};
    String written = options.length == 1 ? options[0] : "(" + String.join(" or ", options) + ")";
    List<Sign> read = ink(written);
    if (read.size() != 1 || !(read.get(0) instanceof Letter letter)) {
      throw new RefusedException("one letter, or two that it may be as in 3/8");
    }
    return replace(line, at, at, sign -> letter.withId(sign.id()));
  }

  private interface Change {
    Sign of(Sign sign) throws RefusedException;
  }

  private static String replace(String line, int from, int to, Change change)
      throws LeidenException, RefusedException {
    Inscription inscription = Leiden.parse(line);
    List<Sign> changed = new ArrayList<>();
    int ink = 0;
    for (Sign sign : inscription.signs()) {
      if (isInk(sign)) {
        ink++;
      }
      boolean meant = isInk(sign) && ink >= from && ink <= to;
      Sign after = meant ? change.of(sign) : sign;
      if (!join(changed, after, inscription.spans())) {
        changed.add(after);
      }
    }
    if (from < 1 || to < from || to > ink) {
      throw new RefusedException("the line has letters 1 to " + ink);
    }
    try {
      return Leiden.print(new Inscription(changed, inscription.spans()));
    } catch (IllegalArgumentException e) {
      throw new RefusedException(
          "a sign of the line reaches over that letter; change the line's text instead");
    }
  }

  /** Makes one gap of two of a kind side by side. */
  private static boolean join(List<Sign> signs, Sign next, List<Span> spans) {
    if (signs.isEmpty()
        || !(next instanceof Gap gap)
        || !(signs.get(signs.size() - 1) instanceof Gap before)
        || !Inscription.areOne(before, gap)
        || Inscription.isSpanEdge(before.id(), gap.id(), spans)) {
      return false;
    }
    if (before.extent() instanceof Extent.Exact one && gap.extent() instanceof Extent.Exact two) {
      signs.set(
          signs.size() - 1,
          new Gap(
              before.id(),
              before.reason(),
              new Extent.Exact(one.count() + two.count()),
              before.unit(),
              before.erased(),
              before.doubtful()));
    }
    return true;
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }
}
