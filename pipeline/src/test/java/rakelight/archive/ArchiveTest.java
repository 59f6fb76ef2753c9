package rakelight.archive;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArchiveTest {
  private static final Ground GROUND =
      new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
  private static final byte[] BYTES = "a photograph, let us say".getBytes(UTF_8);

  @TempDir Path folder;

  @Test
  void anArchiveIsNotMadeInAFolderThatIsInUse() throws IOException {
    Files.writeString(folder.resolve("letter.txt"), "x");

    assertThatThrownBy(() -> Archive.init(folder, GROUND, List.of()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("isn't empty");
  }

  @Test
  void aFolderWithoutALedgerIsNoArchive() {
    assertThatThrownBy(() -> Archive.open(folder, List.of()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("not an archive");
    assertThatThrownBy(() -> Archive.openToLook(folder, List.of()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("not an archive");
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void aLedgerOfANewerProgramIsRefused() {
    try (Archive archive = Archive.init(folder, GROUND, List.of())) {
      archive
          .ledger()
          .write(
              handle ->
                  handle.execute(
                      "INSERT INTO flyway_schema_history (installed_rank, version, description,"
                          + " type, script, checksum, installed_by, execution_time, success)"
                          + " VALUES (9999, '999', 'future', 'SQL', 'V999__future.sql', 1, '', 1,"
                          + " 1)"));
    }

    assertThatThrownBy(() -> Archive.open(folder, List.of()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("newer version");
  }

  @Test
  void aDamagedLedgerIsReportedAsDamaged() throws IOException {
    Archive.init(folder, GROUND, List.of()).close();
    Files.writeString(folder.resolve("ledger.sqlite"), "this was a ledger once, and is no more");

    assertThatThrownBy(() -> Archive.open(folder, List.of()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("damaged, or not a ledger");
  }

  @Test
  void aClosedArchiveKeepsItsLedgerInOneFile() {
    Archive.init(folder, GROUND, List.of()).close();

    assertThat(folder.resolve("ledger.sqlite")).exists();
    assertThat(folder.resolve("ledger.sqlite-wal")).doesNotExist();
  }

  @Test
  void anOriginalLiesUnderItsDigestAndCannotBeWritten() throws IOException {
    try (Archive archive = Archive.init(folder, GROUND, List.of());
        Incoming incoming = archive.originals().receive()) {
      Sha256 digest = Sha256.of(BYTES);

      incoming.keep(digest, "jpg", BYTES);
      incoming.settle();
      Path kept = archive.originals().path(digest, "jpg");

      assertThat(kept).hasBinaryContent(BYTES).isReadable();
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(kept)))
          .isEqualTo("r--r--r--");
      assertThat(archive.originals().find(digest)).contains(kept);
      assertThat(kept)
          .hasToString(
              folder
                  .resolve("originals")
                  .resolve(digest.hex().substring(0, 2))
                  .resolve(digest.hex().substring(2, 4))
                  .resolve(digest.hex() + ".jpg")
                  .toString());
    }
  }

  @Test
  void aCopyIsDigestedOnItsWayAndMayBeDropped() throws IOException {
    try (Archive archive = Archive.init(folder, GROUND, List.of());
        Incoming incoming = archive.originals().receive()) {
      Incoming.Copy first = incoming.copy(Channels.newChannel(new ByteArrayInputStream(BYTES)));
      Incoming.Copy second = incoming.copy(Channels.newChannel(new ByteArrayInputStream(BYTES)));
      assertThat(first.digest()).isEqualTo(Sha256.of(BYTES));

      incoming.keep(first, "tif");
      incoming.drop(second);
      Path kept = archive.originals().path(first.digest(), "tif");

      assertThat(kept).hasBinaryContent(BYTES);
      assertThat(first.file()).doesNotExist();
      assertThat(second.file()).doesNotExist();
    }
    assertThat(folder.resolve("originals/incoming")).isEmptyDirectory();
  }

  @Test
  void anOriginalWithTheWrongContentIsReplacedByTheRightOne() throws IOException {
    try (Archive archive = Archive.init(folder, GROUND, List.of());
        Incoming incoming = archive.originals().receive()) {
      Path place = archive.originals().path(Sha256.of(BYTES), "jpg");
      Files.createDirectories(place.getParent());
      Files.write(place, new byte[BYTES.length]);

      incoming.keep(Sha256.of(BYTES), "jpg", BYTES);

      assertThat(place).hasBinaryContent(BYTES);
    }
  }
}
