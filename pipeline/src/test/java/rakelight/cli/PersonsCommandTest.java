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

class PersonsCommandTest {
  private static final String READINGS =
      "marker\tface\tline\ttext\n"
          + "4\tfront\t1\tHANNAH\n"
          + "4\tfront\t2\twife of Jasper Quillan\n"
          + "4\tfront\t3\tdied March 14, 1851\n"
          + "5\tfront\t1\tH. Q.\n"
          + "5\tfront\t2\t1851\n"
          + "6\tfront\t1\tGARSIDE\n"
          + "6\tfront\t2\tROBERT\n"
          + "6\tfront\t3\t1949 – 2011\n"
          + "6\tfront\t4\tALICE HIS WIFE\n"
          + "6\tfront\t5\t1953 – (vac.)\n"
          + "7\tfront\t1\tJOHN WREN\n"
          + "7\tfront\t2\tdied 1840\n"
          + "7\tfront\t3\t& of [- - -]\n"
          + "7\tfront\t4\this wife who died 1850\n";

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void makeArchive() throws Exception {
    archive = folder.resolve("archive");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, READINGS, StandardCharsets.UTF_8);
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    assertThat(
            Ran.command(
                    "confirm", archive, "--new-markers", "--from", file, "--reader", "Ada Penrose")
                .code())
        .isZero();
  }

  @Test
  void personsAreListedWithWhereTheyAreSpokenOf() {
    Ran ran = Ran.command("persons", archive);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.outLines())
        .contains(
            "Hannah Quillan  died 1851-03-14  [4:front:1 commemorated]",
            "(unnamed) Wren  died 1850  [7:front:2 commemorated]",
            "Jasper Quillan  [4:front:1a as kin]");
  }

  @Test
  void twoMentionsConfirmedAsOneAreOnePersonUntilThatIsUndone() {
    Ran same =
        Ran.command("person", archive, "same", "4:front:1", "5:front:1", "--reader", "Ada Penrose");
    assertThat(same.code()).as(same.err()).isZero();
    List<JsonNode> persons = rows("person");
    assertThat(persons)
        .filteredOn(p -> p.path("mentions").size() == 2)
        .singleElement()
        .satisfies(p -> assertThat(p.path("called").asText()).isEqualTo("Hannah Quillan"))
        .satisfies(p -> assertThat(p.path("death")).hasSize(2));
    assertThat(rows("proposal")).noneMatch(p -> p.path("other").asText().equals("5:front:1"));
    assertThat(Ran.command("check", archive).code()).isZero();

    Ran opposite =
        Ran.command(
            "person", archive, "different", "5:front:1", "4:front:1", "--reader", "Bede Marsh");
    assertThat(opposite.code()).isEqualTo(1);
    assertThat(opposite.err()).contains("Ada Penrose has said the opposite");

    assertThat(Ran.command("undo", archive, "--reader", "Ada Penrose").code()).isZero();
    assertThat(rows("person")).noneMatch(p -> p.path("mentions").size() == 2);
  }

  @Test
  void aReadingOnWhichAPersonRestsIsNotUndoneBeforeTheDecisionIs() {
    Ran.command("person", archive, "same", "4:front:1", "5:front:1", "--reader", "Bede Marsh");
    Ran undo = Ran.command("undo", archive, signing("died March 14"), "--reader", "Ada Penrose");
    assertThat(undo.code()).isEqualTo(1);
    assertThat(undo.err()).contains("person.same");
  }

  @Test
  void whoMayBeLivingIsLeftOutOfWhatIsPublished() {
    Ran withoutDay = Ran.command("persons", archive, "--public");
    assertThat(withoutDay.code()).isEqualTo(2);
    Ran published = Ran.command("persons", archive, "--public", "--as-of", "2026-11-25", "--json");
    assertThat(published.out()).contains("Robert Garside").doesNotContain("Alice");
    assertThat(Ran.command("persons", archive, "--as-of", "2026-11-25").out())
        .contains("Alice Garside  born 1953  [6:front:2 commemorated]  MAY BE LIVING");

    Ran without = Ran.command("person", archive, "died", "6:front:2", "--reader", "Ada Penrose");
    assertThat(without.code()).isEqualTo(1);
    assertThat(without.err()).contains("Say what tells of the death");
    Ran died =
        Ran.command(
            "person",
            archive,
            "died",
            "6:front:2",
            "--note",
            "register",
            "--reader",
            "Ada Penrose");
    assertThat(died.code()).as(died.err()).isZero();
    assertThat(Ran.command("persons", archive, "--public", "--as-of", "2026-11-25").out())
        .contains("Alice Garside");
  }

  @Test
  void statementsThatSpeakOfSomebodyLivingAreLeftOutToo() {
    String all = Ran.command("statements", archive).out();
    assertThat(all).contains("Alice").contains("1953");
    String published =
        Ran.command("statements", archive, "--public", "--as-of", "2026-11-25").out();
    assertThat(published)
        .contains("Robert Garside")
        .doesNotContainIgnoringCase("alice")
        .doesNotContain("1953");
    assertThat(Ran.command("statements", archive, "--public").code()).isEqualTo(2);
  }

  /** Common practice, no source: a double stone has room for two, also where one name is gone. */
  @Test
  void somebodyKnownFromTheFormOfAMarkerAloneIsAPersonToo() {
    Ran unnamed =
        Ran.command(
            "person",
            archive,
            "unnamed",
            "5",
            "--note",
            "a double stone, one side bare",
            "--reader",
            "Ada Penrose");
    assertThat(unnamed.code()).as(unnamed.err()).isZero();
    assertThat(rows("person"))
        .filteredOn(p -> p.has("fromForm"))
        .singleElement()
        .satisfies(p -> assertThat(p.path("marker").asText()).isEqualTo("5"))
        .satisfies(p -> assertThat(p.path("unnamed").asBoolean()).isTrue());
  }

  @Test
  void aMarkerIsLinkedToAPersonByWhatTheyHaveToDoWithEachOther() {
    Ran linked =
        Ran.command("link", archive, "5", "buried-here", "4:front:1", "--reader", "Ada Penrose");
    assertThat(linked.code()).as(linked.err()).isZero();
    assertThat(Ran.command("persons", archive).out()).contains("buried here at 5, confirmed");
    assertThat(Ran.command("links", archive).out()).contains("buried here Hannah Quillan");
    assertThat(Ran.command("check", archive).code()).isZero();
    Ran nobody =
        Ran.command("link", archive, "5", "buried-here", "4:front:7", "--reader", "Ada Penrose");
    assertThat(nobody.err()).contains("nobody is spoken of there");
  }

  @Test
  void whatIsNotThereIsRefusedInOneLine() {
    Ran nobody =
        Ran.command("person", archive, "same", "4:front:9", "5:front:1", "--reader", "Ada Penrose");
    assertThat(nobody.code()).isEqualTo(1);
    assertThat(nobody.errLines()).singleElement().asString().contains("4:front:9: nobody is");
    assertThat(Ran.command("person", archive, "merge", "4:front:1", "--reader", "A").code())
        .isEqualTo(2);
    assertThat(Ran.command("person", archive, "same", "4:front:1", "--reader", "A").code())
        .isEqualTo(2);
    Ran twice =
        Ran.command("person", archive, "same", "4:front:1", "4:front:1", "--reader", "Ada Penrose");
    assertThat(twice.err()).contains("named twice");
  }

  private List<JsonNode> rows(String kind) {
    return Ran.command("persons", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .filter(row -> row.path("kind").asText().equals(kind))
        .toList();
  }

  private String signing(String words) {
    return Ran.command("decisions", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .filter(row -> row.path("kind").asText().equals("reading.signed"))
        .filter(row -> row.path("payload").toString().contains(words))
        .findFirst()
        .orElseThrow()
        .path("id")
        .asText();
  }
}
