package rakelight.photo;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.result.RowView;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;

/**
 * Photographs, and the faces and markers they show.
 *
 * <p>Everything that changes is a decision under a reader's name. Lists are in a fixed order:
 * photographs by original path, markers and faces by number and name, figures by their value.
 */
public final class PhotoStore {
  private static final Comparator<String> NATURAL = new NaturalOrder();

  private final Archive archive;

  public PhotoStore(Archive archive) {
    this.archive = archive;
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new PhotoProjection();
  }

  /** Every photograph, field cards included. */
  public List<Photograph> photographs() {
    return photographs("ORDER BY original_path, id", List.of());
  }

  public Optional<Photograph> photograph(PhotographId id) {
    return photographs("WHERE id = ?", List.of(id.toString())).stream().findFirst();
  }

  public Optional<Photograph> photograph(Sha256 digest) {
    return photographs("WHERE sha256 = ?", List.of(digest.hex())).stream().findFirst();
  }

  /** The photographs that show a face. */
  public List<Photograph> ofFace(FaceId face) {
    return photographs("WHERE face_id = ? ORDER BY original_path, id", List.of(face.toString()));
  }

  /** Whether any of these photographs, of those that are here, isn't on the face. */
  public boolean isAnyElsewhere(List<PhotographId> photographs, FaceId face) {
    return !photographs.isEmpty()
        && archive
            .ledger()
            .read(
                handle ->
                    handle
                            .createQuery(
                                "SELECT count(*) FROM photograph WHERE id IN (<ids>) AND"
                                    + " face_id IS NOT :face")
                            .bindList("ids", photographs.stream().map(Object::toString).toList())
                            .bind("face", face.toString())
                            .mapTo(Integer.class)
                            .one()
                        > 0);
  }

  /** Every face, by marker number, then name. */
  public List<Face> faces() {
    List<MarkerId> order = markers().stream().map(MarkerRow::id).toList();
    return faces("", List.of()).stream()
        .sorted(
            Comparator.<Face>comparingInt(face -> order.indexOf(face.marker()))
                .thenComparing(Face::name, NATURAL))
        .toList();
  }

  public Optional<Face> face(FaceId id) {
    return faces("WHERE id = ?", List.of(id.toString())).stream().findFirst();
  }

  public Optional<Face> face(MarkerId marker, String name) {
    return faces("WHERE marker_id = ? AND name = ?", List.of(marker.toString(), name)).stream()
        .findFirst();
  }

  /** The faces of a marker, by name. */
  public List<Face> faces(MarkerId marker) {
    return faces("WHERE marker_id = ?", List.of(marker.toString())).stream()
        .sorted(Comparator.comparing(Face::name, NATURAL))
        .toList();
  }

  /** Every marker, by number. */
  public List<MarkerRow> markers() {
    return markers("", List.of()).stream()
        .sorted(Comparator.comparing(MarkerRow::number, NATURAL))
        .toList();
  }

  public Optional<MarkerRow> marker(MarkerId id) {
    return markers("WHERE id = ?", List.of(id.toString())).stream().findFirst();
  }

  /** The marker with this number now; else the only one that had it earlier. */
  public Optional<MarkerRow> markerByNumber(String number) {
    List<MarkerRow> now = markers("WHERE number = ?", List.of(number));
    if (!now.isEmpty()) {
      return Optional.of(now.get(0));
    }
    List<MarkerRow> earlier =
        markers(
            "WHERE id IN (SELECT marker_id FROM marker_earlier_number WHERE number = ?)",
            List.of(number));
    return earlier.size() == 1 ? Optional.of(earlier.get(0)) : Optional.empty();
  }

  /** The other paths at which ingest met the same bytes, sorted. */
  public List<String> otherPaths(PhotographId photograph) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT path FROM photograph_other_path WHERE photograph_id = :id"
                            + " ORDER BY path")
                    .bind("id", photograph.toString())
                    .mapTo(String.class)
                    .list());
  }

  /** What ingest refused and hasn't taken since, by path. */
  public List<RefusedFile> refusals() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT path, code, reason, advice FROM refusal r WHERE NOT EXISTS"
                            + " (SELECT 1 FROM photograph p JOIN decision d ON d.id ="
                            + " p.decision_id WHERE p.original_path = r.path AND d.counter >"
                            + " r.counter) ORDER BY path")
                    .map(
                        (row, context) ->
                            new RefusedFile(
                                row.getString("path"),
                                row.getString("code"),
                                row.getString("reason"),
                                row.getString("advice")))
                    .list());
  }

  /**
   * A new marker.
   *
   * @throws ArchiveException if another marker has the number now
   */
  public MarkerRow createMarker(String number, String reader) {
    String clean = label(number, "a marker needs a number");
    return archive
        .ledger()
        .write(
            handle -> {
              requireFree(clean);
              MarkerRow marker = new MarkerRow(MarkerId.next(), clean, List.of());
              archive
                  .journal()
                  .append(
                      NewDecision.of(
                          reader,
                          PhotoDecisions.MARKER_CREATED,
                          1,
                          marker.id().value(),
                          new PhotoDecisions.MarkerNumber(clean)));
              return marker;
            });
  }

  /**
   * Gives a marker another number; the one it had is kept as an earlier one.
   *
   * @throws ArchiveException if another marker has the number now
   */
  public void renumber(MarkerId marker, String number, String reader) {
    String clean = label(number, "a marker needs a number");
    archive
        .ledger()
        .write(
            handle -> {
              requireFree(clean);
              return archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              PhotoDecisions.MARKER_RENUMBERED,
                              1,
                              marker.value(),
                              new PhotoDecisions.MarkerNumber(clean))
                          .restingOn(List.of(madeBy(handle, "marker", marker.toString()))));
            });
  }

  /**
   * A new face of a marker.
   *
   * @param bearingDegrees where it looks to, clockwise from true north, 0 to 360
   * @throws ArchiveException if the marker has a face of that name
   */
  public Face createFace(
      MarkerId marker, String name, Optional<Double> bearingDegrees, String reader) {
    String clean = label(name, "a face needs a name");
    return archive
        .ledger()
        .write(
            handle -> {
              if (face(marker, clean).isPresent()) {
                throw new ArchiveException("The marker has a face named " + clean + " already.");
              }
              Face face = new Face(FaceId.next(), marker, clean, bearingDegrees);
              archive
                  .journal()
                  .append(
                      NewDecision.of(
                              reader,
                              PhotoDecisions.FACE_CREATED,
                              1,
                              face.id().value(),
                              new PhotoDecisions.FaceCreated(marker, clean, bearingDegrees))
                          .restingOn(List.of(madeBy(handle, "marker", marker.toString()))));
              return face;
            });
  }

  /** Notes where a face looks to. */
  public void describeFace(FaceId face, Optional<Double> bearingDegrees, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader,
                                PhotoDecisions.FACE_DESCRIBED,
                                1,
                                face.value(),
                                new PhotoDecisions.FaceDescribed(bearingDegrees))
                            .restingOn(List.of(madeBy(handle, "face", face.toString())))));
  }

  /**
   * The face of that name on the marker of that number, both made if they aren't there.
   *
   * @param markerNumber a present or earlier number
   */
  public Face faceOf(String markerNumber, String faceName, String reader) {
    String number = label(markerNumber, "a marker needs a number");
    String name = label(faceName, "a face needs a name");
    return archive
        .ledger()
        .write(
            handle -> {
              MarkerRow marker =
                  markerByNumber(number).orElseGet(() -> createMarker(number, reader));
              return face(marker.id(), name)
                  .orElseGet(() -> createFace(marker.id(), name, Optional.empty(), reader));
            });
  }

  /**
   * Puts a photograph on a face.
   *
   * @param by how it is known: {@code person}, {@code manifest}, {@code card} or {@code folder}
   */
  public void assign(
      PhotographId photograph, FaceId face, Optional<Light> light, String by, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader,
                                PhotoDecisions.ASSIGNED,
                                1,
                                photograph.value(),
                                new PhotoDecisions.Assigned(face, light, by))
                            .restingOn(
                                List.of(
                                    madeBy(handle, "photograph", photograph.toString()),
                                    madeBy(handle, "face", face.toString())))));
  }

  /** Notes that a photograph shows a field card. */
  public void showsCard(PhotographId photograph, CardLabel card, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader, PhotoDecisions.SHOWS_CARD, 1, photograph.value(), card)
                            .restingOn(
                                List.of(madeBy(handle, "photograph", photograph.toString())))));
  }

  /** Changes what is given of photographer, credit and rights; what is empty stays as it was. */
  public void credit(
      PhotographId photograph,
      Optional<String> photographer,
      Optional<String> credit,
      Optional<String> rights,
      String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader,
                                PhotoDecisions.CREDITED,
                                1,
                                photograph.value(),
                                new PhotoDecisions.Credited(photographer, credit, rights))
                            .restingOn(
                                List.of(madeBy(handle, "photograph", photograph.toString())))));
  }

  /** Notes when a photograph was taken, where its file doesn't know or is wrong. */
  public void date(PhotographId photograph, CaptureTime taken, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(reader, PhotoDecisions.DATED, 1, photograph.value(), taken)
                            .restingOn(
                                List.of(madeBy(handle, "photograph", photograph.toString())))));
  }

  private void requireFree(String number) {
    markers("WHERE number = ?", List.of(number)).stream()
        .findFirst()
        .ifPresent(
            other -> {
              throw new ArchiveException(
                  "There is a marker " + number + " already; give another number.");
            });
  }

  private static String label(String text, String otherwise) {
    String clean = text.strip();
    if (clean.isEmpty()) {
      throw new ArchiveException(otherwise + ".");
    }
    return clean;
  }

  /**
   * The decision a face follows from, for what is decided about it to rest on.
   *
   * @throws ArchiveException if there is no such face
   */
  public DecisionId madeBy(FaceId face) {
    return archive.ledger().read(handle -> madeBy(handle, "face", face.toString()));
  }

  /**
   * The decision a marker follows from, for what is decided about it to rest on.
   *
   * @throws ArchiveException if there is no such marker
   */
  public DecisionId madeBy(MarkerId marker) {
    return archive.ledger().read(handle -> madeBy(handle, "marker", marker.toString()));
  }

  private static DecisionId madeBy(Handle handle, String table, String id) {
    return handle
        .createQuery("SELECT decision_id FROM " + table + " WHERE id = :id")
        .bind("id", id)
        .mapTo(String.class)
        .findOne()
        .map(DecisionId::of)
        .orElseThrow(() -> new ArchiveException("There is no " + table + " " + id + " here."));
  }

  private List<MarkerRow> markers(String where, List<String> values) {
    return archive
        .ledger()
        .read(
            handle -> {
              var query = handle.createQuery("SELECT id, number FROM marker " + where);
              for (int i = 0; i < values.size(); i++) {
                query.bind(i, values.get(i));
              }
              return query
                  .map(
                      (row, context) ->
                          new MarkerRow(
                              MarkerId.of(row.getString("id")),
                              row.getString("number"),
                              earlier(handle, row.getString("id"))))
                  .list();
            });
  }

  private static List<String> earlier(Handle handle, String marker) {
    return handle
        .createQuery(
            "SELECT number FROM marker_earlier_number WHERE marker_id = :id ORDER BY place")
        .bind("id", marker)
        .mapTo(String.class)
        .list();
  }

  private List<Face> faces(String where, List<String> values) {
    return archive
        .ledger()
        .read(
            handle -> {
              var query =
                  handle.createQuery(
                      "SELECT id, marker_id, name, bearing_degrees FROM face " + where);
              for (int i = 0; i < values.size(); i++) {
                query.bind(i, values.get(i));
              }
              return query
                  .map(
                      row ->
                          new Face(
                              FaceId.of(required(row, "id", String.class)),
                              MarkerId.of(required(row, "marker_id", String.class)),
                              required(row, "name", String.class),
                              number(row, "bearing_degrees")))
                  .list();
            });
  }

  private List<Photograph> photographs(String rest, List<String> values) {
    return archive
        .ledger()
        .read(
            handle -> {
              var query = handle.createQuery("SELECT * FROM photograph " + rest);
              for (int i = 0; i < values.size(); i++) {
                query.bind(i, values.get(i));
              }
              return query.map(PhotoStore::photograph).list();
            });
  }

  private static Photograph photograph(RowView row) {
    return new Photograph(
        PhotographId.of(required(row, "id", String.class)),
        new Sha256(required(row, "sha256", String.class)),
        required(row, "original_name", String.class),
        required(row, "original_path", String.class),
        required(row, "size_bytes", Long.class),
        FileFormat.ofLabel(required(row, "format", String.class)),
        PictureKind.of(required(row, "picture", String.class)),
        value(row, "preview_offset_bytes", Long.class)
            .map(offset -> new Preview(offset, required(row, "preview_length_bytes", Long.class))),
        required(row, "width_px", Integer.class),
        required(row, "height_px", Integer.class),
        required(row, "orientation", Integer.class),
        text(row, "taken_local")
            .map(
                local ->
                    new CaptureTime(
                        LocalDateTime.parse(local),
                        text(row, "taken_offset").map(ZoneOffset::of),
                        text(row, "taken_source").orElse(""))),
        number(row, "latitude_degrees")
            .map(
                latitude ->
                    new Position(
                        latitude,
                        required(row, "longitude_degrees", Double.class),
                        number(row, "accuracy_metres"),
                        number(row, "altitude_metres"))),
        number(row, "direction_degrees")
            .map(degrees -> new Direction(degrees, text(row, "direction_reference"))),
        text(row, "camera"),
        text(row, "lens"),
        number(row, "focal_length_mm"),
        number(row, "focal_length_35mm"),
        text(row, "photographer"),
        text(row, "credit"),
        text(row, "rights"),
        text(row, "face_id").map(FaceId::of),
        number(row, "light_azimuth_degrees")
            .map(azimuth -> new Light(azimuth, number(row, "light_elevation_degrees"))),
        text(row, "card_number")
            .map(number -> new CardLabel(number, text(row, "card_face").orElse(Face.FRONT))));
  }

  private static Optional<String> text(RowView row, String column) {
    return value(row, column, String.class);
  }

  private static Optional<Double> number(RowView row, String column) {
    return value(row, column, Double.class);
  }

  private static <T> Optional<T> value(RowView row, String column, Class<T> type) {
    return Optional.ofNullable(row.getColumn(column, type));
  }

  private static <T> T required(RowView row, String column, Class<T> type) {
    return value(row, column, type)
        .orElseThrow(() -> new IllegalStateException("no " + column + " in a row of photograph"));
  }
}
