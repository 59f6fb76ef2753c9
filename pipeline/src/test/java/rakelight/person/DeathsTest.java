package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class DeathsTest {

  @Test
  void theChildrenOfOneWeekAndTheCrewOfOneDayArePointedOut() throws Exception {
    List<Deaths.Cluster> clusters = Deaths.of(SamplePeople.of(0, 1).people().persons());
    assertThat(clusters).hasSize(2);
    assertThat(clusters.get(0).first()).isEqualTo("1788-02-03");
    assertThat(clusters.get(0).last()).isEqualTo("1788-02-08");
    assertThat(clusters.get(0).persons())
        .extracting(Person::called)
        .containsExactly("Samuel Dunnock", "Ruth Dunnock", "Job Dunnock");
    assertThat(clusters.get(1).first()).isEqualTo("1866-11-23");
    assertThat(clusters.get(1).persons()).hasSize(5);
  }

  /** Poisson: with 2 expected, 1 - 5/e^2 come to three or more; by arithmetic. */
  @Test
  void theChanceOfManyDeathsIsThatOfPoisson() {
    assertThat(Deaths.atLeast(3, 2)).isCloseTo(1 - 5 * Math.exp(-2), within(1e-12));
    assertThat(Deaths.atLeast(0, 2)).isCloseTo(1, within(1e-12));
  }
}
