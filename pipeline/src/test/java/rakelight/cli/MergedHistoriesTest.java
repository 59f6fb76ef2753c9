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
import rakelight.archive.Merging;
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
        assertThatThrownBy(() -> merge(b, a))
            .hasMessageStartingWith("Nothing was merged.");
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
        assertThat(new Check(archive).run(Expected.originals(archive).keySet(), file -> {}).faults())
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
}
