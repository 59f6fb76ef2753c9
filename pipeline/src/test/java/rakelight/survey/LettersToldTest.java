package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LettersToldTest {
  @Test
  void lettersToldGoTogetherByHowSureTheyAre() {
    LettersTold half = LettersTold.byPeople(10, 5);
    LettersTold both = LettersTold.byMachine(10, 10).and(half);
    assertThat(half.change()).isLessThan(-0.6);
    assertThat(both.change()).isBetween(half.change(), -0.05);
    assertThat(both.uncertainty()).isLessThan(LettersTold.byMachine(10, 10).uncertainty());
    assertThat(LettersTold.byMachine(0, 0).change()).isZero();
  }
}
