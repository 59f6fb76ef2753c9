package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BackupCommandTest {
  @TempDir Path folder;
  private Path archive;
  private Path copy;

  @BeforeEach
  void anArchiveWithAPhotograph() throws Exception {
    archive = folder.resolve("archive");
    copy = folder.resolve("copies").resolve("today");
    Path season = folder.resolve("season").resolve("12");
    Files.createDirectories(season);
    ImageIO.write(
        new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB),
        "png",
        season.resolve("stone.png").toFile());
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran ran = Ran.command("ingest", archive, folder.resolve("season"), "--reader", "Ada Penrose");
    assertThat(ran.code()).as(ran.err()).isZero();
  }

  @Test
  void aBackupIsAnArchiveAndSaysThatItIsConfidential() throws Exception {
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out())
        .contains("1 original (")
        .contains("nothing wrong")
        .contains("CONFIDENTIAL");
    assertThat(Files.readString(copy.resolve("CONFIDENTIAL.txt"))).contains("may be living");
    assertThat(Ran.command("check", copy).code()).isZero();
    assertThat(Ran.command("decisions", copy).out())
        .isEqualTo(Ran.command("decisions", archive).out());
  }

  @Test
  void aBackupIsNeverWrittenOverAnythingNorIntoTheArchive() {
    assertThat(Ran.command("backup", archive, copy).code()).isZero();
    Ran again = Ran.command("backup", archive, copy);
    assertThat(again.code()).isEqualTo(1);
    assertThat(again.err()).contains("isn't empty");
    Ran within = Ran.command("backup", archive, archive.resolve("backup"));
    assertThat(within.code()).isEqualTo(1);
    assertThat(within.err()).contains("lies within the archive");
    assertThat(archive.resolve("backup")).doesNotExist();
  }

  @Test
  void aDamagedOriginalIsNamedAndNotCopied() throws Exception {
    Path original;
    try (var files = Files.walk(archive.resolve("originals"))) {
      original = files.filter(file -> file.toString().endsWith(".png")).findFirst().orElseThrow();
    }
    assertThat(original.toFile().setWritable(true)).isTrue();
    Files.writeString(original, "damaged");
    Ran ran = Ran.command("backup", archive, copy);
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("its content isn't what its name says; not copied");
    assertThat(ran.err()).contains("the original is gone");
    assertThat(copy.resolve(archive.relativize(original))).doesNotExist();
  }
}
