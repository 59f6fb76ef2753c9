package rakelight.photo;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;
import rakelight.photo.PhotoDecisions.Assigned;
import rakelight.photo.PhotoDecisions.Credited;
import rakelight.photo.PhotoDecisions.FaceCreated;
import rakelight.photo.PhotoDecisions.FaceDescribed;
import rakelight.photo.PhotoDecisions.FaceMoved;
import rakelight.photo.PhotoDecisions.Ingested;
import rakelight.photo.PhotoDecisions.MetAgain;

/** Writes the tables that {@link PhotoStore} reads. */
final class PhotoProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(
        PhotoDecisions.INGESTED,
        PhotoDecisions.MET_AGAIN,
        PhotoDecisions.REFUSED,
        PhotoDecisions.CREDITED,
        PhotoDecisions.DATED,
        PhotoDecisions.ASSIGNED,
        PhotoDecisions.TAKEN_OFF,
        PhotoDecisions.SET_ASIDE,
        PhotoDecisions.ALSO_SHOWS,
        PhotoDecisions.CLOCK,
        PhotoDecisions.SHOWS_CARD,
        PhotoDecisions.COPY_OF,
        PhotoDecisions.FACE_CREATED,
        PhotoDecisions.FACE_DESCRIBED,
        PhotoDecisions.FACE_MOVED);
  }

  @Override
  public Set<String> tables() {
    return Set.of(
        "face",
        "photograph",
        "photograph_double",
        "photograph_other_path",
        "photograph_part",
        "refusal",
        "camera_clock");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(
        PhotoDecisions.FACE_DESCRIBED,
        "where the face looks to",
        PhotoDecisions.FACE_MOVED,
        "where the face stands",
        PhotoDecisions.ASSIGNED,
        "the face it is on",
        PhotoDecisions.TAKEN_OFF,
        "the face it is on",
        PhotoDecisions.SET_ASIDE,
        "the face it is on",
        PhotoDecisions.DATED,
        "when it was taken",
        PhotoDecisions.CREDITED,
        "whose photograph it is",
        PhotoDecisions.SHOWS_CARD,
        "the field card it shows");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    String id = subject.toString();
    handle.execute("DELETE FROM face WHERE id = ?", id);
    handle.execute("DELETE FROM photograph_other_path WHERE photograph_id = ?", id);
    handle.execute("DELETE FROM photograph_part WHERE photograph_id = ?", id);
    handle.execute("DELETE FROM photograph WHERE id = ?", id);
    handle.execute("DELETE FROM photograph_double WHERE id = ?", id);
    handle.execute("DELETE FROM refusal WHERE id = ?", id);
    handle.execute("DELETE FROM camera_clock WHERE id = ?", id);
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    String id = decision.subject().toString();
    switch (decision.kind()) {
      case PhotoDecisions.INGESTED -> ingested(handle, decision);
      case PhotoDecisions.MET_AGAIN ->
          handle.execute(
              "INSERT OR IGNORE INTO photograph_other_path (photograph_id, path) VALUES (?, ?)",
              id,
              decision.payload(MetAgain.class).path());
      case PhotoDecisions.REFUSED -> {
        RefusedFile refusal = decision.payload(RefusedFile.class);
        handle.execute(
            "INSERT OR REPLACE INTO refusal (id, path, code, reason, advice, counter)"
                + " VALUES (?, ?, ?, ?, ?, ?)",
            id,
            refusal.path(),
            refusal.code(),
            refusal.reason(),
            refusal.advice(),
            decision.counter());
      }
      case PhotoDecisions.CREDITED -> {
        Credited credited = decision.payload(Credited.class);
        handle.execute(
            "UPDATE photograph SET photographer = coalesce(?, photographer),"
                + " credit = coalesce(?, credit), rights = coalesce(?, rights) WHERE id = ?",
            credited.photographer(),
            credited.credit(),
            credited.rights(),
            id);
      }
      case PhotoDecisions.DATED -> {
        CaptureTime taken = decision.payload(CaptureTime.class);
        handle.execute(
            "UPDATE photograph SET taken_local = ?, taken_offset = ?, taken_source = ?"
                + " WHERE id = ?",
            taken.local().toString(),
            taken.offset().map(offset -> offset.getId()),
            taken.source(),
            id);
      }
      case PhotoDecisions.ASSIGNED -> {
        Assigned assigned = decision.payload(Assigned.class);
        handle.execute(
            "UPDATE photograph SET face_id = ?, set_aside = NULL,"
                + " light_azimuth_degrees = coalesce(?, light_azimuth_degrees),"
                + " light_elevation_degrees ="
                + " CASE WHEN ? IS NULL THEN light_elevation_degrees ELSE ? END WHERE id = ?",
            assigned.face().toString(),
            assigned.light().map(Light::azimuthDegrees),
            assigned.light().map(Light::azimuthDegrees),
            assigned.light().flatMap(Light::elevationDegrees),
            id);
        handle.execute(
            "DELETE FROM photograph_part WHERE photograph_id = ? AND face_id = ?",
            id,
            assigned.face().toString());
      }
      case PhotoDecisions.TAKEN_OFF ->
          handle.execute("UPDATE photograph SET face_id = NULL, set_aside = NULL WHERE id = ?", id);
      case PhotoDecisions.SET_ASIDE ->
          handle.execute(
              "UPDATE photograph SET face_id = NULL, set_aside = ? WHERE id = ?",
              decision.payload(PhotoDecisions.PutAside.class).as().label(),
              id);
      case PhotoDecisions.ALSO_SHOWS -> part(handle, decision);
      case PhotoDecisions.CLOCK -> {
        ClockCorrection clock = decision.payload(ClockCorrection.class);
        handle.execute(
            "INSERT INTO camera_clock (id, camera, serial, folder, from_day, to_day, shift_seconds,"
                + " drift_from, drift_until, drift_shift_seconds, counter) VALUES (?, ?, ?, ?, ?,"
                + " ?, ?, ?, ?, ?, ?)",
            id,
            clock.camera().model(),
            clock.camera().serial(),
            clock.camera().folder(),
            clock.from().map(Object::toString),
            clock.to().map(Object::toString),
            clock.shiftSeconds(),
            clock.drift().map(drift -> drift.from().toString()),
            clock.drift().map(drift -> drift.until().toString()),
            clock.drift().map(ClockCorrection.Drift::untilShiftSeconds),
            decision.counter());
      }
      case PhotoDecisions.SHOWS_CARD -> {
        CardLabel card = decision.payload(CardLabel.class);
        handle.execute(
            "UPDATE photograph SET card_number = ?, card_face = ? WHERE id = ?",
            card.markerNumber(),
            card.faceName(),
            id);
      }
      case PhotoDecisions.COPY_OF ->
          handle.execute(
              "UPDATE photograph SET copy_of = ? WHERE id = ?",
              decision.payload(PhotoDecisions.CopyOf.class).original().toString(),
              id);
      case PhotoDecisions.FACE_CREATED -> {
        FaceCreated face = decision.payload(FaceCreated.class);
        handle.execute(
            "INSERT INTO face (id, marker_id, name, bearing_degrees, decision_id)"
                + " VALUES (?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET bearing_degrees ="
                + " coalesce(face.bearing_degrees, excluded.bearing_degrees)",
            id,
            face.marker().toString(),
            face.name(),
            face.bearingDegrees(),
            decision.id().toString());
      }
      case PhotoDecisions.FACE_DESCRIBED ->
          handle.execute(
              "UPDATE face SET bearing_degrees = ? WHERE id = ?",
              decision.payload(FaceDescribed.class).bearingDegrees(),
              id);
      case PhotoDecisions.FACE_MOVED -> {
        FaceMoved moved = decision.payload(FaceMoved.class);
        handle.execute(
            "UPDATE face SET marker_id = ?, name = ?, bearing_degrees = ? WHERE id = ?",
            moved.marker().toString(),
            moved.name(),
            moved.bearingDegrees(),
            id);
      }
      default -> throw new IllegalArgumentException("not told of " + decision.kind());
    }
  }

  /** What was said of the same stone before, or of the same face, is said anew. */
  private static void part(Handle handle, Decision decision) {
    PhotoDecisions.AlsoShows part = decision.payload(PhotoDecisions.AlsoShows.class);
    String id = decision.subject().toString();
    Frame frame = part.frame();
    handle.execute(
        "DELETE FROM photograph_part WHERE photograph_id = ? AND (face_id = ? OR (? BETWEEN left_px"
            + " AND left_px + width_px AND ? BETWEEN top_px AND top_px + height_px AND left_px +"
            + " width_px / 2 BETWEEN ? AND ? AND top_px + height_px / 2 BETWEEN ? AND ?))",
        id,
        part.face().map(Object::toString),
        frame.middleX(),
        frame.middleY(),
        frame.left(),
        frame.left() + frame.widthPx(),
        frame.top(),
        frame.top() + frame.heightPx());
    handle.execute(
        "INSERT INTO photograph_part (photograph_id, face_id, left_px, top_px, width_px, height_px,"
            + " counter) SELECT id, ?, ?, ?, ?, ?, ? FROM photograph WHERE id = ?",
        part.face().map(Object::toString),
        frame.left(),
        frame.top(),
        frame.widthPx(),
        frame.heightPx(),
        decision.counter(),
        id);
  }

  /** Takes in what the same photograph was said to be in another archive, begun apart. */
  private static boolean isSame(Handle handle, Decision decision, Ingested file) {
    String id = decision.subject().toString();
    int known =
        handle.execute(
            "UPDATE photograph SET photographer = coalesce(photographer, ?), credit ="
                + " coalesce(credit, ?), rights = coalesce(rights, ?) WHERE id = ?",
            file.photographer(),
            file.credit(),
            file.rights(),
            id);
    handle.execute(
        "INSERT OR IGNORE INTO photograph_other_path (photograph_id, path) SELECT id, ? FROM"
            + " photograph WHERE id = ? AND original_path <> ?",
        file.originalPath(),
        id,
        file.originalPath());
    return known > 0;
  }

  private static void ingested(Handle handle, Decision decision) {
    Ingested file = decision.payload(Ingested.class);
    boolean isDouble =
        handle
                .createQuery("SELECT count(*) FROM photograph WHERE sha256 = :sha256")
                .bind("sha256", file.sha256().hex())
                .mapTo(Integer.class)
                .one()
            > 0;
    if (isDouble && isSame(handle, decision, file)) {
      return;
    }
    if (isDouble) {
      handle.execute(
          "INSERT INTO photograph_double (id, sha256) VALUES (?, ?)",
          decision.subject().toString(),
          file.sha256().hex());
      return;
    }
    handle
        .createUpdate(
            "INSERT INTO photograph (id, sha256, original_name, original_path, size_bytes, format,"
                + " picture, preview_offset_bytes, preview_length_bytes, width_px, height_px,"
                + " orientation, taken_local, taken_offset, taken_source, latitude_degrees,"
                + " longitude_degrees, accuracy_metres, altitude_metres, direction_degrees,"
                + " direction_reference, camera, camera_serial, lens, focal_length_mm,"
                + " focal_length_35mm, photographer, credit, rights, damage, offered_photographer,"
                + " offered_rights, offered_note, decision_id) VALUES (:id, :sha256, :name, :path,"
                + " :size, :format, :picture, :previewOffset, :previewLength, :width, :height,"
                + " :orientation, :takenLocal, :takenOffset, :takenSource, :latitude, :longitude,"
                + " :accuracy, :altitude, :direction, :directionReference, :camera, :serial, :lens,"
                + " :focalLength, :focalLength35, :photographer, :credit, :rights, :damage,"
                + " :offeredPhotographer, :offeredRights, :offeredNote, :decision)")
        .bind("id", decision.subject().toString())
        .bind("sha256", file.sha256().hex())
        .bind("name", file.originalName())
        .bind("path", file.originalPath())
        .bind("size", file.sizeBytes())
        .bind("format", file.format().label())
        .bind("picture", file.picture().label())
        .bind("previewOffset", file.preview().map(Preview::offsetBytes))
        .bind("previewLength", file.preview().map(Preview::lengthBytes))
        .bind("width", file.widthPx())
        .bind("height", file.heightPx())
        .bind("orientation", file.orientation())
        .bind("takenLocal", file.taken().map(taken -> taken.local().toString()))
        .bind(
            "takenOffset", file.taken().flatMap(CaptureTime::offset).map(offset -> offset.getId()))
        .bind("takenSource", file.taken().map(CaptureTime::source))
        .bind("latitude", file.position().map(Position::latitudeDegrees))
        .bind("longitude", file.position().map(Position::longitudeDegrees))
        .bind("accuracy", file.position().flatMap(Position::accuracyMetres))
        .bind("altitude", file.position().flatMap(Position::altitudeMetres))
        .bind("direction", file.direction().map(Direction::degrees))
        .bind("directionReference", file.direction().flatMap(Direction::reference))
        .bind("camera", file.camera())
        .bind("serial", file.cameraSerial())
        .bind("lens", file.lens())
        .bind("focalLength", file.focalLengthMm())
        .bind("focalLength35", file.focalLength35mm())
        .bind("photographer", file.photographer())
        .bind("credit", file.credit())
        .bind("rights", file.rights())
        .bind("damage", file.damage())
        .bind("offeredPhotographer", file.offered().flatMap(Offered::photographer))
        .bind("offeredRights", file.offered().flatMap(Offered::rights))
        .bind("offeredNote", file.offered().flatMap(Offered::note))
        .bind("decision", decision.id().toString())
        .execute();
  }
}
