package rakelight.reading;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/**
 * One line decoded from letter probabilities made up for it: 85 classes as the carved-letter
 * recogniser has, eight steps a letter of which two see it. Of a clear line each letter gets .985,
 * of a worn one .5 with four rivals.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class DecodingSpeed {
  private static final List<String> LETTERS =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&.,'-:;()/!?*+ÆæœŒſ†‡·\""
          .codePoints()
          .mapToObj(Character::toString)
          .toList();
  private static final int STEPS_A_LETTER = 8;
  private static final int RIVALS = 4;

  @Param({"12", "40"})
  public int letters;

  @Param({"clear", "worn"})
  public String state;

  private final CtcDecoder decoder = new CtcDecoder(LETTERS);
  private float[][] steps;

  /** Makes the probabilities, each step summing to one. */
  @Setup
  public void line() {
    Random dice = new Random(letters);
    float own = state.equals("clear") ? .985f : .5f;
    steps = new float[letters * STEPS_A_LETTER][LETTERS.size() + 1];
    for (int letter = 0; letter < letters; letter++) {
      int stands = 1 + dice.nextInt(LETTERS.size());
      for (int step = 0; step < STEPS_A_LETTER; step++) {
        float[] p = steps[letter * STEPS_A_LETTER + step];
        float haze = .001f / p.length;
        Arrays.fill(p, haze);
        if (step == 3 || step == 4) {
          p[stands] += own;
          for (int rival = 1; rival <= RIVALS; rival++) {
            p[1 + (stands + 7 * rival) % LETTERS.size()] += (.999f - own) / (RIVALS + 1);
          }
          p[0] += (.999f - own) / (RIVALS + 1);
        } else {
          p[0] += .999f;
        }
      }
    }
  }

  /** The whole way from probabilities to a lattice. */
  @Benchmark
  public LineLattice oneLine() {
    return decoder.decode(steps);
  }
}
