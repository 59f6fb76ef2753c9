package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

/** A guide asks when to be where. */
class SunCommandTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void twoFaces() throws Exception {
    archive = folder.resolve("archive");
    run("init", archive, "--ground", "Tarrow", "--datum", "44,8.5", "--zone", "Europe/Rome");
    Path season = Files.createDirectories(folder.resolve("season"));
    for (String name : new String[] {"a.png", "b.png", "c.png"}) {
      BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
      picture.setRGB(0, 0, name.hashCode());
      ImageIO.write(picture, "png", season.resolve(name).toFile());
    }
    run("ingest", archive, season);
    run("assign", archive, "a.png", "--marker", "1", "--bearing", "90", "--reader", "Ada");
    run("assign", archive, "b.png", "--marker", "2", "--bearing", "0", "--reader", "Ada");
    run("assign", archive, "c.png", "--marker", "3", "--reader", "Ada");
    run("condition", archive, "1", "--on", "2024-01-01", "leaning", "--reader", "Ada");
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  @Test
  void aDaysPlanGoesByTheLightAndWarns() {
    Ran ran = run("sun", archive, "--on", "2024-06-20");
    assertThat(ran.outLines().get(0)).contains("marker 2 front");
    assertThat(ran.outLines().get(1)).contains("marker 1 front").contains("UNSAFE: leaning");
    assertThat(ran.out())
        .contains("2 faces of 2 in the round")
        .contains("Old stones fall")
        .contains("Ask the ground's authority");
    assertThat(ran.err()).contains("1 face without a bearing");
  }

  @Test
  void aHillTakesTheMorningAwayAndAnUndoGivesItBack() {
    String free = run("sun", archive, "--on", "2024-06-20", "--json", "--marker", "2").out();
    run("ground", archive, "--horizon", "39:0 40:40 100:40 101:0", "--reader", "Ada");
    JsonNode hidden =
        Json.read(
            run("sun", archive, "--on", "2024-06-20", "--json", "--marker", "2").out(),
            JsonNode.class);
    assertThat(hidden.get("raking")).hasSize(1);
    assertThat(hidden.get("raking").get(0).get("from").asText()).isGreaterThan("17:00");
    run("check", archive);
    run("undo", archive, "--reader", "Ada");
    assertThat(run("sun", archive, "--on", "2024-06-20", "--json", "--marker", "2").out())
        .isEqualTo(free);
  }

  @Test
  void aYearNamesFacesTheSunNeverRakesAndWhatHelpsInstead() {
    run("ground", archive, "--horizon", "0:60 359:60", "--reader", "Ada");
    Ran ran = run("sun", archive, "--year", "2024");
    assertThat(ran.out())
        .contains("marker 2 front, looks to 0\u00B0  never")
        .contains("a second person holds a torch or mirror");
  }

  @Test
  void whatCannotBeFollowedIsRefused() {
    assertThat(Ran.command("sun", archive).err()).contains("Give a day (--on) or a year");
    assertThat(Ran.command("sun", archive, "--on", "2024-06-20", "--between", "noon").err())
        .contains("two times such as 08:00-17:30");
    assertThat(Ran.command("ground", archive, "--horizon", "east", "--reader", "Ada").err())
        .contains("such as 80:6 110:14");
  }
}
