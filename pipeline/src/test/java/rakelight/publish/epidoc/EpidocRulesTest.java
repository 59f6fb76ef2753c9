package rakelight.publish.epidoc;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the schema lets pass: EpiDoc Guidelines, ed. 9, pages "trans-*", and, for pointers, zones,
 * numbers of lines and languages, rules of our own.
 */
class EpidocRulesTest {
  private static List<String> broken(String document) {
    try {
      return EpidocRules.broken(Xml.parse(document.getBytes(StandardCharsets.UTF_8))).stream()
          .map(Epidoc.Remark::text)
          .toList();
    } catch (EpidocException e) {
      throw new AssertionError(document, e);
    }
  }

  private static String tei(String header, String facsimile, String edition) {
    return "<TEI xmlns=\""
        + Xml.TEI
        + "\"><teiHeader>"
        + header
        + "</teiHeader><facsimile>"
        + facsimile
        + "</facsimile><text><body><div type=\"edition\"><ab>"
        + edition
        + "</ab></div></body></text></TEI>";
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "<gap quantity=\"3\" unit=\"character\"/>                          | needs reason",
        "<supplied>abc</supplied>                                           | needs reason",
        "<gap reason=\"lost\" quantity=\"3\" extent=\"unknown\" unit=\"character\"/> | two ways",
        "<gap reason=\"lost\" quantity=\"3\" unit=\"chars\"/>               | character or line",
        "<gap reason=\"lost\" quantity=\"-3\" unit=\"character\"/>          | counts from 1",
        "<space quantity=\"0\" unit=\"character\"/>                         | counts from 1",
        "<gap reason=\"lost\" unit=\"character\"/>                          | how long it is",
        "<del>abc</del>                                                     | needs rend",
        "Aug<ex>ustus</ex>                                                  | within <expan>",
        "<expan><abbr>A</abbr><ex/></expan>                                 | says nothing",
        "<lb n=\"1\" break=\"maybe\"/>abc                                   | break is no",
        "<lb n=\"1\"/>a<lb n=\"3\"/>b                                       | line 3 follows line 1",
        "<lb n=\"1\"/>a<lb n=\"1\"/>b                                       | line 1 follows line 1",
        "<choice><unclear>3</unclear></choice>                              | nothing to choose",
        "<unclear><supplied reason=\"lost\">a</supplied></unclear>          | letters only",
        "<lb n=\"1\" facs=\"#z9\"/>abc                                      | isn't there",
        "<supplied reason=\"lost\" resp=\"#nobody\">a</supplied>            | isn't there",
        "<date when=\"1889-02-30\">d</date>                                 | no date there ever was",
        "<date notBefore=\"1889\" notAfter=\"1888-12\">d</date>             | lies after",
        "<w xml:id=\"a\">x</w><w xml:id=\"a\">y</w>                         | given twice",
        "<foreign xml:lang=\"la\">a</foreign><foreign xml:lang=\"en\">b</foreign> | several languages",
      })
  void aRuleBrokenIsSaid(String edition, String reason) {
    assertThat(broken(tei("", "", edition))).anySatisfy(text -> assertThat(text).contains(reason));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<gap reason=\"lost\" atLeast=\"0\" atMost=\"6\" unit=\"character\"/>",
        "<gap reason=\"lost\" extent=\"unknown\" unit=\"line\"/>",
        "<expan><abbr>Aug</abbr><ex>ustus</ex></expan>",
        "<lb n=\"1\"/>a<lb n=\"2\" break=\"no\"/>b",
        "<foreign xml:lang=\"la\">a</foreign>",
        "<date when=\"1752-09\">d</date>",
      })
  void aRuleKeptIsNot(String edition) {
    assertThat(broken(tei("", "", edition))).isEmpty();
  }

  @Test
  void aZoneLiesOnItsPhotographAndALineLeadsToAZone() {
    String surface = "<surface xml:id=\"p\" ulx=\"0\" uly=\"0\" lrx=\"100\" lry=\"50\">";
    String inside = surface + "<zone xml:id=\"z\" points=\"0,0 100,0 100,50\"/></surface>";
    String beyond = surface + "<zone xml:id=\"z\" points=\"0,0 101,0 100,50\"/></surface>";
    String line = "<lb n=\"1\" facs=\"#z\"/>abc";
    assertThat(broken(tei("", inside, line))).isEmpty();
    assertThat(broken(tei("", beyond, line)))
        .containsExactly("the zone reaches beyond its photograph");
    assertThat(broken(tei("", inside, "<lb n=\"1\" facs=\"#p\"/>abc")))
        .containsExactly("facs of a line leads to a <zone>, not a <surface>");
  }

  @Test
  void linesAreCountedAnewInEachPart() {
    String part = "<div type=\"textpart\"><ab><lb n=\"1\"/>a<lb n=\"2\"/>b</ab></div>";
    String body =
        "<TEI xmlns=\""
            + Xml.TEI
            + "\"><text><body><div type=\"edition\">"
            + part
            + part
            + "</div></body></text></TEI>";
    assertThat(broken(body)).isEmpty();
    assertThat(broken(body.replace("<div type=\"textpart\">", "<div type=\"edition\">")))
        .anySatisfy(text -> assertThat(text).contains("a document is of one"));
  }

  @Test
  void languagesThatTheHeaderDeclaresMayMix() {
    String mixed = "<foreign xml:lang=\"la\">a</foreign><foreign xml:lang=\"en\">b</foreign>";
    String declared = "<langUsage><language ident=\"la\"/><language ident=\"en\"/></langUsage>";
    assertThat(broken(tei(declared, "", mixed))).isEmpty();
  }

  /** Checked with jing against tei-epidoc.rng 9.8: these are valid all the same. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "<gap reason=\"lost\" quantity=\"3\" extent=\"unknown\" unit=\"character\"/>",
        "<gap reason=\"lost\" quantity=\"3\" unit=\"chars\"/>",
        "<gap reason=\"lost\" quantity=\"-3\" unit=\"character\"/>",
        "<gap reason=\"lost\" unit=\"character\"/>",
        "<del>abc</del>",
        "Aug<ex>ustus</ex>",
        "<lb n=\"1\" break=\"maybe\"/>abc",
        "<lb n=\"1\" facs=\"#z9\"/>abc",
        "<lb n=\"1\"/>a<lb n=\"3\"/>b",
      })
  void theSchemaAloneMissesThem(String edition) {
    assertThat(EpidocSchema.orSkip().errors(EpidocSchema.around(edition))).isEmpty();
    assertThat(broken(tei("", "", edition))).isNotEmpty();
  }
}
