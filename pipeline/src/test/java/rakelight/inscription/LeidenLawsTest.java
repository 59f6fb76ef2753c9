package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** What holds for every reading and for every text. */
class LeidenLawsTest {
  @Provide
  Arbitrary<Inscription> readings() {
    return Arbitraries.longs().map(seed -> RandomInscription.next(new Random(seed)));
  }

  @Provide
  Arbitrary<String> scribbles() {
    Arbitrary<String> signs =
        Arbitraries.of(
            "[",
            "]",
            "(",
            ")",
            "{",
            "}",
            "<",
            ">",
            "〚",
            "〛",
            "[[",
            "]]",
            "⸢",
            "⸣",
            "⌈",
            "«",
            "»",
            "`",
            "´",
            "+",
            "+++",
            ".",
            "...",
            "- - -",
            "- - - - - -",
            "-",
            " ",
            "\n",
            "|",
            " / ",
            "/",
            "\\",
            "^",
            "#small(",
            "#note(",
            "#number(",
            "=",
            "?",
            "!",
            "(vac. 3)",
            "(c. 5)",
            "(4–6)",
            "(3 or 8)",
            "(- - -)",
            "(!)",
            "a",
            "B",
            "1850",
            "W",
            "\u0323",
            "\u0332",
            "\u0361",
            "\u0305",
            "é",
            "ạ",
            "한",
            "𝔄",
            "\uD800",
            "\u0000",
            "5",
            "%",
            " or ",
            "c. ");
    return signs.list().ofMinSize(0).ofMaxSize(24).map(parts -> String.join("", parts));
  }

  @Property(tries = 1000)
  void aReadingPrintedInOneLineParsesToItself(@ForAll("readings") Inscription reading)
      throws LeidenException {
    assertThat(Leiden.parse(Leiden.print(reading))).isEqualTo(reading);
  }

  @Property(tries = 1000)
  void aReadingPrintedLineByLineParsesToItself(@ForAll("readings") Inscription reading)
      throws LeidenException {
    assertThat(Leiden.printLines(reading)).hasSize(reading.lines().size());
    assertThat(Leiden.parse(String.join("\n", Leiden.printLines(reading)))).isEqualTo(reading);
  }

  @Property(tries = 1000)
  void noTextDoesWorseThanBeRefused(@ForAll("scribbles") String text) {
    parsesOrIsRefused(text);
  }

  @Property(tries = 1000)
  void noUnicodeDoesWorseThanBeRefused(@ForAll String text) {
    parsesOrIsRefused(text);
  }

  private static void parsesOrIsRefused(String text) {
    try {
      Inscription reading = Leiden.parse(text);
      assertThat(Leiden.parse(Leiden.print(reading))).isEqualTo(reading);
    } catch (LeidenException e) {
      assertThat(e.column()).isPositive();
      assertThat(e.line()).isPositive();
      assertThat(e).hasMessageContaining("expected");
    }
  }
}
