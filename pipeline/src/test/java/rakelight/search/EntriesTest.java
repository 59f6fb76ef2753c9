package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Entry;
import rakelight.index.Entry.NameSpan;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Reading;
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
    return new Entries(stones.archive())
        .of(new PhotoStore(stones.archive()).face(reading.face()).orElseThrow(), reading);
  }

  @Test
  void aNameIsASpanOfWordsWithoutItsTitle() {
    Entry entry = entry("In memory of | Mr. EZEKIEL TARRANT | also ANN his wife");
    assertThat(entry.words().stream().map(Word::shown))
        .containsExactly(
            "In", "memory", "of", "Mr", "EZEKIEL", "TARRANT", "also", "ANN", "his", "wife");
    assertThat(entry.names()).contains(new NameSpan(4, 5), new NameSpan(7, 7));
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
    assertThat(entry("died 1848").years()).containsExactly(new YearSpan(1848, 1848, 1, "1848"));
    assertThat(entry("died 188(3 or 8)").years()).extracting(YearSpan::from).contains(1883, 1888);
    assertThat(entry("died 18[..]").years())
        .containsExactly(new YearSpan(1800, 1899, .3, "18[..]"));
    assertThat(entry("died [..]48").years()).isEmpty();
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
        .filteredOn(span -> span.from() == 1868 && span.to() == 1868)
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
    assertThat(entry(head).links()).isEqualTo(List.of("has as footstone 5"));
    assertThat(entry(foot).links()).isEqualTo(List.of("footstone of 4", "said to be Hester Wren"));
  }
}
