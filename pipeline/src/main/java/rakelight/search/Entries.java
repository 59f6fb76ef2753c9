package rakelight.search;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.index.Entry;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Question;
import rakelight.person.QuestionStore;

/**
 * Makes entries for the index, one for each marker with a confirmed reading: all its faces, what
 * they assert, its links, questions and condition.
 */
final class Entries {
  private final MarkerStore markers;
  private final LinkStore links;
  private final Evidence evidence;
  private final ConditionStore conditions;
  private final DescriptionStore descriptions;
  private final EmblemStore emblems;
  private final QuestionStore questions;
  private final Archive archive;
  private Optional<Places> places = Optional.empty();

  /** Where markers stand: looked up once, and only if it is needed. */
  private record Places(
      Map<MarkerId, RowPlace> rows, List<Plot> plots, Map<MarkerId, MarkerPosition> positions) {
    static Places of(Archive archive) {
      PositionStore store = new PositionStore(archive);
      List<Plot> plots = store.plots();
      return new Places(store.rowPlaces(), plots, plots.isEmpty() ? Map.of() : store.best());
    }
  }

  Entries(Archive archive) {
    this.markers = new MarkerStore(archive);
    this.links = new LinkStore(archive);
    this.evidence = new Evidence(archive);
    this.conditions = new ConditionStore(archive);
    this.descriptions = new DescriptionStore(archive);
    this.emblems = new EmblemStore(archive);
    this.questions = new QuestionStore(archive);
    this.archive = archive;
  }

  /** The entry of a marker; empty while none of its faces has a confirmed reading. */
  Optional<Entry> of(Marker marker) {
    List<FaceStatements> read = evidence.confirmed(marker);
    return read.isEmpty() ? Optional.empty() : Optional.of(of(marker, read));
  }

  /**
   * The entry of a marker by what some of its faces say.
   *
   * @param read confirmed all, or proposed all
   */
  Entry of(Marker marker, List<FaceStatements> read) {
    Map<String, List<String>> noted = new LinkedHashMap<>();
    links(marker.id()).forEach(text -> add(noted, "link", text));
    conditions
        .newest(marker.id())
        .ifPresent(
            note -> {
              add(noted, "condition", note.told());
              add(noted, "unsafe", note.unsafe());
            });
    emblems.ofMarker(marker.id()).forEach(note -> add(noted, "emblem", note.name()));
    for (Question question : questions.questions()) {
      if (question.marker().filter(marker.id()::equals).isPresent()) {
        add(noted, "question", question.text());
      }
    }
    placed(marker.id(), noted);
    return EntryMaking.of(
        marker,
        read,
        descriptions.of(marker.id()).map(Described::description).orElse(Description.NONE),
        noted);
  }

  /** The row it stands in, and the plots in whose boundary it stands. */
  private void placed(MarkerId marker, Map<String, List<String>> facts) {
    if (places.isEmpty()) {
      places = Optional.of(Places.of(archive));
    }
    Places known = places.get();
    Optional.ofNullable(known.rows().get(marker)).ifPresent(at -> add(facts, "row", at.row()));
    Optional.ofNullable(known.positions().get(marker))
        .ifPresent(
            at ->
                known.plots().stream()
                    .filter(plot -> plot.holds(at.latitudeDegrees(), at.longitudeDegrees()))
                    .forEach(plot -> add(facts, "plot", plot.name())));
  }

  private static void add(Map<String, List<String>> facts, String field, String text) {
    EntryMaking.add(facts, field, text);
  }

  private List<String> links(MarkerId marker) {
    List<String> texts = new ArrayList<>();
    for (Link link : links.ofMarker(marker)) {
      boolean leadsFrom = link.from().equals(marker);
      if (leadsFrom) {
        texts.add(
            link.kind().label()
                + " "
                + link.toMarker().map(markers::numberOf).or(link::toWords).orElse(""));
      } else {
        texts.add(
            "has as "
                + link.kind().label().replace(" of", "")
                + " "
                + markers.numberOf(link.from()));
      }
    }
    return texts;
  }
}
