package rakelight.photo;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import rakelight.archive.FaceId;

/**
 * A photograph as it shows one face: the whole of it, or the stone among several that is one.
 *
 * @param face empty for a whole photograph that is on none yet
 * @param frame where on it, unless it is the whole
 * @param others of the whole, where stones are that are other faces
 */
public record Showing(
    Photograph photograph, Optional<FaceId> face, Optional<Frame> frame, List<Frame> others) {
  public Showing {
    others = List.copyOf(others);
  }

  /** A photograph as it is on a face, or on none. */
  public static Showing whole(Photograph photograph, List<Frame> others) {
    return new Showing(photograph, photograph.face(), Optional.empty(), others);
  }

  /** The stone in a frame. */
  public static Showing part(Photograph photograph, Optional<FaceId> face, Frame frame) {
    return new Showing(photograph, face, Optional.of(frame), List.of());
  }

  /** What is read together: the face, or a photograph that is on none by itself. */
  public UUID subject() {
    return face.map(FaceId::value).orElse(photograph.id().value());
  }
}
