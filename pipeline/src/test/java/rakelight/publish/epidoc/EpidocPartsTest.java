package rakelight.publish.epidoc;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.inscription.Leiden;

/**
 * Files with several texts, as the EpiDoc Guidelines have them (edition 9: "Text parts", "Languages
 * of text", "Apparatus criticus", inline and external). The stones are invented.
 */
class EpidocPartsTest {
  private static final String TWO_SIDES =
      """
      <TEI xmlns="http://www.tei-c.org/ns/1.0" xml:lang="en"><teiHeader><fileDesc>
      <titleStmt><title>Cross of the Wrens</title><editor xml:id="EM">Edith Marl</editor></titleStmt>
      <publicationStmt><authority>Somebody</authority></publicationStmt>
      <sourceDesc><msDesc><msIdentifier><repository>Thornbeck</repository>
      <idno type="marker">40</idno></msIdentifier></msDesc>
      <listBibl><bibl xml:id="quarry"><title>Notes of J. Quarry, 1871</title></bibl></listBibl>
      </sourceDesc></fileDesc>
      <profileDesc><langUsage><language ident="en">English</language>
      <language ident="la">Latin</language></langUsage></profileDesc></teiHeader>
      <text><body><div type="edition" xml:lang="en" xml:space="preserve">
      <div type="textpart" subtype="side" n="a" xml:id="side-a"><ab>
      <lb n="1"/>HANNAH WREN
      <lb n="2"/><foreign xml:lang="la">IN PACE</foreign> AD
      <lb n="3"/><app><lem>1851</lem><rdg resp="#EM">1857</rdg></app></ab></div>
      <div type="textpart" subtype="side" n="b" xml:lang="la">
      <div type="textpart" subtype="column" n="1"><ab><lb n="1"/>HIC</ab></div>
      <div type="textpart" subtype="column" n="2"><ab><lb n="2"/>IACET</ab></div></div></div>
      <div type="apparatus"><listApp>
      <app loc="a.1"><lem>WREN</lem><rdg source="#quarry">WRAY</rdg><note>worn then</note></app>
      <app loc="b.2"><rdg resp="#EM">IACIT</rdg></app>
      <app loc="a.9"><rdg>NOBODY</rdg></app></listApp></div>
      <div type="translation" xml:lang="en"><p>In peace. Here lies.</p></div>
      </body></text></TEI>
      """;

  @TempDir private Path folder;

  private List<EpidocImport> read(String text, String face) throws Exception {
    Path file = folder.resolve("cross.xml");
    Files.writeString(file, text);
    return EpidocImport.read(file, Optional.empty(), Optional.of(face).filter(f -> !f.isEmpty()));
  }

  @Test
  void eachTextPartIsAFaceWithItsLanguagesAndWhatOthersReadThere() throws Exception {
    List<EpidocImport> texts = read(TWO_SIDES, "");

    assertThat(texts).extracting(EpidocImport::face).containsExactly("side a", "side b");
    assertThat(texts).extracting(EpidocImport::marker).containsOnly("40");
    assertThat(texts).allSatisfy(one -> assertThat(one.readers()).containsExactly("Edith Marl"));
    assertThat(Leiden.printLines(texts.get(0).inscription()))
        .containsExactly(
            "H#note(language: en)ANNAH W#note(elsewhere read: WRAY for WREN (Notes of J. Quarry,"
                + " 1871\\))#note(apparatus: worn then)REN",
            "I#note(language: la)N PACE A#note(language: en)D",
            "1851#note(elsewhere read: 1857 (EM\\))");
    assertThat(Leiden.printLines(texts.get(1).inscription()))
        .containsExactly(
            "H#note(language: la)IC", "I#note(elsewhere read: IACIT (Edith Marl\\))ACET");
    assertThat(texts.get(0).notes())
        .contains(
            "line 21: an entry of the apparatus isn't carried, there is no line a.9: NOBODY",
            "line 22: <div type=\"translation\"> isn't carried");
    // What is said of the file is said once.
    assertThat(texts.get(1).notes()).noneMatch(note -> note.contains("translation"));
    assertThat(EpidocSchema.orSkip().errors(TWO_SIDES)).isEmpty();
  }

  @Test
  void whatIsSaidOfAPartGoesWithItByIdOrName() throws Exception {
    String divided =
        TWO_SIDES.replace(
            "<div type=\"apparatus\"><listApp>",
            """
            <div type="apparatus"><div type="textpart" corresp="#side-a"><listApp>
            <app loc="2"><lem>PACE</lem><rdg>PAGE</rdg></app></listApp></div>
            <div type="textpart" n="b"><listApp><app loc="1"><lem>HIC</lem><rdg/></app></listApp>
            </div></div><div type="apparatus"><listApp>\
            """);

    List<EpidocImport> texts = read(divided, "");

    assertThat(Leiden.print(texts.get(0).inscription()))
        .contains("P#note(elsewhere read: PAGE for");
    assertThat(Leiden.print(texts.get(1).inscription()))
        .contains("elsewhere read: nothing for HIC")
        .doesNotContain("PAGE");
  }

  @Test
  void aTextOutsideOfTheParts() throws Exception {
    List<EpidocImport> texts =
        read(
            TWO_SIDES.replace(
                "xml:space=\"preserve\">", "xml:space=\"preserve\"><ab><lb n=\"1\"/>TOP</ab>"),
            "");

    assertThat(texts).extracting(EpidocImport::face).containsExactly("front", "side a", "side b");
    assertThat(Leiden.print(texts.get(0).inscription())).isEqualTo("T#note(language: en)OP");
  }

  @Test
  void aPartWithNoLetterIsToldAndTheOthersComeIn() throws Exception {
    List<EpidocImport> texts =
        read(
            TWO_SIDES.replace(
                "<div type=\"textpart\" subtype=\"side\" n=\"b\"",
                "<div type=\"textpart\" subtype=\"side\" n=\"c\"><ab/></div>"
                    + "<div type=\"textpart\" subtype=\"side\" n=\"b\""),
            "");

    assertThat(texts).hasSize(2);
    assertThat(texts.get(0).notes())
        .anyMatch(note -> note.startsWith("side c isn't taken: line 15: "));
  }

  @Test
  void oneFaceForSeveralTextsIsRefused() {
    assertThatThrownBy(() -> read(TWO_SIDES, "front"))
        .hasMessageContaining("has 2 texts, each a face of its own");
  }
}
