package rakelight.index;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rakelight.index.Stone.stone;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SearchTest {
  @TempDir Path folder;

  private List<Hit> search(String query, Stone... stones) throws QueryException {
    try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
      for (Stone stone : stones) {
        writing.put(stone.entry());
      }
      writing.commit(stones.length);
    }
    try (SearchIndex index = SearchIndex.open(folder)) {
      return index.search(query, 100).hits();
    }
  }

  private static List<String> markers(List<Hit> hits) {
    return hits.stream().map(hit -> hit.entry().marker()).toList();
  }

  @Test
  void aThreeThatMayBeAnEightIsFoundByEitherYear() throws Exception {
    Stone stone =
        stone("4")
            .words("HANNAH WREN died 188(3|8)")
            .year(1883, 1883, 0.5, "188(3 or 8)")
            .year(1888, 1888, 0.5, "188(3 or 8)");
    Stone sure = stone("5").words("ELI WREN died 1888").year(1888, 1888, 1, "1888");
    assertThat(markers(search("year:1883", stone, sure))).containsExactly("4");
    List<Hit> hits = search("wren year:1885..1890", stone, sure);
    assertThat(markers(hits)).containsExactly("5", "4");
    assertThat(hits.get(1).why()).contains("188(3 or 8) may be 1888");
    assertThat(markers(search("1888", stone, sure))).containsExactly("5", "4");
    assertThat(search("1885", stone, sure)).isEmpty();
  }

  @Test
  void aNameWithThreeLostLettersIsFoundBelowTheCertainOneAndSaysWhy() throws Exception {
    List<Hit> hits =
        search("hannah wren", stone("1").words("H...AH WREN"), stone("2").words("HANNAH WREN"));
    assertThat(markers(hits)).containsExactly("2", "1");
    assertThat(hits.get(1).probability()).isLessThan(hits.get(0).probability());
    assertThat(hits.get(1).why()).containsExactly("H...AH may read hannah", "word WREN");
  }

  @Test
  void aNameHalfGoneIsFoundWhateverItsLength() throws Exception {
    assertThat(search("wren", stone("1").words("HANNAH WR-"))).hasSize(1);
    assertThat(search("hannah wren", stone("1").words("HAN-EN"))).hasSize(1);
    assertThat(search("hannah wren", stone("1").words("- WREN")).get(0).why())
        .contains("hannah may have stood in what is lost: -");
    assertThat(search("hannah", stone("1").words("- WREN"))).isEmpty();
  }

  @Test
  void aNameOfWhichNothingIsLeftAnswersWhereALinkLeavesFewToChooseFrom() throws Exception {
    Stone lost = stone("1").words("- WREN").link("footstone of 3");
    Stone other = stone("2").words("- LARK");
    List<Hit> hits = search("link:footstone hannah", lost, other);
    assertThat(markers(hits)).containsExactly("1");
    assertThat(hits.get(0).why()).contains("hannah may have stood in what is lost: -");
    assertThat(search("link:headstone hannah", lost, other)).isEmpty();
  }

  @Test
  void manyDoubtfulLettersNeverHideTheirUnlikeliestReading() throws Exception {
    String word = "(A|H)(E|A)(M|N)(H|N)(O|A)(N|H)(A|E)";
    assertThat(search("hannah", stone("1").words("(A|H)(E|A)(M|N)(H|N)(O|A)(N|H)"))).hasSize(1);
    assertThat(search("hannahe", stone("1").words(word))).hasSize(1);
    assertThat(search("hannahe", stone("1").words("ELI " + word)).get(0).probability())
        .isLessThan(1);
  }

  @Test
  void aNameIsFoundThoughItIsMisreadOnTheStoneAndMistypedAsWell() throws Exception {
    Stone misread = stone("1").name("ANN GARASHEW");
    Stone[] stones = {
      misread,
      stone("2").name("ELI GARASHAW"),
      stone("3").name("JOHN GARASHAW"),
      stone("4").name("ANN REEVE"),
      stone("5").name("ANN LARK")
    };
    assertThat(markers(search("ann gaarshaw", stones))).startsWith("1");
    assertThat(search("eli gaarshaw", stones).get(0).why())
        .contains("GARASHAW, if gaarshaw is a slip");
  }

  @Test
  void aYearThatCanBeNoneIsTakenForOneWithAFigureMisread() throws Exception {
    List<Hit> hits =
        search(
            "wren year:1833..1843",
            stone("1").name("ANN WREN").words("died 1750").year(1750, 1750, 1, "1750"),
            stone("2").name("ANN WREN").words("died 1338").year(1338, 1338, 0.5, "1338"));
    assertThat(markers(hits)).startsWith("2");
    assertThat(hits.get(0).probability()).isGreaterThan(3 * hits.get(1).probability());
    assertThat(hits.get(0).why().get(1)).contains("if a figure is misread");
  }

  @Test
  void nicknamesAbbreviationsAndSoundsComeBelowTheNameItself() throws Exception {
    List<Hit> hits =
        search(
            "elizabeth smith",
            stone("1").words("BETSY SMITH"),
            stone("2").words("ELIZABETH SMITH"),
            stone("3").words("Eliz SMITH"),
            stone("4").words("ELIZABETH SMYTH"),
            stone("5").words("ELIZABETH SCHMIDT"),
            stone("6").words("ELIZABETH BROWN"));
    assertThat(markers(hits)).startsWith("2").contains("1", "3", "4", "5").endsWith("6");
    assertThat(hits)
        .anySatisfy(hit -> assertThat(hit.why()).contains("BETSY, used for elizabeth"))
        .anySatisfy(hit -> assertThat(hit.why()).contains("SCHMIDT, may sound like smith"))
        .anySatisfy(hit -> assertThat(hit.why()).contains("no word like smith"));
  }

  @Test
  void oneKnownGivenNameIsNotTakenForAnotherThatOnlySharesACode() throws Exception {
    Stone albert = stone("1").name("ALBERT WREN");
    Stone alfred = stone("2").name("ALFRED WREN");
    Stone katherine = stone("3").name("KATHERINE WREN");
    assertThat(search("albert wren", albert, alfred).get(1).why())
        .noneMatch(why -> why.contains("sound"));
    assertThat(search("catherine wren", katherine, alfred).get(0).why())
        .contains("KATHERINE, may sound like catherine");
  }

  @Test
  void aFootstonesInitialsAnswerForTheNameAndForThemselves() throws Exception {
    Stone footstone = stone("8").words("J W").initials("JW");
    Stone headstone = stone("7").name("JOHN WREN").words("died 1850");
    List<Hit> hits = search("john wren", footstone, headstone);
    assertThat(markers(hits)).containsExactly("7", "8");
    assertThat(hits.get(1).why())
        .containsExactly("initial: J may be john", "initial: W may be wren");
    assertThat(markers(search("initials:JW", footstone, headstone))).containsExactly("8", "7");
    assertThat(markers(search("name:\"john wren\"", footstone, headstone)))
        .containsExactly("7", "8");
    assertThat(markers(search("initials:\"J. W.\"", footstone))).containsExactly("8");
  }

  @Test
  void aPhraseIsFoundAsItStands() throws Exception {
    assertThat(
            markers(
                search(
                    "\"in memory of\"",
                    stone("1").words("IN MEMORY OF JOHN"),
                    stone("2").words("OF MEMORY IN JOHN"),
                    stone("3").words("IN MEM... OF JOHN"))))
        .containsExactly("1", "3");
  }

  @Test
  void aNameIsAskedForWithinOnePersonsName() throws Exception {
    List<Hit> hits =
        search(
            "name:wren",
            stone("1").words("as the wren that sings"),
            stone("2").name("HANNAH WREN"),
            stone("3").words("- - -"));
    assertThat(markers(hits)).containsExactly("2", "1");
    assertThat(hits.get(1).why().get(0)).endsWith("(in the text, not known to be a name)");
    assertThat(
            markers(
                search(
                    "name:\"hannah wren\"",
                    stone("1").name("HANNAH LARK").name("JOHN WREN"),
                    stone("2").name("HANNAH WREN"))))
        .containsExactly("2", "1");
  }

  @Test
  void linksMarkersAndAccentsAreFound() throws Exception {
    Stone stone = stone("12a").words("Brontë Auguſt").link("footstone of 11");
    assertThat(search("bronte august", stone)).hasSize(1);
    assertThat(search("marker:12A", stone)).hasSize(1);
    assertThat(search("link:footstone", stone).get(0).why())
        .containsExactly("link: footstone of 11");
    assertThat(search("link:reburied", stone)).isEmpty();
  }

  @Test
  void equalHitsComeInTheOrderOfTheirMarkers() throws Exception {
    assertThat(
            markers(
                search(
                    "wren",
                    stone("10").words("WREN"),
                    stone("9").words("WREN"),
                    stone("9a").words("WREN"))))
        .containsExactly("9", "9a", "10");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '\'',
      value = {
        "'';                 nothing to search for",
        "nam:wren;           no such part as nam:",
        "\"in memory;        a quotation mark that nothing closes",
        "year:185x;          write year:1863 or year:1850..1870",
        "year:..;            write year:1863 or year:1850..1870",
        "year:1870..1850;    runs backwards",
        "name:;              name: needs something after it",
        "\"\";               nothing between the quotation marks",
        "...;                no letter or figure",
        "initials:..;        initials: needs letters",
      })
  void aQueryThatCantBeUnderstoodIsExplained(String query, String message) {
    assertThatThrownBy(() -> Query.parse(query))
        .isInstanceOf(QueryException.class)
        .hasMessageContaining(message);
  }
}
