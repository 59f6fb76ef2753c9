package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.UUID;

/** The permanent id of a source. */
public record SourceId(UUID value) {
  /** A new id, never given before. */
  public static SourceId next() {
    return new SourceId(Uuid7.next());
  }

  /**
   * Reads an id as {@link #toString} writes it.
   *
   * @throws IllegalArgumentException if the text is no UUID
   */
  @JsonCreator
  public static SourceId of(String text) {
    return new SourceId(Uuid7.parse(text));
  }

  /** The UUID in its usual form: 36 characters, lower case. */
  @Override
  @JsonValue
  public String toString() {
    return value.toString();
  }
}
