package rakelight.inscription;

/**
 * The beginning of a line; the first line has one too.
 *
 * @param joined whether a word runs on over it from the line before
 */
public record Break(SignId id, boolean joined) implements Sign {
  @Override
  public Break withId(SignId newId) {
    return new Break(newId, joined);
  }
}
