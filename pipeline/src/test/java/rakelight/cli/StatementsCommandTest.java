package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class StatementsCommandTest {
  private static final String READINGS =
      "marker\tface\tline\ttext\n"
          + "4\tfront\t1\tHANNAH\n"
          + "4\tfront\t2\twife of Jasper Quillan\n"
          + "4\tfront\t3\tdied March 14, 1851\n"
          + "5\tfront\t1\tREUBEN HATHERSAY\n"
          + "5\tfront\t2\tBorn March 9, 1790\n"
          + "5\tfront\t3\tDied Feby. 20, 1834\n"
          + "5\tfront\t4\tAged 44 years\n"
          + "6\tfront\t1\tJOHN GARSIDE\n"
          + "6\tfront\t2\tborn Oct. 2, 1806\n"
          + "6\tfront\t3\tdied Aug. 27, 18[.]8\n"
          + "6\tfront\t4\taged 61 years\n";

  @TempDir Path folder;

  @Test
  void statementsContradictionsAndWhatTheAgeForcesAreRowsOfTheirOwn() throws Exception {
    Path archive = folder.resolve("archive");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, READINGS, StandardCharsets.UTF_8);
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran confirmed =
        Ran.command("confirm", archive, "--new-markers", "--from", file, "--reader", "Ada Penrose");
    assertThat(confirmed.code()).as(confirmed.err()).isZero();

    Ran ran = Ran.command("statements", archive, "--json");

    assertThat(ran.code()).as(ran.err()).isZero();
    List<JsonNode> rows =
        ran.outLines().stream().map(line -> Json.read(line, JsonNode.class)).toList();
    JsonNode name = rows.get(0);
    assertThat(name.path("schema").asInt()).isEqualTo(1);
    assertThat(name.path("marker").asText()).isEqualTo("4");
    assertThat(name.path("kind").asText()).isEqualTo("name");
    assertThat(name.path("surname").asText()).isEqualTo("Quillan");
    assertThat(name.path("standing").asText()).isEqualTo("supplied");
    assertThat(name.path("reason").asText()).isEqualTo("surname from the kin named");
    assertThat(name.path("signs")).isNotEmpty();
    assertThat(values(rows, "4", "death")).containsExactly("1851-03-14");
    assertThat(values(rows, "6", "death")).containsExactly("18X8-08-27", "1868-08-27");
    assertThat(texts(rows, "contradiction"))
        .containsExactly("birth 1790-03-09, death 1834-02-20 and age 44 years can't all be right");
    assertThat(texts(rows, "reckoned"))
        .containsExactly("death year, figure 3 must be 6 by the age");
  }

  @Test
  void whatIsWorkedOutIsToldAsSuchByEveryCommandThatTellsIt() throws Exception {
    Path archive = folder.resolve("archive");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n1\tfront\t1\tJOHN WREN | died 3 May 1851 | aged 60 years\n",
        StandardCharsets.UTF_8);
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran.command("confirm", archive, "--new-markers", "--from", file, "--reader", "Ada Penrose");
    String span = "between 1790-05-04 and 1791-05-03";

    assertThat(Ran.command("statements", archive).out())
        .contains(span)
        .contains("(worked out, not carved: reckoned from death and age)");
    assertThat(Ran.command("statements", archive, "--public", "--as-of", "2026-11-30").out())
        .contains("worked out, not carved");
    assertThat(Ran.command("persons", archive).out())
        .contains("born " + span + " (worked out, not carved)");
    JsonNode person =
        Json.read(Ran.command("persons", archive, "--json").outLines().get(0), JsonNode.class);
    assertThat(person.path("workedOut").get(0).asText()).isEqualTo("birth");
    assertThat(person.path("workedOut")).hasSize(1);
    assertThat(Ran.command("dates", archive).out())
        .contains("birth " + span + " (worked out, not carved: reckoned from death and age)");
    JsonNode date =
        Json.read(Ran.command("dates", archive, "--json").outLines().get(0), JsonNode.class);
    assertThat(date.path("kind").asText()).isEqualTo("value");
    assertThat(date.path("value").asText()).isEqualTo("[1790-05-04..1791-05-03]");
    assertThat(date.path("odds").asDouble()).isBetween(0.5, 1.0);
    assertThat(Ran.command("search", archive, "year:1790").out())
        .contains("birth, worked out, not carved: reckoned from death and age, may be 1790");
    Path out = folder.resolve("out");
    Ran export = Ran.command("export", archive, "--to", out, "--as-of", "2026-11-30", "--tables");
    assertThat(export.code()).as(export.err()).isZero();
    StringBuilder written = new StringBuilder();
    try (Stream<Path> files = Files.walk(out)) {
      for (Path one : files.filter(Files::isRegularFile).sorted().toList()) {
        written.append(Files.readString(one, StandardCharsets.UTF_8));
      }
    }
    assertThat(written)
        .contains("evidence=\"conjecture\"")
        .contains("worked out, not carved: <note>reckoned from death and age</note>")
        .contains("[1790-05-04..1791-05-03],supplied,reckoned from death and age");
  }

  @Test
  void theGroundsCalendarIsStatedByAPersonAndStatementsFollowIt() throws Exception {
    Path archive = folder.resolve("archive");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n1\tfront\t1\tJOHN WREN | died Feb. 11, 1740\n",
        StandardCharsets.UTF_8);
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran.command("confirm", archive, "--new-markers", "--from", file, "--reader", "Ada Penrose");
    assertThat(Ran.command("statements", archive).out()).contains("1740-02-22 or 1741-02-22");
    assertThat(Ran.command("ground", archive).out()).contains("nobody has stated it");

    Ran nameless = Ran.command("ground", archive, "--calendar", "scottish");
    Ran wrong = Ran.command("ground", archive, "--calendar", "julian", "--reader", "Ada Penrose");
    Ran stated =
        Ran.command("ground", archive, "--calendar", "scottish", "--reader", "Ada Penrose");

    assertThat(nameless.code()).isEqualTo(2);
    assertThat(nameless.err()).contains("Give your name");
    assertThat(wrong.code()).isEqualTo(2);
    assertThat(wrong.err()).contains("1752-09-14,1752");
    assertThat(stated.out()).contains("Gregorian from 1752-09-14, years from 1 January since 1600");
    assertThat(Ran.command("statements", archive).out()).contains("death  1740-02-22  ");
    assertThat(Ran.command("check", archive).code()).isZero();
    Ran.command("ground", archive, "--calendar", "1700-03-01,1500", "--reader", "Ada Penrose");
    assertThat(Ran.command("statements", archive).out()).contains("death  1740-02-11  ");
  }

  private static List<String> values(List<JsonNode> rows, String marker, String kind) {
    return rows.stream()
        .filter(row -> row.path("marker").asText().equals(marker))
        .filter(row -> row.path("kind").asText().equals(kind))
        .map(row -> row.path("value").asText())
        .toList();
  }

  private static List<String> texts(List<JsonNode> rows, String kind) {
    return rows.stream()
        .filter(row -> row.path("kind").asText().equals(kind))
        .map(row -> row.path("text").asText())
        .toList();
  }
}
