package rakelight.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Uuid7;
import rakelight.ground.FamilyStore;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.Frame;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.SetAside;
import rakelight.publish.Withholding;
import rakelight.publish.WithholdingStore;
import rakelight.work.NamedReader;
import rakelight.work.RefusedException;
import rakelight.work.Regrouping;
import rakelight.work.Role;
import rakelight.work.Undoing;
import rakelight.work.Withdrawing;

/** What somebody may do of an evening on a laptop, at random; what is refused isn't done. */
final class EditHistory {
  private static final List<String> READERS = List.of("Ada", "Ben");
  private static final List<String> NAMES =
      List.of("HANNAH WREN", "JOB THORNE", "ANN PELL", "[---]");

  private final Archive archive;
  private final Random random;
  private final NamedReader reader;

  private EditHistory(Archive archive, Random random) {
    this.archive = archive;
    this.random = random;
    this.reader = new NamedReader(READERS.get(random.nextInt(2)), Role.ARCHIVIST);
  }

  /** Readers at work: most of it is drafts, readings, notes and new markers. */
  static void everyday(Archive archive, Random random, int steps) {
    run(archive, random, steps, new int[] {5, 4, 2, 2, 2, 2, 1, 2, 1, 2, 1, 1, 1, 1, 1, 3});
  }

  /** Somebody who puts things right: numbers, merging, withdrawing, and taking back. */
  static void tidying(Archive archive, Random random, int steps) {
    run(archive, random, steps, new int[] {2, 2, 4, 1, 1, 1, 4, 3, 3, 1, 2, 3, 3, 2, 2, 8});
  }

  private static void run(Archive archive, Random random, int steps, int[] weights) {
    int sum = Arrays.stream(weights).sum();
    for (int step = 0; step < steps; step++) {
      int at = random.nextInt(sum);
      int what = 0;
      while (at >= weights[what]) {
        at -= weights[what++];
      }
      try {
        new EditHistory(archive, random).act(what);
      } catch (ArchiveException | RefusedException e) {
        // As at the desk: it is refused, and nothing has changed.
      }
    }
  }

  private void act(int what) {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photos = new PhotoStore(archive);
    ReadingStore readings = new ReadingStore(archive);
    List<Marker> all = markers.markers();
    if (all.isEmpty()) {
      return;
    }
    Marker marker = all.get(random.nextInt(all.size()));
    List<Face> faces = photos.faces(marker.id());
    Optional<Face> face =
        faces.isEmpty() ? Optional.empty() : Optional.of(faces.get(random.nextInt(faces.size())));
    List<Photograph> shots = photos.photographs();
    switch (what) {
      case 0 -> face.ifPresent(one -> readings.keepDraft(one.id(), draft(one), reader.name()));
      case 1 ->
          face.ifPresent(
              one ->
                  readings.sign(
                      one.id(),
                      text(one.name()),
                      Basis.FROM_PHOTOGRAPHS,
                      Optional.empty(),
                      reader.name()));
      case 2 -> markers.create("N" + random.nextInt(4), reader.name());
      case 3 ->
          new ConditionStore(archive)
              .note(
                  marker.id(),
                  LocalDate.of(2026, 5, 1 + random.nextInt(9)),
                  Set.of(Condition.SOUND),
                  "seen " + random.nextInt(99),
                  reader.name());
      case 4 ->
          new DescriptionStore(archive)
              .describe(
                  marker.id(),
                  with(Description.NONE, "remark " + random.nextInt(99)),
                  Uuid7.next(),
                  reader.name());
      case 5 ->
          new PositionStore(archive)
              .note(marker.id(), new RowPlace("A", 1 + random.nextInt(9)), reader.name());
      case 6 -> markers.renumber(marker.id(), "R" + random.nextInt(3), reader.name());
      case 7 -> photos.faceOf(marker.number(), "back " + random.nextInt(2), reader.name());
      case 8 -> {
        Marker other = all.get(random.nextInt(all.size()));
        if (!other.id().equals(marker.id())) {
          new Regrouping(archive).merge(marker, other, false, reader);
        }
      }
      case 9 -> {
        QuestionStore questions = new QuestionStore(archive);
        List<Question> asked = questions.questions();
        if (asked.isEmpty() || random.nextBoolean()) {
          questions.raise(
              "Who was " + random.nextInt(99) + "?", Optional.of(marker.number()), reader.name());
        } else {
          Question one = asked.get(random.nextInt(asked.size()));
          if (one.isOpen()) {
            questions.answer(one, "somebody", "a register", reader.name());
          } else {
            questions.reopen(one, "doubt", reader.name());
          }
        }
      }
      case 10 -> {
        if (!shots.isEmpty()) {
          Photograph shot = shots.get(random.nextInt(shots.size()));
          int done = random.nextInt(face.isPresent() ? 4 : 2);
          Frame frame = new Frame(10 * random.nextInt(3), 0, 20, 30);
          switch (done) {
            case 0 -> photos.setAside(List.of(shot.id()), SetAside.UNFIT, reader.name());
            case 1 -> photos.passOver(shot, frame, reader.name());
            case 2 -> photos.alsoShows(shot, face.get().id(), frame, reader.name());
            default ->
                photos.assign(
                    shot.id(), face.get().id(), Optional.empty(), "person", reader.name());
          }
        }
      }
      case 11 -> {
        Withdrawing.Terms terms = new Withdrawing.Terms("asked", Optional.empty(), true);
        Withdrawing withdrawing = new Withdrawing(archive);
        switch (random.nextInt(4)) {
          case 0 -> {
            if (!shots.isEmpty()) {
              withdrawing.photograph(shots.get(random.nextInt(shots.size())), terms, reader);
            }
          }
          case 1 -> withdrawing.marker(marker, terms, reader);
          default -> face.ifPresent(one -> withdrawing.reading(one, terms, reader));
        }
      }
      case 12 ->
          face.ifPresent(
              one ->
                  photos.describeFace(
                      one.id(), Optional.of(10. * random.nextInt(9)), reader.name()));
      case 13 -> {
        WithholdingStore withholdings = new WithholdingStore(archive);
        if (random.nextBoolean()) {
          withholdings.withhold(
              new Withholding.Subject.OfMarker(marker.id()),
              Withholding.Cause.FAMILY,
              "asked",
              Optional.empty(),
              LocalDate.of(2026, 5, 2),
              reader.name());
        } else {
          withholdings.tellAfter(OptionalInt.of(20 + random.nextInt(3)), reader.name());
        }
      }
      case 14 -> {
        Marker other = all.get(random.nextInt(all.size()));
        if (random.nextBoolean()) {
          new FamilyStore(archive).join(marker.number(), other.number(), reader.name());
        } else {
          new LinkStore(archive)
              .confirm(marker.number(), Link.Kind.SAID_TO_BE, "Hannah", "", reader.name());
        }
      }
      default -> {
        List<Decision> some = new ArrayList<>(archive.journal().since(1));
        some.removeIf(decision -> decision.kind().equals("photograph.ingested"));
        if (!some.isEmpty()) {
          // Mostly what was decided lately.
          int back = Math.min(some.size(), random.nextInt(3) == 0 ? some.size() : 8);
          Decision one = some.get(some.size() - 1 - random.nextInt(back));
          new Undoing(archive).undo(one.id(), reader);
        }
      }
    }
  }

  private Draft draft(Face face) {
    List<Draft.Line> lines =
        new ArrayList<>(
            new ReadingStore(archive)
                .draft(face.id(), reader.name())
                .map(Draft::lines)
                .orElse(List.of()));
    Draft.Line line = Draft.Line.of(NAMES.get(random.nextInt(3)), random.nextBoolean());
    if (lines.isEmpty() || random.nextBoolean()) {
      lines.add(random.nextInt(lines.size() + 1), line);
    } else {
      lines.set(random.nextInt(lines.size()), line);
    }
    return new Draft(lines, Optional.empty());
  }

  private Inscription text(String of) {
    try {
      return Leiden.parse(
          NAMES.get(random.nextInt(NAMES.size())) + "\nDIED 184" + random.nextInt(9));
    } catch (LeidenException e) {
      throw new IllegalStateException(of, e);
    }
  }

  private static Description with(Description none, String remark) {
    return Json.read(
        Json.mapper()
            .createObjectNode()
            .put("remark", remark)
            .<com.fasterxml.jackson.databind.node.ObjectNode>set(
                "lettering", Json.mapper().createArrayNode())
            .set("parts", Json.mapper().createArrayNode()),
        Description.class);
  }

  /** Every decision in order, and every row of every state table. */
  static Map<String, List<String>> content(Archive archive) {
    Map<String, List<String>> content = new TreeMap<>();
    content.put(
        "decisions", archive.journal().since(0).stream().map(one -> Json.text(one)).toList());
    archive
        .ledger()
        .read(
            handle -> {
              for (String table :
                  handle
                      .createQuery(
                          "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE"
                              + " 'sqlite%' AND name NOT LIKE 'flyway%' AND name NOT IN ('decision',"
                              + " 'decision_chain', 'decision_place', 'reader_passphrase')")
                      .mapTo(String.class)
                      .list()) {
                content.put(
                    table,
                    handle.createQuery("SELECT * FROM " + table).mapToMap().list().stream()
                        .map(row -> Json.canonical((Object) row))
                        .sorted()
                        .toList());
              }
              return 0;
            });
    return content;
  }
}
