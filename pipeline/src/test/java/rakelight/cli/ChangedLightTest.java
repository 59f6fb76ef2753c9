package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.samples.StoneSet;
import rakelight.samples.Weathering;

/** A raking set whose lights are noted, or noted otherwise, after it has been read. */
@Tag("long")
class ChangedLightTest {
  private static final long SEED = 27;
  private static final List<String> FILES =
      List.of("R000027-1.jpg", "R000027-2.jpg", "R000027-3.jpg");

  @TempDir Path folder;

  @Test
  void lightsNotedAfterwardsMakeTheProposalAndTheDepthImageAnewAndNothingElse() throws IOException {
    Path shots = folder.resolve("shots");
    new StoneSet(1, SEED, 420, List.of(Weathering.LIGHT), "usual", FILES.size()).writeTo(shots);
    Path archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "T", "--datum", "54,-3", "--zone", "UTC");
    for (String file : FILES) {
      assertThat(Ran.command("ingest", archive, shots.resolve(file)).code()).isZero();
    }
    note(archive, 300, 0, 60);
    assertThat(Ran.command("propose", archive).out()).contains("3 photographs read, 0 read before");
    byte[] depth = relief(archive, "before", "depth.png");
    byte[] grey = relief(archive, "before", "grey.png");
    assertThat(Ran.command("check", archive).out()).doesNotContain("out of date", "is missing");
    assertThat(Ran.command("propose", archive).out()).contains("0 proposals made, 1 up to date");

    note(archive, 60, 340, 300);

    assertThat(Ran.command("check", archive).outLines())
        .contains(
            "marker S, face front: its proposal is out of date: lights, photographs or models have"
                + " changed since.");
    assertThat(relief(archive, "at-once", "depth.png")).as("made anew").isNotEqualTo(depth);
    assertThat(Ran.command("propose", archive).out())
        .contains("0 photographs read, 3 read before; 1 proposal made, 0 up to date");
    assertThat(relief(archive, "after", "depth.png")).isNotEqualTo(depth);
    assertThat(relief(archive, "after", "grey.png")).isEqualTo(grey);

    Ran unneeded = Ran.command("check", archive, "--json");
    assertThat(unneeded.out())
        .contains("\"state\":\"unneeded\",\"stage\":\"proposal\"")
        .contains("\"state\":\"unneeded\",\"stage\":\"relief\"")
        .doesNotContain("out-of-date\",\"stage", "\"stage\":\"reading\"");
    assertThat(Ran.command("check", archive, "--drop-unneeded").out()).contains("deleted");
    assertThat(Ran.command("check", archive, "--json").out()).contains("\"unneeded\":0");
    assertThat(Ran.command("propose", archive).out())
        .contains("0 photographs read, 3 read before; 0 proposals made, 1 up to date");
  }

  /** Puts the photographs on a face that looks north and notes where their lights came from. */
  private static void note(Path archive, double... azimuths) {
    for (int i = 0; i < azimuths.length; i++) {
      Ran ran =
          Ran.command(
              "assign",
              archive,
              FILES.get(i),
              "--marker",
              "S",
              "--bearing",
              0,
              "--light",
              azimuths[i] + ",20",
              "--reader",
              "Ada");
      assertThat(ran.code()).as(ran.err()).isZero();
    }
  }

  private byte[] relief(Path archive, String into, String name) throws IOException {
    Path target = folder.resolve(into);
    Ran ran = Ran.command("relief", archive, "S", "--out", target);
    assertThat(ran.code()).as(ran.err()).isZero();
    return Files.readAllBytes(target.resolve("S-front-" + name));
  }
}
