package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole way, as a newcomer goes it first. */
class DemoTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @Test
  void theDemoTakesPhotographsToSearchAndScoresBetterThanItsRivals(@TempDir Path temp)
      throws IOException {
    Path folder = temp.resolve("Grüße aus Tarrow, 1");
    assertThat(run("demo", folder, "--carried-only")).as(err.toString()).isZero();
    assertThat(out.toString())
        .contains("19 photographs taken.")
        .contains("19 photographs read, 0 read before; 15 proposals made")
        .contains("Jasper Quillan")
        .contains("not before 1906")
        .contains("nothing wrong");
    // The photograph a hit names is there to be opened.
    String photograph =
        out.toString()
            .lines()
            .filter(line -> line.strip().startsWith("photograph: "))
            .map(line -> line.strip().substring("photograph: ".length()))
            .findFirst()
            .orElseThrow();
    assertThat(Path.of(photograph)).exists();

    Path archive = folder.resolve("archive");
    assertThat(run("relief", archive, "M04", "--out", folder.resolve("relief"))).isZero();
    assertThat(folder.resolve("relief").resolve("M04-W-lines.jpg")).exists();
    assertThat(folder.resolve("relief").resolve("M04-W-depth.png")).exists();

    // A truth of two faces keeps the rivals' share of the time small.
    Path truth = folder.resolve("first-season").resolve("truth-of-two.tsv");
    List<String> rows = Files.readAllLines(truth.resolveSibling("truth.tsv"));
    Files.write(
        truth,
        rows.stream().filter(row -> row.matches("(file|M15-E\\.jpg|M21-E\\.jpg)\t.*")).toList());
    assertThat(run("score", archive, truth, "--json")).as(err.toString()).isZero();
    assertThat(caseBlind("proposals")).isLessThan(0.06).isLessThan(caseBlind("PP-OCR v4 alone"));
    assertThat(caseBlind("plain Tesseract, whole photograph")).isGreaterThan(0.2);
    double besideRivals = caseBlind("proposals");

    out.getBuffer().setLength(0);
    Path confusions = folder.resolve("confusions.tsv");
    assertThat(
            run("score", archive, truth, "--only-proposals", "--confusions", confusions, "--json"))
        .as(err.toString())
        .isZero();
    assertThat(caseBlind("proposals")).isEqualTo(besideRivals);
    assertThat(out.toString()).doesNotContain("PP-OCR").doesNotContain("Tesseract");
    assertThat(confusions).content().startsWith("legibility\ttruth\tread\tlikeliest\todds\n");

    int before = out.toString().length();
    assertThat(run("proposals", archive, "--doubts", "3", "--json")).isZero();
    List<String> asked = out.toString().substring(before).lines().toList();
    assertThat(asked).hasSize(3).allMatch(line -> line.contains("\"gain\":"));
    // A visit is for faces with much at stake; the carried ones are read well, so there may be
    // none.
    assertThat(run("proposals", archive, "--visits")).isZero();
    assertThat(run("proposals", archive, "--visits", "--doubts", "3")).isEqualTo(2);
  }

  @Test
  void aFolderThatHoldsSomethingIsLeftAlone(@TempDir Path temp) throws IOException {
    Files.writeString(temp.resolve("letter.txt"), "mine");
    assertThat(run("demo", temp)).isEqualTo(1);
    assertThat(err.toString()).contains("isn't empty");
    assertThat(temp.resolve("archive")).doesNotExist();
  }

  private double caseBlind(String way) {
    return out.toString()
        .lines()
        .filter(line -> line.startsWith("{"))
        .map(
            line ->
                rakelight.archive.Json.read(line, com.fasterxml.jackson.databind.JsonNode.class))
        .filter(row -> row.path("readBy").asText().equals(way))
        .filter(row -> row.path("slice").asText().equals("all"))
        .mapToDouble(row -> row.path("letterErrorCaseBlind").asDouble())
        .findFirst()
        .orElseThrow();
  }

  private int run(Object... words) {
    return Rakelight.commands(new PrintWriter(out, true), new PrintWriter(err, true))
        .execute(java.util.stream.Stream.of(words).map(Object::toString).toArray(String[]::new));
  }
}
