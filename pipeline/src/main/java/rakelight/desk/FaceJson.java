package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.archive.Json;
import rakelight.inscription.Candidate;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Extent;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Gap;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.LetterForm;
import rakelight.inscription.Reading;
import rakelight.inscription.Settling;
import rakelight.inscription.Standing;
import rakelight.marker.Marker;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;
import rakelight.reading.Alternative;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.relief.RakingSet;
import rakelight.relief.Relief;
import rakelight.relief.SquaredFace;
import rakelight.work.Chances;
import rakelight.work.FaceState;
import rakelight.work.Leases;
import rakelight.work.Place;
import rakelight.work.Stretch;
import rakelight.work.UnsurePlace;
import rakelight.work.Work;

/** A face as the interface gives it; docs/desk.md says what each field means. */
final class FaceJson {
  private final Work work;
  private final ObjectNode json = Json.mapper().createObjectNode().put("schema", 1);

  private FaceJson(Work work) {
    this.work = work;
  }

  /**
   * @param photographs of the face
   * @param lease of this reader, or of another who keeps him out
   */
  static ObjectNode of(
      Work work,
      Marker marker,
      FaceState state,
      List<Photograph> photographs,
      Optional<Leases.Lease> lease,
      boolean canRedo) {
    return new FaceJson(work).all(marker, state, photographs, lease, canRedo);
  }

  private ObjectNode all(
      Marker marker,
      FaceState state,
      List<Photograph> photographs,
      Optional<Leases.Lease> lease,
      boolean canRedo) {
    json.put("face", work.face().id().toString()).put("name", work.face().name());
    json.putObject("marker").put("id", marker.id().toString()).put("number", marker.number());
    json.put("state", state.label())
        .put("task", work.task().label())
        .put("blind", work.blind())
        .put("version", work.version())
        .put("canUndo", work.stored())
        .put("canRedo", canRedo)
        .put(
            "signable",
            work.draft().isSettled()
                && (work.task() == Work.Task.READ || work.task() == Work.Task.SETTLE));
    lease.ifPresent(
        one -> {
          if (one.reader().equals(work.reader())) {
            json.putObject("lease").put("until", one.until().toString());
          } else {
            json.putObject("takenBy")
                .put("reader", one.reader())
                .put("until", one.until().toString());
          }
        });
    photographs(photographs);
    List<List<Place>> places = Place.of(work);
    lines(places);
    unsure();
    List<Place> undecided =
        places.stream().flatMap(List::stream).filter(place -> !place.decided()).toList();
    ArrayNode doubts = json.putArray("doubts");
    undecided.stream()
        .filter(Place::isWorthAsking)
        .sorted(Comparator.comparingDouble(Place::gain).reversed())
        .forEach(
            place ->
                doubts
                    .addObject()
                    .put("line", place.line())
                    .put("at", place.at())
                    .put("gain", rounded(place.gain(), 1000))
                    .put("field", place.field()));
    json.put("undecided", undecided.size());
    work.before().ifPresent(reading -> reading(json.putObject("before"), reading));
    work.readings()
        .by(work.reader())
        .ifPresent(reading -> reading(json.putObject("mine"), reading));
    if (work.task() == Work.Task.SETTLE) {
      work.settling().ifPresent(this::settling);
    }
    return json;
  }

  private void photographs(List<Photograph> photographs) {
    Optional<Proposal> proposal = work.proposal();
    ArrayNode list = json.putArray("photographs");
    for (Photograph photograph : photographs) {
      ObjectNode one =
          list.addObject()
              .put("photograph", photograph.id().toString())
              .put("url", "/images/photographs/" + photograph.id())
              .put("widthPx", photograph.uprightWidthPx())
              .put("heightPx", photograph.uprightHeightPx())
              .put(
                  "leading",
                  proposal
                      .filter(found -> found.photographs().get(0).equals(photograph.id()))
                      .isPresent())
              .put("file", photograph.originalName());
      proposal.stream()
          .flatMap(found -> found.views().stream().skip(1))
          .filter(view -> view.photograph().equals(photograph.id()))
          .flatMap(view -> view.toLeading().stream())
          .forEach(
              toLeading -> {
                ArrayNode matrix = one.putArray("fromLeading");
                toLeading.inverse().rows().forEach(matrix::add);
              });
      photograph.taken().ifPresent(taken -> one.put("taken", taken.local().toString()));
      photograph.light().ifPresent(light -> one.set("light", Json.tree(light)));
    }
    if (proposal.isEmpty()) {
      return;
    }
    json.put("proposal", proposal.get().id().toString());
    polygon(json.putArray("outline"), proposal.get().views().get(0).outline());
    SquaredFace.Shape shape = FacePictures.shape(proposal.get());
    ArrayNode reliefs = json.putArray("reliefs");
    List<String> names = new ArrayList<>(Relief.NAMES);
    if (proposal.get().views().size() > 1) {
      names.add(RakingSet.DEPTH);
    }
    for (String name : names) {
      reliefs
          .addObject()
          .put("name", name)
          .put("url", pictures(proposal.get()) + "reliefs/" + name)
          .put("widthPx", shape.widthPx())
          .put("heightPx", shape.heightPx());
    }
  }

  private String pictures(Proposal proposal) {
    return "/images/faces/" + work.face().id() + "/" + proposal.id() + "/";
  }

  private void lines(List<List<Place>> places) {
    ArrayNode lines = json.putArray("lines");
    for (int i = 0; i < places.size(); i++) {
      ObjectNode line =
          lines
              .addObject()
              .put("line", i + 1)
              .put("text", work.draft().lines().get(i).text())
              .put("settled", work.draft().lines().get(i).isSettled());
      List<ProposedLine> parts = Place.parts(places.get(i));
      if (!parts.isEmpty()) {
        pictured(line, parts.get(0), places.get(i), places);
        ArrayNode list = line.putArray("parts");
        for (ProposedLine part : parts) {
          pictured(list.addObject(), part, places.get(i), places);
        }
      }
      ArrayNode letters = line.putArray("letters");
      for (Place place : places.get(i)) {
        letter(letters.addObject(), place, parts);
      }
    }
  }

  /** Where a line may be besides; each shown as a line is. */
  private void unsure() {
    ArrayNode list = json.putArray("unsure");
    List<UnsurePlace> all = UnsurePlace.of(work);
    List<List<Place>> letters = all.stream().map(UnsurePlace::letters).toList();
    for (UnsurePlace place : all) {
      ObjectNode one =
          list.addObject()
              .put("place", place.number())
              .put("before", place.before())
              .put("p", rounded(place.p(), 100))
              .put("odds", Chances.words(place.p()))
              .put("text", place.text());
      ProposedLine line = place.line();
      pictured(one, line, place.letters(), letters);
      pictured(one.putArray("parts").addObject(), line, place.letters(), letters);
      ArrayNode signs = one.putArray("letters");
      for (Place letter : place.letters()) {
        letter(signs.addObject(), letter, List.of(line));
      }
    }
  }

  /** A proposed line that shows letters of a line of the draft, or a part of it that does. */
  private void pictured(
      ObjectNode part, ProposedLine proposed, List<Place> line, List<List<Place>> all) {
    Proposal proposal = work.proposal().orElseThrow();
    double from = stretches(line, proposed).mapToDouble(Stretch::from).min().orElse(0);
    double to = stretches(line, proposed).mapToDouble(Stretch::to).max().orElse(1);
    boolean shared =
        all.stream().filter(other -> Place.parts(other).contains(proposed)).count() > 1;
    boxes(part, proposed, shared ? proposed.ribbonOf(from, to) : proposed.box());
    part.put("from", rounded(from, 10_000)).put("to", rounded(to, 10_000));
    proposal
        .view(proposed.photograph())
        .toLeading()
        .ifPresent(move -> part.put("heightPx", rounded(proposed.heightPx(move), 10)));
    proposed.drawnBy().ifPresent(reader -> part.put("drawnBy", reader));
    ArrayNode strips = part.putArray("strips");
    for (String name : FacePictures.stripNames(proposal)) {
      ObjectNode strip =
          strips
              .addObject()
              .put("name", name)
              .put("url", pictures(proposal) + "strips/" + proposed.number() + "/" + name);
      FacePictures.lightOf(proposal, name)
          .ifPresentOrElse(
              photograph -> strip.put("kind", "light").put("photograph", photograph.toString()),
              () -> strip.put("kind", "relief"));
    }
    part.put("stripWidthPx", FacePictures.stripWidthPx(proposed))
        .put("stripHeightPx", FacePictures.STRIP_HEIGHT_PX);
  }

  private static Stream<Stretch> stretches(List<Place> line, ProposedLine proposed) {
    return line.stream()
        .flatMap(place -> place.stretch().stream())
        .filter(stretch -> stretch.on() == proposed);
  }

  /** Where something lies on the leading photograph and on the relief images. */
  private void boxes(ObjectNode object, ProposedLine line, Polygon box) {
    Proposal proposal = work.proposal().orElseThrow();
    Optional<Homography> toLeading = proposal.view(line.photograph()).toLeading();
    if (toLeading.isPresent()) {
      Polygon onLeading = box.map(toLeading.get()::map);
      polygon(object.putArray("onPhotograph"), onLeading);
      Homography toRelief = FacePictures.shape(proposal).toPhotograph().inverse();
      polygon(object.putArray("onRelief"), onLeading.map(toRelief::map));
    }
  }

  private void letter(ObjectNode object, Place place, List<ProposedLine> parts) {
    object.put("at", place.at());
    if (place.seen().ink() instanceof Letter letter) {
      object
          .put("text", letter.text())
          .put("standing", label(letter.standing()))
          .put("erased", letter.erased());
      if (letter.forms().contains(LetterForm.SUPERIOR)) {
        object.put("raised", true);
      }
      candidates(object, letter);
    } else {
      Gap gap = (Gap) place.seen().ink();
      object
          .put("standing", gap.reason().name().toLowerCase(Locale.ROOT))
          .put("erased", gap.erased());
      if (gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact exact) {
        object.put("letters", exact.count());
      }
    }
    object
        .put("spaceBefore", place.seen().spaceBefore())
        .put("decided", place.decided())
        .put("field", place.field());
    if (place.seen().place().how() == Draft.Decided.WITH_ITS_LINE) {
      object.put("withLine", true);
    }
    if (!place.seen().note().isEmpty()) {
      object.put("note", place.seen().note());
    }
    if (!place.decided()) {
      object.put("gain", rounded(place.gain(), 1000));
    }
    stretch(object, place.stretch(), parts);
    if (place.slot().isPresent() && !place.heldBack()) {
      ArrayNode alternatives = object.putArray("alternatives");
      for (Alternative alternative : place.slot().get().alternatives()) {
        alternatives
            .addObject()
            .put("text", alternative.text())
            .put("p", rounded(alternative.p(), 1000));
      }
    }
  }

  /** Where the letter is to be seen. */
  private void stretch(ObjectNode object, Optional<Stretch> known, List<ProposedLine> parts) {
    if (known.isEmpty()) {
      object.put("place", "unknown");
      return;
    }
    Stretch stretch = known.get();
    object
        .put("place", stretch.reckoned() ? "reckoned" : "read")
        .put("part", parts.indexOf(stretch.on()) + 1)
        .put("from", rounded(stretch.from(), 10_000))
        .put("to", rounded(stretch.to(), 10_000));
    boxes(object, stretch.on(), stretch.box());
  }

  /** Both readings letter over letter, by the lines of the draft. */
  private void pairs(ObjectNode settling, FaceReadings.Two two) {
    ArrayNode lines = settling.putArray("lines");
    List<Settling.Pair> pairs;
    try {
      pairs = Settling.pairs(two, work.draft());
    } catch (LeidenException | DraftEditing.RefusedException e) {
      throw new IllegalStateException("readings that were signed can't be read", e);
    }
    int line = 0;
    ArrayNode ofLine = lines;
    for (Settling.Pair pair : pairs) {
      // What the draft has nothing of goes with the line before it.
      int now = pair.at().map(Settling.At::line).orElse(Math.max(line, 1));
      if (now != line) {
        line = now;
        ofLine = lines.addObject().put("line", line).putArray("pairs");
      }
      ObjectNode one = ofLine.addObject().put("pair", pair.number()).put("line", line);
      pair.at().ifPresent(at -> one.put("at", at.at()));
      boolean told =
          pair.difference() == Settling.Difference.SPACE
              || pair.at().filter(at -> at.at() == 1).isEmpty();
      pair.first().ifPresent(side -> side(one.putObject("first"), side, told));
      pair.second().ifPresent(side -> side(one.putObject("second"), side, told));
      one.put(
          "differs",
          pair.difference() == Settling.Difference.NONE
              ? ""
              : pair.difference().name().toLowerCase(Locale.ROOT));
    }
  }

  /**
   * @param told whether it says something that a word begins here; at the head of a line it is so
   *     as a matter of course
   */
  private static void side(ObjectNode object, Settling.Side side, boolean told) {
    if (side.ink() instanceof Letter letter) {
      object
          .put("text", letter.text())
          .put("standing", label(letter.standing()))
          .put("raised", letter.forms().contains(LetterForm.SUPERIOR));
      candidates(object, letter);
    } else {
      Gap gap = (Gap) side.ink();
      object.put("standing", gap.reason().name().toLowerCase(Locale.ROOT));
      if (gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact exact) {
        object.put("letters", exact.count());
      }
    }
    object.put("spaceBefore", told && side.wordBegins());
    if (!side.note().isEmpty()) {
      object.put("note", side.note());
    }
  }

  private static void candidates(ObjectNode object, Letter letter) {
    if (!letter.candidates().isEmpty()) {
      ArrayNode candidates = object.putArray("candidates");
      for (Candidate candidate : letter.candidates()) {
        candidates.addObject().put("text", candidate.text()).put("percent", candidate.percent());
      }
    }
  }

  private void settling(FaceReadings.Two two) {
    ObjectNode settling = json.putObject("settling");
    reading(settling.putObject("first"), two.first());
    reading(settling.putObject("second"), two.second());
    pairs(settling, two);
  }

  /** A signed reading in short. */
  static void reading(ObjectNode object, Reading reading) {
    object
        .put("reading", reading.id().toString())
        .put("reader", reading.reader())
        .put("at", reading.at().toString());
    object.set("basis", Json.tree(reading.basis()));
    ArrayNode lines = object.putArray("lines");
    Leiden.printLines(reading.inscription()).forEach(lines::add);
  }

  private static String label(Standing standing) {
    return standing.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static void polygon(ArrayNode array, Polygon polygon) {
    polygon.points().forEach(p -> array.addArray().add(rounded(p.x(), 10)).add(rounded(p.y(), 10)));
  }

  private static double rounded(double value, int parts) {
    return Math.round(value * parts) / (double) parts;
  }
}
