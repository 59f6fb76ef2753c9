package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class ConditionCommandTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void makeTwoMarkers() throws Exception {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Path readings = folder.resolve("readings.tsv");
    java.nio.file.Files.writeString(
        readings,
        "marker\tface\tline\ttext\n7\tfront\t1\tAMOS LIDGATE\n8\tfront\t1\tRUTH SALLOW\n");
    Ran.command("confirm", archive, "--new-markers", "--from", readings, "--reader", "Ada Penrose");
  }

  private Ran condition(String marker, Object... rest) {
    Object[] words = new Object[rest.length + 5];
    System.arraycopy(rest, 0, words, 3, rest.length);
    words[0] = "condition";
    words[1] = archive;
    words[2] = marker;
    words[words.length - 2] = "--reader";
    words[words.length - 1] = "Ada Penrose";
    return Ran.command(words);
  }

  @Test
  void whatIsUnsafeComesFirstWithTheUsualCaution() {
    assertThat(condition("7", "sound", "--on", "2025-04-30").code()).isZero();
    Ran noted =
        condition(
            "8", "leaning", "biological growth", "--on", "2025-05-01", "--remark", "north edge");
    assertThat(noted.out()).isEqualTo("marker 8: leaning, biological growth (north edge)\n");
    Ran list = Ran.command("conditions", archive);
    assertThat(list.outLines().get(0)).startsWith("marker 8").endsWith("UNSAFE");
    assertThat(list.outLines().get(1)).startsWith("marker 7");
    assertThat(list.out()).contains("Don't lean on, push or climb").contains("conservator");
    JsonNode row =
        Json.read(
            Ran.command("conditions", archive, "--marker", "8", "--json").outLines().get(0),
            JsonNode.class);
    assertThat(row.path("words").get(1).asText()).isEqualTo("biological growth");
    assertThat(row.path("unsafe").asBoolean()).isTrue();
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void aDayThatIsStillToComeIsRefused() {
    Ran refused = condition("7", "sound", "--on", "9026-04-30");
    assertThat(refused.code()).isNotZero();
    assertThat(refused.errLines())
        .containsExactly("9026-04-30 is still to come; give the day it was seen.");
    assertThat(Ran.command("conditions", archive).out()).isEmpty();
  }

  @Test
  void aWordThatIsNoneIsRefusedWithTheWordsThereAre() {
    Ran wrong = condition("7", "wobbly", "--on", "2025-04-30");
    assertThat(wrong.code()).isEqualTo(2);
    assertThat(wrong.err()).contains("'wobbly' isn't one of sound, leaning, loose");
    assertThat(condition("70", "sound", "--on", "2025-04-30").err())
        .contains("There is no marker 70 here");
    assertThat(Ran.command("conditions", archive).out()).isEmpty();
  }
}
