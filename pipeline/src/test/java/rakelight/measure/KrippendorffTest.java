package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class KrippendorffTest {
  /** One text for each reader, a letter for each unit, a point where he left it out. */
  private static Krippendorff of(String... readers) {
    Krippendorff krippendorff = new Krippendorff();
    for (int unit = 0; unit < readers[0].length(); unit++) {
      List<String> values = new ArrayList<>();
      for (String reader : readers) {
        if (reader.charAt(unit) != '.') {
          values.add(reader.substring(unit, unit + 1));
        }
      }
      krippendorff.add(values);
    }
    return krippendorff;
  }

  private static double alpha(String... readers) {
    return of(readers).alpha().orElseThrow();
  }

  /**
   * K. Krippendorff, Computing Krippendorff's Alpha-Reliability, 2007: its examples of two
   * observers with two values, two with five and four with gaps. Figures from memory.
   */
  @Test
  void alphaOfKrippendorffsExamplesIsWhatHeGives() {
    assertThat(alpha("0100000010", "1110010000")).isCloseTo(0.095, within(0.0005));
    assertThat(alpha("aabbdcccedda", "babbbccceddd")).isCloseTo(0.692, within(0.0005));
    Krippendorff four = of("123321412...", "1233224125.3", ".3332342251.", "12332441251.");
    assertThat(four.alpha().orElseThrow()).isCloseTo(0.743, within(0.0005));
    assertThat(four.units()).isEqualTo(11);
  }

  @Test
  void fullAgreementIsOneAndWithoutChoiceThereIsNoAlpha() {
    assertThat(alpha("abcd", "abcd")).isEqualTo(1);
    assertThat(of("aaaa", "aaaa").alpha()).isEmpty();
    assertThat(of("aaaa", "aaaa").observed()).hasValue(1);
    assertThat(of("....", "abcd").observed()).isEmpty();
  }
}
