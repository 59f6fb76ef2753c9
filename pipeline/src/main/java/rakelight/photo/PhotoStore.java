package rakelight.photo;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.result.RowView;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;
import rakelight.archive.Uuid7;
import rakelight.marker.MarkerStore;
import rakelight.marker.NaturalOrder;

/**
 * Photographs, and the faces of markers they show.
 *
 * <p>Everything that changes is a decision under a reader's name. Lists are in a fixed order:
 * photographs by original path, faces by their marker's number and their name, figures by value.
 */
public final class PhotoStore {
  private static final Comparator<String> NATURAL = new NaturalOrder();

  private static final String ROWS =
      "SELECT *, EXISTS (SELECT 1 FROM photograph_part WHERE photograph_id = photograph.id AND"
          + " face_id IS NOT NULL) AS in_parts FROM photograph ";

  /** Left about a stone on each side, so many times its larger side; set by judgement. */
  private static final double ROOM_ABOUT_STONES = 0.03;

  private final Archive archive;
  private final MarkerStore markers;

  public PhotoStore(Archive archive) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new PhotoProjection();
  }

  /** What to see to when histories come together. */
  public static Joining joining() {
    return new PhotoJoining();
  }

  /** Every photograph, field cards included. */
  public List<Photograph> photographs() {
    return photographs("ORDER BY original_path, id");
  }

  public Optional<Photograph> photograph(PhotographId id) {
    return photographs(
            "WHERE id = ? OR sha256 = (SELECT sha256 FROM photograph_double WHERE id = ?)",
            archive.journal().now(id.value()).toString(),
            id.toString())
        .stream()
        .findFirst();
  }

  public Optional<Photograph> photograph(Sha256 digest) {
    return photographs("WHERE sha256 = ?", digest.hex()).stream().findFirst();
  }

  /** The photographs that somebody may mean by an id, a digest, a file's name or a path. */
  public List<Photograph> named(String name, String path) {
    return photographs(
        "WHERE id = ? OR sha256 = ? OR original_name = ? OR original_path = ? OR id IN (SELECT"
            + " photograph_id FROM photograph_other_path WHERE path = ?) ORDER BY original_path,"
            + " id",
        name,
        name,
        name,
        path,
        path);
  }

  /** The photographs that show a face, those among them that show it beside others. */
  public List<Photograph> ofFace(FaceId face) {
    return photographs(
        "WHERE face_id = ? OR id IN (SELECT photograph_id FROM photograph_part WHERE face_id = ?)"
            + " ORDER BY original_path, id",
        face.toString(),
        face.toString());
  }

  /** The photographs that are on a face as a whole. */
  public List<Photograph> onFace(FaceId face) {
    return photographs("WHERE face_id = ? ORDER BY original_path, id", face.toString());
  }

  /** What was said of single stones on photographs of several, in the order it was said. */
  public List<PhotoPart> parts() {
    return parts("");
  }

  private List<PhotoPart> parts(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select("SELECT * FROM photograph_part " + where + " ORDER BY counter", values)
                    .map(
                        (row, context) ->
                            new PhotoPart(
                                PhotographId.of(row.getString("photograph_id")),
                                Optional.ofNullable(row.getString("face_id")).map(FaceId::of),
                                new Frame(
                                    row.getInt("left_px"),
                                    row.getInt("top_px"),
                                    row.getInt("width_px"),
                                    row.getInt("height_px"))))
                    .list());
  }

  /** Every face on a photograph: the one it is on as a whole, and those that stones on it are. */
  public List<FaceId> facesOn(Photograph photograph) {
    return Stream.concat(
            photograph.face().stream(),
            photograph.inParts()
                ? parts(photograph.id()).stream().flatMap(part -> part.face().stream())
                : Stream.empty())
        .toList();
  }

  /** The same of one photograph. */
  public List<PhotoPart> parts(PhotographId photograph) {
    return parts("WHERE photograph_id = ?", photograph.toString());
  }

  /**
   * Every face that a photograph shows: of the whole one and of stones among several on it; a
   * photograph on no face by itself.
   */
  public List<Showing> showings() {
    Map<PhotographId, List<PhotoPart>> parts =
        parts().stream()
            .filter(part -> part.face().isPresent())
            .collect(Collectors.groupingBy(PhotoPart::photograph));
    List<Showing> showings = new ArrayList<>();
    for (Photograph photograph : photographs()) {
      List<PhotoPart> others = parts.getOrDefault(photograph.id(), List.of());
      showings.add(Showing.whole(photograph, others.stream().map(PhotoPart::frame).toList()));
      others.forEach(part -> showings.add(Showing.part(photograph, part.face(), part.frame())));
    }
    return showings;
  }

  /**
   * A part of a photograph about a place on it, in upright full-size pixels, with some room around,
   * cut at the photograph's edges.
   *
   * @throws ArchiveException if nothing of it is on the photograph
   */
  public static Frame frameAbout(
      Photograph photograph, double left, double top, double right, double bottom) {
    double rim = ROOM_ABOUT_STONES * Math.max(right - left, bottom - top);
    int fromX = (int) Math.max(0, Math.floor(left - rim));
    int fromY = (int) Math.max(0, Math.floor(top - rim));
    int toX = (int) Math.min(photograph.uprightWidthPx(), Math.ceil(right + rim));
    int toY = (int) Math.min(photograph.uprightHeightPx(), Math.ceil(bottom + rim));
    if (toX <= fromX || toY <= fromY) {
      throw new ArchiveException(
          photograph.originalName() + ": that place isn't on the photograph.");
    }
    return new Frame(fromX, fromY, toX - fromX, toY - fromY);
  }

  /**
   * Says which face a stone among several on a photograph is. What was said of the same stone
   * before, or of the same face on this photograph, is said anew. The photograph itself stays on
   * the face it is on.
   *
   * @throws ArchiveException if the photograph as a whole is on that face
   */
  public void alsoShows(Photograph photograph, FaceId face, Frame frame, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              if (photograph.face().equals(Optional.of(face))) {
                throw new ArchiveException(
                    photograph.originalName()
                        + ": the photograph as a whole is on that face. Take it off first"
                        + " (`assign --off`), or name another face.");
              }
              return decide(
                  photograph.id(),
                  PhotoDecisions.ALSO_SHOWS,
                  new PhotoDecisions.AlsoShows(Optional.of(face), frame),
                  reader,
                  madeBy(face));
            });
  }

  /** Whether a decision says which face a stone among several on a photograph is. */
  public static boolean saysWhichStone(Decision decision) {
    return decision.kind().equals(PhotoDecisions.ALSO_SHOWS);
  }

  /** Says that a stone on a photograph is to be passed over, and isn't asked after again. */
  public void passOver(Photograph photograph, Frame frame, String reader) {
    decide(
        photograph.id(),
        PhotoDecisions.ALSO_SHOWS,
        new PhotoDecisions.AlsoShows(Optional.empty(), frame),
        reader);
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
                                    + " face_id IS NOT :face AND NOT EXISTS (SELECT 1 FROM"
                                    + " photograph_part WHERE photograph_id = photograph.id AND"
                                    + " face_id = :face)")
                            .bindList("ids", photographs.stream().map(Object::toString).toList())
                            .bind("face", face.toString())
                            .mapTo(Integer.class)
                            .one()
                        > 0);
  }

  /**
   * Where a camera says that it stood when it took a marker.
   *
   * @param day by the camera's clock
   */
  public record Sighting(MarkerId marker, Position position, Optional<LocalDate> day) {}

  /** Every photograph of a marker that says where it was taken, by the photograph's id. */
  public List<Sighting> sightings() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT f.marker_id, p.latitude_degrees, p.longitude_degrees,"
                            + " p.accuracy_metres, substr(p.taken_local, 1, 10) AS day FROM"
                            + " photograph p JOIN face f ON f.id = p.face_id WHERE"
                            + " p.latitude_degrees IS NOT NULL ORDER BY p.id")
                    .map(
                        (row, context) ->
                            new Sighting(
                                MarkerId.of(row.getString("marker_id")),
                                new Position(
                                    row.getDouble("latitude_degrees"),
                                    row.getDouble("longitude_degrees"),
                                    Optional.ofNullable((Double) row.getObject("accuracy_metres")),
                                    Optional.empty()),
                                Optional.ofNullable(row.getString("day")).map(LocalDate::parse)))
                    .list());
  }

  /** Every face, by marker number, then name; those that a merged marker kept are empty. */
  public List<Face> faces() {
    Map<MarkerId, Integer> places = new HashMap<>();
    markers.markers().forEach(marker -> places.put(marker.id(), places.size()));
    return faces("").stream()
        .filter(face -> places.containsKey(face.marker()))
        .sorted(
            Comparator.<Face, Integer>comparing(face -> places.get(face.marker()))
                .thenComparing(Face::name, NATURAL))
        .toList();
  }

  public Optional<Face> face(FaceId id) {
    return faces("WHERE id = ?", archive.journal().now(id.value()).toString()).stream().findFirst();
  }

  /** The face of that name; one that differs only in case will do where none is written just so. */
  public Optional<Face> face(MarkerId marker, String name) {
    List<Face> all = faces(marker);
    return all.stream()
        .filter(face -> face.name().equals(name))
        .findFirst()
        .or(() -> all.stream().filter(face -> face.name().equalsIgnoreCase(name)).findFirst());
  }

  /** The marker or face on which a decision puts something, if it does. */
  public static Optional<UUID> putsOn(Decision decision) {
    return switch (decision.kind()) {
      case PhotoDecisions.FACE_CREATED ->
          Optional.of(decision.payload(PhotoDecisions.FaceCreated.class).marker().value());
      case PhotoDecisions.FACE_MOVED ->
          Optional.of(decision.payload(PhotoDecisions.FaceMoved.class).marker().value());
      case PhotoDecisions.ASSIGNED ->
          Optional.of(decision.payload(PhotoDecisions.Assigned.class).face().value());
      default -> Optional.empty();
    };
  }

  /** Where a face was put last, also where it was withdrawn. */
  public Optional<Face> facePlaced(FaceId id) {
    return archive.journal().standing(id.value()).stream()
        .flatMap(decision -> placed(decision).stream())
        .reduce((earlier, later) -> later);
  }

  /**
   * Every face that was ever made and not taken back, also those that were withdrawn, by the marker
   * it was put on last and its name in small letters.
   */
  public Map<MarkerId, Map<String, FaceId>> placedFaces() {
    Map<FaceId, Face> faces = new LinkedHashMap<>();
    archive
        .journal()
        .standing(List.of(PhotoDecisions.FACE_CREATED, PhotoDecisions.FACE_MOVED))
        .forEach(decision -> placed(decision).ifPresent(face -> faces.put(face.id(), face)));
    Map<MarkerId, Map<String, FaceId>> placed = new LinkedHashMap<>();
    faces
        .values()
        .forEach(
            face ->
                placed
                    .computeIfAbsent(face.marker(), marker -> new TreeMap<>())
                    .putIfAbsent(face.name().toLowerCase(Locale.ROOT), face.id()));
    return placed;
  }

  private static Optional<Face> placed(Decision decision) {
    FaceId id = new FaceId(decision.subject());
    return switch (decision.kind()) {
      case PhotoDecisions.FACE_CREATED -> {
        PhotoDecisions.FaceCreated face = decision.payload(PhotoDecisions.FaceCreated.class);
        yield Optional.of(new Face(id, face.marker(), face.name(), face.bearingDegrees()));
      }
      case PhotoDecisions.FACE_MOVED -> {
        PhotoDecisions.FaceMoved face = decision.payload(PhotoDecisions.FaceMoved.class);
        yield Optional.of(new Face(id, face.marker(), face.name(), face.bearingDegrees()));
      }
      default -> Optional.empty();
    };
  }

  /** Every photograph that was ever taken in and not taken back, by its bytes. */
  public Map<Sha256, List<UUID>> takenIn() {
    Map<Sha256, List<UUID>> taken = new TreeMap<>(Comparator.comparing(Sha256::hex));
    archive
        .journal()
        .standing(List.of(PhotoDecisions.INGESTED))
        .forEach(
            decision ->
                taken
                    .computeIfAbsent(
                        decision.payload(PhotoDecisions.Ingested.class).sha256(),
                        digest -> new ArrayList<>())
                    .add(decision.subject()));
    return taken;
  }

  /** The faces of a marker, by name. */
  public List<Face> faces(MarkerId marker) {
    return faces("WHERE marker_id = ?", marker.toString()).stream()
        .sorted(Comparator.comparing(Face::name, NATURAL))
        .toList();
  }

  /** The other paths at which ingest met the bytes of photographs, sorted. */
  public Map<PhotographId, List<String>> otherPaths() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<PhotographId, List<String>> paths = new HashMap<>();
              handle
                  .createQuery(
                      "SELECT photograph_id, path FROM photograph_other_path ORDER BY path")
                  .map(
                      (row, context) ->
                          paths
                              .computeIfAbsent(
                                  PhotographId.of(row.getString("photograph_id")),
                                  id -> new ArrayList<>())
                              .add(row.getString("path")))
                  .list();
              return paths;
            });
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
   * A new face of a marker.
   *
   * @param bearingDegrees where it looks to, clockwise from true north, 0 to 360
   * @throws ArchiveException if the name is blank or the marker has a face of that name
   */
  public Face createFace(
      MarkerId marker, String name, Optional<Double> bearingDegrees, String reader) {
    String clean = cleaned(name);
    return archive
        .ledger()
        .write(
            handle -> {
              Optional<Face> there = face(marker, clean);
              if (there.isPresent()) {
                throw new ArchiveException(
                    "The marker has a face named " + there.get().name() + " already.");
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
                          .restingOn(List.of(markers.madeBy(marker))));
              return face;
            });
  }

  /**
   * Moves a face, with what was read on it, to another marker or name. Its photographs go with it.
   *
   * @param bearingDegrees where it looks to there, if known
   * @param batch what is decided in one act shares it
   */
  public void moveFace(
      FaceId face,
      MarkerId marker,
      String name,
      Optional<Double> bearingDegrees,
      UUID batch,
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
                                PhotoDecisions.FACE_MOVED,
                                1,
                                face.value(),
                                new PhotoDecisions.FaceMoved(
                                    marker, cleaned(name), bearingDegrees, batch))
                            .restingOn(List.of(madeBy(face), markers.madeBy(marker)))));
  }

  /** Whether a decision moves a face. */
  public static boolean movesFace(Decision decision) {
    return decision.kind().equals(PhotoDecisions.FACE_MOVED);
  }

  /**
   * Looks whether an act left two faces of one name on a marker.
   *
   * @throws ArchiveException if it did
   */
  public void requireNamesApart() {
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT marker_id, name FROM face GROUP BY marker_id, name HAVING count(*)"
                            + " > 1 ORDER BY name")
                    .map(
                        row ->
                            markers.numberOf(MarkerId.of(required(row, "marker_id", String.class)))
                                + " "
                                + required(row, "name", String.class))
                    .findFirst())
        .ifPresent(
            face -> {
              throw new ArchiveException(
                  "There would be two faces "
                      + face
                      + ": one was made there meanwhile. Move it to another name first (`marker"
                      + " move`).");
            });
  }

  /** Notes where a face looks to. */
  public void describeFace(FaceId face, Optional<Double> bearingDegrees, String reader) {
    PhotoDecisions.FaceDescribed described = new PhotoDecisions.FaceDescribed(bearingDegrees);
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader, PhotoDecisions.FACE_DESCRIBED, 1, face.value(), described)
                            .restingOn(List.of(madeBy(face)))));
  }

  /**
   * The face of that name on the marker of that number, both made if they aren't there.
   *
   * @param markerNumber a present or earlier number
   */
  public Face faceOf(String markerNumber, String faceName, String reader) {
    String name = cleaned(faceName);
    return archive
        .ledger()
        .write(
            handle -> {
              MarkerId marker = markers.foundOrCreated(markerNumber, reader).id();
              return face(marker, name)
                  .orElseGet(() -> createFace(marker, name, Optional.empty(), reader));
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
                decide(
                    photograph,
                    PhotoDecisions.ASSIGNED,
                    new PhotoDecisions.Assigned(face, light, by, Optional.empty()),
                    reader,
                    madeBy(face)));
  }

  /**
   * Puts photographs on faces, all of it one act that {@code undo} takes back as one.
   *
   * @param faces the face of each
   * @param batch what is decided in that act shares it
   */
  public void assignTogether(
      Map<PhotographId, FaceId> faces, Map<PhotographId, Light> lights, UUID batch, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              faces.forEach(
                  (photograph, face) ->
                      decide(
                          photograph,
                          PhotoDecisions.ASSIGNED,
                          new PhotoDecisions.Assigned(
                              face,
                              Optional.ofNullable(lights.get(photograph)),
                              "person",
                              Optional.of(batch)),
                          reader,
                          madeBy(face)));
              return 0;
            });
  }

  /**
   * Takes photographs off the faces they are on; no machine puts them on one again. One act, as by
   * {@link #assignTogether}.
   */
  public void takeOff(List<PhotographId> photographs, String reader) {
    PhotoDecisions.TakenOff off = new PhotoDecisions.TakenOff(Optional.of(Uuid7.next()));
    decideTogether(photographs, PhotoDecisions.TAKEN_OFF, off, reader);
  }

  /** Says that photographs wait for no face, and takes them off the ones they are on. One act. */
  public void setAside(List<PhotographId> photographs, SetAside as, String reader) {
    PhotoDecisions.PutAside aside = new PhotoDecisions.PutAside(as, Optional.of(Uuid7.next()));
    decideTogether(photographs, PhotoDecisions.SET_ASIDE, aside, reader);
  }

  private void decideTogether(
      List<PhotographId> photographs, String kind, Object payload, String reader) {
    archive
        .ledger()
        .write(
            handle -> {
              photographs.forEach(photograph -> decide(photograph, kind, payload, reader));
              return 0;
            });
  }

  /**
   * Photographs that people took off a face: by saying so, by setting them aside, or by undoing
   * what put them there. A machine doesn't put those on a face again.
   */
  Set<PhotographId> takenOff() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT DISTINCT d.subject FROM decision d LEFT JOIN decision_undone u ON"
                            + " u.decision = d.id WHERE (d.kind IN (:off, :aside) AND u.decision IS"
                            + " NULL) OR (d.kind = :on AND u.decision IS NOT NULL)")
                    .bind("off", PhotoDecisions.TAKEN_OFF)
                    .bind("aside", PhotoDecisions.SET_ASIDE)
                    .bind("on", PhotoDecisions.ASSIGNED)
                    .mapTo(String.class)
                    .stream()
                    .map(id -> new PhotographId(archive.journal().now(UUID.fromString(id))))
                    .collect(Collectors.toSet()));
  }

  /** Ties copies to their originals, all of it one act. */
  public void tieCopies(List<Copies.Pair> pairs, String reader) {
    UUID batch = Uuid7.next();
    archive
        .ledger()
        .write(
            handle -> {
              pairs.forEach(
                  pair ->
                      decide(
                          pair.copy().id(),
                          PhotoDecisions.COPY_OF,
                          new PhotoDecisions.CopyOf(pair.original().id(), batch),
                          reader,
                          archive.journal().madeBy("photograph", pair.original().id().value())));
              return 0;
            });
  }

  /** Notes that a photograph shows a field card. */
  public void showsCard(PhotographId photograph, CardLabel card, String reader) {
    decide(photograph, PhotoDecisions.SHOWS_CARD, card, reader);
  }

  /** Changes what is given of photographer, credit and rights; what is empty stays as it was. */
  public void credit(
      PhotographId photograph,
      Optional<String> photographer,
      Optional<String> credit,
      Optional<String> rights,
      String reader) {
    decide(
        photograph,
        PhotoDecisions.CREDITED,
        new PhotoDecisions.Credited(photographer, credit, rights),
        reader);
  }

  /**
   * Puts a camera's clock right: every photograph it goes for has another time from now on, the one
   * as written stays in the ledger. Of several that go for a photograph the latest counts.
   */
  public void correctClock(ClockCorrection correction, String reader) {
    archive
        .journal()
        .append(NewDecision.of(reader, PhotoDecisions.CLOCK, 1, Uuid7.next(), correction));
  }

  /** The photographs a correction would go for, by time as written. */
  public List<Photograph> goesFor(ClockCorrection correction) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(ROWS + "ORDER BY taken_local, original_path")
                    .map(row -> photograph(row, List.of()))
                    .filter(
                        photograph ->
                            photograph
                                .taken()
                                .filter(written -> correction.isFor(photograph.takenBy(), written))
                                .isPresent())
                    .list());
  }

  /** When a photograph was taken by what its file says, or a person, whatever its clock. */
  public Optional<CaptureTime> takenAsWritten(PhotographId id) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(ROWS + "WHERE id = ?", id.toString())
                    .map(row -> photograph(row, List.of()))
                    .findOne())
        .flatMap(Photograph::taken);
  }

  /** Notes when a photograph was taken, where its file doesn't know or is wrong. */
  public void date(PhotographId photograph, CaptureTime taken, String reader) {
    decide(photograph, PhotoDecisions.DATED, taken, reader);
  }

  /**
   * The decision a face follows from, for what is decided about it to rest on.
   *
   * @throws ArchiveException if there is no such face
   */
  public DecisionId madeBy(FaceId face) {
    return archive.journal().madeBy("face", face.value());
  }

  /** A decision about a photograph that is here. */
  private Decision decide(
      PhotographId photograph,
      String kind,
      Object payload,
      String reader,
      DecisionId... alsoRestingOn) {
    return archive
        .ledger()
        .write(
            handle -> {
              List<DecisionId> restsOn = new ArrayList<>(List.of(alsoRestingOn));
              restsOn.add(archive.journal().madeBy("photograph", photograph.value()));
              return archive
                  .journal()
                  .append(
                      NewDecision.of(reader, kind, 1, photograph.value(), payload)
                          .restingOn(restsOn));
            });
  }

  private static String cleaned(String name) {
    String clean = name.strip();
    if (clean.isEmpty()) {
      throw new ArchiveException("a face needs a name.");
    }
    return clean;
  }

  private List<Face> faces(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT id, marker_id, name, bearing_degrees FROM face " + where, values)
                    .map(
                        row ->
                            new Face(
                                FaceId.of(required(row, "id", String.class)),
                                MarkerId.of(required(row, "marker_id", String.class)),
                                required(row, "name", String.class),
                                number(row, "bearing_degrees")))
                    .list());
  }

  private List<Photograph> photographs(String rest, Object... values) {
    return archive
        .ledger()
        .read(
            handle -> {
              List<ClockCorrection> clocks = clocks(handle);
              return handle.select(ROWS + rest, values).map(row -> photograph(row, clocks)).list();
            });
  }

  /** The times a camera's clock was put right, the latest first. */
  private static List<ClockCorrection> clocks(Handle handle) {
    return handle
        .createQuery("SELECT * FROM camera_clock ORDER BY counter DESC")
        .map(
            row ->
                new ClockCorrection(
                    new CameraBody(text(row, "camera"), text(row, "serial"), text(row, "folder")),
                    text(row, "from_day").map(LocalDate::parse),
                    text(row, "to_day").map(LocalDate::parse),
                    required(row, "shift_seconds", Long.class),
                    text(row, "drift_from")
                        .map(
                            start ->
                                new ClockCorrection.Drift(
                                    LocalDateTime.parse(start),
                                    LocalDateTime.parse(required(row, "drift_until", String.class)),
                                    required(row, "drift_shift_seconds", Long.class)))))
        .list();
  }

  private static Optional<CaptureTime> taken(RowView row, List<ClockCorrection> clocks) {
    CameraBody camera =
        CameraBody.of(
            text(row, "camera"),
            text(row, "camera_serial"),
            required(row, "original_path", String.class));
    return text(row, "taken_local")
        .map(
            local ->
                new CaptureTime(
                    LocalDateTime.parse(local),
                    text(row, "taken_offset").map(ZoneOffset::of),
                    text(row, "taken_source").orElse("")))
        .map(
            written ->
                clocks.stream()
                    .filter(clock -> clock.isFor(camera, written))
                    .findFirst()
                    .map(clock -> clock.correct(written))
                    .orElse(written));
  }

  private static Photograph photograph(RowView row, List<ClockCorrection> clocks) {
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
        taken(row, clocks),
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
        text(row, "camera_serial"),
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
            .map(number -> new CardLabel(number, text(row, "card_face").orElse(Face.FRONT))),
        text(row, "damage"),
        new Offered(
            text(row, "offered_photographer"),
            text(row, "offered_rights"),
            text(row, "offered_note")),
        text(row, "copy_of").map(PhotographId::of),
        text(row, "set_aside").map(SetAside::ofLabel),
        required(row, "in_parts", Boolean.class));
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
