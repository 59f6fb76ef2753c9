package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Check;
import rakelight.archive.Ground;
import rakelight.archive.Joining;
import rakelight.archive.Meeting;
import rakelight.archive.Merging;
import rakelight.archive.NewDecision;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.samples.Samples;
import rakelight.work.NamedReader;
import rakelight.work.Regrouping;
import rakelight.work.Role;
import rakelight.work.Withdrawing;

/**
 * Two copies of one archive go apart and are merged, either into the other: the same comes out.
 * {@code -Drakelight.pairs=40} has forty pairs of each habit.
 */
class MergedHistoriesTest {
  private static final int PAIRS = Integer.getInteger("rakelight.pairs", 3);
  private static final long SEED = Long.getLong("rakelight.seed", 20261201);

  @TempDir static Path folder;

  @BeforeAll
  static void anArchive() throws Exception {
    Path shots = Files.createDirectories(folder.resolve("shots"));
    for (String name : List.of("M04-W-1.jpg", "M04-W-2.jpg")) {
      Files.write(shots.resolve(name), Samples.bytes(name));
    }
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive = Archive.init(folder.resolve("begun"), ground, Projections.all())) {
      new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
      PhotoStore photos = new PhotoStore(archive);
      for (String number : List.of("1", "2", "3", "4")) {
        Face face = photos.faceOf(number, Face.FRONT, "Ada");
        if (number.equals("4")) {
          for (Photograph shot : photos.photographs()) {
            photos.assign(shot.id(), face.id(), Optional.empty(), "person", "Ada");
          }
        }
        new ReadingStore(archive)
            .sign(
                face.id(),
                Leiden.parse("HANNAH WREN"),
                Basis.FROM_PHOTOGRAPHS,
                Optional.empty(),
                "Ada");
      }
    }
  }

  private static Path copy(String from, String to) throws IOException {
    Path source = folder.resolve(from);
    Path target = folder.resolve(to);
    try (Stream<Path> files = Files.walk(source)) {
      for (Path file : files.toList()) {
        Path copy = target.resolve(source.relativize(file).toString());
        if (Files.isDirectory(file)) {
          Files.createDirectories(copy);
        } else {
          Files.copy(file, copy);
        }
      }
    }
    return target;
  }

  private static Archive open(String name) {
    return Archive.open(folder.resolve(name), Projections.all());
  }

  private static Merging.Result merge(String into, String from) {
    try (Archive here = open(into);
        Archive there = Archive.openToLook(folder.resolve(from), Projections.all())) {
      return Merging.of(here, there, Projections.joinings(), 0, file -> {});
    }
  }

  private static Map<String, List<String>> content(String name) {
    try (Archive archive = open(name)) {
      return EditHistory.content(archive);
    }
  }

  private interface Habit {
    void act(Archive archive, Random random, int steps);
  }

  /** Counts what came of pairs. */
  private static final class Tally {
    int pairs;
    int refused;
    int apart;
    int follows;
    int decisions;
  }

  private Tally pairs(Habit habit, String name, long seed) throws IOException {
    Tally tally = new Tally();
    for (int pair = 0; pair < PAIRS; pair++) {
      Random random = new Random(seed + pair);
      String a = name + pair + "a";
      String b = name + pair + "b";
      copy("begun", a);
      copy("begun", b);
      for (String one : List.of(a, b)) {
        try (Archive archive = open(one)) {
          habit.act(archive, random, 5 + random.nextInt(16));
        }
      }
      copy(a, a + "-before");
      copy(b, b + "-before");
      tally.pairs++;
      Merging.Result merged;
      try {
        merged = merge(a, b);
      } catch (ArchiveException e) {
        assertThat(e).as("seed %s", seed + pair).hasMessageStartingWith("Nothing was merged.");
        Map<String, List<String>> untouched = content(b);
        assertThatThrownBy(() -> merge(b, a)).hasMessageStartingWith("Nothing was merged.");
        assertThat(content(b)).isEqualTo(untouched);
        tally.refused++;
        continue;
      }
      tally.apart += merged.apart().size();
      tally.follows += merged.follows();
      tally.decisions += merged.decisions();
      merge(b, a + "-before");
      Map<String, List<String>> ofA = content(a);
      assertThat(content(b)).as("seed %s", seed + pair).isEqualTo(ofA);
      assertThat(merge(a, b + "-before").decisions()).isZero();
      assertThat(content(a)).as("seed %s, again", seed + pair).isEqualTo(ofA);
      try (Archive archive = open(a)) {
        assertThat(
                new Check(archive).run(Expected.originals(archive).keySet(), file -> {}).faults())
            .as("seed %s", seed + pair)
            .isEmpty();
      }
    }
    return tally;
  }

  @Test
  void whicheverIsMergedIntoWhichTheSameComesOut() throws IOException {
    Tally tally = pairs(EditHistory::everyday, "every", SEED);
    System.out.printf(
        "everyday: %d pairs, %d refused, %d decisions, %d apart, %d follow%n",
        tally.pairs, tally.refused, tally.decisions, tally.apart, tally.follows);
    assertThat(tally.refused).isLessThan(tally.pairs);
  }

  @Test
  void alsoWhereMuchIsPutRight() throws IOException {
    Tally tally = pairs(EditHistory::tidying, "tidy", SEED + 1000);
    System.out.printf(
        "tidying: %d pairs, %d refused, %d decisions, %d apart, %d follow%n",
        tally.pairs, tally.refused, tally.decisions, tally.apart, tally.follows);
  }

  /** Copies of the archive in which two people did different things. */
  private static void apart(String name, Deed one, Deed other) throws Exception {
    for (String side : List.of("a", "b")) {
      copy("begun", name + side);
      try (Archive archive = open(name + side)) {
        (side.equals("a") ? one : other).in(archive);
      }
      copy(name + side, name + side + "-before");
    }
  }

  private interface Deed {
    void in(Archive archive) throws Exception;
  }

  private static Merging.Result mergeBoth(String name) {
    Merging.Result merged = merge(name + "a", name + "b-before");
    merge(name + "b", name + "a-before");
    assertThat(content(name + "b")).isEqualTo(content(name + "a"));
    return merged;
  }

  private static Face front(Archive archive, String number) {
    return new PhotoStore(archive).faceOf(number, Face.FRONT, "Ada");
  }

  private static void sign(Archive archive, String number, String text, String reader)
      throws Exception {
    new ReadingStore(archive)
        .sign(
            front(archive, number).id(),
            Leiden.parse(text),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            reader);
  }

  @Test
  void twoMarkersOfOneNumberAreToldApartAndOnePhotographTakenInTwiceIsOne() throws Exception {
    Path shot = Files.createDirectories(folder.resolve("again")).resolve("M07-W.jpg");
    Files.write(shot, Samples.bytes("M07-W.jpg"));
    apart(
        "same",
        archive -> {
          new MarkerStore(archive).create("9", "Ada");
          new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shot), Set.of());
        },
        archive -> {
          new MarkerStore(archive).create("09", "Ben");
          new Ingest(archive, Credits.NONE, "Ben", new NoListener()).run(List.of(shot), Set.of());
          PhotoStore photos = new PhotoStore(archive);
          Photograph taken = photos.named("M07-W.jpg", "").get(0);
          photos.assign(taken.id(), front(archive, "2").id(), Optional.empty(), "person", "Ben");
        });

    mergeBoth("same");

    try (Archive archive = open("samea")) {
      assertThat(new MarkerStore(archive).markers())
          .extracting(Marker::number)
          .anyMatch(number -> number.matches("0?9 bis"));
      List<Photograph> taken = new PhotoStore(archive).named("M07-W.jpg", "");
      assertThat(taken).hasSize(1);
      assertThat(taken.get(0).face()).contains(front(archive, "2").id());
    }
  }

  @Test
  void whatSomebodyBuiltOnStaysThoughItWasTakenBackElsewhere() throws Exception {
    copy("begun", "begun-aside");
    try (Archive archive = open("begun-aside")) {
      new PhotoStore(archive).faceOf("1", "back", "Ada");
    }
    for (String side : List.of("a", "b")) {
      copy("begun-aside", "held" + side);
      try (Archive archive = open("held" + side)) {
        Face back = new PhotoStore(archive).faceOf("1", "back", "Ada");
        if (side.equals("a")) {
          archive.journal().undo(new PhotoStore(archive).madeBy(back.id()), "Ada");
        } else {
          new ReadingStore(archive)
              .sign(
                  back.id(),
                  Leiden.parse("ANN PELL"),
                  Basis.FROM_PHOTOGRAPHS,
                  Optional.empty(),
                  "Ben");
        }
      }
      copy("held" + side, "held" + side + "-before");
    }

    mergeBoth("held");

    try (Archive archive = open("helda")) {
      Face back =
          new PhotoStore(archive)
              .faces(new MarkerStore(archive).named("1").id()).stream()
                  .filter(face -> face.name().equals("back"))
                  .findFirst()
                  .orElseThrow();
      var signed = new ReadingStore(archive).versions(back.id()).get(0);
      // Once the reading is taken back nothing holds the face any more.
      archive.journal().undo(signed.decision(), "Ben");
      assertThat(new PhotoStore(archive).face(back.id())).isEmpty();
      assertThat(new Check(archive).run(Expected.originals(archive).keySet(), f -> {}).faults())
          .isEmpty();
    }
  }

  @Test
  void lettersReadElsewhereDontBringBackAReadingThatWasWithdrawn() throws Exception {
    apart(
        "gone",
        archive ->
            new Withdrawing(archive)
                .reading(
                    front(archive, "1"),
                    new Withdrawing.Terms("asked", Optional.empty(), true),
                    new NamedReader("Ada", Role.ARCHIVIST)),
        archive -> {
          for (int i = 0; i < 4; i++) {
            sign(archive, "1", "HANNAH WREN\nDIED 184" + i, "Ben");
          }
        });

    mergeBoth("gone");

    try (Archive archive = open("gonea")) {
      assertThat(new ReadingStore(archive).versions(front(archive, "1").id())).isEmpty();
    }
  }

  @Test
  void whatNobodyCouldSettleAfterwardsIsRefusedBeforeAnythingIsWritten() throws Exception {
    var ada = new NamedReader("Ada", Role.ARCHIVIST);
    apart(
        "cross",
        archive -> regroup(archive, "1", "2", ada),
        archive -> regroup(archive, "2", "1", ada));
    Map<String, List<String>> before = content("crossa");

    assertThatThrownBy(() -> merge("crossa", "crossb"))
        .hasMessageContaining("were each made part of the other; undo one of the two.");

    assertThat(content("crossa")).isEqualTo(before);
  }

  private static void regroup(Archive archive, String gone, String into, NamedReader by) {
    MarkerStore markers = new MarkerStore(archive);
    new Regrouping(archive).merge(markers.named(gone), markers.named(into), false, by);
  }

  @Test
  void aMergeThatFailsHalfwayLeavesTheArchiveAsItWas() throws Exception {
    apart(
        "half",
        archive -> sign(archive, "1", "JOB THORNE", "Ada"),
        archive -> sign(archive, "1", "ANN PELL", "Ben"));
    Map<String, List<String>> before = content("halfa");
    Joining failing =
        new Joining() {
          @Override
          public List<NewDecision> follows(Archive joined, Meeting meeting) {
            assertThat(joined.journal().lastCounter()).isGreaterThan(meeting.sides().size());
            throw new IllegalStateException("the machine dies here");
          }
        };

    try (Archive here = open("halfa");
        Archive there = Archive.openToLook(folder.resolve("halfb"), Projections.all())) {
      assertThatThrownBy(() -> Merging.of(here, there, List.of(failing), 0, file -> {}))
          .hasMessage("the machine dies here");
      assertThat(EditHistory.content(here)).isEqualTo(before);
    }
    assertThat(merge("halfa", "halfb").apart()).hasSize(1);
  }

  @Test
  void archivesBegunApartAndDecisionsThatWereTamperedWithAreRefused() throws Exception {
    copy("begun", "forgeda");
    copy("begun", "forgedb");
    try (Archive archive = open("forgedb")) {
      archive
          .ledger()
          .write(
              handle -> {
                handle.execute("DROP TRIGGER decision_is_never_changed");
                return handle.execute("UPDATE decision SET reader = 'Eve' WHERE counter = 3");
              });
    }
    assertThatThrownBy(() -> merge("forgeda", "forgedb")).hasMessageContaining("tampered with");
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    Archive.init(folder.resolve("another"), ground, Projections.all()).close();
    assertThatThrownBy(() -> merge("forgeda", "another")).hasMessageContaining("another archive");
  }
}
