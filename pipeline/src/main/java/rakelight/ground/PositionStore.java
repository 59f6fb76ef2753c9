package rakelight.ground;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Position;

/**
 * Where markers stand: what people noted, what rows and photographs tell. Of each sort of evidence
 * the newest note stands; of several sorts the one with the least error is taken, and the others
 * are kept.
 */
public final class PositionStore {
  /** Subject: the marker. Rests on the marker. */
  static final String NOTED = "position.noted";

  /** Subject: the marker. Rests on the marker. */
  static final String IN_ROW = "row.placed";

  /** Subject: an id made from the name. */
  static final String POINT = "point.noted";

  /** Subject: an id made from the name. */
  static final String PLOT = "plot.drawn";

  private final Archive archive;
  private final MarkerStore markers;
  private final GroundPlane plane;

  /** A distance as it was measured, with where the point was held to be and what was left over. */
  public record Taped(
      String point,
      double latitudeDegrees,
      double longitudeDegrees,
      double metres,
      double residualMetres) {}

  /** Version 1 of the payload. */
  record Noted(
      String basis,
      double latitudeDegrees,
      double longitudeDegrees,
      double errorMetres,
      String words,
      List<Taped> tapes) {}

  /** A distance as people give it: the point's name, or a marker's number, and metres. */
  public record TapeWords(String point, double metres) {
    /**
     * Reads {@code gate=12.40}.
     *
     * @throws IllegalArgumentException if it isn't such
     */
    public static TapeWords of(String text) {
      int equals = text.lastIndexOf('=');
      try {
        double metres = Double.parseDouble(text.substring(equals + 1).strip());
        if (equals > 0 && metres > 0 && metres < 10_000) {
          return new TapeWords(text.substring(0, equals).strip(), metres);
        }
      } catch (NumberFormatException e) {
        // Told below.
      }
      throw new IllegalArgumentException(
          "'" + text + "' isn't a distance such as gate=12.40, in metres");
    }
  }

  /**
   * A position by tape before it is written down.
   *
   * @param mirrored in words, the other place that the distances allow; empty where there is none
   */
  public record ByTape(MarkerPosition position, List<Taped> tapes, Optional<String> mirrored) {}

  public PositionStore(Archive archive) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
    this.plane = GroundPlane.of(archive.ground());
  }

  /** The state tables of this store. */
  public static Projection projection() {
    return new PositionProjection();
  }

  /** The plane about the ground's datum point. */
  public GroundPlane plane() {
    return plane;
  }

  /** The best that is known of each marker of which anything is known. */
  public Map<MarkerId, MarkerPosition> best() {
    Map<MarkerId, MarkerPosition> best = new LinkedHashMap<>();
    all().forEach((marker, evidence) -> best.put(marker, evidence.get(0)));
    return best;
  }

  /** The same for packages that know nothing of how positions come about. */
  public Map<MarkerId, Position> places() {
    Map<MarkerId, Position> places = new HashMap<>();
    best().forEach((marker, position) -> places.put(marker, position.place()));
    return places;
  }

  /** All that is known of a marker, the best first. */
  public List<MarkerPosition> evidence(MarkerId marker) {
    return all().getOrDefault(marker, List.of());
  }

  /** All that is known of every marker of which anything is known, the best first. */
  public Map<MarkerId, List<MarkerPosition>> all() {
    Map<MarkerId, List<MarkerPosition>> all = new LinkedHashMap<>();
    for (MarkerPosition noted : noted()) {
      List<MarkerPosition> own = all.computeIfAbsent(noted.marker(), id -> new ArrayList<>());
      own.removeIf(earlier -> earlier.basis() == noted.basis());
      own.add(noted);
    }
    photographed().forEach((id, mean) -> all.computeIfAbsent(id, m -> new ArrayList<>()).add(mean));
    inRows(all);
    all.values().forEach(own -> own.sort(Comparator.comparingDouble(MarkerPosition::errorMetres)));
    return all;
  }

  private static final RowMapper<MarkerPosition> NOTE =
      (row, context) ->
          new MarkerPosition(
              MarkerId.of(row.getString("marker")),
              row.getDouble("latitude_degrees"),
              row.getDouble("longitude_degrees"),
              row.getDouble("error_metres"),
              MarkerPosition.Basis.of(row.getString("basis")).orElseThrow(),
              row.getString("words"),
              Optional.of(row.getString("reader")),
              Optional.of(DecisionId.of(row.getString("decision_id"))));

  private List<MarkerPosition> noted() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT coalesce(n.now, p.marker_id) AS marker, p.* FROM position_note p"
                            + " LEFT JOIN marker_now n ON n.id = p.marker_id WHERE"
                            + " coalesce(n.now, p.marker_id) IN (SELECT id FROM marker) ORDER BY"
                            + " p.counter")
                    .map(NOTE)
                    .list());
  }

  private Map<MarkerId, MarkerPosition> photographed() {
    Map<MarkerId, List<Sightings.Sighting>> sightings = new LinkedHashMap<>();
    new PhotoStore(archive)
        .sightings()
        .forEach(
            one ->
                sightings
                    .computeIfAbsent(one.marker(), id -> new ArrayList<>())
                    .add(
                        Sightings.Sighting.of(
                            plane.spot(
                                one.position().latitudeDegrees(),
                                one.position().longitudeDegrees()),
                            one.position().accuracyMetres().orElse(0.0),
                            one.day().orElse(LocalDate.MIN))));
    Map<MarkerId, MarkerPosition> positions = new LinkedHashMap<>();
    sightings.forEach(
        (marker, own) -> {
          Sightings.Mean mean = Sightings.mean(own);
          positions.put(
              marker,
              reckoned(
                  marker,
                  mean.spot(),
                  mean.errorMetres(),
                  MarkerPosition.Basis.PHOTOGRAPHS,
                  mean.words()));
        });
    return positions;
  }

  private MarkerPosition reckoned(
      MarkerId marker, Spot spot, double error, MarkerPosition.Basis basis, String words) {
    return new MarkerPosition(
        marker,
        plane.latitude(spot),
        plane.longitude(spot),
        error,
        basis,
        words,
        Optional.empty(),
        Optional.empty());
  }

  /** Adds to each marker of a row the place that the others of the row give it. */
  private void inRows(Map<MarkerId, List<MarkerPosition>> all) {
    Map<String, Map<MarkerId, Integer>> rows = new TreeMap<>();
    rowPlaces()
        .forEach(
            (marker, place) ->
                rows.computeIfAbsent(place.row(), row -> new LinkedHashMap<>())
                    .put(marker, place.place()));
    Map<MarkerId, MarkerPosition> found = new LinkedHashMap<>();
    rows.forEach(
        (row, places) ->
            places.forEach(
                (marker, place) -> {
                  List<RowFit.Known> known = new ArrayList<>();
                  places.forEach(
                      (other, at) -> {
                        if (!other.equals(marker)) {
                          all.getOrDefault(other, List.of()).stream()
                              .min(Comparator.comparingDouble(MarkerPosition::errorMetres))
                              .ifPresent(
                                  p ->
                                      known.add(
                                          new RowFit.Known(
                                              at,
                                              plane.spot(p.latitudeDegrees(), p.longitudeDegrees()),
                                              p.errorMetres())));
                        }
                      });
                  RowFit.at(place, known)
                      .ifPresent(
                          at ->
                              found.put(
                                  marker,
                                  reckoned(
                                      marker,
                                      at.spot(),
                                      at.errorMetres(),
                                      MarkerPosition.Basis.ROW,
                                      "place "
                                          + place
                                          + " of row "
                                          + row
                                          + ", by "
                                          + known.size()
                                          + " others of it")));
                }));
    found.forEach((marker, at) -> all.computeIfAbsent(marker, m -> new ArrayList<>()).add(at));
  }

  /** Which place of which row each marker has that is in one. */
  public Map<MarkerId, RowPlace> rowPlaces() {
    Map<MarkerId, RowPlace> places = new LinkedHashMap<>();
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT coalesce(n.now, r.marker_id) AS marker, r.row_name, r.place FROM"
                            + " row_place r LEFT JOIN marker_now n ON n.id = r.marker_id WHERE"
                            + " coalesce(n.now, r.marker_id) IN (SELECT id FROM marker) ORDER BY"
                            + " r.counter")
                    .map(
                        (row, context) ->
                            Map.entry(
                                MarkerId.of(row.getString("marker")),
                                new RowPlace(row.getString("row_name"), row.getInt("place"))))
                    .list())
        .forEach(entry -> places.put(entry.getKey(), entry.getValue()));
    return places;
  }

  /** The points that tapes may be held to, the ground's own datum first. */
  public List<DatumPoint> points() {
    Map<String, DatumPoint> points = new LinkedHashMap<>();
    points.put(
        DatumPoint.DATUM,
        new DatumPoint(
            DatumPoint.DATUM,
            archive.ground().latitudeDegrees(),
            archive.ground().longitudeDegrees(),
            0));
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT * FROM datum_point ORDER BY counter")
                    .map(
                        (row, context) ->
                            new DatumPoint(
                                row.getString("name"),
                                row.getDouble("latitude_degrees"),
                                row.getDouble("longitude_degrees"),
                                row.getDouble("error_metres")))
                    .list())
        .forEach(point -> points.put(point.name().toLowerCase(Locale.ROOT), point));
    return List.copyOf(points.values());
  }

  /** The plots, by name; of one name the one drawn last. */
  public List<Plot> plots() {
    Map<String, Plot> plots = new TreeMap<>();
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT name, boundary FROM plot ORDER BY counter")
                    .map(
                        (row, context) ->
                            new Plot(
                                row.getString("name"),
                                Arrays.stream(
                                        Json.read(row.getString("boundary"), Double[][].class))
                                    .map(List::of)
                                    .toList()))
                    .list())
        .forEach(plot -> plots.put(plot.name(), plot));
    return List.copyOf(plots.values());
  }

  /** Notes where a marker stands. */
  public DecisionId note(MarkerPosition position, String reader) {
    return note(position, List.of(), reader);
  }

  /** Notes where a marker stands by tape. */
  public DecisionId note(ByTape tape, String reader) {
    return note(tape.position(), tape.tapes(), reader);
  }

  private DecisionId note(MarkerPosition position, List<Taped> tapes, String reader) {
    Noted noted =
        new Noted(
            position.basis().label(),
            position.latitudeDegrees(),
            position.longitudeDegrees(),
            position.errorMetres(),
            position.words(),
            tapes);
    return decide(reader, NOTED, position.marker(), noted);
  }

  /** Notes which place of which row a marker has. */
  public DecisionId note(MarkerId marker, RowPlace place, String reader) {
    return decide(reader, IN_ROW, marker, place);
  }

  private DecisionId decide(String reader, String kind, MarkerId marker, Object payload) {
    return archive
        .journal()
        .append(
            NewDecision.of(reader, kind, 1, marker.value(), payload)
                .restingOn(List.of(markers.madeBy(marker))))
        .id();
  }

  /** Notes where a point is that tapes are held to. */
  public DecisionId note(DatumPoint point, String reader) {
    UUID subject = named("point", point.name());
    return archive.journal().append(NewDecision.of(reader, POINT, 1, subject, point)).id();
  }

  /** Notes a plot and its boundary. */
  public DecisionId note(Plot plot, String reader) {
    UUID subject = named("plot", plot.name());
    return archive.journal().append(NewDecision.of(reader, PLOT, 1, subject, plot)).id();
  }

  private static UUID named(String what, String name) {
    String words = what + " " + name.toLowerCase(Locale.ROOT);
    return UUID.nameUUIDFromBytes(words.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Where distances put a marker; nothing is written. Of two places that fit, what is known of the
   * marker already may decide.
   *
   * @param left on which side of the line from the first point to the second it stands, if somebody
   *     says so
   * @throws ArchiveException if a point isn't known, or both places may be meant
   */
  public ByTape byTape(
      MarkerId marker, List<TapeWords> words, Optional<Boolean> left, String note) {
    List<TapeFix.Tape> tapes = new ArrayList<>();
    for (TapeWords one : words) {
      DatumPoint point = point(one.point());
      tapes.add(
          new TapeFix.Tape(
              point.name(),
              plane.spot(point.latitudeDegrees(), point.longitudeDegrees()),
              point.errorMetres(),
              one.metres()));
    }
    TapeFix fix;
    try {
      fix = TapeFix.of(tapes);
    } catch (IllegalArgumentException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
    TapeFix.Place place = chosen(marker, fix, left, tapes);
    Optional<String> mirrored =
        fix.mirrored()
            .map(other -> other == place ? fix.best() : other)
            .map(other -> inWords(other.spot()) + ", " + side(other, tapes));
    List<Taped> taped = new ArrayList<>();
    for (int i = 0; i < tapes.size(); i++) {
      Spot from = tapes.get(i).from();
      taped.add(
          new Taped(
              tapes.get(i).point(),
              plane.latitude(from),
              plane.longitude(from),
              tapes.get(i).metres(),
              place.residualsMetres().get(i)));
    }
    String by =
        String.join(
            ", ",
            taped.stream()
                .map(t -> String.format(Locale.ROOT, "%.2f m from %s", t.metres(), t.point()))
                .toList());
    MarkerPosition position =
        new MarkerPosition(
            marker,
            plane.latitude(place.spot()),
            plane.longitude(place.spot()),
            place.errorMetres(),
            MarkerPosition.Basis.TAPE,
            note.isEmpty() ? by : by + "; " + note,
            Optional.empty(),
            Optional.empty());
    return new ByTape(position, taped, mirrored);
  }

  private TapeFix.Place chosen(
      MarkerId marker, TapeFix fix, Optional<Boolean> left, List<TapeFix.Tape> tapes) {
    if (left.isPresent()) {
      return fix.on(left.get(), tapes).orElse(fix.best());
    }
    if (!fix.isUndecided()) {
      return fix.best();
    }
    TapeFix.Place other = fix.mirrored().orElseThrow();
    Optional<MarkerPosition> known =
        evidence(marker).stream().filter(p -> p.basis() != MarkerPosition.Basis.TAPE).findFirst();
    if (known.isPresent()) {
      MarkerPosition at = known.get();
      Spot spot = plane.spot(at.latitudeDegrees(), at.longitudeDegrees());
      double one = spot.metresTo(fix.best().spot());
      double two = spot.metresTo(other.spot());
      // Three standard errors nearer, by the variances of both ways.
      if (Math.abs(one * one - two * two) > 18 * at.errorMetres() * at.errorMetres()) {
        return one < two ? fix.best() : other;
      }
    }
    throw new ArchiveException(
        "The distances fit two places: "
            + inWords(fix.best().spot())
            + ", "
            + side(fix.best(), tapes)
            + "; and mirrored "
            + inWords(other.spot())
            + ", "
            + side(other, tapes)
            + ". Say which (--side left or right), or measure from a third point off that line.");
  }

  private String inWords(Spot spot) {
    return String.format(Locale.ROOT, "%.7f,%.7f", plane.latitude(spot), plane.longitude(spot));
  }

  private static String side(TapeFix.Place place, List<TapeFix.Tape> tapes) {
    return (TapeFix.isLeft(place, tapes) ? "left" : "right")
        + " of the line from "
        + tapes.get(0).point()
        + " to "
        + tapes.get(1).point();
  }

  private DatumPoint point(String name) {
    Optional<DatumPoint> point =
        points().stream().filter(one -> one.name().equalsIgnoreCase(name)).findFirst();
    return point
        .or(
            () ->
                markers
                    .byNumber(name)
                    .flatMap(marker -> evidence(marker.id()).stream().findFirst())
                    .map(
                        at ->
                            new DatumPoint(
                                name,
                                at.latitudeDegrees(),
                                at.longitudeDegrees(),
                                at.errorMetres())))
        .orElseThrow(
            () ->
                new ArchiveException(
                    "“"
                        + name
                        + "” is no point and no marker whose position is known. Note it with"
                        + " `position --point NAME --at LAT,LON --error M`."));
  }
}
