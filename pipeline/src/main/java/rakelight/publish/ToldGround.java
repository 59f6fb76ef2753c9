package rakelight.publish;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.Families;
import rakelight.ground.GroundPlan;
import rakelight.ground.GroundPlane;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.marker.NaturalOrder;
import rakelight.marker.Terms;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;

/**
 * What an edition tells of a ground around its readings: what markers are and where they stand, and
 * what is asked and was consulted. Words that people wrote freely are left out where they name
 * somebody who isn't told.
 *
 * @param plane on which places are measured
 * @param terms by which markers are described
 * @param markers that are told, by number, whether or not anybody has read them
 * @param questions that are told, in the order they were raised
 * @param sources that are told, by number
 */
public record ToldGround(
    String name,
    GroundPlane plane,
    Terms terms,
    List<ToldMarker> markers,
    List<Plot> plots,
    List<Question> questions,
    List<Source> sources) {
  public ToldGround {
    markers = List.copyOf(markers);
    plots = List.copyOf(plots);
    questions = List.copyOf(questions);
    sources = List.copyOf(sources);
  }

  /**
   * @param mayTell whether words name nobody who isn't told
   */
  static ToldGround of(Archive archive, Edition edition, Predicate<String> mayTell) {
    DescriptionStore descriptions = new DescriptionStore(archive);
    Map<MarkerId, Described> described = descriptions.all();
    Map<MarkerId, ConditionNote> conditions = new ConditionStore(archive).newest();
    Map<MarkerId, List<EmblemNote>> emblems = new HashMap<>();
    PhotoStore photographs = new PhotoStore(archive);
    for (EmblemNote note : new EmblemStore(archive).all()) {
      if (isOnWithheld(note, photographs, edition)
          || !mayTell.test(note.name())
          || !note.details().values().stream().allMatch(mayTell)) {
        continue;
      }
      emblems
          .computeIfAbsent(note.marker(), m -> new ArrayList<>())
          .add(told(note, edition, mayTell));
    }
    PositionStore places = new PositionStore(archive);
    Map<MarkerId, MarkerPosition> positions = places.best();
    Map<MarkerId, RowPlace> rows = places.rowPlaces();
    List<Plot> plots = places.plots().stream().filter(plot -> mayTell.test(plot.name())).toList();
    List<ToldMarker> markers = new ArrayList<>();
    for (Marker marker : new MarkerStore(archive).markers()) {
      if (edition.why(marker.id()).isEmpty()) {
        Optional<MarkerPosition> at = Optional.ofNullable(positions.get(marker.id()));
        markers.add(
            new ToldMarker(
                marker,
                Optional.ofNullable(described.get(marker.id()))
                    .map(one -> told(one.description(), mayTell))
                    .orElse(Description.NONE),
                Optional.ofNullable(conditions.get(marker.id())).map(note -> told(note, mayTell)),
                emblems.getOrDefault(marker.id(), List.of()),
                at,
                Optional.ofNullable(rows.get(marker.id())),
                plots.stream()
                    .filter(plot -> at.filter(p -> isIn(plot, p)).isPresent())
                    .map(Plot::name)
                    .toList()));
      }
    }
    return new ToldGround(
        edition.ground(),
        places.plane(),
        descriptions.terms(),
        markers,
        plots,
        new QuestionStore(archive)
            .questions().stream()
                .flatMap(question -> told(question, edition, mayTell).stream())
                .toList(),
        new SourceStore(archive)
            .sources().stream()
                .filter(source -> mayTell.test(source.title() + " " + source.note()))
                .toList());
  }

  /** A face that nobody has read isn't withheld. */
  private static boolean isOnWithheld(EmblemNote note, PhotoStore photographs, Edition edition) {
    return photographs.face(note.marker(), note.face()).stream()
        .flatMap(face -> edition.why(face.id()).stream())
        .anyMatch(why -> !(why instanceof Why.NotRead));
  }

  private static boolean isIn(Plot plot, MarkerPosition at) {
    return plot.holds(at.latitudeDegrees(), at.longitudeDegrees());
  }

  private static Description told(Description said, Predicate<String> mayTell) {
    return new Description(
        said.kind(),
        said.form(),
        said.material(),
        said.lettering(),
        said.parts(),
        said.heightCm(),
        said.widthCm(),
        said.thicknessCm(),
        said.origin(),
        said.maker().filter(mayTell),
        said.madeAt().filter(mayTell),
        said.earlier().filter(mayTell),
        said.enclosure().filter(mayTell),
        said.remark().filter(mayTell));
  }

  private static ConditionNote told(ConditionNote note, Predicate<String> mayTell) {
    return new ConditionNote(
        note.marker(),
        note.on(),
        note.words(),
        note.where(),
        mayTell.test(note.remark()) ? note.remark() : "",
        note.reader(),
        note.at(),
        note.decision());
  }

  private static EmblemNote told(EmblemNote note, Edition edition, Predicate<String> mayTell) {
    return new EmblemNote(
        note.decision(),
        note.marker(),
        note.face(),
        note.name(),
        note.known(),
        note.outline().filter(outline -> edition.why(outline.photograph()).isEmpty()),
        note.details(),
        mayTell.test(note.remark()) ? note.remark() : "",
        note.reader(),
        note.at());
  }

  /** A question about no marker or a told one, with the steps that may be told. */
  private static Optional<Question> told(
      Question question, Edition edition, Predicate<String> mayTell) {
    return question.marker().stream().allMatch(marker -> edition.why(marker).isEmpty())
            && mayTell.test(question.text())
        ? Optional.of(
            new Question(
                question.id(),
                question.number(),
                question.text(),
                question.marker(),
                question.steps().stream()
                    .filter(step -> mayTell.test(step.words() + " " + step.note()))
                    .toList()))
        : Optional.empty();
  }

  /** The markers by their ids. */
  public Map<MarkerId, ToldMarker> byId() {
    Map<MarkerId, ToldMarker> byId = new LinkedHashMap<>();
    markers.forEach(told -> byId.put(told.marker().id(), told));
    return byId;
  }

  /** The markers of a told row, in their order, by the row's name. */
  public Map<String, List<Marker>> rows() {
    Map<String, Map<Integer, Marker>> rows = new TreeMap<>(new NaturalOrder());
    for (ToldMarker told : markers) {
      told.row()
          .ifPresent(
              in ->
                  rows.computeIfAbsent(in.row(), r -> new TreeMap<>())
                      .put(in.place(), told.marker()));
    }
    Map<String, List<Marker>> ordered = new LinkedHashMap<>();
    rows.forEach((row, own) -> ordered.put(row, List.copyOf(own.values())));
    return ordered;
  }

  /**
   * The plan as it may be told: places, rows and plots, without families, and without names, which
   * a register has in its own index.
   *
   * @param faces those that are told
   */
  public GroundPlan plan(List<ToldFace> faces) {
    Map<MarkerId, GroundPlan.Kind> kinds = new HashMap<>();
    for (ToldFace face : faces) {
      MarkerId id = face.says().marker().id();
      boolean named =
          face.says().statements().stream().anyMatch(statement -> statement.person() > 0);
      if (Families.isFootstone(face.says().inscription())) {
        kinds.putIfAbsent(id, GroundPlan.Kind.FOOTSTONE);
      } else if (named) {
        kinds.put(id, GroundPlan.Kind.NAMES_PERSONS);
      }
    }
    List<GroundPlan.Placed> placed = new ArrayList<>();
    List<Marker> unplaced = new ArrayList<>();
    for (ToldMarker told : markers) {
      if (told.position().isEmpty()) {
        unplaced.add(told.marker());
        continue;
      }
      MarkerPosition at = told.position().get();
      placed.add(
          new GroundPlan.Placed(
              told.marker(),
              kinds.getOrDefault(told.marker().id(), GroundPlan.Kind.OTHER),
              at,
              plane.spot(at.latitudeDegrees(), at.longitudeDegrees()),
              told.row(),
              told.plots(),
              Optional.empty()));
    }
    return new GroundPlan(
        name, plane, placed, unplaced, rows(), plots, List.of(), List.of(), List.of());
  }
}
