package rakelight.photo;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Ground;
import rakelight.archive.Sha256;
import rakelight.marker.MarkerStore;
import rakelight.samples.Samples;

/**
 * Kills ingests without warning and looks at what they leave. {@code -Drakelight.kills=20} kills so
 * often.
 */
@Tag("long")
class IngestKillTest {
  private static final int PHOTOGRAPHS = 250;
  private static final int KILLS_EACH = 4;
  private static final int ARCHIVES =
      Math.max(1, Integer.getInteger("rakelight.kills", 8) / KILLS_EACH);

  @TempDir Path folder;

  /** The process that is killed: says a letter for each file it has read. */
  static final class Victim {
    public static void main(String[] folders) {
      try (Archive archive =
          Archive.open(
              Path.of(folders[0]), List.of(MarkerStore.projection(), PhotoStore.projection()))) {
        IngestListener letters =
            new NoListener() {
              @Override
              public void read(long sizeBytes) {
                System.out.print('.');
                System.out.flush();
              }
            };
        new Ingest(archive, Credits.NONE, "Ada", letters)
            .run(List.of(Path.of(folders[1])), Set.of());
      }
    }
  }

  @Test
  void killedIngestsLoseNothingAndKeepNothingTwice() throws Exception {
    long seed = System.nanoTime();
    System.out.println("IngestKillTest seed " + seed);
    Random random = new Random(seed);
    Path shots = Files.createDirectories(folder.resolve("shots"));
    Set<Sha256> expected = photographs(shots);
    for (int i = 0; i < ARCHIVES; i++) {
      Path root = folder.resolve("archive" + i);
      Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
      Archive.init(root, ground, List.of(MarkerStore.projection(), PhotoStore.projection()))
          .close();
      for (int kill = 0; kill < KILLS_EACH; kill++) {
        killAfter(1 + random.nextInt(PHOTOGRAPHS), root, shots);
        everyRowHasItsOriginal(root, seed);
      }
      try (Archive archive =
          Archive.open(root, List.of(MarkerStore.projection(), PhotoStore.projection()))) {
        new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
        PhotoStore store = new PhotoStore(archive);

        assertThat(store.photographs()).as("seed %d", seed).hasSize(PHOTOGRAPHS);
        assertThat(store.photographs().stream().map(Photograph::sha256))
            .containsExactlyInAnyOrderElementsOf(expected);
        assertThat(store.refusals()).isEmpty();
        assertThat(check(archive).faults()).as("seed %d", seed).isEmpty();
        assertThat(files(root.resolve("originals"))).hasSize(PHOTOGRAPHS);
        assertThat(root.resolve("originals/incoming")).isEmptyDirectory();
      }
    }
  }

  private static void killAfter(int filesRead, Path root, Path shots)
      throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName(),
                root.toString(),
                shots.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    try (BufferedReader said =
        new BufferedReader(new InputStreamReader(process.getInputStream(), UTF_8))) {
      int read = 0;
      while (read < filesRead && said.read() >= 0) {
        read++;
      }
      process.destroyForcibly().waitFor();
      assertThat(read).as("files read before the kill").isEqualTo(filesRead);
    }
  }

  private static void everyRowHasItsOriginal(Path root, long seed) throws IOException {
    try (Archive archive =
        Archive.open(root, List.of(MarkerStore.projection(), PhotoStore.projection()))) {
      for (Photograph photograph : new PhotoStore(archive).photographs()) {
        Path original =
            archive.originals().path(photograph.sha256(), photograph.format().extension());
        assertThat(Sha256.of(original)).as("seed %d", seed).isEqualTo(photograph.sha256());
      }
    }
  }

  private static Check.Result check(Archive archive) {
    List<Path> originals =
        new PhotoStore(archive)
            .photographs().stream()
                .map(p -> archive.originals().path(p.sha256(), p.format().extension()))
                .toList();
    return new Check(archive).run(originals, original -> {});
  }

  /** A rendered photograph, made small, 500 times over with a comment of its own. */
  private static Set<Sha256> photographs(Path shots) throws IOException {
    BufferedImage large =
        ImageIO.read(new ByteArrayInputStream(Samples.bytes(Samples.committedFiles().get(0))));
    BufferedImage small = new BufferedImage(240, 180, BufferedImage.TYPE_3BYTE_BGR);
    small.createGraphics().drawImage(large, 0, 0, 240, 180, null);
    byte[] jpeg = Shots.encoded(small, "jpeg");
    Set<Sha256> digests = new TreeSet<>((a, b) -> a.hex().compareTo(b.hex()));
    for (int i = 0; i < PHOTOGRAPHS; i++) {
      byte[] shot = Shots.withComment(jpeg, "shot " + i);
      Path file = shots.resolve("row " + i / 100 + "/shot " + i + ".jpg");
      Files.createDirectories(file.resolveSibling("."));
      Files.write(file, shot);
      digests.add(Sha256.of(shot));
    }
    return digests;
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return new ArrayList<>(files.filter(Files::isRegularFile).toList());
    }
  }
}
