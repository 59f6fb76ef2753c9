package rakelight.photo;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;

/**
 * The kinds of decision about photographs and faces, and their payloads, all of version 1. What
 * they mean is written in docs/archive-format.md.
 */
final class PhotoDecisions {
  /** Subject: the photograph. A file was taken into the archive. */
  static final String INGESTED = "photograph.ingested";

  /** Subject: the photograph. The same bytes were met again under another path. */
  static final String MET_AGAIN = "photograph.met-again";

  /** Subject: an id made from the path. A file was refused. */
  static final String REFUSED = "photograph.refused";

  /** Subject: the photograph. Whose it is and what may be done with it. */
  static final String CREDITED = "photograph.credited";

  /** Subject: the photograph. When it was taken, as somebody knows better than the file. */
  static final String DATED = "photograph.dated";

  /** Subject: the photograph. It shows a face, rests on the face's decision. */
  static final String ASSIGNED = "photograph.assigned";

  /** Subject: the photograph. It shows no face that is known; no machine puts it on one again. */
  static final String TAKEN_OFF = "photograph.taken-off";

  /** Subject: the photograph. It is on no face and waits for none. */
  static final String SET_ASIDE = "photograph.set-aside";

  /** Subject: the photograph. A stone on it is a face of its own, or to be passed over. */
  static final String ALSO_SHOWS = "photograph.also-shows";

  /** Subject: the photograph. It shows a field card. */
  static final String SHOWS_CARD = "photograph.shows-card";

  /** Subject: an id of its own. How far a camera's clock was wrong. */
  static final String CLOCK = "camera.clock";

  /** Subject: the face. Rests on the marker's decision. */
  static final String FACE_CREATED = "face.created";

  /** Subject: the face. */
  static final String FACE_DESCRIBED = "face.described";

  /** Subject: the face. It is on another marker, or has another name. */
  static final String FACE_MOVED = "face.moved";

  /** Subject: the photograph. It is a copy of an original that can't be read here. */
  static final String COPY_OF = "photograph.copy-of";

  private PhotoDecisions() {}

  record Ingested(
      Sha256 sha256,
      String originalName,
      String originalPath,
      Optional<String> originalPathEncoded,
      long sizeBytes,
      FileFormat format,
      PictureKind picture,
      Optional<Preview> preview,
      int widthPx,
      int heightPx,
      int orientation,
      Optional<CaptureTime> taken,
      Optional<Position> position,
      Optional<Direction> direction,
      Optional<String> camera,
      Optional<String> cameraSerial,
      Optional<String> lens,
      Optional<Double> focalLengthMm,
      Optional<Double> focalLength35mm,
      Optional<String> photographer,
      Optional<String> credit,
      Optional<String> rights,
      JsonNode tags,
      List<String> tagErrors,
      Optional<String> damage,
      Optional<Offered> offered) {
    Ingested {
      damage = damage == null ? Optional.empty() : damage; // Refused before.
      offered = offered == null ? Optional.empty() : offered; // Not looked for before.
      cameraSerial = cameraSerial == null ? Optional.empty() : cameraSerial; // Unknown before.
    }
  }

  record CopyOf(PhotographId original, UUID batch) {}

  record MetAgain(String path) {}

  record Credited(
      Optional<String> photographer, Optional<String> credit, Optional<String> rights) {}

  /**
   * @param batch what was decided together with others and is taken back with them
   */
  record Assigned(FaceId face, Optional<Light> light, String by, Optional<UUID> batch) {
    Assigned {
      batch = batch == null ? Optional.empty() : batch; // Unknown to earlier programs.
    }
  }

  record AlsoShows(Optional<FaceId> face, Frame frame) {}

  record TakenOff(Optional<UUID> batch) {}

  record PutAside(SetAside as, Optional<UUID> batch) {}

  record FaceCreated(MarkerId marker, String name, Optional<Double> bearingDegrees) {}

  record FaceMoved(MarkerId marker, String name, Optional<Double> bearingDegrees, UUID batch) {}

  record FaceDescribed(Optional<Double> bearingDegrees) {}
}
