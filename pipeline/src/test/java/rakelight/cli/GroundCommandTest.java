package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is stated of a ground, and put right later. */
class GroundCommandTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void aGround() {
    archive = folder.resolve("archive");
    run("init", archive, "--ground", "Thornbek", "--datum", "54.1,-3.2", "--zone", "UTC");
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  private Ran ground(Object... words) {
    Object[] all = new Object[words.length + 4];
    all[0] = "ground";
    all[1] = archive;
    System.arraycopy(words, 0, all, 2, words.length);
    all[all.length - 2] = "--reader";
    all[all.length - 1] = "Ada";
    return Ran.command(all);
  }

  private Ran confirm(String number) throws IOException {
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, "marker\tline\ttext\n" + number + "\t1\tELI HOLT\n");
    return Ran.command("confirm", archive, "--from", file, "--new-markers", "--reader", "Ada");
  }

  private void photograph(String name) throws IOException {
    Path file = folder.resolve("season").resolve(name);
    Files.createDirectories(file.getParent());
    BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
    picture.setRGB(0, 0, name.hashCode());
    ImageIO.write(picture, "png", file.toFile());
  }

  @Test
  void nameDatumAndZoneArePutRightAndUndone() {
    String before = run("ground", archive).out();
    assertThat(
            ground("--name", "Thornbeck", "--datum", "54.2,-3.3", "--zone", "Europe/London").out())
        .contains("Thornbeck\n")
        .contains("54.2,-3.3")
        .contains("Europe/London");
    run("check", archive);
    assertThat(run("decisions", archive).out()).contains("ground.described");
    run("undo", archive, "--reader", "Ada");
    assertThat(run("ground", archive).out()).isEqualTo(before);
    assertThat(Ran.command("ground", archive, "--name", "X").code()).isEqualTo(2);
    assertThat(ground("--datum", "north").err()).contains("LAT,LON");
    assertThat(ground("--zone", "Nowhere").err()).contains("--zone must be a time zone");
  }

  @Test
  void aSlipInANumberMakesNoMarker() throws Exception {
    assertThat(ground("--numbers", "@-#").out()).contains("numbers   @-#");
    assertThat(confirm("A-12").code()).isZero();
    Ran slip = confirm("A12");
    assertThat(slip.code()).isEqualTo(1);
    assertThat(slip.err()).contains("A12 isn't how markers are numbered here (@-#)");
    assertThat(Ran.command("renumber", archive, "A-12", "12", "--reader", "Ada").code())
        .isEqualTo(1);
    assertThat(confirm("a-012").code()).as("the same marker in another spelling").isZero();
    assertThat(run("markers", archive).outLines()).hasSize(1);
  }

  @Test
  void theGroundsPrefixMayBeLeftOut() throws Exception {
    ground("--numbers", "OG-#");
    assertThat(confirm("12").code()).isZero();
    assertThat(confirm("OG-12").code()).isZero();
    assertThat(confirm("012").code()).isZero();
    assertThat(run("markers", archive).outLines())
        .hasSize(1)
        .first()
        .asString()
        .startsWith("OG-12");
  }

  @Test
  void aManifestIsToldOfItByLineAndFoldersAreLeftAlone() throws Exception {
    ground("--numbers", "#");
    photograph("a.png");
    photograph("b.png");
    photograph("A7/c.png");
    Path manifest = folder.resolve("season/manifest.csv");
    Files.writeString(manifest, "file,marker\na.png,12\nb.png,1z\n");
    Ran ran =
        Ran.command(
            "ingest", archive, folder.resolve("season"), "--manifest", manifest, "--reader", "Ada");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("manifest.csv:3: 1z isn't how markers are numbered here");
    assertThat(run("markers", archive).outLines()).hasSize(1).first().asString().startsWith("12 ");
  }

  @Test
  void anOddNumberIsAddedToThePatternsAndNoneLetsAnyThrough() throws Exception {
    ground("--numbers", "# wall");
    assertThat(confirm("wall").code()).isZero();
    assertThat(confirm("gate").code()).isEqualTo(1);
    ground("--numbers", "none");
    assertThat(confirm("gate").code()).isZero();
  }
}
