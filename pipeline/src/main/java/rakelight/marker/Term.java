package rakelight.marker;

/**
 * A word by which markers are described.
 *
 * @param name as people write it
 * @param meaning how one tells it, in a few words
 * @param source where that comes from; {@code common practice, no source} where nobody has said
 */
public record Term(Quality of, String name, String meaning, String source) {
  /** What of a marker a term says. */
  public enum Quality {
    KIND,
    FORM,
    MATERIAL,
    LETTERING,
    PART,
    STATE,
    ORIGIN;

    /** As files and messages name it. */
    public String label() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }
}
