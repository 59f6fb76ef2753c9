package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.archive.Json;

/** Keeping things from what is published, from the command line to the files. */
class WithholdCommandTest {
  private static final String DAY = "2026-11-25";

  @TempDir Path folder;
  private Path archive;
  private Path out;

  @BeforeEach
  void twoStonesWithTheirPhotographs() throws Exception {
    archive = folder.resolve("archive");
    out = folder.resolve("out");
    run("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    photograph("12/whole.png", 1);
    photograph("14/whole.png", 2);
    photograph("14/near.png", 3);
    run("ingest", archive, folder.resolve("season"), "--reader", "Ada");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file,
        "marker\tline\ttext\n"
            + "12\t1\tIN MEMORY OF | HANNAH WREN | died March 14, 1851\n"
            + "14\t1\tROBERT GARSIDE | born 1849 died 1911 | ALICE HIS WIFE | born 1853 died 1921\n",
        StandardCharsets.UTF_8);
    run("confirm", archive, "--new-markers", "--from", file, "--reader", "Ada");
  }

  private void photograph(String name, int shade) throws IOException {
    Path file = folder.resolve("season").resolve(name);
    Files.createDirectories(file.getParent());
    BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
    picture.setRGB(0, 0, shade);
    ImageIO.write(picture, "png", file.toFile());
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
    return ran;
  }

  private String withhold(String why, String... what) {
    List<Object> words = new ArrayList<>(List.of("withhold", archive));
    words.addAll(List.of(what));
    words.addAll(
        List.of("--why", why, "--reason", "it was asked", "--asked-by", "B. Garside", "--on", DAY));
    words.addAll(List.of("--reader", "Ada"));
    String line = run(words.toArray()).out().strip();
    return line.substring(line.lastIndexOf('(') + 1, line.length() - 1);
  }

  private Ran export() {
    return run("export", archive, "--to", out, "--as-of", DAY, "--photographs", "--tables");
  }

  private int surfaces(String file) throws IOException {
    return Files.readString(out.resolve(file)).split("<surface ", -1).length - 1;
  }

  private void undo(String decision) {
    run("undo", archive, decision, "--reader", "Ada");
  }

  @Test
  void aPhotographTakenDownIsNotPublishedUntilThatIsUndone() throws Exception {
    String decision = withhold("taken-down", "photograph", "near.png");
    assertThat(export().outLines()).endsWith("Left out, taken down: 1 photograph");
    assertThat(surfaces("14-front.xml")).isEqualTo(1);
    assertThat(Files.list(out.resolve("photographs"))).hasSize(2);
    undo(decision);
    assertThat(export().out()).doesNotContain("Left out");
    assertThat(surfaces("14-front.xml")).isEqualTo(2);
  }

  @Test
  void withoutPermissionNoPhotographOfAMarkerIsPublishedAndItsReadingIs() throws Exception {
    String decision = withhold("no-permission", "marker", "14");
    assertThat(export().outLines())
        .endsWith("Left out, no permission to photograph: 2 photographs");
    assertThat(surfaces("14-front.xml")).isZero();
    assertThat(surfaces("12-front.xml")).isEqualTo(1);
    assertThat(Files.readString(out.resolve("14-front.xml"))).contains("ALICE");
    undo(decision);
    export();
    assertThat(surfaces("14-front.xml")).isEqualTo(2);
  }

  @Test
  void aPersonGoesWithThePhotographsOfTheFace() throws Exception {
    String decision = withhold("family", "person", "14:front:2");
    Ran ran = export();
    assertThat(ran.out())
        .contains("14-front.xml: something on it is withheld (wish of the family)")
        .contains("Left out, wish of the family: 1 person")
        .contains("Left out, shows what is withheld: 2 photographs");
    assertThat(surfaces("14-front.xml")).isZero();
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String written = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
        assertThat(Chance.leftOut(written))
            .as(file.toString())
            .doesNotContainIgnoringCase("alice")
            .doesNotContain("1853", "1921", "it was asked", "B. Garside");
      }
    }
    assertThat(Files.readString(out.resolve("readings.csv"))).contains(",wish of the family,Ada,");
    String persons = run("persons", archive, "--public", "--as-of", DAY, "--json").out();
    assertThat(persons).contains("Robert Garside").doesNotContainIgnoringCase("alice");
    assertThat(run("statements", archive, "--public", "--as-of", DAY).out())
        .contains("Robert")
        .doesNotContainIgnoringCase("alice")
        .doesNotContain("1853");
    assertThat(run("persons", archive).out()).contains("Alice Garside");
    assertThat(run("search", archive, "alice").out()).contains("14");
    undo(decision);
    export();
    assertThat(Files.readString(out.resolve("14-front.xml"))).contains("ALICE");
    assertThat(run("check", archive).code()).isZero();
  }

  @Test
  void aMarkerTakenDownIsReportedWithAllThatGoesWithItAndWhatAnEarlierRunLeft() {
    export();
    withhold("taken-down", "marker", "14");
    Ran ran = export();
    assertThat(ran.outLines()).endsWith("Left out, taken down: 1 marker, 2 photographs, 2 persons");
    assertThat(ran.errLines())
        .hasSize(3)
        .allSatisfy(line -> assertThat(line).endsWith("it may hold what is withheld now"))
        .anySatisfy(line -> assertThat(line).contains("14-front.xml: of an earlier run"));
    Ran one = run("export", archive, "--to", out, "--as-of", DAY, "--marker", "14");
    assertThat(one.outLines())
        .containsExactly("Left out, taken down: 1 marker, 2 photographs, 2 persons");
  }

  @Test
  void theListSaysWhyAndByWhom() {
    String decision = withhold("keeper", "face", "14", "front");
    assertThat(run("withheld", archive, "--as-of", DAY).out())
        .contains(
            "14 front\n    wish of the keeper: it was asked; asked by B. Garside; 2026-11-25, Ada")
        .contains("near.png on marker 14")
        .contains("Alice Garside at 14:front:2");
    JsonNode face =
        Json.read(
            run("withheld", archive, "--as-of", DAY, "--json").outLines().get(0), JsonNode.class);
    assertThat(face.path("withheld").asText()).isEqualTo("face");
    assertThat(face.path("markers").get(0).asText()).isEqualTo("14");
    JsonNode why = face.path("why").get(0);
    assertThat(why.path("why").asText()).isEqualTo("keeper");
    assertThat(why.path("reason").asText()).isEqualTo("it was asked");
    assertThat(why.path("askedBy").asText()).isEqualTo("B. Garside");
    assertThat(why.path("on").asText()).isEqualTo(DAY);
    assertThat(why.path("decision").asText()).isEqualTo(decision);
    undo(decision);
    assertThat(run("withheld", archive, "--as-of", DAY).out()).isEmpty();
  }

  @Test
  void theGroundsRuleForYoungBurialsIsSetShownAndLifted() throws Exception {
    Ran set = run("ground", archive, "--burials-told-after", "110", "--reader", "Ada");
    assertThat(set.out()).contains("burials   told after 110 years");
    assertThat(run("withheld", archive, "--as-of", DAY).out())
        .contains("marker 14\n    burial less than 110 years ago: 1921-12-31 at the latest")
        .doesNotContain("marker 12");
    export();
    assertThat(out.resolve("14-front.xml")).doesNotExist();
    run("ground", archive, "--burials-told-after", "none", "--reader", "Ada");
    assertThat(run("ground", archive).out()).doesNotContain("told after");
    export();
    assertThat(out.resolve("14-front.xml")).exists();
    assertThat(run("check", archive).code()).isZero();
  }

  @Test
  void aWrongLineIsToldInOneLine() {
    assertThat(refused("marker", "99", "family")).startsWith("There is no marker 99 here.");
    assertThat(refused("person", "14:front:9", "family")).startsWith("14:front:9: nobody is");
    assertThat(refused("photograph", "none.png", "taken-down")).contains("none.png");
    assertThat(refused("person", "14:front:1", "taken-down"))
        .startsWith("“taken down” is said of a marker, a face or a photograph.");
    assertThat(refused("marker", "14", "because"))
        .startsWith("--why must be one of family, keeper, rule, taken-down, no-permission");
    assertThat(refused("stone", "14", "family")).startsWith("What is withheld is a marker, face,");
    assertThat(refused("face", "14", "family")).startsWith("A face is named by its marker and");
    Ran years = Ran.command("ground", archive, "--burials-told-after", "soon", "--reader", "Ada");
    assertThat(years.code()).isEqualTo(2);
    assertThat(years.errLines().get(0))
        .isEqualTo("--burials-told-after must be a number of years or none, not soon");
    assertThat(run("decisions", archive).out()).doesNotContain("withheld");
  }

  private String refused(String what, String which, String why) {
    Ran ran =
        Ran.command(
            "withhold",
            archive,
            what,
            which,
            "--why",
            why,
            "--reason",
            "R",
            "--on",
            DAY,
            "--reader",
            "Ada");
    assertThat(ran.code()).isNotZero();
    return ran.errLines().get(0);
  }
}
