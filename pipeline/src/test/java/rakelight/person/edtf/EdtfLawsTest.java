package rakelight.person.edtf;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class EdtfLawsTest {

  @Property(tries = 5000)
  void noTextCrashesTheParserAndWhatItTakesIsPrintedAndTakenAgain(@ForAll("scraps") String text) {
    Edtf date;
    try {
      date = Edtf.parse(text);
    } catch (IllegalArgumentException refused) {
      assertThat(refused).hasMessageContaining("is no EDTF date");
      return;
    }
    assertThat(Edtf.parse(date.toString())).isEqualTo(date);
    assertThat(date.level()).isBetween(0, 2);
  }

  @Property(tries = 2000)
  void aDateWithLessKnownNeverSpansFewerDays(@ForAll("dates") String text) {
    Edtf known = Edtf.parse(text);
    char[] masked = text.toCharArray();
    for (int i = text.length() - 1; i > 0; i--) {
      if (Character.isDigit(masked[i])) {
        masked[i] = 'X';
        Edtf doubtful = Edtf.parse(new String(masked));
        assertThat(doubtful.earliest().orElseThrow())
            .isLessThanOrEqualTo(known.earliest().orElseThrow());
        assertThat(doubtful.latest().orElseThrow())
            .isGreaterThanOrEqualTo(known.latest().orElseThrow());
        assertThat(doubtful.admits(known.earliest().orElseThrow())).isTrue();
      }
    }
  }

  @Provide
  Arbitrary<String> dates() {
    return Combinators.combine(
            Arbitraries.integers().between(1000, 2100),
            Arbitraries.integers().between(1, 12),
            Arbitraries.integers().between(1, 28))
        .as((y, m, d) -> new Day(y, m, d).toString());
  }

  @Provide
  Arbitrary<String> scraps() {
    Arbitrary<String> pieces =
        Arbitraries.of(
            "1863",
            "18XX",
            "186X",
            "-",
            "03",
            "XX",
            "1X",
            "29",
            "31",
            "?",
            "~",
            "%",
            "/",
            "..",
            "[",
            "]",
            "{",
            "}",
            ",",
            "T",
            "23:20:30",
            "Z",
            "Y",
            "17E7",
            "S2",
            "-0004",
            "21",
            "41",
            " ",
            "\u0660",
            "é",
            "9999999999999999");
    return pieces.list().ofMaxSize(9).map(list -> String.join("", list));
  }
}
