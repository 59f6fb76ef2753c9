package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class PositionCommandTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void makeTwoMarkers() throws Exception {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Path readings = folder.resolve("readings.tsv");
    Files.writeString(
        readings,
        "marker\tface\tline\ttext\n7\tfront\t1\tAMOS LIDGATE\n8\tfront\t1\tRUTH SALLOW\n");
    Ran.command("confirm", archive, "--new-markers", "--from", readings, "--reader", "Ada Penrose");
  }

  private Ran position(String words) {
    Object[] all = ("position " + archive + " " + words + " --reader Ada").split(" +");
    return Ran.command(all);
  }

  @Test
  void aDryRunShowsWhatWouldBeNotedWithWhatIsLeftOverAndNotesNothing() {
    position("--point gate --at 54.1,-3.1998 --error 0.05");
    Ran shown = position("7 --tape datum=11.5 --tape gate=17.2 --side left --dry-run");
    assertThat(shown.out())
        .contains("would be noted")
        .contains("m left over")
        .contains("mirrored: ")
        .contains("right of the line from datum to gate");
    assertThat(position("7").out()).contains("nobody knows where it stands");
  }

  @Test
  void theBestComesFirstAndTheOthersAfterIt() {
    position("7 --at 54.1001,-3.2 --error 4");
    Path file = folder.resolve("m.geojson");
    write(
        file,
        """
        {"type":"FeatureCollection","features":[{"type":"Feature","properties":{"marker":"7"},
         "geometry":{"type":"Point","coordinates":[-3.2,54.1002]}}]}
        """);
    assertThat(position("--from " + file + " --error 0.3").code()).isZero();
    JsonNode row = Json.read(position("7 --json").outLines().get(0), JsonNode.class);
    assertThat(row.path("evidence").get(0).path("basis").asText()).isEqualTo("geojson");
    assertThat(row.path("evidence").get(1).path("errorMetres").asDouble()).isEqualTo(4);
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void aFileWithOneUnknownMarkerIsNotTakenAtAll() {
    Path file = folder.resolve("m.csv");
    write(file, "marker,latitude,longitude,error\n7,54.1,-3.2,2\n99,54.1,-3.2,2\n");
    Ran refused = position("--from " + file);
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.err()).contains("line 3").contains("no marker 99").contains("no position");
    assertThat(position("7").out()).contains("nobody knows");
  }

  @Test
  void whatIsNearGoesByTheBestThatIsKnown() {
    position("7 --at 54.1001,-3.2 --error 1");
    position("8 --at 54.10011,-3.2 --error 1");
    Ran.command("index", archive);
    assertThat(Ran.command("search", archive, "near:8").out()).contains("AMOS");
  }

  private static void write(Path file, String text) {
    try {
      Files.writeString(file, text);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
