package rakelight.survey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.Manifest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.MachineReader;
import rakelight.reading.ProposalStore;
import rakelight.reading.Proposer;
import rakelight.samples.TwoSeasons;

/**
 * How often likeness alone finds the marker of a photograph of the next season. {@code
 * -Dlikeness.folder} keeps the photographs, {@code -Dlikeness.read=true} has the machine read all
 * of them before.
 */
class LikenessBenchmark {
  @TempDir Path scratch;

  @Test
  void theMarkerOfAPhotographOfTheNextSeason() throws IOException {
    Path folder = Path.of(System.getProperty("likeness.folder", scratch.toString()));
    boolean read = Boolean.getBoolean("likeness.read");
    Path shots = folder.resolve("shots");
    if (!Files.exists(shots)) {
      new TwoSeasons(
              Integer.getInteger("likeness.count", 100),
              Integer.getInteger("likeness.strangers", 20),
              Long.getLong("likeness.seed", 91_000),
              Integer.getInteger("likeness.width", 640),
              System.getProperty("likeness.kind", "usual"))
          .writeTo(shots);
    }
    Path root = folder.resolve(read ? "archive-read" : "archive");
    boolean isNew = !Files.exists(root);
    try (Archive archive = open(root)) {
      if (isNew) {
        new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
        Consumer<String> say = System.out::println;
        new Grouping(archive, "Ada", say).byManifest(Manifest.read(shots.resolve("first.csv")));
      }
      if (read) {
        try (MachineReader reader = MachineReader.standard()) {
          new Proposer(archive, reader).run(1, (done, all, photograph) -> {});
        }
      }
      measure(archive);
    }
  }

  private static Archive open(Path root) throws IOException {
    var projections =
        List.of(MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection());
    return Files.exists(root)
        ? Archive.open(root, projections)
        : Archive.init(
            root, new Ground("Tarrow", 44, -50, ZoneId.of("America/Halifax")), projections);
  }

  private static void measure(Archive archive) {
    long began = System.nanoTime();
    StoneLikeness likeness = new StoneLikeness(archive);
    likeness.look(1, (done, all) -> {});
    long looked = System.nanoTime();
    List<Photograph> photographs = new PhotoStore(archive).photographs();
    Map<FaceId, String> markers = new HashMap<>();
    photographs.forEach(shot -> shot.face().ifPresent(face -> markers.put(face, stone(shot))));
    Offers offers = new Offers(archive, photographs, likeness);
    int known = 0;
    int first = 0;
    int five = 0;
    int sureRight = 0;
    int asked = 0;
    List<String> sureWrong = new ArrayList<>();
    for (Photograph shot : photographs) {
      if (shot.face().isPresent()) {
        continue;
      }
      asked++;
      String stone = stone(shot);
      List<Offer> all = offers.of(shot);
      List<String> ranked = all.stream().map(offer -> markers.get(offer.face())).toList();
      boolean isKnown = markers.containsValue(stone);
      known += isKnown ? 1 : 0;
      first += ranked.indexOf(stone) == 0 ? 1 : 0;
      five += ranked.contains(stone) ? 1 : 0;
      Optional<Offer> sure = all.stream().findFirst().filter(Offer::sure);
      if (sure.isPresent() && ranked.get(0).equals(stone)) {
        sureRight++;
      } else if (sure.isPresent()) {
        sureWrong.add(stone + " for " + ranked.get(0) + ": " + sure.get().why());
      }
      if (isKnown && ranked.indexOf(stone) != 0 || Boolean.getBoolean("likeness.all")) {
        System.out.println(stone + " -> " + describe(all, markers));
      }
    }
    long done = System.nanoTime();
    System.out.printf(
        Locale.ROOT,
        "%d photographs asked, %d of stones that are here: first %d, among those offered %d;"
            + " sure and right %d, doubtful %d, sure and wrong %d%n",
        asked,
        known,
        first,
        five,
        sureRight,
        asked - sureRight - sureWrong.size(),
        sureWrong.size());
    sureWrong.forEach(System.out::println);
    System.out.printf(
        Locale.ROOT,
        "%.0f ms a photograph to look at, %.0f ms to compare%n",
        (looked - began) / 1e6 / photographs.size(),
        (done - looked) / 1e6 / asked);
  }

  private static String describe(List<Offer> offers, Map<FaceId, String> markers) {
    return offers.stream()
        .map(offer -> markers.get(offer.face()) + " (" + offer.why() + ")")
        .toList()
        .toString();
  }

  private static String stone(Photograph shot) {
    return shot.originalName().replaceAll("\\..*", "");
  }
}
