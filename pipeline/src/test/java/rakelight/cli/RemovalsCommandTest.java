package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.samples.removals.InventedRemovals;
import rakelight.samples.removals.InventedRemovals.InventedFault;
import rakelight.samples.removals.InventedRemovals.MovedStone;

/** From a register with nine faults and a ground of stones to the account of the old ground. */
class RemovalsCommandTest {
  private static final String DAY = "2026-11-25";

  @TempDir static Path folder;
  private static final InventedRemovals GROUND =
      new InventedRemovals(Long.getLong("removals.seed", 17), 240);
  private static Path archive;
  private static Path csv;
  private static String source;
  private static Ran dry;
  private static Ran taken;

  @BeforeAll
  static void takeTheRegister() throws Exception {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    StringBuilder readings = new StringBuilder("marker\tface\tline\ttext\n");
    for (MovedStone stone : GROUND.stones()) {
      for (int i = 0; i < stone.lines().size(); i++) {
        readings.append(
            String.join("\t", stone.number(), "front", String.valueOf(i + 1), stone.lines().get(i))
                + "\n");
      }
    }
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, readings);
    done("confirm", archive, "--from", file, "--new-markers", "--reader", "Ada Penrose");
    source = record("Register of removals 1867-1868");
    csv = folder.resolve("removals.csv");
    Files.writeString(csv, GROUND.csv());
    dry = Ran.command(importing("--dry-run"));
    taken = Ran.command(importing());
  }

  private static String record(String title) {
    Ran recorded =
        done("source", archive, "--kind", "register", "--title", title, "--reader", "Ada Penrose");
    return recorded.out().substring("source ".length(), recorded.out().indexOf(':'));
  }

  private static Object[] importing(Object... more) {
    List<Object> words =
        new ArrayList<>(List.of("removals", archive, "import", csv, "--source", source));
    new TreeMap<>(InventedRemovals.FIELDS)
        .forEach((field, column) -> words.addAll(List.of("--column", field + "=" + column)));
    words.addAll(List.of("--stated", "recorded=" + GROUND.statedRecorded()));
    words.addAll(List.of("--reader", "Ada Penrose"));
    words.addAll(List.of(more));
    return words.toArray();
  }

  private static Ran done(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err()).isZero();
    return ran;
  }

  private static List<JsonNode> told(Object... more) {
    List<Object> words = new ArrayList<>(List.of("removals", archive, "--as-of", DAY, "--json"));
    words.addAll(List.of(more));
    return done(words.toArray()).outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .toList();
  }

  private static JsonNode account() {
    return told("--source", source).get(0);
  }

  @Test
  void theFiguresOfTheAccountAreThoseOfTheGroundAndTheSumsClose() {
    JsonNode account = account();
    assertThat(account.path("rows").asInt()).isEqualTo(GROUND.rows());
    GROUND
        .figures()
        .forEach(
            (figure, count) ->
                assertThat(account.path("figures").path(figure).asInt())
                    .as(figure)
                    .isEqualTo(count));
    List<JsonNode> open = new ArrayList<>();
    account
        .path("sums")
        .forEach(
            sum -> {
              if (!sum.path("closes").asBoolean()) {
                open.add(sum);
              }
            });
    assertThat(account.path("sums")).hasSize(4);
    assertThat(open).as("only the total that the register states wrongly").hasSize(1);
    assertThat(open.get(0).path("left").asInt()).isEqualTo(GROUND.statedRecorded());
    assertThat(open.get(0).path("right").asInt()).isEqualTo(240);
    assertThat(open.get(0).path("rows")).as("rows that may have been counted twice").isNotEmpty();
    assertThat(account.path("mayRemain").asText()).contains("Unmarked graves may remain");
  }

  @Test
  void eachFaultPutIntoTheRegisterIsNamedWithItsRowsAndNoOtherIs() {
    List<InventedFault> named = new ArrayList<>();
    for (JsonNode fault : account().path("faults")) {
      List<Integer> rows = new ArrayList<>();
      fault.path("rows").forEach(row -> rows.add(row.asInt()));
      named.add(new InventedFault(fault.path("fault").asText(), rows));
    }
    assertThat(GROUND.faults()).hasSize(9);
    assertThat(named).containsExactlyInAnyOrderElementsOf(GROUND.faults());
  }

  @Test
  void aDryRunNamesEveryFaultInALineWithTheFilesLineAndKeepsNothing() {
    assertThat(dry.code()).isZero();
    assertThat(dry.out()).contains(GROUND.rows() + " rows would be taken");
    assertThat(dry.errLines()).filteredOn(line -> line.contains("row")).hasSize(8);
    int row =
        GROUND.faults().stream()
            .filter(fault -> fault.kind().equals("no-such-row"))
            .findFirst()
            .orElseThrow()
            .rows()
            .get(0);
    assertThat(dry.err())
        .contains("line " + (row + 1) + ", row " + row + ": there is no row 99 here")
        .contains("column page is passed over");
    assertThat(taken.code()).as("the dry run left the source free").isZero();
    assertThat(taken.errLines()).containsAll(dry.errLines());
  }

  @Test
  void behindEachFigureStandTheGravesItCounts() {
    GROUND
        .figures()
        .forEach(
            (figure, count) ->
                assertThat(told("--source", source, "--show", figure))
                    .as(figure)
                    .hasSize(1 + count));
  }

  @Test
  void theStonesThatNameThemAreProposedAndFewOthers() {
    int asked = 0;
    int right = 0;
    int wrong = 0;
    for (JsonNode grave : told("--source", source).stream().skip(1).toList()) {
      Optional<String> named = GROUND.namedOn(grave.path("rows").get(0).asInt());
      asked += named.isPresent() ? 1 : 0;
      for (JsonNode match : grave.path("matches")) {
        String marker = match.path("mention").asText().replaceFirst(":.*", "");
        right += named.filter(marker::equals).isPresent() ? 1 : 0;
        wrong += named.filter(marker::equals).isPresent() ? 0 : 1;
      }
    }
    assertThat(told("--source", source).stream().filter(g -> g.path("rows").size() > 1))
        .as("a row written twice takes no odds from itself")
        .isNotEmpty()
        .allMatch(grave -> grave.path("matches").get(0).path("probability").asDouble() > 0.9);
    assertThat(right).as("of " + asked + " named").isGreaterThan((int) (0.95 * asked));
    assertThat(wrong).as("proposed wrongly").isLessThan(asked / 20);
  }

  @Test
  void aConfirmedStoneAccountsForAGraveAndUndoTakesItBack() throws Exception {
    String number = record("Sexton's list of removals");
    Path list = folder.resolve("list.csv");
    MovedStone stone =
        GROUND.stones().stream()
            .filter(one -> one.lines().size() == 4 && !one.lines().get(1).contains("["))
            .findFirst()
            .orElseThrow();
    Files.writeString(
        list,
        "name,died,old-number,new-number\n"
            + "\"Elsewhere, Job\",1850,1,\n\""
            + stone.lines().get(1)
            + "\","
            + stone.lines().get(3)
            + ",2,\n");
    done(
        "removals",
        archive,
        "import",
        list,
        "--source",
        number,
        "--old-ground",
        "High Carr",
        "--reader",
        "Ada");
    JsonNode grave = told("--source", number).get(2);
    assertThat(grave.path("standing").asText()).isEqualTo("unaccounted");
    String mention = grave.path("matches").get(0).path("mention").asText();
    assertThat(mention).startsWith(stone.number() + ":");
    done("removals", archive, "is", number + ".2", mention, "--reader", "Bede Marsh");
    assertThat(told("--source", number).get(2).path("standing").asText()).isEqualTo("marked");
    assertThat(told("--source", number).get(2).path("found").asText()).isEqualTo(mention);
    Ran opposite =
        Ran.command("removals", archive, "not", number + ".2", mention, "--reader", "Cecily Lorne");
    assertThat(opposite.code()).isEqualTo(1);
    assertThat(opposite.err()).contains("Bede Marsh has said otherwise");
    done("undo", archive, "--reader", "Bede Marsh");
    assertThat(told("--source", number).get(2).path("standing").asText()).isEqualTo("unaccounted");
    done("removals", archive, "not", number + ".2", mention, "--reader", "Bede Marsh");
    assertThat(told("--source", number).get(2).path("matches")).isEmpty();
    done("check", archive);
  }

  @Test
  void theNextRegisterTakesTheColumnsOfTheLast() throws Exception {
    String number = record("Register of removals, second book");
    Ran like =
        Ran.command(
            "removals",
            archive,
            "import",
            csv,
            "--source",
            number,
            "--like",
            source,
            "--dry-run",
            "--reader",
            "Ada");
    assertThat(like.code()).as(like.err()).isZero();
    assertThat(like.out()).contains(GROUND.rows() + " rows would be taken");
    Map<String, String> wrong = Map.of("died", "Dead on");
    Ran refused =
        Ran.command(
            "removals",
            archive,
            "import",
            csv,
            "--source",
            number,
            "--like",
            source,
            "--column",
            "died=" + wrong.get("died"),
            "--reader",
            "Ada");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.err()).contains("there is no column “dead on”");
  }

  @Test
  void aRowThatIsntWholeIsNamedAndNothingIsTaken() throws Exception {
    String number = record("A torn list");
    Path torn = folder.resolve("torn.csv");
    Files.writeString(
        torn, "ground,name,old-number\nLow Carr,Job Fenby,1\nLow Carr,Eli\n,Ann Dunley,3\n");
    Ran refused =
        Ran.command("removals", archive, "import", torn, "--source", number, "--reader", "Ada");
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.errLines())
        .containsExactly(
            torn + ", line 3: has 2 columns, the first line 3",
            torn + ", line 4: says of no old ground; fill in the cell, or give --old-ground",
            torn + ": no row was taken.");
  }
}
