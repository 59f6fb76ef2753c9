package rakelight.photo;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.archive.Derivation;
import rakelight.archive.DerivationKey;
import rakelight.archive.Ground;
import rakelight.archive.Incoming;
import rakelight.archive.NamedFiles;
import rakelight.archive.Sha256;
import rakelight.marker.MarkerStore;
import rakelight.picture.SmallerPicture;

class IngestTest {
  @TempDir Path folder;
  private final List<String> lines = new ArrayList<>();
  private Path shots;
  private Archive archive;
  private PhotoStore store;

  @BeforeEach
  void makeAnArchive() throws IOException {
    shots = Files.createDirectories(folder.resolve("Fotos vom März/Reihe 1"));
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    archive =
        Archive.init(
            folder.resolve("archive"),
            ground,
            List.of(MarkerStore.projection(), PhotoStore.projection()));
    store = new PhotoStore(archive);
  }

  @AfterEach
  void closeIt() {
    archive.close();
  }

  @Test
  void everyPhotographIsKeptByteForByteUnderItsDigest() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    write("deep/er/b.PNG", Shots.png(2));
    write("c.tif", Shots.tiff(3));
    write("d.webp", Shots.webp());
    write("e.dng", Shots.dng(Shots.encoded(Shots.noise(640, 480, 1), "jpeg")));
    write("f.heic", Shots.heic());

    IngestReport report = ingest();

    assertThat(report).isEqualTo(new IngestReport(6, 0, 0, 0, 1, 0, 0, 0));
    assertThat(store.photographs())
        .extracting(Photograph::originalName)
        .containsExactly("a.jpg", "c.tif", "d.webp", "b.PNG", "e.dng", "f.heic");
    for (Photograph photograph : store.photographs()) {
      Path original =
          archive.originals().path(photograph.sha256(), photograph.format().extension());
      assertThat(original).hasSameBinaryContentAs(Path.of(photograph.originalPath()));
      assertThat(Sha256.of(original)).isEqualTo(photograph.sha256());
    }
    assertThat(lines).containsExactly(shots.resolve("f.heic") + " has no picture");
  }

  @Test
  void theSameBytesAreStoredOnceHoweverOftenTheyAreMet() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    write("copy of a.jpg", Shots.jpeg(1));

    assertThat(ingest()).isEqualTo(new IngestReport(1, 0, 1, 0, 0, 0, 0, 0));
    assertThat(lines)
        .containsExactly(shots.resolve("copy of a.jpg") + " = " + shots.resolve("a.jpg"));

    write("later/a again.jpg", Shots.jpeg(1));
    assertThat(ingest()).isEqualTo(new IngestReport(0, 2, 1, 0, 0, 0, 0, 0));
    assertThat(store.photographs()).hasSize(1);
    assertThat(originals()).hasSize(1);
  }

  @Test
  void everyBadFileIsOneLineAndOneRowAndTheRunGoesOn() throws IOException {
    write("01 empty.jpg", new byte[0]);
    write("02 cut.jpg", Shots.cut(Shots.jpeg(1), 0.2));
    write("03 cut.png", Shots.cut(Shots.png(1), 0.6));
    write("04 cut.tif", Shots.cut(Shots.tiff(1), 0.6));
    write("05 cut.webp", Shots.cut(Shots.webp(), 0.6));
    write("06 letter.jpg", "Dear Sir,".getBytes(UTF_8));
    write("07 bomb.png", Shots.bomb());
    Files.createSymbolicLink(shots.resolve("08 loop"), shots);
    Files.createSymbolicLink(shots.resolve("09 nowhere.jpg"), shots.resolve("gone.jpg"));
    write("Thumbs.db", new byte[10]);
    write("good.jpg", Shots.jpeg(1));

    IngestReport report = ingest();

    assertThat(report).isEqualTo(new IngestReport(1, 0, 0, 9, 0, 0, 0, 1));
    assertThat(store.refusals())
        .extracting(RefusedFile::code)
        .containsExactly(
            "empty",
            "truncated",
            "truncated",
            "truncated",
            "truncated",
            "not-an-image",
            "too-large",
            "symlink-loop",
            "missing");
    assertThat(lines).hasSize(9).allMatch(line -> !line.contains("\n"));
    assertThat(originals()).hasSize(1);

    assertThat(ingest()).isEqualTo(new IngestReport(0, 1, 0, 9, 0, 0, 0, 1));
    assertThat(store.refusals()).hasSize(9);
    assertThat(archive.journal().lastCounter()).isEqualTo(11);
  }

  @Test
  void whatLiesBesidePhotographsIsPassedOverAndMovingPicturesAreNamedAsSuch() throws IOException {
    write("good.jpg", Shots.jpeg(1));
    write("good.xmp", "<x/>".getBytes(UTF_8));
    write("notes.txt", "row 3".getBytes(UTF_8));
    write("list.csv", "file,marker".getBytes(UTF_8));
    assertThat(ingest()).isEqualTo(new IngestReport(1, 0, 0, 0, 0, 0, 0, 3));

    write("moving.webp", Shots.movingWebp());
    assertThat(ingest().refused()).isEqualTo(1);
    assertThat(lines).hasSize(1).allMatch(line -> line.contains("moving pictures"));
  }

  @Test
  void aFileThatWasRefusedIsTakenOnceItIsWhole() throws IOException {
    write("a.jpg", Shots.cut(Shots.jpeg(1), 0.2));
    ingest();
    assertThat(store.refusals()).hasSize(1);

    write("a.jpg", Shots.jpeg(1));

    assertThat(ingest().taken()).isEqualTo(1);
    assertThat(store.refusals()).isEmpty();
  }

  @Test
  void anOriginalWithoutARowIsTakenUp() throws IOException {
    byte[] bytes = Shots.jpeg(1);
    write("a.jpg", bytes);
    try (Incoming died = archive.originals().receive()) {
      died.keep(Sha256.of(bytes), "jpg", bytes);
    }

    assertThat(ingest().taken()).isEqualTo(1);
    assertThat(originals()).hasSize(1);
  }

  @Test
  void aLostOriginalIsRestoredFromTheSameFile() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    ingest();
    Files.delete(originals().get(0));

    assertThat(ingest()).isEqualTo(new IngestReport(0, 1, 0, 0, 0, 1, 0, 0));
    assertThat(originals()).hasSize(1);
  }

  @Test
  void aDamagedOriginalIsMendedByTheSameFileAndWhatWasMadeOfItIsDropped() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    ingest();
    Path original = originals().get(0);
    byte[] rotten = Files.readAllBytes(original);
    rotten[rotten.length / 2] ^= 1;
    Files.delete(original);
    Files.write(original, rotten);
    Photograph photograph = store.photographs().get(0);
    DerivationKey made = madeOf(new SmallerPicture.Input(photograph.source(), 8));

    assertThat(ingest().mended()).isEqualTo(1);

    assertThat(lines).containsExactly("a.jpg mended by " + shots.resolve("a.jpg"));
    assertThat(Sha256.of(original)).isEqualTo(photograph.sha256());
    assertThat(archive.derived().has(SmallerPicture.KIND, made)).isFalse();
    assertThat(ingest().mended()).isZero();
  }

  /** A derivation of a damaged original, as a program that didn't look would have left it. */
  private DerivationKey madeOf(SmallerPicture.Input input) throws IOException {
    Derivation derivation =
        Derivation.of(
            SmallerPicture.KIND,
            input,
            NamedFiles.of(Map.of(SmallerPicture.JPEG, new byte[] {1, 2, 3})));
    archive.derived().keep(derivation);
    return derivation.key();
  }

  @Test
  void aFileTooLargeForMemoryTakesTheSameWay() throws IOException {
    byte[] large = Shots.concat(Shots.jpeg(1), new byte[65 << 20]);
    write("large.jpg", large);
    write("large and cut.jpg", Shots.concat(Shots.cut(Shots.jpeg(1), 0.2), new byte[65 << 20]));

    assertThat(ingest()).isEqualTo(new IngestReport(1, 0, 0, 1, 0, 0, 0, 0));
    assertThat(originals()).hasSize(1);
    assertThat(Sha256.of(originals().get(0))).isEqualTo(Sha256.of(large));
    assertThat(folder.resolve("archive/originals/incoming")).isEmptyDirectory();
  }

  @Test
  void theArchiveIsNotTakenIntoItself() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    ingest();

    IngestReport report =
        new Ingest(archive, Credits.NONE, "Ada", new Lines()).run(List.of(folder), Set.of());

    assertThat(report.taken()).isZero();
    assertThat(report.duplicates()).isZero();
  }

  @Test
  void photographerAndRightsAreNotedAtIngest() throws IOException {
    write("a.jpg", Shots.jpeg(1));
    Credits credits =
        new Credits(Optional.of("Ida Marsh"), Optional.empty(), Optional.of("CC BY 4.0"));
    new Ingest(archive, credits, "Ada", new Lines()).run(List.of(shots), Set.of());

    assertThat(store.photographs().get(0).photographer()).contains("Ida Marsh");
    assertThat(store.photographs().get(0).rights()).contains("CC BY 4.0");
  }

  private IngestReport ingest() {
    lines.clear();
    return new Ingest(archive, Credits.NONE, "Ada", new Lines()).run(List.of(shots), Set.of());
  }

  private void write(String name, byte[] bytes) throws IOException {
    Path file = shots.resolve(name);
    Files.createDirectories(file.resolveSibling("."));
    Files.write(file, bytes);
  }

  private List<Path> originals() throws IOException {
    try (Stream<Path> files = Files.walk(folder.resolve("archive/originals"))) {
      return files.filter(Files::isRegularFile).toList();
    }
  }

  private final class Lines implements IngestListener {
    @Override
    public void damaged(String path, String damage) {
      lines.add(path + ": " + damage);
    }

    @Override
    public void found(int files, long sizeBytes) {}

    @Override
    public void read(long sizeBytes) {}

    @Override
    public void withoutPicture(String path, FileFormat format, PictureKind picture) {
      lines.add(path + " has no picture");
    }

    @Override
    public void duplicate(String path, String sameAs) {
      lines.add(path + " = " + sameAs);
    }

    @Override
    public void mended(String path, String photograph) {
      lines.add(photograph + " mended by " + path);
    }

    @Override
    public void withdrawn(String path, DecisionId by) {
      lines.add(path + " withdrawn by " + by);
    }

    @Override
    public void refused(RefusedFile refusal) {
      lines.add(refusal.line());
    }
  }
}
