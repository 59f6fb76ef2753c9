package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rakelight.inscription.Gap.Reason.BLANK;
import static rakelight.inscription.Gap.Reason.ILLEGIBLE;
import static rakelight.inscription.Gap.Reason.LOST;
import static rakelight.inscription.Gap.Reason.OMITTED;
import static rakelight.inscription.Standing.CLEAR;
import static rakelight.inscription.Standing.SEEN_EARLIER;
import static rakelight.inscription.Standing.SUPPLIED;
import static rakelight.inscription.Standing.UNCLEAR;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The signs and what they mean: EpiDoc Guidelines, ed. 9 (release 9.8, 2026), pages "trans-*" and
 * the appendix that aligns EpiDoc with Krummrey and Panciera 1980. Notes for what has no sign there
 * are of our own.
 */
class LeidenTest {
  private static Inscription parse(String text) {
    try {
      return Leiden.parse(text);
    } catch (LeidenException e) {
      throw new AssertionError(text + ": " + e.getMessage(), e);
    }
  }

  /** The signs after the first line's beginning. */
  private static List<Sign> signs(String text) {
    List<Sign> signs = parse(text).signs();
    return signs.subList(1, signs.size());
  }

  private static Gap onlyGap(String text) {
    assertThat(signs(text)).hasSize(1).first().isInstanceOf(Gap.class);
    return (Gap) signs(text).get(0);
  }

  private static List<Letter> letters(String text) {
    return signs(text).stream()
        .flatMap(sign -> sign instanceof Letter letter ? Stream.of(letter) : Stream.empty())
        .toList();
  }

  private static String spans(String text) {
    Inscription inscription = parse(text);
    return inscription.spans().stream()
        .map(
            span ->
                span.kind()
                    + ":"
                    + covered(inscription, span)
                    + (span.text().isEmpty() ? "" : "=" + span.text()))
        .reduce((one, two) -> one + " " + two)
        .orElse("");
  }

  private static String covered(Inscription inscription, Span span) {
    StringBuilder covered = new StringBuilder();
    for (int i = inscription.position(span.first()); i <= inscription.position(span.last()); i++) {
      Sign sign = inscription.signs().get(i);
      covered.append(
          sign instanceof Letter letter ? letter.text() : sign instanceof Gap ? "~" : "_");
    }
    return covered.toString();
  }

  private static Gap gap(Gap.Reason reason, Extent extent) {
    return Gap.of(new SignId(2), reason, extent);
  }

  private static Gap lines(Extent extent, boolean doubtful) {
    return new Gap(new SignId(2), LOST, extent, Gap.Unit.LINES, false, doubtful);
  }

  @Test
  void plainLettersAreClear() {
    assertThat(letters("abc")).extracting(Letter::standing).containsOnly(CLEAR);
    assertThat(signs("IN  MEMORY")).hasSize(9);
    assertThat(parse("IN MEMORY").lines()).hasSize(1);
  }

  @Test
  void aDotBelowMakesALetterUnclearComposedOrNot() {
    assertThat(letters("ạḅc"))
        .extracting(Letter::standing)
        .containsExactly(UNCLEAR, UNCLEAR, CLEAR);
    assertThat(letters("ạḅc").get(0).text()).isEqualTo("a");
    assertThat(parse("a\u0323b\u0323c")).isEqualTo(parse("ạḅc"));
  }

  @Test
  void twoCandidatesAreOneLetterLeftOpen() {
    Letter figure = letters("188(3 or 8)").get(3);
    assertThat(figure).isEqualTo(Letter.open(new SignId(5), Candidate.equally(List.of("3", "8"))));
    assertThat(letters("(3 70% or 8 30%)").get(0).candidates())
        .containsExactly(new Candidate("3", 70), new Candidate("8", 30));
    assertThat(Leiden.print(parse("188(9 60% or 0 40%)"))).isEqualTo("188(9 60% or 0 40%)");
  }

  @Test
  void eachCrossIsOneIllegibleLetter() {
    assertThat(onlyGap("+++")).isEqualTo(gap(ILLEGIBLE, new Extent.Exact(3)));
    assertThat(onlyGap("(c. 5)")).isEqualTo(gap(ILLEGIBLE, new Extent.About(5)));
    assertThat(onlyGap("(c.5)")).isEqualTo(gap(ILLEGIBLE, new Extent.About(5)));
    assertThat(onlyGap("(4–6)")).isEqualTo(gap(ILLEGIBLE, new Extent.Range(4, 6)));
    assertThat(onlyGap("(4-6)")).isEqualTo(gap(ILLEGIBLE, new Extent.Range(4, 6)));
    assertThat(onlyGap("(+++)")).isEqualTo(gap(ILLEGIBLE, new Extent.Unknown()));
  }

  @Test
  void eachPointInBracketsIsOneLostLetter() {
    assertThat(onlyGap("[...]")).isEqualTo(gap(LOST, new Extent.Exact(3)));
    assertThat(onlyGap("[- - -]")).isEqualTo(gap(LOST, new Extent.Unknown()));
    assertThat(onlyGap("[---]")).isEqualTo(gap(LOST, new Extent.Unknown()));
    assertThat(onlyGap("[c. 5]")).isEqualTo(gap(LOST, new Extent.About(5)));
    assertThat(onlyGap("[4–6]")).isEqualTo(gap(LOST, new Extent.Range(4, 6)));
  }

  @Test
  void sixDashesAreLines() {
    assertThat(onlyGap("[- - - - - -]")).isEqualTo(lines(new Extent.Exact(1), false));
    assertThat(onlyGap("- - - - - -")).isEqualTo(lines(new Extent.Unknown(), false));
    assertThat(onlyGap("- - - - - - ?")).isEqualTo(lines(new Extent.Unknown(), true));
    assertThat(onlyGap("[3 lines]")).isEqualTo(lines(new Extent.Exact(3), false));
  }

  @Test
  void lettersInBracketsAreSuppliedPerhapsDoubtfully() {
    assertThat(letters("[abc]")).extracting(Letter::standing).containsOnly(SUPPLIED);
    assertThat(letters("[abc]")).noneMatch(Letter::doubtful);
    assertThat(letters("[abc?]")).extracting(Letter::standing).containsOnly(SUPPLIED);
    assertThat(letters("[abc?]")).allMatch(Letter::doubtful);
  }

  @Test
  void aLineBelowSaysThatAnEarlierReaderSawIt() {
    assertThat(letters("a\u0332b\u0332c"))
        .extracting(Letter::standing)
        .containsExactly(SEEN_EARLIER, SEEN_EARLIER, CLEAR);
    assertThat(letters("a\u0332 \u0332b\u0332")).hasSize(2);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Eli<z>abeth            | OMITTED:z",
        "Eli⟨z⟩abeth            | OMITTED:z",
        "Valeri{a}nus           | SURPLUS:a",
        "⸢daugther=daughter⸣    | CORRECTION:daugther=daughter",
        "⌈daugther=daughter⌉    | CORRECTION:daugther=daughter",
        "⸢daughter⸣             | CORRECTION:daughter",
        "#regular(lyes=lies)    | REGULARISED:lyes=lies",
        "Aug(ustus)             | EXPANSION:ustus",
        "ab(- - -)              | UNEXPANDED:ab",
        "Aug#mark(g)(usti duo)  | ABBREVIATION_MARK:g EXPANSION:usti_duo",
        "(and)                  | EXPANSION:and",
        "«1888»                 | OVER_ERASURE:1888",
        "`abc´                  | INSERTED:abc",
        "#number(XXIIII=24)     | NUMBER:XXIIII=24",
        "abc(!)                 | NOTE:c=!",
        "a#note(so the stone)b  | NOTE:a=so the stone",
        "#not-understood(ABC)   | NOT_UNDERSTOOD:ABC",
      })
  void aSpanIsSaidOfARunOfSigns(String text, String spans) {
    assertThat(spans(text)).isEqualTo(spans);
  }

  @Test
  void lettersThatWereNeverCutAreSupplied() {
    assertThat(letters("Aug(us?)").subList(3, 5))
        .allMatch(letter -> letter.standing() == SUPPLIED && letter.doubtful());
    assertThat(letters("Eli<z>abeth").get(3).standing()).isEqualTo(SUPPLIED);
  }

  @Test
  void aContractionKeepsItsRaisedLetter() {
    List<Letter> letters = letters("W(illia)^m");
    assertThat(letters.get(6).forms()).containsExactly(LetterForm.SUPERIOR);
    assertThat(letters.get(6).standing()).isEqualTo(CLEAR);
    assertThat(letters.subList(1, 6)).extracting(Letter::standing).containsOnly(SUPPLIED);
  }

  @Test
  void erasureIsAMarkBesideTheStanding() {
    assertThat(letters("〚abc〛")).allMatch(l -> l.erased() && l.standing() == CLEAR);
    assertThat(parse("[[abc]]")).isEqualTo(parse("〚abc〛")).isEqualTo(parse("⟦abc⟧"));
    assertThat(letters("〚ạḅc̣〛")).allMatch(l -> l.erased() && l.standing() == UNCLEAR);
    assertThat(letters("〚[abc]〛")).allMatch(l -> l.erased() && l.standing() == SUPPLIED);
    assertThat(parse("[[[abc]]]")).isEqualTo(parse("〚[abc]〛"));
    assertThat(onlyGap("〚[...]〛"))
        .isEqualTo(
            new Gap(new SignId(2), LOST, new Extent.Exact(3), Gap.Unit.LETTERS, true, false));
    assertThat(onlyGap("〚[c. 5 ]〛").extent()).isEqualTo(new Extent.About(5));
  }

  @Test
  void formsAreKeptBesideTheLetter() {
    assertThat(letters("a\u0361e").get(0).forms()).containsExactly(LetterForm.LIGATURE);
    assertThat(letters("a\u0305").get(0).forms()).containsExactly(LetterForm.LINE_ABOVE);
    assertThat(letters("#small(th)")).allMatch(l -> l.forms().contains(LetterForm.SMALL));
    assertThat(letters("#tall(I)#reversed(N)#subscript(2)"))
        .flatExtracting(Letter::forms)
        .containsExactly(LetterForm.TALL, LetterForm.REVERSED, LetterForm.SUBSCRIPT);
    assertThat(letters("#damaged(e)").get(0).damaged()).isTrue();
  }

  @Test
  void whatTheCutterLeftBlankOrNeverFinished() {
    assertThat(onlyGap("(vac. 3)")).isEqualTo(gap(BLANK, new Extent.Exact(3)));
    assertThat(onlyGap("(vac.)")).isEqualTo(gap(BLANK, new Extent.Unknown()));
    assertThat(onlyGap("(vac.?)").doubtful()).isTrue();
    assertThat(onlyGap("(vac. 2 lines)").unit()).isEqualTo(Gap.Unit.LINES);
    assertThat(onlyGap("(- - -)")).isEqualTo(gap(OMITTED, new Extent.Unknown()));
    assertThat(signs("DIED 18(- - -)")).last().isInstanceOf(Gap.class);
  }

  @Test
  void aLineBeginsAtABarAndAWordMayRunOn() {
    assertThat(parse("IN / MEMORY")).isEqualTo(parse("IN | MEMORY")).isEqualTo(parse("IN\nMEMORY"));
    assertThat(parse("| IN | MEMORY")).isEqualTo(parse("IN | MEMORY"));
    assertThat(parse("[mem|ory]").signs().get(4)).isEqualTo(new Break(new SignId(5), true));
    assertThat(parse("[mem]\n|[ory]")).isEqualTo(parse("[mem|ory]"));
    assertThat(Leiden.print(parse("[mem]\n|[ory]"))).isEqualTo("[mem|ory]");
    assertThat(Leiden.printLines(parse("[mem|ory]"))).containsExactly("[mem]", "|[ory]");
  }

  @Test
  void aSlashWithNoSpaceBesideItIsCarved() {
    assertThat(parse("1731/2").lines()).hasSize(1);
    assertThat(letters("1731/2")).extracting(Letter::text).contains("/");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "[abc...]", // one bracket: Guidelines, segmented lacunae
        "ae[d](ilem)", // a lost letter within an abbreviation
        "[mem|ory]", // a lacuna over a line end
        "〚ạḅc̣〛",
        "W(illia)^m",
        "〚[...]〛",
        "«[- - -]»",
        "18[..] AGED [- - -] years",
        "HANNAH | wife of | Wm\\. Wren\\.\\.",
        "- - - - - - | [abc?]",
        "(vac. 3) (c. 5) [4–6] (+++) 188(3 or 8)",
      })
  void nestedSignsComeBackAsTheyWere(String text) {
    assertThat(Leiden.print(parse(text)).replace("Wm.", "Wm\\.")).isEqualTo(text);
  }

  @Test
  void carvedSignsThatLookLikeOursAreEscaped() {
    assertThat(letters("\\(1850\\)")).extracting(Letter::text).contains("(", ")");
    assertThat(Leiden.print(parse("\\(1850\\) \\+ A. \\& \\?")))
        .isEqualTo("\\(1850\\) \\+ A. & \\?");
  }

  @Test
  void linesLostTwiceOverAreTwoGaps() {
    assertThat(parse("- - - - - - - - - - - -").signs())
        .filteredOn(sign -> sign instanceof Gap)
        .hasSize(2);
    assertThat(Leiden.print(parse("ELI - - - - - - - - - - - - (c. 5)")))
        .isEqualTo("ELI - - - - - - - - - - - - (c. 5)");
    assertThatThrownBy(() -> Leiden.parse("- - - - - - - - -")).isInstanceOf(LeidenException.class);
  }

  @Test
  void twoBracketsSideBySideAreOne() {
    assertThat(parse("[abc][...]")).isEqualTo(parse("[abc...]"));
    assertThat(parse("[..][...]")).isEqualTo(parse("[.....]"));
    assertThat(parse("++(!)+").signs()).hasSize(3);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "HANN?H;            1; 5; column 5: found “?”",
        "IN [MEM;           1; 8; found the end",
        "IN¶M]EM;          2; 2; found “]”",
        "abc - - - def;     1; 5; [- - -] for letters lost",
        "18...;             1; 3; [...] for lost letters",
        "(abc;              1; 1; a ) for this (",
        "#smal(a);          1; 1; #small(",
        "[+++];             1; 1; traces among lost letters",
        "[ạ];               1; 2; no dot or line below",
        "a | | b;           1; 5; for a blank line write (vac.)",
        "{};                1; 1; at least one letter or gap within",
        "\u0323a;           1; 1; a letter before this mark",
        "(3 70% or 8);      1; 1; a weight for each",
        "(3 70% or 8 40%);  1; 1; sum to 100",
        "(\\ \u0301 or b);       1; 1; its per cent",
        "(!)a;              1; 1; right before it",
        "[vac. 3];          1; 1; parentheses, not brackets",
        "[];                1; 1; at least one letter",
        "Henr[-];           1; 5; [.] for a letter that is lost",
        "18[--];            1; 3; [.] for a letter that is lost",
        "18[– –?];          1; 3; [.] for a letter that is lost",
        "[999999999 lines]; 1; 1; no more than 999 letters or lines",
        "ab (c. 1000 lines);1; 4; no more than 999 letters or lines",
        "ab (vac. 5000);    1; 4; no more than 999 letters or lines",
      })
  void aSignThatCantBeReadIsNamedWithItsPlace(String text, int line, int column, String message) {
    assertThatThrownBy(() -> Leiden.parse(text.replace('¶', '\n')))
        .isInstanceOfSatisfying(
            LeidenException.class,
            e -> {
              assertThat(e.line()).isEqualTo(line);
              assertThat(e.column()).isEqualTo(column);
              assertThat(e).hasMessageContaining(message).hasMessageContaining("expected");
            });
  }

  @Test
  void aCarvedDashAndAYearThatAreWorkedOutAreStillLetters() {
    for (String text : List.of("[\\-]", "[1731–1840]", "[\\999999999 lines]")) {
      Inscription reading = parse(text);

      assertThat(reading.signs()).noneMatch(Gap.class::isInstance);
      assertThat(Leiden.print(reading)).isEqualTo(text.replace("–", "\\–"));
    }
  }

  @Test
  void whatWasTakenOnceIsReadForEver() throws LeidenException {
    assertThat(Leiden.parseKept("[999999999 lines]").signs()).noneMatch(Gap.class::isInstance);
    assertThat(Leiden.print(Leiden.parseKept("y[-]"))).isEqualTo("y[\\-]");
  }

  @Test
  void signsKeepTheirIdsWhenALetterIsReadAnew() {
    Inscription first = parse("HANNAH 1883");
    Inscription second = SignIds.carry(first, parse("HANNAH WREN 188(3 or 8)"), first.lastId());
    assertThat(second.signs().get(1).id()).isEqualTo(first.signs().get(1).id());
    Sign lastFigure = second.signs().get(second.signs().size() - 1);
    assertThat(lastFigure.id()).isEqualTo(first.signs().get(first.signs().size() - 1).id());
    assertThat(second.signs().stream().filter(s -> s.id().number() > first.lastId())).hasSize(5);
    assertThat(SignIds.carry(first, parse("HANNAH 18+3"), first.lastId()).signs())
        .extracting(Sign::id)
        .containsExactlyElementsOf(first.signs().stream().map(Sign::id).toList());
  }
}
