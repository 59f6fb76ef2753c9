package rakelight.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.archive.Ground;
import rakelight.archive.TakeIn;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.FileFormat;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.IngestListener;
import rakelight.photo.Manifest;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.RefusedFile;
import rakelight.reading.MachineReader;
import rakelight.reading.MergeFace;
import rakelight.reading.ProposalStore;
import rakelight.reading.Proposer;
import rakelight.reading.ReadPhotograph;
import rakelight.samples.Main;

/**
 * The same rendered photographs, three raking sets among them, read by a single machine and by
 * Spark. How many of them: {@code -Drakelight.photographs=60}; times are printed.
 */
class StagesJobTest {
  private static final int SETS = 3;
  private static final int LIGHTS = 4;
  private static final int PHOTOGRAPHS = Integer.getInteger("rakelight.photographs", 18);

  @TempDir static Path folder;
  private static Path season;
  private static Path manifest;
  private static Archive local;
  private static double localSeconds;

  @BeforeAll
  static void readByOneMachine() throws IOException {
    season = folder.resolve("season");
    render(season.resolve("sets"), SETS, LIGHTS, 7101);
    render(season.resolve("single"), PHOTOGRAPHS - SETS * LIGHTS, 1, 7201);
    manifest = season.resolve("manifest.csv");
    StringBuilder rows = new StringBuilder();
    for (String part : List.of("sets", "single")) {
      List<String> lines = Files.readAllLines(season.resolve(part).resolve("manifest.csv"));
      if (rows.length() == 0) {
        rows.append(lines.get(0)).append('\n');
      }
      lines.stream().skip(1).forEach(l -> rows.append(part).append('/').append(l).append('\n'));
      for (String table : List.of("manifest.csv", "truth.tsv", "boxes.tsv")) {
        Files.delete(season.resolve(part).resolve(table));
      }
    }
    Files.writeString(manifest, rows);
    Files.writeString(
        season.resolve("single").resolve("cut-short.jpg"),
        "\u00ff\u00d8\u00ff",
        StandardCharsets.ISO_8859_1);
    local = archive("local");
    long start = System.nanoTime();
    propose(local);
    localSeconds = seconds(start);
  }

  @AfterAll
  static void close() {
    local.close();
  }

  private static void render(Path to, int count, int lights, int seed) throws IOException {
    Main.main(
        new String[] {
          "render", to.toString(), "--count", Integer.toString(count),
          "--lights", Integer.toString(lights), "--seed", Integer.toString(seed),
          "--width", "1200", "--wear", "fresh,light"
        });
  }

  /** The season ingested and sorted. */
  private static Archive archive(String name) {
    Archive archive =
        Archive.init(
            folder.resolve(name),
            new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London")),
            List.of(MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection()));
    new Ingest(archive, Credits.NONE, "Ada", new Deaf()).run(List.of(season), Set.of(manifest));
    new Grouping(archive, "Ada", line -> {}).byManifest(Manifest.read(manifest));
    return archive;
  }

  private static Proposer.Report propose(Archive archive) {
    try (MachineReader reader = MachineReader.standard()) {
      return new Proposer(archive, reader).run(2, (done, all, photograph) -> {});
    }
  }

  private static JavaSparkContext spark(String master) {
    return new JavaSparkContext(
        new SparkConf()
            .setMaster(master)
            .setAppName("stages")
            .set("spark.ui.enabled", "false")
            .set("spark.driver.host", "127.0.0.1")
            .set("spark.driver.bindAddress", "127.0.0.1")
            .set("spark.executor.memory", "1g")
            .set(
                "spark.executor.extraClassPath",
                System.getProperty(
                    "surefire.test.class.path", System.getProperty("java.class.path"))));
  }

  /** Readings and proposals by their place under a folder, as they lie on disk. */
  private static Map<String, String> documents(Path derived) throws IOException {
    Map<String, String> documents = new TreeMap<>();
    for (String stage : List.of(ReadPhotograph.KIND.name(), MergeFace.KIND.name())) {
      try (Stream<Path> files = Files.walk(derived.resolve(stage))) {
        for (Path file : files.filter(f -> f.toString().endsWith(".json")).toList()) {
          documents.put(derived.relativize(file).toString(), Files.readString(file));
        }
      }
    }
    return documents;
  }

  @Test
  void sparkReadsWhatOneMachineReadsLetterByLetterWithTheSameOdds() throws IOException {
    Path to = folder.resolve("spark");
    List<Row> rows;
    double first;
    double again;
    try (JavaSparkContext spark = spark("local[2]")) {
      long start = System.nanoTime();
      rows = StagesJob.run(spark, season.toString(), Optional.of(manifest), to.toString());
      first = seconds(start);
      start = System.nanoTime();
      List<Row> second =
          StagesJob.run(spark, season.toString(), Optional.of(manifest), to.toString());
      again = seconds(start);
      assertThat(second.stream().filter(row -> !row.step().equals(StagesJob.DESCRIBE)))
          .as("a job started anew makes nothing again")
          .allSatisfy(row -> assertThat(row.outcome()).isEqualTo(Row.Outcome.THERE_BEFORE));
    }
    assertThat(documents(to)).isEqualTo(documents(local.root().resolve("derived")));
    assertThat(rows.stream().filter(row -> row.step().equals(ReadPhotograph.KIND.name())))
        .hasSize(PHOTOGRAPHS);
    System.out.printf(
        Locale.ROOT,
        "%d photographs: one machine, two workers %.1f s; Spark local[2] %.1f s (%.2f); again %.1f s%n",
        PHOTOGRAPHS,
        localSeconds,
        first,
        first / localSeconds,
        again);

    try (Archive other = archive("other")) {
      TakeIn.Report taken = TakeIn.of(other, to, List.of(ReadPhotograph.KIND, MergeFace.KIND));
      assertThat(taken.refused()).isEmpty();
      Proposer.Report report = propose(other);
      assertThat(report.read()).isZero();
      assertThat(report.made()).isZero();
      assertThat(words(other)).isEqualTo(words(local)).isNotEmpty();
    }
  }

  @Test
  void aFileThatIsNoPhotographIsARowWithItsReasonAndTheJobGoesOn() throws IOException {
    try (JavaSparkContext spark = spark("local[2]")) {
      Path two = Files.createDirectories(folder.resolve("two"));
      Files.copy(season.resolve("single").resolve("cut-short.jpg"), two.resolve("cut-short.jpg"));
      Files.writeString(two.resolve("letter.txt"), "Dear Sir");
      List<Row> rows =
          StagesJob.run(spark, two.toString(), Optional.empty(), folder.resolve("none").toString());
      assertThat(rows)
          .hasSize(2)
          .allSatisfy(row -> assertThat(row.outcome()).isEqualTo(Row.Outcome.FAILED))
          .anySatisfy(row -> assertThat(row.reason()).contains("damaged"))
          .anySatisfy(row -> assertThat(row.reason()).contains("not a photograph"));
    }
  }

  @Test
  void anExecutorKilledMidwayLosesNothing() throws Exception {
    Path to = folder.resolve("killed");
    AtomicReference<ProcessHandle> killed = new AtomicReference<>();
    try (JavaSparkContext spark = spark("local-cluster[2,1,1024]")) {
      Thread killer = new Thread(() -> killAfterSomeReadings(to, killed));
      killer.start();
      StagesJob.run(spark, season.toString(), Optional.of(manifest), to.toString());
      killer.join();
    }
    assertThat(killed.get()).as("an executor was killed while it read").isNotNull();
    assertThat(documents(to)).isEqualTo(documents(local.root().resolve("derived")));
  }

  private static void killAfterSomeReadings(Path to, AtomicReference<ProcessHandle> killed) {
    long deadline = System.nanoTime() + 600_000_000_000L;
    while (killed.get() == null && System.nanoTime() < deadline) {
      if (readings(to) >= 3) {
        // This program starts no other Java than the executors; their command lines are too long
        // to be told.
        ProcessHandle.current()
            .descendants()
            .filter(p -> p.info().command().orElse("").endsWith("java"))
            .findFirst()
            .filter(ProcessHandle::destroyForcibly)
            .ifPresent(killed::set);
      }
      try {
        Thread.sleep(50);
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  private static long readings(Path to) {
    Path folder = to.resolve(ReadPhotograph.KIND.name());
    if (!Files.isDirectory(folder)) {
      return 0;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".input.json")).count();
    } catch (IOException | UncheckedIOException e) {
      return 0; // Something was renamed while it was looked at.
    }
  }

  /** Every line of every proposal, by the original of the photograph that leads. */
  private static Map<String, List<String>> words(Archive archive) {
    PhotoStore photos = new PhotoStore(archive);
    Map<String, List<String>> words = new TreeMap<>();
    for (var proposal : Proposer.newest(archive)) {
      Photograph leading = photos.photograph(proposal.photographs().get(0)).orElseThrow();
      words.put(
          leading.sha256().hex(), proposal.lines().stream().map(line -> line.text()).toList());
    }
    return words;
  }

  private static double seconds(long start) {
    return (System.nanoTime() - start) / 1e9;
  }

  private static final class Deaf implements IngestListener {
    @Override
    public void found(int files, long sizeBytes) {}

    @Override
    public void read(long sizeBytes) {}

    @Override
    public void withoutPicture(String path, FileFormat format) {}

    @Override
    public void duplicate(String path, String sameAs) {}

    @Override
    public void mended(String path, String photograph) {}

    @Override
    public void withdrawn(String path, DecisionId by) {}

    @Override
    public void refused(RefusedFile refusal) {}
  }
}
