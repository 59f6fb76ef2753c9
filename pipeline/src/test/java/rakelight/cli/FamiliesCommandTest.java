package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class FamiliesCommandTest {
  @TempDir Path folder;
  private Path archive;

  /** The Harrows' monument 15, their son's stone 20, a stranger's 30, and four footstones. */
  @BeforeEach
  void makeAGround() throws Exception {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Path readings = folder.resolve("readings.tsv");
    List<String> rows = new ArrayList<>(List.of("marker\tface\tline\ttext"));
    face(
        rows,
        "15",
        "WILLIAM HARROW",
        "died 3 May 1850 aged 70 years",
        "ANN his wife",
        "died 1 June 1855 aged 66 years",
        "WALTER their son",
        "died 4 Feb 1860 aged 30 years",
        "HANNAH their daughter",
        "died 9 March 1841 aged 5 years");
    face(rows, "20", "JOHN HARROW", "son of William & Ann Harrow", "died 1871 aged 40 years");
    face(rows, "30", "RUTH SALLOW", "died 1844");
    face(rows, "21", "W. H.");
    face(rows, "22", "[.] H.");
    face(rows, "23", "MOTHER");
    face(rows, "24", "H. H.", "1841");
    Files.write(readings, rows);
    Ran.command("confirm", archive, "--new-markers", "--from", readings, "--reader", "Ada");
    Path places = folder.resolve("places.csv");
    Files.writeString(
        places,
        """
        marker,latitude,longitude,error
        15,54.1,-3.2,0.5
        20,54.10004,-3.2,0.5
        30,54.101,-3.2,0.5
        21,54.1,-3.19997,0.5
        22,54.10001,-3.19997,0.5
        23,54.09999,-3.19997,0.5
        24,54.09998,-3.19997,0.5
        """);
    Ran.command("position", archive, "--from", places, "--reader", "Ada");
  }

  private static void face(List<String> rows, String marker, String... lines) {
    for (int i = 0; i < lines.length; i++) {
      rows.add(marker + "\tfront\t" + (i + 1) + "\t" + lines[i]);
    }
  }

  private Ran links(Object... words) {
    Object[] all = new Object[words.length + 2];
    System.arraycopy(words, 0, all, 2, words.length);
    all[0] = "links";
    all[1] = archive;
    return Ran.command(all);
  }

  private JsonNode proposed(String marker) {
    return links("--standing", "proposed", "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .filter(link -> link.path("from").asText().equals(marker))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void footstonesArePutToThePersonsTheyFitWithRunnerUpAndReasons() {
    JsonNode dated = proposed("24");
    assertThat(dated.path("to").asText()).isEqualTo("15:front:4");
    assertThat(dated.path("probability").asDouble()).isGreaterThan(0.99);
    assertThat(proposed("23").path("toPerson").asText()).isEqualTo("Ann Harrow");
    JsonNode worn = proposed("22");
    assertThat(worn.path("wornAlone").asBoolean()).isTrue();
    assertThat(worn.path("runnerUp").path("probability").asDouble()).isPositive();
    assertThat(worn.path("look").path("words").asText()).contains("letter 1 of footstone 22");
    assertThat(worn.path("evidence").findValuesAsText("of")).contains("letters", "place", "others");
    assertThat(links().out()).contains("Look only");
  }

  @Test
  void oneConfirmedAndOneRefusedMoveTheOthersAndUndoMovesThemBack() {
    double before = share("22", "15:front:1");
    assertThat(links("--confirm", "22", "--reader", "Ada").err()).contains("worn letters");
    links("--refuse", "21", "--to", "15:front:1", "--reader", "Ada");
    assertThat(proposed("21").path("to").asText()).isEqualTo("15:front:3");
    assertThat(links("--confirm", "21", "--reader", "Ada").code()).isZero();
    double after = share("22", "15:front:1");
    assertThat(after).isGreaterThan(before + 0.1);
    assertThat(links("--standing", "confirmed").out()).contains("21  buried here Walter Harrow");
    assertThat(links("--standing", "refused").out())
        .startsWith("21  not of 15:front:1 William Harrow, refused");
    Ran.command("undo", archive, "--reader", "Ada");
    Ran.command("undo", archive, "--reader", "Ada");
    assertThat(share("22", "15:front:1")).isEqualTo(before);
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  /** How likely the marker is the person's, if he is the first or the second choice. */
  private double share(String marker, String person) {
    JsonNode link = proposed(marker);
    return link.path("to").asText().equals(person)
        ? link.path("probability").asDouble()
        : link.path("runnerUp").path("to").asText().equals(person)
            ? link.path("runnerUp").path("probability").asDouble()
            : 0;
  }

  @Test
  void whoIsNamedByInitialsAsKinIsTheOneWhoBearsThemAndABabyWithoutANameHasItsStone()
      throws Exception {
    Path texts = folder.resolve("penn.tsv");
    List<String> rows = new ArrayList<>(List.of("marker\tface\tline\ttext"));
    face(
        rows,
        "50",
        "SILAS PENN",
        "died 1884 aged 65 years",
        "MARY ANN",
        "wife of S. Penn",
        "died 1891 aged 68 years",
        "LOUISA",
        "daughter of S. & M. A. Penn",
        "died 1906 aged 60 years",
        "BABY",
        "died 20 Nov. 1861 aged 3 days");
    face(rows, "51", "M. A. P.");
    face(rows, "52", "BABY");
    Files.write(texts, rows);
    Ran.command("confirm", archive, "--new-markers", "--from", texts, "--reader", "Ada");
    Path places = folder.resolve("penn.csv");
    Files.writeString(
        places,
        """
        marker,latitude,longitude,error
        50,54.11,-3.2,0.5
        51,54.11,-3.19997,0.5
        52,54.11001,-3.19997,0.5
        """);
    Ran.command("position", archive, "--from", places, "--reader", "Ada");
    String family = Ran.command("families", archive, "50").out();
    assertThat(family)
        .contains("Mary Ann Penn: wife of Silas Penn")
        .contains("Louisa Penn: daughter of Mary Ann Penn");
    assertThat(proposed("51").path("toPerson").asText()).isEqualTo("Mary Ann Penn");
    assertThat(proposed("51").path("probability").asDouble()).isGreaterThan(0.9);
    assertThat(proposed("52").path("toPerson").asText()).contains("BABY");
  }

  @Test
  void aFamilyTellsItsTreeAndIsSplitJoinedAndNamedByPeople() {
    List<String> all = Ran.command("families", archive, "--json").outLines();
    assertThat(all).hasSize(1);
    JsonNode harrows = Json.read(all.get(0), JsonNode.class);
    assertThat(harrows.path("stones").toString()).isEqualTo("[\"15\",\"20\"]");
    assertThat(harrows.path("persons")).as("kin who are named themselves count once").hasSize(5);
    assertThat(Ran.command("families", archive).out())
        .contains("Ann Harrow: wife of William Harrow  [“his wife”, 15:front:2]")
        .contains("John Harrow: son of Ann Harrow  [“son of William & Ann Harrow”, 20:front:1]");
    Ran.command("families", archive, "15", "--split", "20", "--reader", "Ada");
    Ran.command("families", archive, "15", "--name", "Harrows of the Mill", "--reader", "Ada");
    Ran.command("families", archive, "20", "--join", "30", "--reader", "Ada");
    assertThat(Ran.command("families", archive).out())
        .contains("Harrows of the Mill  stones 15")
        .contains("(proposed)  stones 20, 30")
        .contains("20 and 30: people said so");
    assertThat(Ran.command("check", archive).code()).isZero();
  }
}
