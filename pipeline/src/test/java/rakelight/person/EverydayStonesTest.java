package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Stones as they are cut every day, invented and written apart from the rules. */
class EverydayStonesTest {

  @Test
  void mostOfWhatTheyAssertIsFound() throws Exception {
    StoneTruth stones = StoneTruth.of("everyday-stones.txt");
    assertThat(stones.size()).isEqualTo(81);
    StoneTruth.Score score = stones.score();
    assertThat(score.known()).isEqualTo(309);
    assertThat(score.right()).as("%s", score).isGreaterThanOrEqualTo(217);
  }
}
