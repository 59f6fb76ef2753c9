package rakelight.publish.epidoc;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;

/**
 * Leiden signs and their elements: EpiDoc Guidelines, ed. 9 (release 9.8, February 2026), pages
 * "trans-*" and the appendix that aligns EpiDoc with Krummrey and Panciera 1980. The signs of our
 * own that the second column uses are those of docs/leiden.md.
 */
class EpidocTest {
  private static XmlElement ab(String content) {
    try {
      String document = EpidocSchema.around(content);
      return Xml.parse(document.getBytes(StandardCharsets.UTF_8))
          .first("text", "body", "div", "ab")
          .orElseThrow();
    } catch (EpidocException e) {
      throw new AssertionError(content, e);
    }
  }

  private static Epidoc.Edition parse(String content) {
    try {
      return Epidoc.parse(ab(content));
    } catch (EpidocException e) {
      throw new AssertionError(content, e);
    }
  }

  private static Inscription leiden(String text) {
    try {
      return Leiden.parse(text);
    } catch (LeidenException e) {
      throw new AssertionError(text, e);
    }
  }

  /** What is printed between the first line's beginning and the end. */
  private static String printed(Inscription inscription) {
    String document = Xml.print(Epidoc.print(inscription));
    return document.substring(
        document.indexOf("<lb n=\"1\"/>") + "<lb n=\"1\"/>".length(), document.indexOf("</ab>"));
  }

  /** Sign and element say the same, both ways. */
  static Stream<Arguments> rows() {
    return Stream.of(
            "abc ; abc",
            "#not-understood(ABC) ; <orig>ABC</orig>",
            "ạḅc ; <unclear>ab</unclear>c",
            "188(3 or 8) ; 188<choice><unclear>3</unclear><unclear>8</unclear></choice>",
            "+++ ; <gap reason=\"illegible\" quantity=\"3\" unit=\"character\"/>",
            "(c. 5) ; <gap reason=\"illegible\" quantity=\"5\" unit=\"character\""
                + " precision=\"low\"/>",
            "(4–6) ; <gap reason=\"illegible\" atLeast=\"4\" atMost=\"6\" unit=\"character\"/>",
            "[...] ; <gap reason=\"lost\" quantity=\"3\" unit=\"character\"/>",
            "[- - -] ; <gap reason=\"lost\" extent=\"unknown\" unit=\"character\"/>",
            "[- - - - - -] ; <gap reason=\"lost\" quantity=\"1\" unit=\"line\"/>",
            "- - - - - - ; <gap reason=\"lost\" extent=\"unknown\" unit=\"line\"/>",
            "- - - - - - ? ; <gap reason=\"lost\" extent=\"unknown\" unit=\"line\"><certainty"
                + " match=\"..\" locus=\"name\"/></gap>",
            "[abc] ; <supplied reason=\"lost\">abc</supplied>",
            "[abc?] ; <supplied reason=\"lost\" cert=\"low\">abc</supplied>",
            "a\u0332b\u0332c\u0332 ; <supplied reason=\"undefined\""
                + " evidence=\"previouseditor\">abc</supplied>",
            "Eli<z>abeth ; Eli<supplied reason=\"omitted\">z</supplied>abeth",
            "Valeri{a}nus ; Valeri<surplus>a</surplus>nus",
            "⸢daugther=daughter⸣ ; <choice><sic>daugther</sic><corr>daughter</corr></choice>",
            "#regular(lyes=lies) ; <choice><orig>lyes</orig><reg>lies</reg></choice>",
            "Aug(ustus) ; <expan><abbr>Aug</abbr><ex>ustus</ex></expan>",
            "ab(- - -) ; <abbr>ab</abbr>",
            "a(bc?) ; <expan><abbr>a</abbr><ex cert=\"low\">bc</ex></expan>",
            "Aug#mark(g)(usti duo) ; <expan><abbr>Aug<am>g</am></abbr><ex>usti duo</ex></expan>",
            "(and) ; <expan><ex>and</ex></expan>",
            "W(illia)^m ; <expan><abbr>W</abbr><ex>illia</ex><abbr><hi rend=\"superscript\">m</hi>"
                + "</abbr></expan>",
            "〚abc〛 ; <del rend=\"erasure\">abc</del>",
            "〚[abc]〛 ; <del rend=\"erasure\"><supplied reason=\"lost\">abc</supplied></del>",
            "〚[...]〛 ; <del rend=\"erasure\"><gap reason=\"lost\" quantity=\"3\""
                + " unit=\"character\"/></del>",
            "〚1889〛«1888» ; <subst><del rend=\"erasure\">1889</del><add"
                + " place=\"overstrike\">1888</add></subst>",
            "«1888» ; <add place=\"overstrike\">1888</add>",
            "`ab´ ; <add place=\"above\">ab</add>",
            "a\u0361e ; <hi rend=\"ligature\">ae</hi>",
            "^e ; <hi rend=\"superscript\">e</hi>",
            "#tall(I)#small(x)#reversed(N)#subscript(2)a\u0305 ; <hi rend=\"tall\">I</hi><hi"
                + " rend=\"small\">x</hi><hi rend=\"reversed\">N</hi><hi"
                + " rend=\"subscript\">2</hi><hi rend=\"supraline\">a</hi>",
            "imper|ator ; imper<lb n=\"2\" break=\"no\"/>ator",
            "(vac. 3) ; <space quantity=\"3\" unit=\"character\"/>",
            "(vac. 2 lines) ; <space quantity=\"2\" unit=\"line\"/>",
            "(vac. 5?) ; <space quantity=\"5\" unit=\"character\"><certainty match=\"..\""
                + " locus=\"name\"/></space>",
            "#number(XXIIII=24) ; <num value=\"24\">XXIIII</num>",
            "(- - -) ; <gap reason=\"omitted\" extent=\"unknown\" unit=\"character\"/>",
            "a(!) ; a<note>!</note>",
            "#damaged(e) ; <damage>e</damage>",
            // Tricky combinations
            "[abc...] ; <supplied reason=\"lost\">abc</supplied><gap reason=\"lost\""
                + " quantity=\"3\" unit=\"character\"/>",
            "ae[d](ilem) ; <expan><abbr>ae<supplied reason=\"lost\">d</supplied></abbr>"
                + "<ex>ilem</ex></expan>",
            "[mem|ory] ; <supplied reason=\"lost\">mem<lb n=\"2\" break=\"no\"/>ory</supplied>",
            "〚ạḅc̣〛 ; <del rend=\"erasure\"><unclear>abc</unclear></del>")
        .map(row -> row.split(" ; "))
        .map(row -> Arguments.of(row[0], row[1]));
  }

  @ParameterizedTest
  @MethodSource("rows")
  void anElementIsReadAsItsSign(String sign, String element) {
    assertThat(Leiden.print(parse(element).inscription())).isEqualTo(Leiden.print(leiden(sign)));
    assertThat(parse(element).inscription()).isEqualTo(leiden(sign));
    assertThat(parse(element).remarks()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aSignIsPrintedAsItsElement(String sign, String element) {
    assertThat(printed(leiden(sign))).isEqualTo(element);
  }

  @Test
  void everyElementOfTheTableIsValid() {
    EpidocSchema schema = EpidocSchema.orSkip();
    rows()
        .forEach(
            row ->
                assertThat(schema.errors(EpidocSchema.around((String) row.get()[1])))
                    .as("%s", row.get()[1])
                    .isEmpty());
  }

  /** Documents that EpiDoc 9.8 refuses; checked with jing against tei-epidoc.rng 9.8. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "<supplied>abc</supplied>",
        "<supplied reason=\"damage\">abc</supplied>",
        "<gap quantity=\"3\" unit=\"character\"/>",
        "<gap reason=\"weather\" quantity=\"3\" unit=\"character\"/>",
        "<gap reason=\"lost\">abc</gap>",
        "<unclear><supplied reason=\"lost\">a</supplied></unclear>",
        "<choice><unclear>3</unclear></choice>",
        "<num value=\"ten\">X</num>",
      })
  void theSchemaRefusesWhatTheGuidelinesForbid(String element) {
    assertThat(EpidocSchema.orSkip().errors(EpidocSchema.around(element))).isNotEmpty();
  }

  @Test
  void aLineBeginsAtLbNumbered() {
    Inscription four = leiden("IN / MEMORY / OF / HANNAH");
    assertThat(printed(four))
        .isEqualTo("IN\n<lb n=\"2\"/>MEMORY\n<lb n=\"3\"/>OF\n<lb n=\"4\"/>HANNAH");
    assertThat(parse("IN <lb/> MEMORY<lb n=\"3\"/>\nOF\n<lb/>HANNAH").inscription())
        .isEqualTo(four);
  }

  @Test
  void weightsOfCandidatesAreTheirCertainty() {
    String element =
        "<choice><unclear cert=\"0.7\">3</unclear><unclear cert=\"0.3\">8</unclear></choice>";
    assertThat(printed(leiden("(3 70% or 8 30%)"))).isEqualTo(element);
    assertThat(parse(element).inscription()).isEqualTo(leiden("(3 70% or 8 30%)"));
  }

  @Test
  void aDateIsReadForItsLettersAndSaidNotToBeCarried() {
    // EpiDoc Guidelines: dates; the doubtful figure stays open.
    Epidoc.Edition edition =
        parse(
            "<date when=\"1889-05-06\">May 6 188<choice><unclear>9</unclear>"
                + "<unclear>0</unclear></choice></date>");
    assertThat(edition.inscription()).isEqualTo(leiden("May 6 188(9 or 0)"));
    assertThat(edition.remarks())
        .extracting(Epidoc.Remark::text)
        .containsExactly(
            "the attribute when of <date> isn't carried", "<date> isn't carried, its text is");
  }

  @Test
  void attributesMayStandInAnyOrderAndChoicesToo() {
    assertThat(
            parse(
                    "<gap unit=\"character\" quantity=\"3\" reason=\"lost\"/>"
                        + "<choice><corr>daughter</corr><sic>daugther</sic></choice>")
                .inscription())
        .isEqualTo(leiden("[...]⸢daugther=daughter⸣"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<persName>HANNAH</persName>",
        "<w part=\"I\">HANNAH</w>",
        "<supplied reason=\"lost\" evidence=\"parallel\">HANNAH</supplied>",
        "<supplied reason=\"explanation\">HANNAH</supplied>",
        "<hi rend=\"italic\">HANNAH</hi>",
        "<unclear reason=\"eccentric_ductus\">HANNAH</unclear>",
        "HANNAH<figure/>",
        "HANNAH<gap reason=\"ellipsis\" quantity=\"2\" unit=\"character\"/>",
        "HANNAH<gap reason=\"lost\" quantity=\"2\" unit=\"cm\"/>",
        "<choice><abbr>HANNAH</abbr><expan>HANNAHS</expan></choice>",
        "HANNAH<lb/><lb/>WREN",
        "<hi rend=\"ligature\">æ</hi>",
        "HANNAH<g type=\"cross\"/>",
        "<choice><unclear>in</unclear><unclear>m</unclear></choice>",
      })
  void whatAReadingHasNoPlaceForIsTold(String element) {
    assertThat(parse(element).remarks())
        .isNotEmpty()
        .allSatisfy(remark -> assertThat(remark.line()).isPositive());
  }

  @Test
  void idsOfSignsTravelAsRuns() {
    Inscription first = leiden("AB CD");
    assertThat(Epidoc.signIds(first)).isEqualTo("1-6");
    Optional<Inscription> other = Epidoc.withSignIds(first, "4 7-9 2 11");
    assertThat(Epidoc.signIds(other.orElseThrow())).isEqualTo("4 7-9 2 11");
    for (String wrong : List.of("", "1-5", "1-7", "1 1-5", "1-2000000000", "x")) {
      assertThat(Epidoc.withSignIds(first, wrong)).as(wrong).isEmpty();
    }
  }

  @Test
  void aLineMayPointToItsZone() {
    Epidoc.Edition edition = parse("<lb n=\"1\" facs=\"#z1\"/>IN<lb n=\"2\"/>MEMORY");
    assertThat(edition.lineZones()).containsExactly(Optional.of("#z1"), Optional.empty());
    assertThat(Xml.print(Epidoc.print(edition.inscription(), edition.lineZones(), Map.of())))
        .contains("<lb n=\"1\" facs=\"#z1\"/>IN\n<lb n=\"2\"/>MEMORY");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<!DOCTYPE a [<!ENTITY e \"x\">]><a>&e;</a>",
        "<!DOCTYPE a SYSTEM \"file:///etc/passwd\"><a/>",
        "<a>&e;</a>",
        "<a><b></a>",
        "<a/><b/>",
        "",
        "HANNAH",
      })
  void aDocumentThatReachesOutsideOrIsBrokenIsRefusedByLine(String document) {
    assertThatThrownBy(() -> Xml.parse(document.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(EpidocException.class)
        .hasMessageStartingWith("line ");
  }

  /** The parser itself would print a line about it, which is no use to anybody. */
  @ParameterizedTest
  @ValueSource(strings = {"", " encoding='UTF-8'", " encoding='US-ASCII'"})
  void bytesThatArentTextAreRefusedByLineAndNothingElseIsPrinted(String encoding)
      throws EpidocException {
    String document = "<?xml version='1.0'" + encoding + "?>\n<TEI>\u00c9LISE</TEI>";
    PrintStream before = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setErr(new PrintStream(printed, true, StandardCharsets.UTF_8));
    try {
      assertThatThrownBy(() -> Xml.parse(document.getBytes(StandardCharsets.ISO_8859_1)))
          .isInstanceOf(EpidocException.class)
          .hasMessageStartingWith("line 2: byte ");
    } finally {
      System.setErr(before);
    }
    assertThat(printed.toString(StandardCharsets.UTF_8)).isEmpty();
    String named = document.replace(encoding + "?>", " encoding='ISO-8859-1'?>");
    assertThat(Xml.parse(named.getBytes(StandardCharsets.ISO_8859_1)).children()).hasSize(1);
  }

  @Test
  void aDocumentTooDeepOrTooLargeIsRefused() {
    String deep = "<a>".repeat(Xml.DEEPEST + 1) + "</a>".repeat(Xml.DEEPEST + 1);
    assertThatThrownBy(() -> Xml.parse(deep.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(EpidocException.class)
        .hasMessageContaining("deep");
    assertThatThrownBy(() -> Xml.parse(new byte[Xml.MOST_BYTES + 1]))
        .isInstanceOf(EpidocException.class)
        .hasMessageContaining("MB");
  }

  @Test
  void anEditionOfABookIsRefused() {
    assertThatThrownBy(() -> Epidoc.parse(ab("WREN ".repeat(2000))))
        .isInstanceOf(EpidocException.class)
        .hasMessageContaining("10000 signs");
  }

  @Test
  void anEditionWithNothingInItIsRefused() {
    assertThatThrownBy(() -> Epidoc.parse(ab(" <lb n=\"1\"/> ")))
        .isInstanceOf(EpidocException.class)
        .hasMessageContaining("no letter");
  }
}
