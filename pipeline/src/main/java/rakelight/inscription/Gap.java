package rakelight.inscription;

/**
 * Where no letter can be named.
 *
 * @param erased whether somebody cut the place away on purpose
 * @param doubtful whether there is a gap at all isn't sure; only for lost and blank
 */
public record Gap(
    SignId id, Reason reason, Extent extent, Unit unit, boolean erased, boolean doubtful)
    implements Sign {

  /** Why no letter can be named. */
  public enum Reason {
    /** The surface is gone. */
    LOST,
    /** Marks remain, nobody can say what. */
    ILLEGIBLE,
    /** The cutter stopped: a date never finished. */
    OMITTED,
    /** Space left uncut. */
    BLANK
  }

  /** What an extent counts. */
  public enum Unit {
    LETTERS,
    LINES
  }

  public Gap {
    if (doubtful && reason != Reason.LOST && reason != Reason.BLANK) {
      throw new IllegalArgumentException(
          "only a lost or blank gap can be doubtful, not one that is " + reason);
    }
    if (erased && (reason == Reason.OMITTED || reason == Reason.BLANK)) {
      throw new IllegalArgumentException("what was never cut can't be erased");
    }
  }

  /** A gap of letters with no further mark. */
  public static Gap of(SignId id, Reason reason, Extent extent) {
    return new Gap(id, reason, extent, Unit.LETTERS, false, false);
  }

  @Override
  public Gap withId(SignId newId) {
    return new Gap(newId, reason, extent, unit, erased, doubtful);
  }

  Gap withErased() {
    return new Gap(id, reason, extent, unit, true, doubtful);
  }

  Gap withDoubt() {
    return new Gap(id, reason, extent, unit, erased, true);
  }
}
