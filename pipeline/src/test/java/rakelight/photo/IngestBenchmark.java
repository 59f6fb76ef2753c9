package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;

/**
 * Ingest of 300 photographs of 3.9 MB beside plain copy + flush + rename of the same folder, in
 * turns. Not run with the tests; see docs/measurements.md.
 */
class IngestBenchmark {
  private static final int PHOTOGRAPHS = 300;
  private static final int SIZE_BYTES = 3_900_000;
  private static final int ROUNDS = 5;

  @TempDir Path folder;

  @Test
  void ingestBesideCopyFlushRename() throws IOException {
    Path shots = Files.createDirectories(folder.resolve("shots"));
    byte[] small = Shots.encoded(Shots.noise(1600, 1200, 1), "jpeg");
    Random random = new Random(1);
    for (int i = 0; i < PHOTOGRAPHS; i++) {
      Files.write(shots.resolve("shot" + i + ".jpg"), padded(small, random));
    }
    List<Double> copies = new ArrayList<>();
    List<Double> ingests = new ArrayList<>();
    for (int round = 0; round <= ROUNDS; round++) {
      double copy = seconds(() -> copyAll(shots, folder.resolve("copy")));
      long before = processorNanos();
      double ingest = seconds(() -> ingest(shots, folder.resolve("archive")));
      remove(folder.resolve("copy"));
      remove(folder.resolve("archive"));
      System.out.printf(
          Locale.ROOT,
          "round %d: copy %.2f s, ingest %.2f s, of which processor %.2f s%n",
          round,
          copy,
          ingest,
          (processorNanos() - before) / 1e9);
      if (round > 0) {
        copies.add(copy);
        ingests.add(ingest);
      }
    }
    double ratio = median(ingests) / median(copies);
    System.out.printf(
        Locale.ROOT,
        "medians of %d: copy + flush + rename %.2f s, ingest %.2f s, ratio %.2f%n",
        ROUNDS,
        median(copies),
        median(ingests),
        ratio);
    assertThat(ratio).isLessThan(3);
  }

  /** Fills up with what looks like coded picture data: no end marker can occur in it. */
  private static byte[] padded(byte[] jpeg, Random random) {
    byte[] padding = new byte[SIZE_BYTES - jpeg.length];
    random.nextBytes(padding);
    for (int i = 0; i < padding.length; i++) {
      if (padding[i] == (byte) 0xFF) {
        padding[i] = 0;
      }
    }
    byte[] end = {(byte) 0xFF, (byte) 0xD9};
    return Shots.concat(java.util.Arrays.copyOf(jpeg, jpeg.length - 2), padding, end);
  }

  private static void copyAll(Path from, Path to) throws IOException {
    Files.createDirectories(to);
    byte[] chunk = new byte[1 << 20];
    try (Stream<Path> files = Files.list(from)) {
      for (Path file : files.sorted().toList()) {
        Path temporary = to.resolve("part");
        try (FileChannel in = FileChannel.open(file);
            FileChannel out =
                FileChannel.open(temporary, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
          ByteBuffer buffer = ByteBuffer.wrap(chunk);
          while (in.read(buffer) >= 0) {
            buffer.flip();
            while (buffer.hasRemaining()) {
              out.write(buffer);
            }
            buffer.clear();
          }
          out.force(true);
        }
        Files.move(temporary, to.resolve(file.getFileName()), StandardCopyOption.ATOMIC_MOVE);
      }
    }
  }

  private static void ingest(Path shots, Path root) {
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive =
        Archive.init(root, ground, List.of(MarkerStore.projection(), PhotoStore.projection()))) {
      IngestReport report =
          new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
      assertThat(report.taken()).isEqualTo(PHOTOGRAPHS);
    }
  }

  private static long processorNanos() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }

  private interface Work {
    void run() throws IOException;
  }

  private static double seconds(Work work) throws IOException {
    long start = System.nanoTime();
    work.run();
    return (System.nanoTime() - start) / 1e9;
  }

  private static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    return sorted.get(sorted.size() / 2);
  }

  private static void remove(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
