package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class DeathsTest {
  private static final int YEARS = 120;

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

  /** Poisson: 8 where 2 are expected weigh 8 ln 4 - 6; by arithmetic. */
  @Test
  void theWeightOfAStretchIsThePoissonLikelihoodRatio() {
    assertThat(DeathScan.weight(8, 2)).isCloseTo(8 * Math.log(4) - 6, within(1e-12));
    assertThat(DeathScan.weight(2, 2)).isZero();
    assertThat(DeathScan.weight(1, 2)).isZero();
  }

  /**
   * Deaths at random with a rate that grows and a winter that is twice the summer: something is
   * found in no more grounds than the level allows, by the binomial at 3 standard deviations.
   */
  @Test
  void aGroundWithoutAnEventIsSeldomSaidToHaveOne() {
    int grounds = 60;
    int found = 0;
    for (int seed = 0; seed < grounds; seed++) {
      found += DeathScan.of(days(new Random(seed), 400), Deaths.AT_MOST).isEmpty() ? 0 : 1;
    }
    double allowed = grounds * Deaths.AT_MOST;
    assertThat(found).isLessThanOrEqualTo((int) (allowed + 3 * Math.sqrt(allowed)));
  }

  @Test
  void aFeverOfSixWeeksAndAWreckAreFoundWithTheirDays() {
    int fevers = 0;
    int wrecks = 0;
    for (int seed = 0; seed < 20; seed++) {
      Random random = new Random(1000 + seed);
      long fever = 20_000 + random.nextInt(5000);
      long wreck = 30_000 + random.nextInt(5000);
      long[] event =
          LongStream.concat(
                  random.longs(14, fever, fever + 42), LongStream.generate(() -> wreck).limit(5))
              .toArray();
      long[] all =
          LongStream.concat(Arrays.stream(days(random, 400)), Arrays.stream(event))
              .sorted()
              .toArray();
      for (DeathScan.Window window : DeathScan.of(all, Deaths.AT_MOST)) {
        long first = all[window.from()];
        long last = all[window.to() - 1];
        fevers += first < fever + 42 && last >= fever ? 1 : 0;
        wrecks += first <= wreck && last >= wreck ? 1 : 0;
      }
    }
    assertThat(fevers).isGreaterThanOrEqualTo(18);
    assertThat(wrecks).isGreaterThanOrEqualTo(18);
  }

  @Test
  void theSameGroundHasTheSameAnswerAlways() {
    long[] days = days(new Random(5), 300);
    days[101] = days[100];
    days[102] = days[100];
    days[103] = days[100];
    Arrays.sort(days);
    assertThat(DeathScan.of(days, 1)).isEqualTo(DeathScan.of(days, 1)).isNotEmpty();
  }

  private static long[] days(Random random, int count) {
    return DeathScanFigures.days(random, count, YEARS);
  }
}
