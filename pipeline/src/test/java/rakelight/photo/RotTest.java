package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Check;
import rakelight.archive.Decision;
import rakelight.archive.Derivation;
import rakelight.archive.Ground;
import rakelight.archive.NamedFiles;
import rakelight.archive.Projection;
import rakelight.archive.Sha256;
import rakelight.marker.MarkerStore;
import rakelight.picture.SmallerPicture;

/**
 * One byte of an archive changed by chance, again and again; {@code -Drakelight.rot=1000} for more
 * of them. What is found must be named. A byte of the ledger in which nothing is kept (free pages,
 * the slack of a page) may pass, if the journal and all state read as before.
 */
class RotTest {
  private static final int CHANGES = Integer.getInteger("rakelight.rot", 60);

  /** So that the ledger isn't mostly pages with nothing in them. */
  private static final int DECISIONS = Integer.getInteger("rakelight.rot.decisions", 20);

  private static final List<String> PLACES = List.of("originals", "ledger.sqlite", "derived");
  private static final List<Projection> PROJECTIONS =
      List.of(MarkerStore.projection(), PhotoStore.projection());

  @TempDir Path folder;
  private Path root;
  private Path shots;

  @BeforeEach
  void places() throws IOException {
    root = folder.resolve("archive");
    shots = Files.createDirectories(folder.resolve("shots"));
  }

  @Test
  void noChangedBytePassesAsSuccessAndEveryOneIsNamedAndMended() throws Exception {
    fill();
    Map<Path, byte[]> whole = files();
    State before = read().orElseThrow();
    long seed = System.nanoTime();
    Random random = new Random(seed);
    Map<String, Integer> told = new TreeMap<>();
    for (int i = 0; i < CHANGES; i++) {
      Path place = root.resolve(PLACES.get(random.nextInt(PLACES.size())));
      List<Path> there = whole.keySet().stream().filter(one -> one.startsWith(place)).toList();
      Path file = there.get(random.nextInt(there.size()));
      byte[] bytes = bytesOf(whole, file).clone();
      int at = random.nextInt(bytes.length);
      bytes[at] ^= (byte) (1 + random.nextInt(255));
      write(file, bytes);
      String what = "byte " + at + " of " + file + ", seed " + seed;

      List<String> named = check();

      String kind = root.relativize(file).getName(0).toString();
      if (named.isEmpty()) {
        assertThat(kind).as(what).isEqualTo("ledger.sqlite");
        assertThat(read()).as(what).contains(before);
        kind += ", nothing kept there";
      } else if (!kind.equals("ledger.sqlite")) {
        String stem = file.getFileName().toString().substring(0, 64);
        assertThat(named).as(what).anyMatch(line -> line.contains(stem));
      }
      told.merge(kind, 1, Integer::sum);
      mend(file, whole);
      assertThat(check()).as("mended: " + what).isEmpty();
      put(whole);
    }
    System.out.println("RotTest " + told + ", seed " + seed);
  }

  private static byte[] bytesOf(Map<Path, byte[]> whole, Path file) {
    return Optional.ofNullable(whole.get(file)).orElseThrow();
  }

  private void fill() throws IOException {
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive = Archive.init(root, ground, PROJECTIONS)) {
      for (int i = 1; i <= 3; i++) {
        Files.write(shots.resolve(i + ".jpg"), Shots.jpeg(i));
      }
      ingest(archive);
      PhotoStore store = new PhotoStore(archive);
      for (Photograph photograph : store.photographs()) {
        store.assign(
            photograph.id(),
            store.faceOf("M1", "front", "Ada Fenn").id(),
            Optional.empty(),
            "person",
            "Ada Fenn");
        archive.derived().keep(smaller(photograph));
      }
      Face face = store.faceOf("M1", "front", "Ada Fenn");
      for (int i = 0; i < DECISIONS; i++) {
        store.describeFace(face.id(), Optional.of(i % 360.0), "Ada Fenn");
      }
    }
  }

  /** Stands for any result of several files. */
  private static Derivation smaller(Photograph photograph) {
    return Derivation.of(
        SmallerPicture.KIND,
        new SmallerPicture.Input(photograph.source(), 800),
        NamedFiles.of(Map.of(SmallerPicture.JPEG, Shots.jpeg(9))));
  }

  private void ingest(Archive archive) {
    new Ingest(archive, Credits.NONE, "Ada Fenn", new NoListener()).run(List.of(shots), Set.of());
  }

  private Map<Path, byte[]> files() throws IOException {
    Map<Path, byte[]> files = new TreeMap<>();
    try (Stream<Path> all = Files.walk(root)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        if (PLACES.stream().anyMatch(place -> file.startsWith(root.resolve(place)))) {
          files.put(file, Files.readAllBytes(file));
        }
      }
    }
    return files;
  }

  /** What the check names; a ledger that can't be opened is named by the refusal. */
  private List<String> check() {
    try (Archive archive = Archive.open(root, PROJECTIONS)) {
      List<Path> originals =
          new PhotoStore(archive)
              .photographs().stream()
                  .map(p -> archive.originals().path(p.sha256(), p.format().extension()))
                  .toList();
      return new Check(archive)
          .run(originals, file -> {}).faults().stream()
              .map(fault -> fault.where() + ": " + fault.text())
              .toList();
    } catch (ArchiveException | IllegalArgumentException | DateTimeException e) {
      return List.of(String.valueOf(e.getMessage()));
    }
  }

  /** Originals by ingesting again, what was derived by dropping it, the ledger from its copy. */
  private void mend(Path file, Map<Path, byte[]> whole) throws IOException {
    if (file.startsWith(root.resolve("originals"))) {
      try (Archive archive = Archive.open(root, PROJECTIONS)) {
        ingest(archive);
      }
      assertThat(Sha256.of(file)).isEqualTo(Sha256.of(bytesOf(whole, file)));
    } else if (file.startsWith(root.resolve("derived"))) {
      try (Archive archive = Archive.open(root, PROJECTIONS)) {
        assertThat(archive.derived().dropChanged()).isEqualTo(1);
      }
    } else {
      put(whole);
    }
  }

  private void put(Map<Path, byte[]> whole) throws IOException {
    for (Map.Entry<Path, byte[]> file : whole.entrySet()) {
      write(file.getKey(), file.getValue());
    }
  }

  private void write(Path file, byte[] bytes) throws IOException {
    Files.createDirectories(file.resolveSibling("."));
    Files.deleteIfExists(file);
    for (String ending : List.of("-wal", "-shm")) {
      Files.deleteIfExists(file.resolveSibling(file.getFileName() + ending));
    }
    Files.write(file, bytes);
  }

  private record State(List<Decision> decisions, List<Photograph> photographs) {}

  private Optional<State> read() {
    try (Archive archive = Archive.open(root, PROJECTIONS)) {
      return Optional.of(
          new State(
              new ArrayList<>(archive.journal().since(0)), new PhotoStore(archive).photographs()));
    } catch (ArchiveException e) {
      return Optional.empty();
    }
  }
}
