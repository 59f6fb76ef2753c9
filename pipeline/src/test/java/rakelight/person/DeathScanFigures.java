package rakelight.person;

import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/**
 * How often {@link DeathScan} says something of ground without events, how often it finds one, and
 * how long it takes; on invented days of death, by rules it doesn't know. Run by name.
 */
class DeathScanFigures {
  private static final int YEARS = 120;

  /** More die each year, by the square root of a draw, and twice as many in winter. */
  private static final int YEAR_DAYS = 365;

  static long[] days(Random random, int count, int years) {
    return LongStream.generate(
            () -> {
              while (true) {
                int year = (int) (years * Math.sqrt(random.nextDouble()));
                int day = random.nextInt(YEAR_DAYS);
                double winter = (1.5 + 0.5 * Math.cos(2 * Math.PI * day / YEAR_DAYS)) / 2;
                if (random.nextDouble() < winter) {
                  return Math.round(year * 365.2425) + day;
                }
              }
            })
        .limit(count)
        .sorted()
        .toArray();
  }

  @Test
  void figures() {
    for (int[] size : new int[][] {{60, 200}, {400, 200}, {1500, 60}}) {
      int found = 0;
      for (int seed = 0; seed < size[1]; seed++) {
        long[] days = days(new Random(9000 + seed), size[0], YEARS);
        found += DeathScan.of(days, Deaths.AT_MOST).isEmpty() ? 0 : 1;
      }
      say("%d deaths without event: something told in %d of %d", size[0], found, size[1]);
    }
    for (int more : new int[] {5, 8, 11, 14}) {
      int found = 0;
      for (int seed = 0; seed < 100; seed++) {
        Random random = new Random(500 + seed);
        long at = 20_000 + random.nextInt(5000);
        long[] all =
            LongStream.concat(
                    Arrays.stream(days(random, 400, YEARS)), random.longs(more, at, at + 42))
                .sorted()
                .toArray();
        found +=
            DeathScan.of(all, Deaths.AT_MOST).stream()
                    .anyMatch(w -> all[w.from()] < at + 42 && all[w.to() - 1] >= at)
                ? 1
                : 0;
      }
      say("%d more in 42 days among 400: found in %d of 100", more, found);
    }
    for (int count : new int[] {2000, 5000, 20_000}) {
      long[] days = days(new Random(1), count, 150);
      long begun = System.nanoTime();
      DeathScan.of(days, Deaths.AT_MOST);
      say("%d deaths: %d ms", count, (System.nanoTime() - begun) / 1_000_000);
    }
  }

  private static void say(String words, Object... values) {
    System.out.println(String.format(Locale.ROOT, words, values));
  }
}
