package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class ReadInOrderTest {
  private static final List<String> ROLL =
      List.of("ROLL OF HONOUR", "A. ASKEBY", "T. CRAKE", "H. LUMSWORTH", "J. OCKLEY");

  @Test
  void inTheOrderOfTheTruthEveryLineFollowsTheOneBefore() {
    assertThat(of("ROLL OF HONOUR", "A. ASKEBY", "T. CRAKE", "H. LUMSWORTH", "J. OCKLEY"))
        .isEqualTo(new ReadInOrder(4, 4));
  }

  @Test
  void readAcrossItsColumnsNoNameOfARollFollowsTheOneAboveIt() {
    assertThat(of("ROLL OF HONOUR", "A. ASKEBY", "H. LUMSWORTH", "T. CRAKE", "J. OCKLEY"))
        .isEqualTo(new ReadInOrder(4, 1));
  }

  @Test
  void whatIsMissedOrReadBesidesBreaksNoOrder() {
    assertThat(of("ROLL OF HONOUR", "A. ASKEBY", "|||", "H. LUMSWORTH", "J. OCKLEY"))
        .isEqualTo(new ReadInOrder(3, 3));
    assertThat(of()).isEqualTo(ReadInOrder.NONE);
  }

  private static ReadInOrder of(String... read) {
    return ReadInOrder.of(LineMatching.match(ROLL, List.of(read)));
  }
}
