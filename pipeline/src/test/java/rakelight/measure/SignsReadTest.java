package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import rakelight.measure.SignsRead.Kind;

class SignsReadTest {
  @Test
  void whatWasCutIsCountedKindByKindWithWhatWasReadAndReadElsewhere() {
    SignsRead signs = new SignsRead();

    signs.add("Aged 63; d. 1865 — 89", "AGED 63, d 1865 - 89.");

    assertThat(signs.kinds())
        .containsExactlyInAnyOrder(
            new Kind("letters and figures", 13, 13, 0),
            new Kind("spaces", 5, 5, 0),
            new Kind("colons and semicolons", 1, 0, 0),
            new Kind("commas", 0, 0, 1),
            new Kind("dashes", 1, 1, 0),
            new Kind("points", 1, 0, 1));
  }

  @Test
  void withoutSignsOnlyLettersFiguresAndSpacesAreCompared() {
    assertThat(SignsRead.lettersOf(Tally.fold("d. 1865 — 89, R.I.P."))).isEqualTo("D 1865 89 RIP");
  }
}
