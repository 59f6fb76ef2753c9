package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ApparatusTest {
  private static List<String> entries(String earlier, String current) {
    try {
      Inscription before = Leiden.parse(earlier);
      Inscription now = SignIds.carry(before, Leiden.parse(current), before.lastId());
      return Apparatus.between(now, before).stream()
          .map(
              variant ->
                  variant.line() + " " + text(variant.lemma()) + " : " + text(variant.rejected()))
          .toList();
    } catch (LeidenException e) {
      throw new AssertionError(e);
    }
  }

  private static String text(Optional<Inscription> words) {
    return words.map(Leiden::print).orElse("nothing");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "HARRAH WREN | DIED 1883; HANNAH WREN | DIED 1883; 1 HANNAH : HARRAH",
        "HANNAH | DIED 1883; HANNAH | DIED 188(3 or 8); 2 188(3 or 8) : 1883",
        "HANNAH WREN; HANNAH; 1 nothing : WREN",
        "HANNAH; HANNAH WREN; 1 WREN : nothing",
        "HANNAH | DIED; HANNAH | WREN | DIED; 2 WREN : nothing",
        "HANNAH | WREN | DIED; HANNAH | DIED; 1 nothing : WREN",
        "Aug WREN; Aug(ustus) WREN; 1 Aug(ustus) : Aug",
        "HANNAH; HANNAH#note(so on the stone); 1 HANNAH#note(so on the stone) : HANNAH",
        "#regular(LYES HEARE=lies here) X; #regular(LYES HERE=lies here) X; "
            + "1 #regular(LYES HERE=lies here) X : #regular(LYES HEARE=lies here) X",
      })
  void whatWasReadOtherwiseBeforeIsGivenWordByWord(String earlier, String current, String entry) {
    assertThat(entries(earlier, current)).containsExactly(entry);
  }

  @Test
  void readingsThatAgreeHaveNoEntry() {
    assertThat(entries("HANNAH | [mem|ory]", "HANNAH | [mem|ory]")).isEmpty();
  }

  @Test
  void anyTwoReadingsCanBeCompared() {
    Random random = new Random(11);
    for (int i = 0; i < 500; i++) {
      Inscription before = RandomInscription.next(random);
      Inscription other = RandomInscription.next(random);
      Inscription now = SignIds.carry(before, other, before.lastId());
      boolean same = now.equals(before);
      assertThat(same && !Apparatus.between(now, before).isEmpty()).isFalse();
      int lines = now.lines().size();
      assertThat(Apparatus.between(now, before))
          .allSatisfy(variant -> assertThat(variant.line()).isBetween(0, lines));
    }
  }
}
