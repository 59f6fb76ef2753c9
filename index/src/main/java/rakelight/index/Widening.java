package rakelight.index;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** A way in which a search looks beyond the words as they were typed. Each can be turned off. */
public enum Widening {
  /** Wm for William, Regt for Regiment. */
  ABBREVIATIONS("short forms", 0.5),
  /** Betsy for Elizabeth, and in two steps Bill for Wm. */
  NICKNAMES("nicknames", 0.15),
  /** Gulielmus for William. */
  LATIN("Latin forms", 0.2),
  /** An initial for a name. */
  INITIALS("initials", 0.5),
  /** Schmidt for Smith. */
  SOUNDS("names that sound alike", 0.1),
  /** A slip of whoever carved, read or searched. */
  SLIPS("slips", 0.0);

  /** The share of two steps in a row, such as Bill, William, Wm. */
  static final double TWO_STEPS = 0.05;

  private final String label;
  private final double typed;

  Widening(String label, double typed) {
    this.label = label;
    this.typed = typed;
  }

  /**
   * All but those that are named.
   *
   * @param names as users write them, such as {@code sounds}; {@code all} leaves none
   * @throws QueryException if one is none of them
   */
  public static Set<Widening> allBut(Iterable<String> names) throws QueryException {
    Set<Widening> left = EnumSet.allOf(Widening.class);
    for (String written : names) {
      String name = written.strip().toUpperCase(Locale.ROOT);
      if (name.equals("ALL")) {
        left.clear();
      } else if (EnumSet.allOf(Widening.class).stream()
          .noneMatch(each -> each.name().equals(name))) {
        throw new QueryException(
            "without "
                + written
                + ": it takes abbreviations, nicknames, latin, initials, sounds, slips or all");
      } else {
        left.remove(valueOf(name));
      }
    }
    return left;
  }

  /** As a user reads it. */
  public String label() {
    return label;
  }

  /**
   * How likely somebody types the word he typed for a person whose stone has the other form. A
   * choice, in an order of trust; nobody has measured it.
   */
  double typed() {
    return typed;
  }
}
