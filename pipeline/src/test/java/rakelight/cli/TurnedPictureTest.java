package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.measure.ErrorRate;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.QuarterTurn;
import rakelight.samples.Samples;

/** A stone that stands on its head though its file says it is upright, by the commands. */
class TurnedPictureTest {
  private static final String STONE = "M21-E.jpg";

  @TempDir Path folder;

  @Test
  void aStoneUpsideDownIsReadAndItsBoxesLieOnThePictureAsItIs() throws Exception {
    GrayImage upright = Picture.upright(Samples.bytes(STONE), 1);
    QuarterTurn onItsHead = QuarterTurn.of(upright, 2);

    JsonNode turned = proposed("turned", Picture.jpeg(onItsHead.turned(upright), 90));
    JsonNode asItStands = proposed("upright", Picture.jpeg(upright, 90));

    // Letters at the edge of doubt may change when the picture is packed the other way round.
    List<String> lines = turned.path("lines").findValuesAsText("text");
    assertThat(lines).hasSize(4);
    assertThat(
            ErrorRate.ofLetters(
                    String.join(" ", asItStands.path("lines").findValuesAsText("text")),
                    String.join(" ", lines))
                .rate())
        .isLessThan(0.02);
    for (int line = 0; line < 4; line++) {
      Point there = onItsHead.back(centre(turned.path("lines").path(line).path("box")));
      Point here = centre(asItStands.path("lines").path(line).path("box"));
      assertThat(there.distance(here)).isLessThan(5);
    }
  }

  private JsonNode proposed(String name, byte[] jpeg) throws Exception {
    Path archive = folder.resolve(name + "-archive");
    Path file = Files.write(folder.resolve(name + ".jpg"), jpeg);
    assertThat(
            Ran.command("init", archive, "--ground", "T", "--datum", "54,-3", "--zone", "UTC")
                .code())
        .isZero();
    assertThat(Ran.command("ingest", archive, file).code()).isZero();
    assertThat(Ran.command("propose", archive, "--workers", 1).code()).isZero();
    return Json.read(Ran.command("proposals", archive, "--json").out(), JsonNode.class);
  }

  private static Point centre(JsonNode box) {
    List<Point> points = new ArrayList<>();
    box.forEach(xy -> points.add(new Point(xy.path(0).asDouble(), xy.path(1).asDouble())));
    return new rakelight.picture.Polygon(points).centre();
  }
}
