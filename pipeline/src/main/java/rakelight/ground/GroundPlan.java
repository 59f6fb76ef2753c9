package rakelight.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Person;

/**
 * What a plan of the ground shows.
 *
 * @param ground its name
 * @param plane on which {@link Placed#at} is measured
 * @param markers those whose position is known, by number
 * @param unplaced those whose position nobody knows, by number
 * @param rows the markers of each row in their order, by the row's name
 * @param families as {@link Families} has them
 * @param ties from footstones to the stones that name their persons, confirmed or proposed
 * @param names who is named on which marker, by surname
 */
public record GroundPlan(
    String ground,
    GroundPlane plane,
    List<Placed> markers,
    List<Marker> unplaced,
    Map<String, List<Marker>> rows,
    List<Plot> plots,
    List<FamilyGroup> families,
    List<Tie> ties,
    List<Named> names) {
  /** What sort of marker it is, by what its reading says. */
  public enum Kind {
    NAMES_PERSONS,
    FOOTSTONE,
    /** Nobody has confirmed a reading of it, or it names nobody. */
    OTHER;

    /** As documents write it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /** A marker with its place. */
  public record Placed(
      Marker marker,
      Kind kind,
      MarkerPosition position,
      Spot at,
      Optional<RowPlace> row,
      List<String> plots,
      Optional<String> family) {
    public Placed {
      plots = List.copyOf(plots);
    }
  }

  /**
   * A footstone and the stone that names its person.
   *
   * @param called the person
   * @param probability 1 where people confirmed it
   */
  public record Tie(
      Marker from, Marker to, String called, boolean isConfirmed, double probability) {}

  /**
   * Somebody named on a marker.
   *
   * @param name surname first
   */
  public record Named(String name, Marker marker) {}

  public GroundPlan {
    markers = List.copyOf(markers);
    unplaced = List.copyOf(unplaced);
    rows = Map.copyOf(rows);
    plots = List.copyOf(plots);
    families = List.copyOf(families);
    ties = List.copyOf(ties);
    names = List.copyOf(names);
  }

  /** The plan of an archive as it stands. */
  public static GroundPlan of(Archive archive) {
    Families read = Families.read(archive);
    return of(archive, read, read.groups());
  }

  /**
   * The same for whoever has looked at the readings already.
   *
   * @param faces all that have a confirmed reading
   * @param persons of whom they speak
   */
  public static GroundPlan of(
      Archive archive, List<FaceStatements> faces, List<Person> persons, KeptAnswers answers) {
    Families read = Families.read(archive, faces, persons, answers);
    return of(archive, read, read.groups());
  }

  /** Where markers stand and what they are, without families and ties, which take longer. */
  public static GroundPlan withoutFamilies(
      Archive archive, List<FaceStatements> faces, List<Person> persons, KeptAnswers answers) {
    return of(archive, Families.read(archive, faces, persons, answers), List.of());
  }

  private static GroundPlan of(Archive archive, Families read, List<FamilyGroup> families) {
    PositionStore places = new PositionStore(archive);
    Map<MarkerId, MarkerPosition> best = places.best();
    Map<MarkerId, RowPlace> inRows = places.rowPlaces();
    List<Plot> plots = places.plots();
    Map<MarkerId, String> familyOf = new HashMap<>();
    for (FamilyGroup family : families) {
      family.stones().forEach(marker -> familyOf.put(marker.id(), family.name()));
      family.footstones().forEach(marker -> familyOf.put(marker.id(), family.name()));
    }
    List<Placed> placed = new ArrayList<>();
    List<Marker> unplaced = new ArrayList<>();
    Map<String, Map<Integer, Marker>> rows = new TreeMap<>();
    for (Marker marker : new MarkerStore(archive).markers()) {
      Optional<RowPlace> row = Optional.ofNullable(inRows.get(marker.id()));
      row.ifPresent(
          in -> rows.computeIfAbsent(in.row(), r -> new TreeMap<>()).put(in.place(), marker));
      MarkerPosition position = best.get(marker.id());
      if (position == null) {
        unplaced.add(marker);
        continue;
      }
      double latitude = position.latitudeDegrees();
      double longitude = position.longitudeDegrees();
      placed.add(
          new Placed(
              marker,
              read.kind(marker.id()),
              position,
              places.plane().spot(latitude, longitude),
              row,
              plots.stream().filter(p -> p.holds(latitude, longitude)).map(Plot::name).toList(),
              Optional.ofNullable(familyOf.get(marker.id()))));
    }
    Map<String, List<Marker>> ordered = new LinkedHashMap<>();
    rows.forEach((row, markers) -> ordered.put(row, List.copyOf(markers.values())));
    return new GroundPlan(
        archive.ground().name(),
        places.plane(),
        placed,
        unplaced,
        ordered,
        plots,
        families,
        families.stream().flatMap(family -> ties(family).stream()).toList(),
        read.names());
  }

  private static List<Tie> ties(FamilyGroup family) {
    List<Tie> ties = new ArrayList<>();
    family
        .answer()
        .ifPresent(
            answer -> {
              for (FootstoneFinding finding : answer.findings()) {
                finding
                    .best()
                    .ifPresent(
                        best -> {
                          FamilyPerson person = family.plot().persons().get(best);
                          Spot at = family.plot().stones().get(finding.stone()).at();
                          String near =
                              person.named().stream()
                                  .min(Comparator.comparingDouble(n -> n.at().metresTo(at)))
                                  .orElseThrow()
                                  .marker();
                          family.stones().stream()
                              .filter(stone -> stone.number().equals(near))
                              .forEach(
                                  stone ->
                                      ties.add(
                                          new Tie(
                                              family.footstones().get(finding.stone()),
                                              stone,
                                              person.called(),
                                              family
                                                  .plot()
                                                  .confirmed()
                                                  .contains(
                                                      new FamilyPlot.Tie(finding.stone(), best)),
                                              finding.probability())));
                        });
              }
            });
    return ties;
  }

  /** Where a marker is on the plan. */
  public Optional<Placed> placed(Marker marker) {
    return markers.stream().filter(one -> one.marker().equals(marker)).findFirst();
  }

  /** Where each is whose position is known. */
  public Map<MarkerId, Spot> spots() {
    Map<MarkerId, Spot> spots = new HashMap<>();
    markers.forEach(placed -> spots.put(placed.marker().id(), placed.at()));
    return spots;
  }

  /** The family that a marker is of. */
  public Optional<FamilyGroup> family(Marker marker) {
    return families.stream().filter(family -> family.holds(marker)).findFirst();
  }
}
