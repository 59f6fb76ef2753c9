package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class FoldedWordsTest {
  @Test
  void eachWordAskedForBeginsAWordWhateverItsCaseAccentsAndOrder() {
    assertThat(FoldedWords.begin("Zoë O’Hale", "ohal zoe")).isTrue();
    assertThat(FoldedWords.begin("Hannah Wren", "han wre")).isTrue();
    assertThat(FoldedWords.begin("Hannah Wren", "annah")).isFalse();
    assertThat(FoldedWords.begin("Hannah Wren", "hannah rudd")).isFalse();
    assertThat(FoldedWords.begin("Hannah Wren", " - ")).as("nothing is asked").isTrue();
  }

  @Test
  void aWordWithALostLetterAnswersByWhatStandsBeforeIt() {
    assertThat(FoldedWords.begin("Hannah Wr?n", "wren")).isTrue();
    assertThat(FoldedWords.begin("Hannah Wr?n", "wing")).isFalse();
    assertThat(FoldedWords.begin("Hannah ?ren", "wren")).as("nothing stands before").isFalse();
  }

  @Test
  void wordsThatNameOneOfManyAreFoundAsForOne() {
    List<String> names = List.of("Hannah Wren", "Zoë O’Hale", "?");
    for (String words :
        List.of(
            "beside HANNAH Wr?n’s", "Wren's Hannah", "Hannah alone", "ohale, zoe", "", "wing")) {
      assertThat(FoldedWords.naming(names).test(words))
          .as(words)
          .isEqualTo(
              FoldedWords.begin(words, names.get(0)) || FoldedWords.begin(words, names.get(1)));
    }
    assertThat(FoldedWords.naming(names).test("Wren, Hannah")).isTrue();
    assertThat(FoldedWords.naming(names).test("Hannah")).isFalse();
  }
}
