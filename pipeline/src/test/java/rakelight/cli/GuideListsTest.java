package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static rakelight.cli.GuideGround.ADA;
import static rakelight.cli.GuideGround.MOVED;
import static rakelight.cli.GuideGround.done;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.marker.Caution;
import rakelight.samples.removals.InventedRemovals.MovedStone;

/** Rolls, deaths and moved graves at the terminal, and what isn't told in them. */
class GuideListsTest {
  private static final String[] DAY = {"--as-of", "2026-11-25"};

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void makeArchive() throws Exception {
    archive = GuideGround.in(folder);
  }

  private List<JsonNode> json(String command, String... more) {
    Object[] words = new Object[more.length + 5];
    words[0] = command;
    words[1] = archive;
    words[2] = DAY[0];
    words[3] = DAY[1];
    words[4] = "--json";
    System.arraycopy(more, 0, words, 5, more.length);
    return done(words).outLines().stream().map(line -> Json.read(line, JsonNode.class)).toList();
  }

  @Test
  void oneRegimentStandsTogetherHoweverItIsSpeltAndAsCarved() {
    JsonNode fifth = json("roll", "--by", "regiment", "--of", "Fifth Regiment Sker. Inf").get(0);
    assertThat(fifth.path("persons")).hasSize(3);
    assertThat(fifth.findValuesAsText("name"))
        .containsExactly("Abel Kell", "Owen Lane", "Hugh Wray");
    assertThat(fifth.path("spellings").toString())
        .isEqualTo("[\"5 Sker. Infantry\",\"5TH REGT. SKER. INF.\",\"5th Sker. Inf.\"]");
    assertThat(json("roll", "--by", "company").get(0).path("persons")).hasSize(2);
    assertThat(json("roll", "--by", "rank", "--of", "private").get(0).path("persons")).hasSize(2);
    assertThat(json("roll", "--by", "origin").get(0).path("called").asText())
        .isEqualTo("Netherquay");
    Ran told = done("roll", archive, "--by", "trade", DAY[0], DAY[1]);
    assertThat(told.out()).contains("Blacksmith").contains(Caution.LOOK_ONLY);
  }

  @Test
  void theCrewOfOneDayIsToldWithWhatStonesAndQuestionsSayAndNoCause() {
    JsonNode crew = json("deaths").get(0);
    assertThat(crew.path("first").asText()).isEqualTo("1866-11-23");
    assertThat(crew.path("last").asText()).isEqualTo("1866-11-24");
    assertThat(crew.path("count").asInt()).isEqualTo(4);
    assertThat(crew.path("probability").asDouble()).isLessThan(0.05);
    assertThat(crew.path("about").findValuesAsText("name")).containsExactly("Luke Tarn");
    assertThat(crew.path("said").findValuesAsText("words").toString().toLowerCase(Locale.ROOT))
        .contains("drowned")
        .contains("netherquay")
        .contains("what became of the alert");
    Ran told = done("deaths", archive, DAY[0], DAY[1]);
    assertThat(told.out()).contains("isn’t a cause").contains(Caution.LOOK_ONLY);
  }

  @Test
  void whoIsKeptBackByAWishIsOnNoList() {
    done(
        "withhold",
        archive,
        "person",
        "W1:front:1",
        "--why",
        "family",
        "--reason",
        "by letter",
        "--on",
        "2026-11-20",
        "--reader",
        ADA);
    done(
        "withhold",
        archive,
        "marker",
        "S3",
        "--why",
        "keeper",
        "--reason",
        "unsafe",
        "--on",
        "2026-11-20",
        "--reader",
        ADA);
    assertThat(json("roll").toString()).doesNotContain("Wray").doesNotContain("WRAY");
    assertThat(json("deaths").toString()).doesNotContain("Tull").doesNotContain("S3");
  }

  @Test
  void aPersonOrPlaceKeptBackIsCountedInTheAccountAndNotNamed() {
    String before = json("removals").get(0).path("figures").toString();
    JsonNode grave =
        json("removals", "--show", "marked").stream()
            .filter(one -> one.path("matches").size() == 1)
            .findFirst()
            .orElseThrow();
    String mention = grave.path("matches").get(0).path("mention").asText();
    String name = grave.path("called").asText();
    done(
        "withhold",
        archive,
        "person",
        mention,
        "--why",
        "family",
        "--reason",
        "by letter",
        "--on",
        "2026-11-20",
        "--reader",
        ADA);
    MovedStone unknown =
        MOVED.stones().stream().filter(s -> s.lines().size() == 1).findFirst().orElseThrow();
    done(
        "withhold",
        archive,
        "marker",
        unknown.number(),
        "--why",
        "keeper",
        "--reason",
        "unsafe",
        "--on",
        "2026-11-20",
        "--reader",
        ADA);
    List<JsonNode> told = json("removals");
    assertThat(told.get(0).path("figures").toString()).isEqualTo(before);
    assertThat(told.toString()).doesNotContain(name).doesNotContain(mention);
    assertThat(told).filteredOn(one -> one.path("nameWithheld").asBoolean()).hasSize(1);
    assertThat(told)
        .filteredOn(one -> one.path("placeWithheld").asBoolean())
        .isNotEmpty()
        .allMatch(one -> one.path("newNumber").asText().isEmpty() && !one.has("marker"));
    assertThat(told).noneMatch(one -> one.path("marker").asText().equals(unknown.number()));
  }

  @Test
  void aYoungBurialHasNoNameInTheAccountAndWhatIsWithdrawnIsGone() {
    done("ground", archive, "--burials-told-after", "200", "--reader", ADA);
    assertThat(json("removals").stream().skip(1))
        .as("all were moved within 200 years")
        .allMatch(grave -> grave.path("called").asText().equals("(withheld)"));
    done("undo", archive, "--reader", ADA);
    done(
        "withdraw",
        archive,
        "--marker",
        "W2",
        "--reason",
        "wrong ground",
        "--seal",
        "--reader",
        ADA);
    assertThat(json("roll").toString()).doesNotContain("Kell");
  }
}
