package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import rakelight.index.Skeleton;
import rakelight.index.Word;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;

class WordsTest {
  private static List<Word> words(String leiden) {
    return Words.of(ReadStones.inscription(leiden)).words();
  }

  private static Word word(String leiden) {
    List<Word> words = words(leiden);
    assertThat(words).hasSize(1);
    return words.get(0);
  }

  private static double weight(Word word, String reading) {
    return word.readings().getOrDefault(reading, 0.0);
  }

  @Test
  void aClearWordHasOneReadingThatIsSure() {
    assertThat(word("HANNAH").readings()).containsExactly(Map.entry("hannah", 1.0));
    assertThat(word("HANNAH").ways()).extracting(Skeleton::isClear).containsExactly(true);
  }

  @Test
  void lettersLeftOpenGiveAReadingEachByTheirWeights() {
    Word word = word("188(3 or 8)");
    assertThat(word.readings()).containsOnlyKeys("1883", "1888");
    assertThat(weight(word, "1883") + weight(word, "1888")).isCloseTo(1, within(.004));
    assertThat(word.shown()).isEqualTo("188(3 or 8)");
  }

  @Test
  void anUnclearLetterIsMostlyItselfAndPartlyWhatItIsTakenFor() {
    Word word = word("C\u0323AT");
    assertThat(weight(word, "cat")).isCloseTo(.8, within(.004));
    assertThat(weight(word, "gat")).isBetween(1e-9, .2);
  }

  @Test
  void whatNobodySawIsTrustedLessTheMoreOfItThereIs() {
    double one = weight(word("WRE[N]"), "wren");
    double two = weight(word("WR[EN]"), "wren");
    double doubted = weight(word("WR[EN?]"), "wren");
    assertThat(one).isLessThan(1);
    assertThat(two).isLessThan(one);
    assertThat(doubted).isLessThan(two);
  }

  @Test
  void missingLettersLeaveAPatternThatTheirNumberBinds() {
    assertThat(word("WR[..]").ways()).extracting(Skeleton::text).containsExactly("wr??");
    assertThat(word("WR[..]").readings()).isEmpty();
    Word open = word("HAN[- - -]");
    assertThat(open.ways()).anyMatch(way -> way.matches("hannah"));
    assertThat(open.ways().stream().filter(Skeleton::hasLetters))
        .noneMatch(way -> way.matches("wren"));
    assertThat(word("WR+N").shown()).isEqualTo("WR+N");
  }

  @Test
  void anAbbreviationIsFoundAsCutAndAsMeant() {
    assertThat(word("W(illia)m").readings()).containsOnlyKeys("wm", "william");
  }

  @Test
  void aSpellingIsFoundAsCutAndAsCorrected() {
    assertThat(word("⸢daugther=daughter⸣").readings()).containsKeys("daugther", "daughter");
  }

  @Test
  void aWordThatRunsOverALineEndIsOneWord() {
    assertThat(words("depart|ed").stream().map(Word::shown)).containsExactly("departed");
    assertThat(words("HANNAH | WREN")).hasSize(2);
  }

  @Test
  void pointsPartWordsAndApostrophesDont() {
    assertThat(words("J. & E. CORRIN").stream().map(Word::shown))
        .containsExactly("J", "&", "E", "CORRIN");
    assertThat(words("mo’s").stream().map(Word::shown)).containsExactly("mo’s");
  }

  @Test
  void everyWordKnowsItsSigns() {
    Inscription inscription = ReadStones.inscription("HANNAH | WREN");
    Words words = Words.of(inscription);
    List<String> letters =
        words.signs().stream()
            .map(place -> inscription.signs().subList(place[0], place[1] + 1))
            .map(signs -> signs.stream().map(sign -> ((Letter) sign).text()))
            .map(texts -> texts.collect(Collectors.joining()))
            .toList();
    assertThat(letters).containsExactly("HANNAH", "WREN");
  }
}
