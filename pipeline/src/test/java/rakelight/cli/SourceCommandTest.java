package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

class SourceCommandTest {
  private static final String READINGS =
      "marker\tface\tline\ttext\n"
          + "7\tfront\t1\tWm. GARSIDE\n"
          + "7\tfront\t2\tdied May 3 1848\n"
          + "7\tfront\t3\taged 49 years\n"
          + "8\tfront\t1\tDORCAS SKELBY\n"
          + "8\tfront\t2\tdied May 30 1779\n"
          + "9\tfront\t1\tJOB DUNNOCK\n"
          + "9\tfront\t2\tdied Feb. 8 1788\n";

  @TempDir Path folder;
  private Path archive;
  private String number;

  @BeforeEach
  void makeArchive() {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran recorded =
        Ran.command(
            "source",
            archive,
            "--kind",
            "register",
            "--title",
            "Register of burials 1740-1860",
            "--repository",
            "Tarrow chest",
            "--reference",
            "f. 12",
            "--consulted",
            "2026-05-04",
            "--reader",
            "Ada Penrose");
    assertThat(recorded.code()).as(recorded.err()).isZero();
    assertThat(recorded.out()).startsWith("source ");
    number = recorded.out().substring("source ".length(), recorded.out().indexOf(':'));
  }

  @Test
  void aFileThatIsntWhatItsNameSaysIsNoScan() throws Exception {
    for (String name : new String[] {"letter.jpg", "letter.pdf", "letter.tif"}) {
      Path text = folder.resolve(name);
      Files.writeString(text, "Dear Sir, the stone of Eli Holt");
      Ran added = Ran.command("source", archive, number, "--scan", text, "--reader", "Ada");
      assertThat(added.code()).as(name).isEqualTo(1);
      assertThat(added.errLines()).hasSize(1);
      assertThat(added.err()).contains("isn't what its name says");
    }
    Path words = folder.resolve("letter.txt");
    Files.writeString(words, "Dear Sir");
    assertThat(Ran.command("source", archive, number, "--scan", words, "--reader", "Ada").code())
        .isZero();
  }

  @Test
  void aSourceKeepsItsScanAmongTheOriginalsByteForByte() throws Exception {
    Path scan = folder.resolve("page 12.pdf");
    byte[] bytes = "%PDF-1.7 not really".getBytes(StandardCharsets.UTF_8);
    Files.write(scan, bytes);
    Ran added = Ran.command("source", archive, number, "--scan", scan, "--reader", "Ada Penrose");
    assertThat(added.code()).as(added.err()).isZero();
    assertThat(Ran.command("source", archive, number, "--scan", scan, "--reader", "B").code())
        .isZero();

    JsonNode row = rows("sources").get(0);
    assertThat(row.path("kind").asText()).isEqualTo("register");
    assertThat(row.path("repository").asText()).isEqualTo("Tarrow chest");
    assertThat(row.path("consulted").asText()).isEqualTo("2026-05-04");
    assertThat(row.path("scans")).hasSize(1);
    assertThat(row.path("scans").get(0).path("file").asText()).isEqualTo("page 12.pdf");
    assertThat(Files.readAllBytes(Path.of(row.path("scans").get(0).path("path").asText())))
        .isEqualTo(bytes);
    Ran check = Ran.command("check", archive);
    assertThat(check.code()).as(check.out() + check.err()).isZero();
  }

  @Test
  void aRegistersRowsAreSoughtAndEachReadingIsComparedWithThem() throws Exception {
    Path csv = folder.resolve("register.csv");
    Files.writeString(
        csv,
        "name,died,age,note,page\r\n"
            + "\"Garside, William\",3 May 1848,49,\"called \"\"Old Will\"\"\",1\r\n"
            + "\"Tredwen, Amos\",1801,,,2\r\n",
        StandardCharsets.UTF_8);
    Ran imported =
        Ran.command(
            "sought", archive, "import", csv, "--source", number, "--reader", "Ada Penrose");
    assertThat(imported.code()).as(imported.err()).isZero();
    assertThat(imported.out()).contains("2 persons sought");
    assertThat(imported.err()).contains("column page is passed over");

    Path readings = folder.resolve("readings.tsv");
    Files.writeString(readings, READINGS, StandardCharsets.UTF_8);
    Ran confirmed =
        Ran.command(
            "confirm", archive, "--new-markers", "--from", readings, "--reader", "Bede Marsh");
    assertThat(confirmed.out())
        .contains("source " + number + ", row 1 William Garside")
        .contains(" to 1");

    JsonNode garside = rows("sought").get(0);
    assertThat(garside.path("note").asText()).isEqualTo("called \"Old Will\"");
    assertThat(garside.path("matches").get(0).path("mention").asText()).isEqualTo("7:front:1");
    assertThat(rows("sought").get(1).path("matches")).isEmpty();

    String row = number + ".1";
    assertThat(
            Ran.command("sought", archive, "found", row, "7:front:1", "--reader", "Ada Penrose")
                .code())
        .isZero();
    assertThat(rows("sought").get(0).path("found").asText()).isEqualTo("7:front:1");
    Ran opposite =
        Ran.command("sought", archive, "not", row, "7:front:1", "--reader", "Bede Marsh");
    assertThat(opposite.err()).contains("Ada Penrose has said the opposite");
    assertThat(Ran.command("check", archive).code()).isZero();
    Ran.command("undo", archive, "--reader", "Ada Penrose");
    assertThat(Ran.command("sought", archive, "not", row, "7:front:1", "--reader", "B").code())
        .isZero();
    assertThat(rows("sought").get(0).path("matches")).isEmpty();
  }

  @Test
  void whatIsWrongIsToldLineByLineAndNothingIsTaken() throws Exception {
    Path csv = folder.resolve("register.csv");
    Files.writeString(csv, "surname,died\nWren,in spring\nSallow,1822\n", StandardCharsets.UTF_8);
    Ran refused =
        Ran.command("sought", archive, "import", csv, "--source", number, "--reader", "A");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.err()).contains("line 2").contains("in spring").contains("nobody was taken");
    assertThat(rows("sought")).isEmpty();
    Path missing = folder.resolve("none.pdf");
    assertThat(Ran.command("source", archive, number, "--scan", missing, "--reader", "A").err())
        .contains("there is no such file");
    assertThat(Ran.command("source", archive, "--kind", "song", "--reader", "A").code())
        .isEqualTo(2);
    assertThat(Ran.command("source", archive, "99", "--scan", csv, "--reader", "A").err())
        .contains("There is no source 99");
  }

  private List<JsonNode> rows(String command) {
    return Ran.command(command, archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .toList();
  }
}
