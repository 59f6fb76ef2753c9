package rakelight.samples.burials;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class AllKnowingTest {
  @Test
  void whoeverKnowsTheRulesGivesTheFirstWhatItIsWorth() {
    AllKnowing.Found found = new AllKnowing(new InventedBurials(11, 30)).of(1000, 40, false, 10);
    assertThat(found.recall()).isGreaterThan(.95);
    assertThat(found.given()).isCloseTo(found.first(), within(.1));
  }

  @Test
  void aSlipIsOneLetterMoreFewerOtherOrTwoSwapped() {
    // of "abc" by hand: each of three places and four kinds as often, a letter is one of 26
    assertThat(slipped("abc", "bac")).isEqualTo(1 / 12.0, within(1e-9));
    assertThat(slipped("abc", "ab")).isEqualTo(1 / 12.0, within(1e-9));
    assertThat(slipped("abc", "axc")).isEqualTo(1 / 12.0 / 26, within(1e-9));
    assertThat(slipped("abc", "abx")).isEqualTo(2 / 12.0 / 26, within(1e-9));
    assertThat(slipped("abc", "xabc")).isEqualTo(1 / 12.0 / 26, within(1e-9));
    assertThat(slipped("abc", "cba")).isZero();
  }

  private static double slipped(String meant, String typed) {
    return AllKnowing.slipped(meant.toCharArray(), typed.toCharArray());
  }
}
