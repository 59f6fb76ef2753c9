package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Leiden;

/** Odds that say how often a statement of them is right. */
class StatedOddsTest {

  @Test
  void theyRiseWithWhatTheGrammarHoldsForLikely() throws Exception {
    StatedOdds odds = new StatedOdds(words("JOHN WREN died 1850"));
    double before = -1;
    for (int likely = 0; likely <= 100; likely++) {
      double right = odds.of(likely / 100.0);
      assertThat(right).isGreaterThan(before).isBetween(0.0, 1.0);
      before = right;
    }
  }

  @Test
  void theyFallAsLettersAreLost() throws Exception {
    double whole = new StatedOdds(words("JOHN WREN died 1850")).of(0.9);
    double worn = new StatedOdds(words("JO[.]N WREN died 1850")).of(0.9);
    double lost = new StatedOdds(words("JO[.]N W[..]N d[..]d 1[.]50")).of(0.9);
    assertThat(worn).isLessThan(whole);
    assertThat(lost).isLessThan(worn);
  }

  private static List<CarvedWord> words(String text) throws Exception {
    return CarvedWord.of(Leiden.parse(text));
  }
}
