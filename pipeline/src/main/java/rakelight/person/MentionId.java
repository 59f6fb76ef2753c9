package rakelight.person;

import java.nio.charset.StandardCharsets;
import java.util.UUID;
import rakelight.archive.FaceId;

/**
 * Names one person at one place of a stone. It holds as long as the sign does, from one version of
 * a reading to the next.
 *
 * @param sign number of the first sign of the person's name, or of the kinship in which he is named
 * @param place 0 for somebody named for himself; from 1 for those named in a kinship, in its order
 */
public record MentionId(FaceId face, int sign, int place) {

  /** An id for a person known from this mention, the same whenever it is asked for. */
  public UUID personId() {
    return UUID.nameUUIDFromBytes(toString().getBytes(StandardCharsets.UTF_8));
  }

  @Override
  public String toString() {
    return face + " " + sign + " " + place;
  }
}
