package rakelight.photo;

import java.util.Optional;

/** Whose a photograph is and what may be done with it. */
public record Credits(
    Optional<String> photographer, Optional<String> credit, Optional<String> rights) {
  /** Nothing known. */
  public static final Credits NONE =
      new Credits(Optional.empty(), Optional.empty(), Optional.empty());
}
