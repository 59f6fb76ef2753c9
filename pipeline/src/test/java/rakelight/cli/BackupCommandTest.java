package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Backup;

class BackupCommandTest {
  @TempDir Path folder;
  private Path archive;
  private Path copy;

  @BeforeEach
  void anArchiveWithAPhotograph() throws Exception {
    archive = folder.resolve("archive");
    copy = folder.resolve("copies").resolve("today");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    ingest("12", 60);
  }

  private void ingest(String marker, int width) throws Exception {
    Path season = folder.resolve("season-" + width);
    Path face = Files.createDirectories(season.resolve(marker));
    ImageIO.write(
        new BufferedImage(width, 40, BufferedImage.TYPE_INT_RGB),
        "png",
        face.resolve("stone.png").toFile());
    Ran ran = Ran.command("ingest", archive, season, "--reader", "Ada Penrose");
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  private Path restored(String... options) {
    Path again = folder.resolve("again-" + options.length);
    Object[] words = new Object[3 + options.length];
    words[0] = "restore";
    words[1] = copy;
    words[2] = again;
    System.arraycopy(options, 0, words, 3, options.length);
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("nothing wrong");
    return again;
  }

  private Path original(Path root) throws Exception {
    try (var files = Files.walk(root)) {
      return files.filter(file -> file.toString().endsWith(".png")).findFirst().orElseThrow();
    }
  }

  @Test
  void aBackupIsABagThatSaysThatItIsConfidentialAndGivesTheSameArchiveBack() {
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out())
        .contains("1 original (")
        .contains("1 of them new")
        .contains("nothing wrong")
        .contains("CONFIDENTIAL");
    assertThat(copy.resolve("CONFIDENTIAL.txt")).content().contains("may be living");
    assertThat(copy.resolve("bag-info.txt")).content().contains("burial ground Thornbeck");
    assertThat(copy.resolve("backup.lock")).doesNotExist();
    Ran looked = Ran.command("check", copy);
    assertThat(looked.code()).as(looked.out()).isZero();
    assertThat(looked.out()).contains("A backup of 1 original and").contains("nothing wrong.");
    Path again = restored();
    assertThat(Ran.command("check", again).code()).isZero();
    assertThat(Ran.command("decisions", again, "--json").out())
        .isEqualTo(Ran.command("decisions", archive, "--json").out());
  }

  @Test
  void aSecondBackupCopiesWhatIsNewAndKeepsTheLedgerBefore() throws Exception {
    try (Archive opened = Archive.open(archive, Projections.all())) {
      Backup.copy(opened, copy, Instant.parse("2026-11-01T08:30:00Z"), original -> {});
    }
    ingest("13", 70);
    Ran again = Ran.command("backup", archive, copy);
    assertThat(again.code()).as(again.err()).isZero();
    assertThat(again.out())
        .contains("2 originals (")
        .contains("1 of them new")
        .contains("Earlier ledgers kept: 2026-11-01T083000Z.");
    assertThat(Ran.command("markers", restored()).out()).contains("12").contains("13");
    Path before = folder.resolve("before");
    Ran restored = Ran.command("restore", copy, before, "--ledger", "2026-11-01T083000Z");
    // The second photograph is there, and no row of the earlier ledger speaks of it.
    assertThat(restored.code()).isEqualTo(1);
    assertThat(restored.err()).contains("no row speaks of this file");
    assertThat(Ran.command("markers", before).out()).contains("12").doesNotContain("13");
  }

  @Test
  void whatIsCopiedTwiceWithoutADecisionBetweenIsTheSame() throws Exception {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    String payload = Files.readString(copy.resolve("manifest-sha256.txt"));
    Ran again = Ran.command("backup", archive, copy);
    assertThat(again.code()).isZero();
    assertThat(again.out()).contains("0 of them new").doesNotContain("Earlier ledgers");
    assertThat(Files.readString(copy.resolve("manifest-sha256.txt"))).isEqualTo(payload);
  }

  @Test
  void aBackupIsNeverWrittenOverAnythingElseNorIntoTheArchive() throws Exception {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    Path other = folder.resolve("other");
    Ran.command("init", other, "--ground", "Fell Row", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran stranger = Ran.command("backup", other, copy);
    assertThat(stranger.code()).isEqualTo(1);
    assertThat(stranger.err()).contains("isn't a backup of this archive");
    Ran filled = Ran.command("backup", archive, folder.resolve("season-60"));
    assertThat(filled.code()).isEqualTo(1);
    assertThat(filled.err()).contains("isn't empty and isn't a backup");
    Ran within = Ran.command("backup", archive, archive.resolve("backup"));
    assertThat(within.code()).isEqualTo(1);
    assertThat(within.err()).contains("lies within the archive");
    assertThat(archive.resolve("backup")).doesNotExist();
  }

  @Test
  void aBackupIsNoArchiveToWorkIn() {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    Ran ran = Ran.command("markers", copy);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("a backup, not an archive").contains("`restore`");
    Ran none = Ran.command("restore", archive, folder.resolve("again"));
    assertThat(none.code()).isEqualTo(1);
    assertThat(none.err()).contains("not a backup");
  }

  @Test
  void aDamagedOriginalIsNamedAndNeverTakesTheSoundOnesPlace() throws Exception {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    Path original = original(archive);
    assertThat(original.toFile().setWritable(true)).isTrue();
    Files.writeString(original, "damaged");
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("its content isn't what its name says; not copied");
    Files.delete(original);
    Ran gone = Ran.command("backup", archive, copy);
    assertThat(gone.code()).isEqualTo(1);
    assertThat(gone.err()).contains("the backup keeps it");
    assertThat(Ran.command("check", restored()).code()).isZero();
  }

  @Test
  void aDamagedOriginalOfAFirstBackupIsNotCopied() throws Exception {
    Path original = original(archive);
    assertThat(original.toFile().setWritable(true)).isTrue();
    Files.writeString(original, "damaged");
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("not copied").contains("the original is gone");
    assertThat(copy.resolve("data").resolve(archive.relativize(original))).doesNotExist();
  }

  @Test
  void aRottenByteInABackupIsNamedAndTheRestComesBack() throws Exception {
    ingest("13", 70);
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    Path original = original(copy);
    assertThat(original.toFile().setWritable(true)).isTrue();
    byte[] bytes = Files.readAllBytes(original);
    bytes[bytes.length / 2] ^= 1;
    Files.write(original, bytes);
    Ran looked = Ran.command("check", copy);
    assertThat(looked.code()).isEqualTo(1);
    assertThat(looked.out()).contains(original + ": has changed");
    Path again = folder.resolve("again");
    Ran ran = Ran.command("restore", copy, again);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains(original + ": has changed").contains("the original is gone");
    assertThat(ran.out()).contains("1 original and");
    Ran mended = Ran.command("ingest", again, folder.resolve("season-60"), "--reader", "Ada");
    assertThat(mended.code()).as(mended.err()).isZero();
    Ran.command("ingest", again, folder.resolve("season-70"), "--reader", "Ada");
    assertThat(Ran.command("check", again).code()).isZero();
    // Run again, a backup mends itself from the archive.
    assertThat(Ran.command("backup", archive, copy).code()).isEqualTo(1);
  }

  @Test
  void aRottenLedgerGivesWayToAnEarlierOne() throws Exception {
    try (Archive opened = Archive.open(archive, Projections.all())) {
      Backup.copy(opened, copy, Instant.parse("2026-11-01T08:30:00Z"), original -> {});
      opened.describe(opened.ground(), "Ada Penrose");
      Backup.copy(opened, copy, Clock.systemUTC().instant(), original -> {});
    }
    Path ledger = copy.resolve("data").resolve("ledger.sqlite");
    byte[] bytes = Files.readAllBytes(ledger);
    bytes[bytes.length / 2] ^= 1;
    Files.write(ledger, bytes);
    Ran ran = Ran.command("restore", copy, folder.resolve("again"));
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("give --ledger with one of 2026-11-01T083000Z");
    Ran earlier =
        Ran.command("restore", copy, folder.resolve("earlier"), "--ledger", "2026-11-01T083000Z");
    assertThat(earlier.err()).contains(ledger + ": has changed");
    assertThat(Ran.command("check", folder.resolve("earlier")).code()).isZero();
    Ran never =
        Ran.command("restore", copy, folder.resolve("never"), "--ledger", "2020-01-01T000000Z");
    assertThat(never.code()).isEqualTo(1);
    assertThat(never.err()).contains("no ledger of that time").contains("2026-11-01T083000Z");
  }

  @Test
  void aBackupCutShortIsFinishedByRunningItAgain() throws Exception {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    for (String late :
        List.of("manifest-sha256.txt", "manifest-sha512.txt", "data/ledger.sqlite")) {
      Files.delete(copy.resolve(late));
    }
    Files.writeString(original(copy).resolveSibling("half.part"), "half");
    assertThat(Ran.command("check", copy).code()).isEqualTo(1);
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("0 of them new");
    assertThat(Ran.command("check", copy).code()).isZero();
  }
}
