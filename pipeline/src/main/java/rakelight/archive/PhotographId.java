package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.UUID;

/** The permanent id of a photograph: one original file. */
public record PhotographId(UUID value) {
  /** A new id, never given before. */
  public static PhotographId next() {
    return new PhotographId(Uuid7.next());
  }

  /**
   * Reads an id as {@link #toString} writes it.
   *
   * @throws IllegalArgumentException if the text is no UUID
   */
  @JsonCreator
  public static PhotographId of(String text) {
    return new PhotographId(Uuid7.parse(text));
  }

  /** The UUID in its usual form: 36 characters, lower case. */
  @Override
  @JsonValue
  public String toString() {
    return value.toString();
  }
}
