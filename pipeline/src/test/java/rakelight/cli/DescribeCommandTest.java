package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.marker.GlossaryEmblem;

/** What markers are, and what is carved on them beside letters. */
class DescribeCommandTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void twoMarkers() throws Exception {
    archive = folder.resolve("archive");
    run("init", archive, "--ground", "Tarrow", "--datum", "54,-3", "--zone", "UTC");
    Path season = Files.createDirectories(folder.resolve("season"));
    for (String name : new String[] {"a.png", "b.png"}) {
      BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
      picture.setRGB(0, 0, name.hashCode());
      ImageIO.write(picture, "png", season.resolve(name).toFile());
    }
    run("ingest", archive, season);
    run("assign", archive, "a.png", "--marker", "1", "--reader", "Ada");
    run("assign", archive, "b.png", "--marker", "2", "--reader", "Ada");
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  private Ran is(String number, String... fields) {
    Object[] words = new Object[5 + 2 * fields.length];
    words[0] = "describe";
    words[1] = archive;
    words[2] = number;
    words[3] = "--reader";
    words[4] = "Ada";
    for (int i = 0; i < fields.length; i++) {
      words[5 + 2 * i] = "--is";
      words[6 + 2 * i] = fields[i];
    }
    return Ran.command(words);
  }

  @Test
  void aDescriptionGrowsFieldByFieldAndIsTakenBackStepByStep() {
    assertThat(is("1", "kind=Obelisk", "material=marble").code()).isZero();
    Ran more = is("1", "parts=base: standing; shaft: leaning 8.5; cap: missing", "height=310");
    assertThat(more.out())
        .contains("kind: obelisk")
        .contains("parts: base: standing; shaft: leaning 8.5; cap: missing")
        .contains("size: 310 cm high")
        .contains("Don't lean on");
    assertThat(is("1", "material=").out()).doesNotContain("material");
    run("check", archive);
    run("undo", archive, "--reader", "Ada");
    assertThat(run("describe", archive, "1").out()).contains("material: marble");
    JsonNode json = Json.read(run("describe", archive, "1", "--json").out(), JsonNode.class);
    assertThat(json.get("parts").get(1).get("leanDegrees").asDouble()).isEqualTo(8.5);
  }

  @Test
  void aWordThatIsNoTermIsRefusedWithThoseThereAreUntilTheGroundAddsIt() throws Exception {
    Ran refused = is("1", "material=coral stone");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.err()).contains("No material is called “coral stone”; there are slate");
    Path own = folder.resolve("own.tsv");
    Files.writeString(
        own, "list\tterm\tmeaning\tsource\nmaterial\tcoral stone\tfull of corals\t\n");
    assertThat(run("describe", archive, "--terms", own, "--reader", "Ada").out())
        .contains("1 term added");
    assertThat(is("1", "material=Coral Stone").out()).contains("material: coral stone");
    assertThat(run("describe", archive, "--words").out())
        .contains("material  coral stone: full of corals");
    run("check", archive);
    Path odd = folder.resolve("odd.tsv");
    Files.write(odd, new byte[] {'l', (byte) 0xff, (byte) 0xfe, '\n'});
    assertThat(Ran.command("describe", archive, "--terms", odd, "--reader", "Ada").errLines())
        .containsExactly(odd + ": not in UTF-8. Save it as UTF-8.");
    assertThat(Ran.command("made", archive, "--table", odd).errLines())
        .containsExactly(odd + ": not in UTF-8. Save it as UTF-8.");
    assertThat(is("1", "height=tall").err()).contains("a number of centimetres, not “tall”");
    assertThat(is("1", "parts=shaft leans").err()).contains("such as shaft: leaning 8");
    assertThat(is("1", "parts=shaft: leaning 95").err()).contains("0 to 90 degrees");
    assertThat(is("1", "colour=red").err()).contains("No field is called colour");
  }

  @Test
  void aTableIsTakenWholeOrNotAtAllAndIsOneUndo() throws Exception {
    Path table = folder.resolve("markers.csv");
    Files.writeString(table, "marker;kind;material\n1;headstone;slate\n3;headstone;granit\n");
    Ran refused = Ran.command("describe", archive, "--from", table, "--reader", "Ada");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.errLines()).hasSize(2);
    assertThat(refused.err()).contains("markers.csv:3: There is no marker 3");
    assertThat(run("describe", archive).out()).isEmpty();

    Files.writeString(
        table, "marker,kind,material,made_at\n1,headstone,slate,\n2,ledger,-,Kelby\n");
    assertThat(run("describe", archive, "--from", table, "--dry-run").out())
        .contains("marker 2  kind: ledger, made at: Kelby")
        .contains("Nothing was changed.");
    assertThat(run("describe", archive, "--from", table, "--reader", "Ada").out())
        .contains("2 markers described; one `undo`");
    assertThat(run("describe", archive, "--from", table, "--reader", "Ada").out())
        .contains("0 markers described.");
    run("undo", archive, "--reader", "Ada");
    assertThat(run("describe", archive).out()).isEmpty();
  }

  @Test
  void whatIsDescribedIsFoundOnceTheMarkerIsRead() throws Exception {
    is("1", "kind=ledger", "material=slate");
    run("emblems", archive, "1", "--see", "Anchor", "--reader", "Ada");
    Path readings = folder.resolve("r.tsv");
    Files.writeString(readings, "marker\tline\ttext\n1\t1\tELI HOLT\n2\t1\tELI HOLT\n");
    run("confirm", archive, "--from", readings, "--reader", "Ada");
    run("index", archive);
    for (String query : new String[] {"holt material:slate", "holt form:ledger", "emblem:anchor"}) {
      assertThat(run("search", archive, query).out())
          .as(query)
          .contains("arker 1")
          .doesNotContain("arker 2");
    }
  }

  @Test
  void anEmblemIsSaidToMeanAndProvesNothing() {
    Ran known = run("emblems", archive, "1", "--see", "lamb", "--reader", "Ada");
    assertThat(known.out())
        .contains("often said to mean innocence; or Christ")
        .contains("popular lists");
    Ran own =
        run(
            "emblems",
            archive,
            "1",
            "--see",
            "a wheel with nine spokes",
            "--detail",
            "letters=N S",
            "--reader",
            "Ada");
    assertThat(own.out()).contains("a wheel with nine spokes: meaning unknown  {letters=N S}");
    assertThat(
            Ran.command("emblems", archive, "1", "--see", "x", "--detail", "age=9", "--reader", "A")
                .err())
        .contains("No detail is called age");
    assertThat(run("statements", archive).out()).isEmpty();
    run("check", archive);
    run("undo", archive, "--reader", "Ada");
    assertThat(run("emblems", archive).out()).contains("lamb").doesNotContain("wheel");
  }

  /** The sources' own limits: emblems by which lists tell an age, a service or an award. */
  @Test
  void theGlossarySaysWhatNobodyMayConclude() {
    assertThat(GlossaryEmblem.glossary())
        .hasSizeGreaterThan(50)
        .allMatch(one -> !one.source().isBlank());
    assertThat(GlossaryEmblem.named("Rose").orElseThrow().strength())
        .isEqualTo(GlossaryEmblem.Strength.DISPUTED);
    for (String age : new String[] {"rose", "lamb", "sheaf of wheat", "broken column"}) {
      assertThat(GlossaryEmblem.named(age).orElseThrow().neverProves()).as(age).contains("age");
    }
    for (String service : new String[] {"anchor", "shield", "sword, cannon, drum or flag"}) {
      assertThat(GlossaryEmblem.named(service).orElseThrow().neverProves())
          .as(service)
          .contains("service");
    }
    assertThat(GlossaryEmblem.named("star on a ribbon under an eagle").orElseThrow().neverProves())
        .isEqualTo("an award");
    assertThat(GlossaryEmblem.named("tree stump").orElseThrow().neverProves())
        .contains("membership");
    assertThat(GlossaryEmblem.named("clasped hands").orElseThrow().neverProves())
        .contains("which of the two");
  }
}
