package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Entry;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Reading;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;

class EntriesTest {
  @TempDir Path folder;
  private ReadStones stones;

  @BeforeEach
  void makeAnArchive() {
    stones = new ReadStones(folder.resolve("archive"));
  }

  @AfterEach
  void close() {
    stones.close();
  }

  private Entry entry(String text) {
    return entry(stones.add("4", text));
  }

  private Entry entry(Reading reading) {
    MarkerId marker = new PhotoStore(stones.archive()).face(reading.face()).orElseThrow().marker();
    return new Entries(stones.archive())
        .of(new MarkerStore(stones.archive()).marker(marker).orElseThrow())
        .orElseThrow();
  }

  @Test
  void aNameIsASpanOfWordsWithoutItsTitle() {
    Entry entry = entry("In memory of | Mr. EZEKIEL TARRANT | also ANN his wife");
    assertThat(entry.words().stream().map(Word::shown))
        .containsExactly(
            "In", "memory", "of", "Mr", "EZEKIEL", "TARRANT", "also", "ANN", "his", "wife");
    assertThat(entry.names())
        .extracting(Entry.Name::first, Entry.Name::last)
        .contains(tuple(4, 5), tuple(7, 7));
  }

  @Test
  void aStoneThatBearsInitialsAndAYearAloneIsAFootstone() {
    assertThat(entry("E. T. | 1745").initials()).hasSize(1);
    assertThat(entry("E. T.").initials()).isEqualTo(entry("E T | 17[..]").initials());
    assertThat(entry("E. T. | drowned").initials()).isEmpty();
    assertThat(entry("E").initials()).isEmpty();
    assertThat(entry("A B C D E F").initials()).isEmpty();
  }

  @Test
  void aYearKeepsItsDoubt() {
    assertThat(entry("died 1848").years())
        .containsExactly(new YearSpan(1848, 1848, 1, "died", "1848"));
    assertThat(entry("died 188(3 or 8)").years()).extracting(YearSpan::from).contains(1883, 1888);
    assertThat(entry("died 18[..]").years())
        .containsExactly(new YearSpan(1800, 1899, 1, "", "18[..]"));
    assertThat(entry("died 18[.]5").years())
        .as("ten years of a hundred, each a tenth")
        .hasSize(10)
        .allSatisfy(span -> assertThat(span.weight()).isCloseTo(.1, within(.001)));
    assertThat(entry("died [..]48").years())
        .extracting(YearSpan::from)
        .containsExactly(1548, 1648, 1748, 1848, 1948, 2048);
    assertThat(entry("regiment 9048").years()).as("no year").isEmpty();
  }

  @Test
  void aYearThatNoFourFiguresShowIsToldByTheDate() {
    assertThat(entry("JANE HOLLIN | died MDCCXLV").years())
        .extracting(YearSpan::from)
        .containsExactly(1745);
    assertThat(entry("JANE HOLLIN | died Feb. 11, 1731/2").years())
        .extracting(YearSpan::from)
        .contains(1731, 1732);
  }

  @Test
  void aYearThatIsWorkedOutIsFoundAndSaysSo() {
    assertThat(entry("JOHN WREN | died 3 May 1851 | aged 60 years").years())
        .filteredOn(span -> span.shown().contains("worked out, not carved"))
        .extracting(YearSpan::from)
        .containsExactly(1790, 1791);
    Entry worn = entry("JOHN WREN | born 2 Oct. 1806 | died 27 Aug. 18[.]8 | aged 61 years");
    assertThat(worn.years())
        .filteredOn(span -> span.from() == 1868 && span.weight() > .5)
        .singleElement()
        .satisfies(span -> assertThat(span.shown()).startsWith("death, worked out, not carved"))
        .satisfies(span -> assertThat(span.weight()).isGreaterThan(0.9));
  }

  @Test
  void linksAreToldFromTheMarkersOwnSide() {
    Reading head = stones.add("4", "HANNAH WREN");
    Reading foot = stones.add("5", "H W");
    LinkStore links = new LinkStore(stones.archive());
    links.confirm("5", Link.Kind.FOOTSTONE_OF, "4", "", "Ada");
    links.confirm("5", Link.Kind.SAID_TO_BE, "Hester Wren", "", "Ada");
    assertThat(entry(head).fact("link")).isEqualTo(List.of("has as footstone 5"));
    assertThat(entry(foot).fact("link"))
        .isEqualTo(List.of("footstone of 4", "said to be Hester Wren"));
  }

  @Test
  void aSurnameThatIsCutForTheHusbandIsLentToHisWife() {
    Entry entry =
        entry("In memory of | JOHN PENHALLIS | also of ANN wife of the above | died 1851");
    assertThat(entry.names())
        .anySatisfy(name -> assertThat(name.lent()).extracting(Word::shown).contains("Penhallis"));
  }

  @Test
  void allFacesOfAMarkerAreOneEntry() {
    stones.add("4", "HANNAH WREN");
    Reading back = stones.add("4", "back", "died 1851");
    Entry entry = entry(back);
    assertThat(entry.faces())
        .extracting(Entry.Face::name)
        .containsExactlyInAnyOrder("back", "front");
    assertThat(entry.words()).extracting(Word::shown).contains("WREN", "1851");
  }
}
