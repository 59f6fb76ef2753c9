package rakelight.publish.epidoc;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.inscription.RandomInscription;
import rakelight.picture.Polygon;

class EpidocDocumentTest {
  private static EpidocReader.Read read(String document) {
    try {
      return EpidocReader.read(Xml.parse(document.getBytes(StandardCharsets.UTF_8)));
    } catch (EpidocException e) {
      throw new AssertionError(document, e);
    }
  }

  private static EpidocDocument.Version version(int number, String reader, Basis basis) {
    return new EpidocDocument.Version(
        number, reader, Instant.parse("2026-05-0" + number + "T10:00:00Z"), basis);
  }

  /** An invented stone with everything a document can hold. */
  private static EpidocDocument document(Random random) {
    Inscription inscription = RandomInscription.next(random);
    List<EpidocDocument.Zone> zones = new ArrayList<>();
    List<Optional<String>> lineZones = new ArrayList<>();
    for (int line = 1; line <= inscription.lines().size(); line++) {
      zones.add(
          new EpidocDocument.Zone(
              "p1-l" + line, Polygon.rectangle(10.5, 20 * line, 900, 20 * line + 15)));
      lineZones.add(Optional.of("p1-l" + line));
    }
    return new EpidocDocument(
        "Thornbeck <new> & old, marker 12, front",
        new EpidocDocument.Stone(
            Optional.of("Thornbeck"),
            Optional.of("12"),
            List.of("7a", "3"),
            Optional.of("front"),
            Optional.of(271.5)),
        Optional.of("0197a3a0-0000-7000-8000-000000000001"),
        List.of(
            version(
                3,
                "Ada Penrose",
                new Basis(
                    Basis.Kind.STONE,
                    Optional.of(LocalDate.of(2026, 4, 30)),
                    Optional.of("low sun from the left"),
                    Optional.empty())),
            version(2, "Bert Quillan", Basis.FROM_PHOTOGRAPHS),
            version(
                1,
                "Ada Penrose",
                new Basis(
                    Basis.Kind.EARLIER,
                    Optional.empty(),
                    Optional.empty(),
                    Optional.of("the sexton's list")))),
        List.of("Ada Penrose", "Bert Quillan"),
        List.of(
            new EpidocDocument.CarvedDate(
                "death", 1, "Feb. 11, 1731/2", "1732-02-22", Optional.empty()),
            new EpidocDocument.CarvedDate("death", 2, "18[.]8", "18X8", Optional.empty()),
            new EpidocDocument.CarvedDate(
                "birth",
                2,
                "1740",
                "[1740-02-22,1741-02-22]",
                Optional.of("reckoned from death and age")),
            new EpidocDocument.CarvedDate("birth", 2, "spring 1801", "1801-21", Optional.empty()),
            new EpidocDocument.CarvedDate("burial", 3, "before 1760", "../1760", Optional.empty())),
        List.of(
            new EpidocDocument.Surface(
                "p1",
                "ab".repeat(32),
                "../archive/originals/ab/ab/x%20y.jpg",
                1000,
                800,
                Optional.of("A. Name"),
                Optional.empty(),
                Optional.of("CC-BY-4.0"),
                zones)),
        inscription,
        Map.of(),
        lineZones,
        List.of(
            new EpidocDocument.Rejected(
                0, Optional.empty(), Optional.of(RandomInscription.next(random)), List.of(2)),
            new EpidocDocument.Rejected(
                1, Optional.of(RandomInscription.next(random)), Optional.empty(), List.of(2, 1))));
  }

  @Test
  void aDocumentComesBackWithEverythingInIt() {
    Random random = new Random(5);
    for (int i = 0; i < 300; i++) {
      EpidocDocument document = document(random);
      EpidocReader.Read back = read(Xml.print(EpidocWriter.write(document)));
      assertThat(back.remarks()).isEmpty();
      assertThat(back.document()).isEqualTo(document);
    }
  }

  @Test
  void aDocumentIsValidAndBreaksNoRule() {
    EpidocSchema schema = EpidocSchema.orSkip();
    Random random = new Random(6);
    for (int i = 0; i < 100; i++) {
      String document = Xml.print(EpidocWriter.write(document(random)));
      assertThat(schema.errors(document)).as(document).isEmpty();
    }
  }

  @Test
  void aDocumentBreaksNoRule() {
    assertThat(EpidocRules.broken(EpidocWriter.write(document(new Random(7))))).isEmpty();
  }

  @Test
  void theStoneIsDatedNotBeforeTheFirstDeathOnIt() {
    assertThat(Xml.print(EpidocWriter.write(document(new Random(1)))))
        .contains("<origDate notBefore=\"1732-02-22\" calendar=\"#gregorian\"")
        .contains("notBefore=\"1808-01-01\" notAfter=\"1898-12-31\" calendar=\"#gregorian\"")
        .contains("when-custom=\"18X8\" datingMethod=\"#edtf\"");
  }

  /** Valid EpiDoc as others write it, with much that a reading has no place for. */
  @Test
  void aForeignDocumentGivesItsReadingAndEveryPartNotCarriedIsTold() {
    EpidocReader.Read read =
        read(
            """
            <?xml version="1.0"?>
            <?xml-model href="schema.rng"?>
            <TEI xmlns="http://www.tei-c.org/ns/1.0" xml:lang="en"><teiHeader><fileDesc>
            <titleStmt><title>Stone of the Wrens</title><editor>Edith Marl</editor></titleStmt>
            <publicationStmt><authority>Somebody</authority></publicationStmt>
            <sourceDesc><msDesc><msIdentifier><repository>A museum</repository></msIdentifier>
            <physDesc><objectDesc><supportDesc><support><material>slate</material></support>
            </supportDesc></objectDesc></physDesc></msDesc></sourceDesc></fileDesc></teiHeader>
            <facsimile><graphic url="a.jpg"/></facsimile>
            <text><body>
            <div type="translation"><p>She lies here.</p></div>
            <div type="edition" xml:lang="en"><div type="textpart" n="a"><ab><!-- worn -->
            <lb n="1"/><persName><name>HANNAH</name></persName>
            <lb n="2"/>di<supplied cert="low" reason="lost">ed</supplied>
            </ab></div></div>
            <div type="apparatus"><p>2: doubtful.</p></div>
            </body></text></TEI>
            """);
    assertThat(rakelight.inscription.Leiden.print(read.document().inscription()))
        .isEqualTo("H#note(language: en)ANNAH | di[ed?]");
    assertThat(read.document().readers()).containsExactly("Edith Marl");
    assertThat(read.remarks())
        .extracting(remark -> remark.line() + " " + remark.text())
        .contains(
            "5 <authority> of the header isn't carried",
            "6 <repository> of the header isn't carried",
            "7 <material> of the header isn't carried",
            "11 <div type=\"translation\"> isn't carried",
            "13 <persName> isn't carried, its text is",
            "16 <p> of the apparatus isn't carried");
  }

  @Test
  void aDocumentWithNoEditionIsRefused() {
    assertThatThrownBy(
            () ->
                EpidocReader.read(
                    Xml.parse(
                        "<TEI xmlns=\"http://www.tei-c.org/ns/1.0\"/>"
                            .getBytes(StandardCharsets.UTF_8))))
        .isInstanceOf(EpidocException.class)
        .hasMessage("line 1: no <TEI> with a <div type=\"edition\"> in it.");
  }
}
