package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import rakelight.archive.Json;
import rakelight.photo.OddShots;
import rakelight.samples.Samples;

/** The commands as docs/commands.md shows them. */
class ArchiveCommandsTest {
  @TempDir Path folder;
  private Path archive;
  private Path shots;
  private List<String> names = List.of();

  @BeforeEach
  void takeThreeSamples() throws IOException {
    archive = folder.resolve("Archiv Fännick");
    shots = Files.createDirectories(folder.resolve("shots"));
    names = Samples.committedFiles().subList(0, 3);
    for (String name : names) {
      Files.write(shots.resolve(name), Samples.bytes(name));
    }
    Files.write(shots.resolve("manifest.csv"), Samples.bytes("manifest.csv"));
    assertThat(init().code()).isZero();
  }

  @Test
  void everyCommandSaysHowItIsUsedWhenAsked() {
    CommandLine commands =
        Rakelight.commands(
            new PrintWriter(Writer.nullWriter()), new PrintWriter(Writer.nullWriter()));
    assertThat(commands.getSubcommands()).isNotEmpty();
    for (String name : commands.getSubcommands().keySet()) {
      Ran help = Ran.command(name, "--help");
      assertThat(help.code()).as(name).isZero();
      assertThat(help.out()).as(name).startsWith("Usage: rakelight " + name);
    }
  }

  @Test
  void initWantsADatumAndAZoneThatExist() {
    assertThat(
            Ran.command(
                    "init", folder.resolve("x"), "--ground", "G", "--datum", "north", "--zone", "Z")
                .code())
        .isEqualTo(2);
    assertThat(
            Ran.command(
                    "init", folder.resolve("x"), "--ground", "G", "--datum", "1,2", "--zone", "Z/Z")
                .err())
        .contains("--zone must be a time zone");
    assertThat(init().code()).isEqualTo(1);
    assertThat(init().errLines()).hasSize(1).first().asString().contains("isn't empty");
  }

  @Test
  void aManifestTakesPhotographsToTheirFacesAndMissingFilesAreReported() {
    Ran ran = Ran.command("ingest", archive, shots, "--manifest", shots.resolve("manifest.csv"));

    assertThat(ran.outLines())
        .startsWith("3 photographs taken.", "3 put on faces by the manifest.");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.errLines()).isNotEmpty().allMatch(line -> line.contains("isn't among"));

    List<String> lines = Ran.command("photographs", archive, "--json").outLines();
    assertThat(lines).hasSize(3);
    JsonNode first = Json.read(lines.get(0), JsonNode.class);
    assertThat(first.path("schema").asInt()).isEqualTo(1);
    assertThat(first.path("file").asText()).isEqualTo(shots.resolve(names.get(0)).toString());
    assertThat(first.path("sha256").asText()).hasSize(64);
    assertThat(first.path("width").asInt()).isPositive();
    assertThat(first.path("taken").asText())
        .matches("\\d{4}-\\d\\d-\\d\\dT.*([+-]\\d\\d:\\d\\d|Z)");
    assertThat(first.path("marker").asText()).isEqualTo(names.get(0).split("-")[0]);
  }

  @Test
  void aRefusedFileGivesExitCodeOneAndALineInTheList() throws IOException {
    Files.write(shots.resolve("letter.txt"), new byte[] {65, 66});

    Ran ran = Ran.command("ingest", archive, shots.resolve("letter.txt"));

    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.errLines()).hasSize(1);
    JsonNode refused =
        Json.read(Ran.command("photographs", archive, "--json").outLines().get(0), JsonNode.class);
    assertThat(refused.path("refused").asText()).isEqualTo("not-an-image");
  }

  @Test
  void aTableMovesPhotographsInOneActThatIsShownFirstAndUndoneAsOne() throws IOException {
    Ran.command("ingest", archive, shots, "--manifest", shots.resolve("manifest.csv"));
    Path table = folder.resolve("right.csv");
    Files.writeString(table, "file,marker\n" + names.get(0) + ",201\n" + names.get(1) + ",202\n");
    List<String> before = Ran.command("photographs", archive, "--json").outLines();

    Ran shown = Ran.command("assign", archive, "--from", table, "--dry-run", "--reader", "Ada");
    assertThat(shown.code()).isZero();
    assertThat(shown.outLines())
        .hasSize(3)
        .last()
        .isEqualTo("2 photographs would move. Nothing was changed.");
    assertThat(shown.outLines().get(0))
        .startsWith(names.get(0) + ": marker ")
        .endsWith(" -> marker 201, front");
    assertThat(Ran.command("photographs", archive, "--json").outLines()).isEqualTo(before);

    assertThat(Ran.command("assign", archive, "--from", table, "--reader", "Ada").outLines())
        .last()
        .isEqualTo("2 photographs moved. One `undo` takes it all back.");
    assertThat(markersOf()).contains("201", "202");
    assertThat(Ran.command("undo", archive, "--reader", "Ada").out())
        .isEqualTo("Undone: 2 decisions of one act, photograph.assigned.\n");
    assertThat(Ran.command("photographs", archive, "--json").outLines()).isEqualTo(before);

    assertThat(Ran.command("assign", archive, names.get(0), "--off", "--reader", "Ada").out())
        .isEqualTo("1 photograph on no face now.\n");
    assertThat(markersOf()).hasSize(2);
    assertThat(Ran.command("photographs", archive, "--unplaced").outLines())
        .hasSize(1)
        .allMatch(line -> line.contains(names.get(0)));
    assertThat(Ran.command("photographs", archive, "--undated").outLines()).isEmpty();
    String marker = markersOf().get(0);
    assertThat(Ran.command("photographs", archive, "--marker", marker).outLines())
        .isNotEmpty()
        .allMatch(line -> line.contains("  " + marker + " "));
    assertThat(Ran.command("assign", archive, names.get(0), "--reader", "Ada").code()).isEqualTo(2);
  }

  private List<String> markersOf() {
    return Ran.command("photographs", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class).path("marker").asText())
        .filter(marker -> !marker.isEmpty())
        .toList();
  }

  @Test
  void aClockIsPutRightByTwoPhotographsOfOneMomentAndAsItWasByUndo() {
    Ran.command("ingest", archive, shots);
    List<String> before = Ran.command("photographs", archive, "--json").outLines();
    String[] moment = {"--same-moment-as", names.get(1), "--reader", "Ada"};

    Ran shown =
        Ran.command(
            "clock",
            archive,
            names.get(0),
            moment[0],
            moment[1],
            "--dry-run",
            moment[2],
            moment[3]);
    assertThat(shown.code()).isZero();
    assertThat(shown.outLines()).first().asString().contains("times put right by");
    assertThat(shown.outLines()).last().isEqualTo("Nothing was changed.");
    assertThat(Ran.command("photographs", archive, "--json").outLines()).isEqualTo(before);

    assertThat(
            Ran.command("clock", archive, names.get(0), moment[0], moment[1], moment[2], moment[3])
                .code())
        .isZero();
    assertThat(Ran.command("photographs", archive, "--json").out()).contains("clock put right by");
    Ran.command("undo", archive, "--reader", "Ada");
    assertThat(Ran.command("photographs", archive, "--json").outLines()).isEqualTo(before);
    assertThat(Ran.command("clock", archive, names.get(0), "--by", "1h", "--reader", "Ada").err())
        .contains("--by must be hours, minutes and seconds");
  }

  @Test
  void aClockThatRunsFastIsPutRightByTwoPairs() throws IOException {
    Path season = Files.createDirectories(folder.resolve("two"));
    OddShots.taken(season.resolve("fast-1.jpg"), "Seven", "2024:05:01 10:01:00");
    OddShots.taken(season.resolve("fast-2.jpg"), "Seven", "2024:05:06 10:06:00");
    OddShots.taken(season.resolve("fast-3.jpg"), "Seven", "2024:05:11 10:11:00");
    OddShots.taken(season.resolve("right-1.jpg"), "Eight", "2024:05:01 10:00:00");
    OddShots.taken(season.resolve("right-3.jpg"), "Eight", "2024:05:11 10:00:00");
    assertThat(Ran.command("ingest", archive, season).code()).isZero();

    Ran ran =
        Ran.command(
            "clock",
            archive,
            "fast-1.jpg",
            "fast-3.jpg",
            "--same-moment-as",
            "right-1.jpg",
            "--same-moment-as",
            "right-3.jpg",
            "--reader",
            "Ada");

    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.outLines())
        .first()
        .asString()
        .contains("3 photographs by Wren Seven", "drifting");
    assertThat(Ran.command("photographs", archive, "--json").outLines())
        .filteredOn(line -> line.contains("fast-"))
        .extracting(line -> Json.read(line, JsonNode.class).path("taken").asText())
        .allMatch(taken -> taken.contains("T10:00:00"))
        .hasSize(3);
    Ran wrongWay =
        Ran.command(
            "clock",
            archive,
            "fast-3.jpg",
            "fast-1.jpg",
            "--same-moment-as",
            "right-3.jpg",
            "--same-moment-as",
            "right-1.jpg",
            "--reader",
            "Ada");
    assertThat(wrongWay.err()).contains("Give the earlier photograph first");
  }

  @Test
  void assignCreditAndRenumberAreSignedAndCanBeUndone() {
    Ran.command("ingest", archive, shots.resolve(names.get(0)));

    assertThat(
            Ran.command(
                "assign",
                archive,
                names.get(0),
                "--marker",
                "9",
                "--face",
                "back",
                "--light",
                "270,12",
                "--reader",
                "Ada"))
        .isEqualTo(new Ran(0, "1 photograph on marker 9, back.\n", ""));
    Ran.command("credit", archive, names.get(0), "--rights", "CC0", "--reader", "Ada");
    Ran.command("renumber", archive, "9", "A-9", "--reader", "Ada");
    JsonNode photograph = onlyPhotograph();
    assertThat(photograph.path("marker").asText()).isEqualTo("A-9");
    assertThat(photograph.path("rights").asText()).isEqualTo("CC0");
    assertThat(photograph.path("light").path("azimuthDegrees").asDouble()).isEqualTo(270);

    assertThat(Ran.command("undo", archive, "--reader", "Ada").code()).isZero();
    assertThat(onlyPhotograph().path("marker").asText()).isEqualTo("9");

    Ran history = Ran.command("decisions", archive, "--json");
    JsonNode created =
        history.outLines().stream()
            .map(line -> Json.read(line, JsonNode.class))
            .filter(decision -> decision.path("kind").asText().equals("marker.created"))
            .findFirst()
            .orElseThrow();
    Ran refused = Ran.command("undo", archive, created.path("id").asText(), "--reader", "Ada");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.errLines()).hasSize(1).first().asString().contains("face.created");
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void checkFindsWhatIsWrong() throws IOException {
    Ran.command("ingest", archive, shots.resolve(names.get(0)), shots.resolve(names.get(1)));
    List<String> sound = Ran.command("check", archive, "--json").outLines();
    assertThat(sound.get(sound.size() - 1))
        .contains("\"originals\":2", "\"faults\":0", "\"missing\":4");
    Path original = originalOf(0);
    assertThat(original.toFile().setWritable(true)).isTrue();
    byte[] bytes = Files.readAllBytes(original);
    bytes[bytes.length / 2] ^= 1;
    Files.write(original, bytes);
    Files.delete(originalOf(1));
    Files.writeString(archive.resolve("originals/stray.jpg"), "?");

    Ran ran = Ran.command("check", archive, "--json");

    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.outLines())
        .extracting(line -> Json.read(line, JsonNode.class).path("fault").asText())
        .filteredOn(fault -> !fault.isEmpty())
        .containsExactlyInAnyOrder("original-changed", "original-missing", "original-stray");
  }

  @Test
  @EnabledOnOs(OS.LINUX)
  void namesWithAccentsWorkUnderTheCLocale() throws IOException, InterruptedException {
    // Java itself can't load a program that lies under a name with accents in this locale.
    assumeThat(System.getProperty("java.class.path")).isASCII();
    Path accents = Files.createDirectories(folder.resolve("Grabmäler 'n\" $é"));
    Files.write(accents.resolve("nördlich.jpg"), Samples.bytes(names.get(0)));
    ProcessBuilder builder =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            Rakelight.class.getName(),
            "ingest",
            "../" + archive.getFileName(),
            ".");
    builder.directory(accents.toFile());
    builder.environment().put("LC_ALL", "C");
    builder.environment().remove("LANG");
    builder.redirectErrorStream(true);
    Process process = builder.start();
    String said = new String(process.getInputStream().readAllBytes(), "UTF-8");

    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(said).startsWith("1 photograph taken.");
    assertThat(onlyPhotograph().path("file").asText())
        .isEqualTo(accents.resolve("nördlich.jpg").toString());
  }

  private Ran init() {
    return Ran.command(
        "init",
        archive,
        "--ground",
        "Fennick Lane",
        "--datum",
        "54.5,-3.25",
        "--zone",
        "Europe/London");
  }

  private JsonNode onlyPhotograph() {
    List<String> lines = Ran.command("photographs", archive, "--json").outLines();
    assertThat(lines).hasSize(1);
    return Json.read(lines.get(0), JsonNode.class);
  }

  private Path originalOf(int index) throws IOException {
    String hex = rakelight.archive.Sha256.of(Samples.bytes(names.get(index))).hex();
    return archive
        .resolve("originals")
        .resolve(hex.substring(0, 2))
        .resolve(hex.substring(2, 4))
        .resolve(hex + ".jpg");
  }
}
