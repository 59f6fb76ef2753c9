package rakelight.publish;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.person.PersonStore;
import rakelight.publish.gedcom.GedcomFile;

/** An edition's persons as GEDCOM 7, read back by a judge who knows only the standard. */
class PersonsAsGedcomTest {
  @TempDir Path folder;
  private SmallGround ground;

  @BeforeEach
  void open() {
    ground = new SmallGround(folder);
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private GedcomFile written() throws Exception {
    GedcomFile file = ground.gedcom();
    assertThat(file.broken()).isEmpty();
    return file;
  }

  @Test
  void everyFactCitesTheLineItStandsOnWithItsWords() throws Exception {
    ground.stone(
        "12", "front", "CAPT ABEL HOLT | of Kelby, mason | died 14 March 1851 | aged 71 years");
    GedcomFile file = written();
    GedcomFile.Node abel = file.person("Abel /Holt/");
    assertThat(abel.one("SEX")).isEqualTo("M");
    assertThat(abel.all("NAME").get(0).one("GIVN")).isEqualTo("Abel");
    GedcomFile.Node death = abel.all("DEAT").get(0);
    assertThat(death.payload).isEmpty();
    assertThat(death.one("DATE")).isEqualTo("14 MAR 1851");
    assertThat(death.one("AGE")).isEqualTo("71y");
    GedcomFile.Node cited = death.all("SOUR").get(0);
    assertThat(cited.one("PAGE")).isEqualTo("line 3");
    assertThat(cited.one("QUAY")).isEqualTo("2");
    assertThat(cited.all("DATA").get(0).one("TEXT")).contains("14 March 1851");
    GedcomFile.Node stone = file.named(cited.payload);
    assertThat(stone.one("TITL")).isEqualTo("Inscription on marker 12, front, Thornbeck");
    assertThat(stone.one("NOTE")).startsWith("Basis: photographs; signed 2");
    assertThat(stone.one("TEXT").lines()).hasSize(4).first().isEqualTo("CAPT ABEL HOLT");
    assertThat(abel.one("OCCU")).isEqualToIgnoringCase("mason");
  }

  @Test
  void doubtStaysDoubt() throws Exception {
    ground.stone("12", "front", "JOHN REED | died 3 May 18[.]7 | aged 40 years");
    ground.stone("13", "front", "MARY REED | died 3 M\u1EA1y 1847");
    GedcomFile file = written();
    GedcomFile.Node john = file.person("John /Reed/").all("DEAT").get(0);
    assertThat(john.one("DATE")).startsWith("BET 3 MAY 1807 AND 3 MAY 1897");
    assertThat(john.all("DATE").get(0).one("PHRASE")).isEqualTo("18X7-05-03");
    assertThat(john.all("SOUR").get(0).one("QUAY")).isEqualTo("1");
    GedcomFile.Node mary = file.person("Mary /Reed/").all("DEAT").get(0);
    assertThat(mary.all("SOUR").get(0).one("QUAY")).isEqualTo("1");
    assertThat(mary.all("SOUR").get(0).one("NOTE")).contains("in doubt");
  }

  @Test
  void familiesAreWhatStonesState() throws Exception {
    ground.stone(
        "12",
        "front",
        "JOHN SMITH | died 1850 | also MARY his wife | died 1861 | also EDWARD son of the above"
            + " | JOHN and MARY SMITH | died 1849 aged 3 years");
    GedcomFile file = written();
    String john = "@" + file.person("John /Smith/").pointer + "@";
    String mary = "@" + file.person("Mary /Smith/").pointer + "@";
    String edward = "@" + file.person("Edward /Smith/").pointer + "@";
    assertThat(file.records("FAM"))
        .anySatisfy(
            family -> {
              assertThat(family.one("HUSB")).isEqualTo(john);
              assertThat(family.one("WIFE")).isEqualTo(mary);
              assertThat(family.one("CHIL")).isEqualTo(edward);
            });
  }

  @Test
  void twoDeathsOfOnePersonAreBothWritten() throws Exception {
    ground.stone("12", "front", "HANNAH WREN | died 14 March 1851");
    ground.stone("13", "front", "HANNAH WREN | died 15 March 1851 | aged 63 years");
    ground.stone("14", "front", "HANNAH WREN | died 14 March 1851");
    PersonStore persons = new PersonStore(ground.archive);
    for (String other : List.of("13:front:1", "14:front:1")) {
      persons.same(ground.mention("12:front:1"), ground.mention(other), "one grave", "Ada");
    }
    GedcomFile file = written();
    assertThat(file.records("INDI")).hasSize(1);
    List<GedcomFile.Node> deaths = file.person("Hannah /Wren/").all("DEAT");
    assertThat(deaths)
        .extracting(death -> death.one("DATE"))
        .contains("14 MAR 1851", "15 MAR 1851");
    assertThat(deaths)
        .filteredOn(death -> death.one("DATE").equals("14 MAR 1851"))
        .singleElement()
        .satisfies(death -> assertThat(death.all("SOUR")).hasSize(2));
  }

  @Test
  void aLinkIsABurialOnlyWhereSomebodyConfirmedThatHeLiesThere() throws Exception {
    ground.stone("4", "front", "AMOS RUDD | died 3 May 1863");
    ground.stone("5", "front", "A. R.");
    LinkStore links = new LinkStore(ground.archive);
    links.confirm("5", Link.Kind.COMMEMORATED, "4:front:1", "", "Ada");
    assertThat(written().person("Amos /Rudd/").all("BURI")).isEmpty();
    links.confirm("5", Link.Kind.BURIED_HERE, "4:front:1", "by the sexton's book", "Ada");
    GedcomFile file = written();
    GedcomFile.Node burial = file.person("Amos /Rudd/").all("BURI").get(0);
    assertThat(burial.one("PLAC")).isEqualTo("Thornbeck");
    assertThat(burial.one("NOTE")).isEqualTo("Confirmed by Ada: by the sexton's book");
  }

  @Test
  void signsThatTheFormatUsesItselfComeThrough() throws Exception {
    ground.stone("@1", "front", "ANN HAY | died 1801");
    ground.stone("2", "front", "@HOME | ELI HAY | died 1802");
    GedcomFile file = written();
    assertThat(file.records("SOUR"))
        .extracting(stone -> stone.one("REFN"))
        .contains("@1:front", "2:front");
  }

  @Test
  void aGroundWithoutReadingsIsAFileWithoutPersons() throws Exception {
    GedcomFile file = written();
    assertThat(file.records("INDI")).isEmpty();
    assertThat(file.records("SOUR")).isEmpty();
  }
}
