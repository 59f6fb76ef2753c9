package rakelight.inscription;

/** The space between two words on one line. */
public record Space(SignId id) implements Sign {
  @Override
  public Space withId(SignId newId) {
    return new Space(newId);
  }
}
