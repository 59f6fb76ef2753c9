package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;

/** From a file of readings to hits, by the commands. */
class SearchCommandTest {
  private static final String READINGS =
      "marker\tface\tline\ttext\n"
          + "4\tfront\t1\tHere lyes y^e Body of\n"
          + "4\tfront\t2\tM^r Ezekiel Tarrant\n"
          + "4\tfront\t3\tAuguſt y^e 9^t^h 1745\n"
          + "5\tfront\t1\tE T\n"
          + "5\tfront\t2\t1745\n"
          + "7\tfront\t1\tW(illia)^m [Lark]\n"
          + "7\tfront\t2\tdied 188(3 or 8)\n"
          + "8\tfront\t1\tHAN[...] WR+N\n"
          + "8\tfront\t2\t18[..]\n"
          + "9\tfront\t1\tTHE WEARY ARE AT REST\n";

  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... arguments) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    return commands().execute(arguments);
  }

  private CommandLine commands() {
    return Rakelight.commands(new PrintWriter(out, true), new PrintWriter(err, true));
  }

  private String archive() {
    return folder.resolve("archive").toString();
  }

  private List<String> markers(String... query) {
    String[] arguments = new String[query.length + 3];
    arguments[0] = "search";
    arguments[1] = archive();
    System.arraycopy(query, 0, arguments, 2, query.length);
    arguments[query.length + 2] = "--json";
    assertThat(run(arguments)).as(err.toString()).isZero();
    return out.toString()
        .lines()
        .map(line -> Json.read(line, com.fasterxml.jackson.databind.JsonNode.class))
        .filter(object -> object.has("marker"))
        .map(object -> object.path("marker").asText())
        .toList();
  }

  @BeforeEach
  void confirmed() throws Exception {
    run("init", archive(), "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, READINGS, StandardCharsets.UTF_8);
    assertThat(
            run(
                "confirm",
                archive(),
                "--new-markers",
                "--from",
                file.toString(),
                "--reader",
                "Ada Penrose"))
        .as(err.toString())
        .isZero();
    assertThat(out.toString()).contains("5 readings signed by Ada Penrose");
  }

  @Test
  void whatWasConfirmedIsFound() {
    assertThat(run("index", archive())).isZero();
    assertThat(out.toString()).contains("5 markers in the index");
    assertThat(markers("tarrant")).containsExactly("4");
    assertThat(markers("ezekiel tarrant")).containsExactly("4", "5");
    assertThat(markers("august")).containsExactly("4");
    assertThat(markers("are at rest")).containsExactly("9");
    assertThat(markers("william", "lark")).containsExactly("7");
    assertThat(markers("wm lark")).containsExactly("7");
    assertThat(markers("hannah wren")).containsExactly("8");
    assertThat(markers("year:1740..1750")).containsExactly("4", "5");
    assertThat(markers("year:1883")).containsExactly("7", "8");
    assertThat(markers("year:1888")).containsExactly("7", "8");
    assertThat(markers("initials:ET")).containsExactly("5", "4");
  }

  @Test
  void aHitShowsItsReadingAndWhyItAnswers() {
    run("search", archive(), "hannah wren");
    assertThat(out.toString())
        .contains("8, front")
        .contains("    HAN[...] WR+N")
        .contains("because: HAN[...] may read hannah")
        .contains("because: WR+N may read wren");
    assertThat(run("search", archive(), "nobody")).isZero();
    assertThat(out.toString()).contains("No marker answers.");
    assertThat(run("search", archive(), "year:soon")).isEqualTo(2);
    assertThat(err.toString()).contains("write year:1863 or year:1850..1870");
  }

  @Test
  void aNameMadeOutIsFoundAsANameAndItsTitleIsNoPartOfIt() {
    assertThat(markers("name:\"ezekiel tarrant\"")).containsExactly("4", "5");
    run("search", archive(), "name:tarrant");
    assertThat(out.toString()).contains("4, front").doesNotContain("not known to be a name");
    run("search", archive(), "name:weary");
    assertThat(out.toString()).contains("9, front").contains("not known to be a name");
  }

  /** Double years: Feb. 1731/2 is 1732 when the year begins in January. Roman: MDCCXLV is 1745. */
  @Test
  void aYearIsFoundThatNoFourFiguresShow() throws Exception {
    Path file = folder.resolve("more.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n"
            + "30\tfront\t1\tIn Memory of Jane Hollin\n"
            + "30\tfront\t2\tdied Feb. 11, 1731/2\n"
            + "31\tfront\t1\tIn Memory of John Hollin\n"
            + "31\tfront\t2\tdied MDCCXLV\n",
        StandardCharsets.UTF_8);
    assertThat(
            run(
                "confirm",
                archive(),
                "--new-markers",
                "--from",
                file.toString(),
                "--reader",
                "Ada"))
        .isZero();
    assertThat(markers("year:1732")).containsExactly("30");
    assertThat(markers("year:1731")).containsExactly("30");
    assertThat(markers("year:1745", "hollin"))
        .as("the year is evidence")
        .containsExactly("31", "30");
  }

  @Test
  void aLinkIsConfirmedListedFoundAndUndone() throws Exception {
    assertThat(run("link", archive(), "5", "footstone-of", "4", "--reader", "Ada Penrose"))
        .as(err.toString())
        .isZero();
    assertThat(markers("link:footstone")).containsExactly("4", "5");
    run("links", archive(), "--standing", "confirmed", "--json");
    var link = Json.read(out.toString().strip(), com.fasterxml.jackson.databind.JsonNode.class);
    assertThat(link.path("type").asText()).isEqualTo("footstone of");
    assertThat(link.path("to").asText()).isEqualTo("4");
    try (Archive open = Archive.open(folder.resolve("archive"), Projections.all())) {
      open.journal()
          .undo(rakelight.archive.DecisionId.of(link.path("decision").asText()), "Ada Penrose");
    }
    assertThat(markers("link:footstone")).isEmpty();
  }

  @Test
  void aFileOfLinksIsTakenWholeOrNotAtAll() throws Exception {
    Path file = folder.resolve("links.tsv");
    Files.writeString(
        file,
        "from\tto\ttype\tnote\n5\t4\tfootstone of\tinitials agree\n7\tWilliam Lark\tburied here\t\n",
        StandardCharsets.UTF_8);
    assertThat(run("link", archive(), "--from", file.toString(), "--reader", "Ada")).isZero();
    assertThat(out.toString()).contains("2 links confirmed");
    assertThat(run("link", archive(), "--from", file.toString(), "--reader", "Ada")).isZero();
    assertThat(out.toString()).contains("0 links confirmed");
    Files.writeString(
        file, "from\tto\ttype\n9\t4\tfootstone of\n99\t4\tfootstone of\n", StandardCharsets.UTF_8);
    assertThat(run("link", archive(), "--from", file.toString(), "--reader", "Ada")).isEqualTo(1);
    assertThat(err.toString()).contains("line 3: There is no marker 99").contains("no link was");
    Files.writeString(file, "from\tto\ttype\n9\t4\tcousin of\n", StandardCharsets.UTF_8);
    assertThat(run("link", archive(), "--from", file.toString(), "--reader", "Ada")).isEqualTo(1);
    assertThat(err.toString()).contains("no such link as “cousin of”");
    run("links", archive(), "--standing", "confirmed");
    assertThat(out.toString().lines()).hasSize(2);
  }

  /** A dot below: could be another letter. Of G, S is the commonest truth; C's share is smaller. */
  @Test
  void anUnclearLetterIsFoundByItsMeasuredLookAlikesTheLikelierFirst() throws Exception {
    Path file = folder.resolve("unclear.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n"
            + "40\tfront\t1\tTO G\u0323Y LARK\n"
            + "41\tfront\t1\tTO C\u0323Y LARK\n"
            + "42\tfront\t1\tTO V\u0323Y LARK\n",
        StandardCharsets.UTF_8);
    assertThat(
            run(
                "confirm",
                archive(),
                "--new-markers",
                "--from",
                file.toString(),
                "--reader",
                "Ada"))
        .isZero();
    assertThat(markers("sy")).containsExactly("40", "41");
    assertThat(markers("gy")).containsExactly("40", "41");
    assertThat(markers("yy")).containsExactly("42");
  }

  @Test
  void aYearWithAnUnclearFigureAndALostOneIsFound() throws Exception {
    Path file = folder.resolve("unclear.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n40\tfront\t1\tdied 17[.]3\u0323\n",
        StandardCharsets.UTF_8);
    assertThat(
            run(
                "confirm",
                archive(),
                "--new-markers",
                "--from",
                file.toString(),
                "--reader",
                "Ada"))
        .isZero();
    assertThat(markers("year:1763")).containsExactly("40");
    assertThat(markers("year:1768")).containsExactly("40");
  }

  @Test
  void anUndoneReadingIsNoLongerFoundAndTheIndexMayBeDeleted() throws Exception {
    assertThat(markers("weary")).containsExactly("9");
    try (Archive open = Archive.open(folder.resolve("archive"), Projections.all())) {
      Reading weary = new ReadingStore(open).current().get(4);
      open.journal().undo(weary.decision(), "Ada Penrose");
    }
    assertThat(markers("weary")).isEmpty();
    try (var files = Files.walk(folder.resolve("archive/index"))) {
      for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
    assertThat(markers("tarrant")).containsExactly("4");
  }

  @Test
  void aBadFileNamesEveryRowAndSignsNothing() throws Exception {
    Path file = folder.resolve("bad.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n20\tfront\t1\tgood\n21\tfront\t1\tHANN?H\n22\tfront\t1\t[x\n",
        StandardCharsets.UTF_8);
    assertThat(
            run(
                "confirm",
                archive(),
                "--new-markers",
                "--from",
                file.toString(),
                "--reader",
                "Ada"))
        .isEqualTo(1);
    assertThat(err.toString().lines()).hasSize(3);
    assertThat(err.toString())
        .contains("bad.tsv, line 3: marker 21")
        .contains("nothing was signed");
    assertThat(markers("good")).isEmpty();
    assertThat(
            run(
                "confirm",
                "--new-markers",
                archive(),
                "--from",
                file.toString(),
                "--reader",
                "Ada",
                "--basis",
                "earlier"))
        .isEqualTo(2);
    assertThat(err.toString()).contains("--witness");
  }

  @Test
  void aLimitThatIsNoNumberOfHitsIsRefused() {
    for (String limit : List.of("--limit=0", "--limit=-1")) {
      assertThat(run("search", archive(), "tarrant", limit)).isEqualTo(2);
      assertThat(err.toString()).contains("it takes a number of hits, 1 or more");
    }
  }

  @Test
  void whatIsntUnderstoodIsRefusedWithTheWayToSayIt() {
    assertThat(run("search", archive(), "tarrant", "OR", "lark")).isEqualTo(2);
    assertThat(err.toString()).contains("search for each by itself").hasLineCount(1);
    assertThat(run("search", archive(), "tarr*")).isEqualTo(2);
    assertThat(err.toString()).contains("write ? for one letter");
    assertThat(run("search", archive(), "tarrant", "--", "-lark")).isEqualTo(2);
    assertThat(err.toString()).contains("nothing can be left out");
  }

  @Test
  void probabilitiesOfAllHitsSumToOneAtMost() {
    run("search", archive(), "ezekiel tarrant", "--json");
    double sum =
        out.toString()
            .lines()
            .map(line -> Json.read(line, com.fasterxml.jackson.databind.JsonNode.class))
            .mapToDouble(object -> object.path("probability").asDouble())
            .sum();
    assertThat(sum).isBetween(.5, 1.0);
  }

  @Test
  void anAnswerSaysWhatItCoversAndHowToCiteIt() {
    run("search", archive(), "tarrant", "--as-of", "2026-11-30");
    assertThat(out.toString())
        .contains("1 of 1)")
        .contains("cite: Thornbeck, marker 4, front; no photograph; read by Ada Penrose")
        .contains("searched 2026-11-30.")
        .contains("The search covers 5 of 5 markers: 0 photographed, 5 read");
  }

  @Test
  void plainWordsForYearsAreUnderstood() {
    assertThat(markers("tarrant died within 5 years of 1743").get(0)).isEqualTo("4");
    assertThat(markers("about 1745")).contains("4", "5");
    assertThat(markers("lark 188?").get(0)).isEqualTo("7");
  }

  @Test
  void aWideningCanBeTurnedOff() {
    assertThat(markers("wm lark").get(0)).isEqualTo("7");
    assertThat(run("search", archive(), "tarant")).isZero();
    assertThat(out.toString()).contains("4, front");
    run("search", archive(), "tarant", "--without", "all");
    assertThat(out.toString()).contains("No marker answers.");
    assertThat(run("search", archive(), "tarant", "--without", "guesses")).isEqualTo(2);
    assertThat(err.toString()).contains("it takes abbreviations");
  }

  @Test
  void aMarkersFacesAnswerTogether() throws Exception {
    Path file = folder.resolve("faces.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n50\tfront\t1\tAmos Rudkin\n50\tback\t1\tdrowned at Pellmouth\n",
        StandardCharsets.UTF_8);
    run("confirm", archive(), "--new-markers", "--from", file.toString(), "--reader", "Ada");
    assertThat(markers("rudkin drowned")).startsWith("50");
  }

  @Test
  void aChildWithoutASurnameIsFoundByThatOfItsFamilyOnAnotherFace() throws Exception {
    Path file = folder.resolve("family.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n"
            + "60\teast\t1\tCAPT. SILAS PENHALLIS\n60\teast\t2\tDied Oct. 30, 1884\n"
            + "60\tsouth\t1\tBABY\n60\tsouth\t2\tNov. 20, 1861\n60\tsouth\t3\taged 3 days\n"
            + "61\tfront\t1\tBABY\n61\tfront\t2\tdied 1861\n",
        StandardCharsets.UTF_8);
    run("confirm", archive(), "--new-markers", "--from", file.toString(), "--reader", "Ada");
    assertThat(markers("baby penhallis")).startsWith("60");
    assertThat(out.toString()).contains("BABY");
    assertThat(markers("name:\"baby penhallis\"")).startsWith("60");
  }

  @Test
  void everyCommandExplainsItselfWithoutParameters() {
    assertThat(commands().getSubcommands()).hasSizeGreaterThan(50);
    for (String command : commands().getSubcommands().keySet()) {
      assertThat(run(command, "--help")).as(command).isZero();
      assertThat(out.toString()).as(command).contains("Usage: rakelight " + command);
    }
  }
}
