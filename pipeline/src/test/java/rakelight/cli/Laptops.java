package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.Merging;
import rakelight.archive.PhotographId;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;

/**
 * Archives on laptops that are merged, each into the other. {@code -Drakelight.pairs=40} has forty
 * pairs of each habit, {@code -Drakelight.seed} others.
 */
final class Laptops {
  static final int PAIRS = Integer.getInteger("rakelight.pairs", 3);
  static final long SEED = Long.getLong("rakelight.seed", 20261201);

  private final Path folder;
  private final Merging.How how;

  Laptops(Path folder, Merging.How how) {
    this.folder = folder;
    this.how = how;
  }

  Path copy(String from, String to) throws IOException {
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

  Archive open(String name) {
    return Archive.open(folder.resolve(name), Projections.all());
  }

  Merging.Result merge(String into, String from) {
    try (Archive here = open(into);
        Archive there = Archive.openToLook(folder.resolve(from), Projections.all())) {
      return Merging.of(here, there, how, file -> {});
    }
  }

  Map<String, List<String>> content(String name) {
    try (Archive archive = open(name)) {
      return EditHistory.content(archive);
    }
  }

  interface Habit {
    void act(Archive archive, Random random, int steps);
  }

  /** Counts what came of pairs. */
  static final class Tally {
    int pairs;
    int apart;
    int follows;
    int decisions;

    @Override
    public String toString() {
      return pairs
          + " pairs, "
          + decisions
          + " decisions, "
          + apart
          + " apart, "
          + follows
          + " follow";
    }
  }

  /** Pairs of histories on copies of two archives; both may be the same. */
  Tally pairs(Habit habit, String name, String ofOne, String ofOther, long seed)
      throws IOException {
    // Archives begun apart are compared whole, which takes longer.
    int pairs = ofOne.equals(ofOther) || PAIRS > 3 ? PAIRS : 1;
    Tally tally = new Tally();
    for (int pair = 0; pair < pairs; pair++) {
      Random random = new Random(seed + pair);
      String a = name + pair + "a";
      String b = name + pair + "b";
      copy(ofOne, a);
      copy(ofOther, b);
      for (String one : List.of(a, b)) {
        try (Archive archive = open(one)) {
          habit.act(archive, random, 5 + random.nextInt(16));
        }
      }
      copy(a, a + "-before");
      copy(b, b + "-before");
      tally.pairs++;
      Merging.Result merged = merge(a, b);
      tally.apart += merged.apart().size();
      tally.follows += merged.follows();
      tally.decisions += merged.decisions();
      merge(b, a + "-before");
      Map<String, List<String>> ofA = content(a);
      assertThat(content(b)).as("seed %s", seed + pair).isEqualTo(ofA);
      for (String before : List.of(a + "-before", b + "-before")) {
        assertThat(lost(a, before)).as("seed %s", seed + pair).isEmpty();
      }
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

  Merging.Result mergeBoth(String name) {
    Merging.Result merged = merge(name + "a", name + "b-before");
    merge(name + "b", name + "a-before");
    assertThat(content(name + "b")).isEqualTo(content(name + "a"));
    return merged;
  }

  /**
   * What was there before a merge and isn't any more, though nobody withdrew it or took it back:
   * decisions, markers, faces, photographs, readings.
   */
  List<String> lost(String merged, String before) {
    try (Archive was = open(before);
        Archive is = open(merged)) {
      List<String> lost = new ArrayList<>();
      was.journal().since(0).stream()
          .filter(decision -> is.journal().find(decision.id()).isEmpty())
          .forEach(decision -> lost.add("decision " + decision.id()));
      PhotoStore photos = new PhotoStore(is);
      ReadingStore readings = new ReadingStore(is);
      Set<DecisionId> undone = is.journal().undone().keySet();
      for (Decision made : was.journal().since(0)) {
        UUID thing = is.journal().now(made.subject());
        boolean gone =
            undone.contains(made.id())
                || is.journal().find(made.id()).filter(is.withdrawals()::hides).isPresent();
        boolean found =
            switch (made.kind()) {
              case "marker.created" -> new MarkerStore(is).marker(new MarkerId(thing)).isPresent();
              case "face.created" -> photos.face(new FaceId(thing)).isPresent();
              case "photograph.ingested" ->
                  photos.photograph(new PhotographId(thing)).isPresent()
                      || content(merged)
                          .getOrDefault("photograph_double", List.of())
                          .toString()
                          .contains("" + thing);
              case "reading.signed" ->
                  readings.versions(new FaceId(thing)).stream()
                      .anyMatch(version -> version.decision().equals(made.id()));
              default -> true;
            };
        if (!gone && !found) {
          lost.add(made.kind() + " " + thing);
        }
      }
      return lost;
    }
  }

  interface Deed {
    void in(Archive archive) throws Exception;
  }

  /** Copies in which two people did different things, {@code a} and {@code b}, and once more. */
  void apart(String name, String ofOne, String ofOther, Deed one, Deed other) throws Exception {
    for (String side : List.of("a", "b")) {
      copy(side.equals("a") ? ofOne : ofOther, name + side);
      try (Archive archive = open(name + side)) {
        (side.equals("a") ? one : other).in(archive);
      }
      copy(name + side, name + side + "-before");
    }
  }
}
