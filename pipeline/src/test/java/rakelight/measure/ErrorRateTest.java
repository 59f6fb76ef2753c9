package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ErrorRateTest {

  // From memory: kitten/sitting, Saturday/Sunday, CA/ABC, intention/execution (Jurafsky and Martin,
  // Speech and Language Processing). Computed with another library: the other two.
  @ParameterizedTest
  @CsvSource({
    "kitten,sitting,3",
    "Saturday,Sunday,3",
    "intention,execution,5",
    "gumbo,gambol,2",
    "rosettacode,raisethysword,8",
    "CA,ABC,3"
  })
  void wordsAreAsManyLettersApartAsMustBeChangedPutInOrLeftOut(
      String reference, String hypothesis, int errors) {
    assertThat(ErrorRate.ofLetters(reference, hypothesis).errors()).isEqualTo(errors);
  }

  // Worked by hand: (S + D + I) / N with N the length of the reference, spaces counted as letters.
  @ParameterizedTest
  @CsvSource({
    "SACRED TO THE MEMORY OF,SACRED TO THE MEMORY OE,.0435,.2",
    "DIED MAY 6 1889,DIED MAY 5 1839,.1333,.5",
    "IN MEMORY OF MARY,IN MEMORY MARY A,.2941,.5",
    "AE 71 YRS,AE 77 Y RS,.2222,1"
  })
  void letterAndWordErrorAreTakenOverTheLengthOfTheReference(
      String reference, String hypothesis, double letters, double words) {
    assertThat(ErrorRate.ofLetters(reference, hypothesis).rate()).isCloseTo(letters, within(.0001));
    assertThat(ErrorRate.ofWords(reference, hypothesis).rate()).isCloseTo(words, within(.0001));
  }

  @Property
  void readingNothingLosesEveryLetterAndNoMore(@ForAll @StringLength(max = 20) String text) {
    ErrorRate errors = ErrorRate.ofLetters(text, "");
    assertThat(errors.deletions()).isEqualTo((int) text.codePoints().count());
    assertThat(errors.insertions() + errors.substitutions()).isZero();
  }

  @Property
  void distanceIsTheSameInBothDirections(
      @ForAll @StringLength(max = 8) @CharRange(from = 'A', to = 'D') String one,
      @ForAll @StringLength(max = 8) @CharRange(from = 'A', to = 'D') String other) {
    assertThat(ErrorRate.ofLetters(one, other).errors())
        .isEqualTo(ErrorRate.ofLetters(other, one).errors());
  }
}
