package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Ground;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Entry;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.PersonStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

/** The index follows the journal, and what a decision doesn't touch isn't made anew. */
class FollowedIndexTest {
  private static final String ADA = "Ada Penrose";

  @TempDir Path folder;
  private Archive archive;

  @BeforeEach
  void tenStonesAreReadAndIndexed() throws Exception {
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("UTC")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                LinkStore.projection(),
                rakelight.person.QuestionStore.projection(),
                rakelight.marker.ConditionStore.projection()));
    for (int i = 1; i <= 10; i++) {
      sign("" + i, "JOHN WREN\ndied 18" + (10 + i));
    }
    assertThat(changed()).isEqualTo(10);
  }

  @AfterEach
  void close() {
    archive.close();
  }

  @Test
  void aReadingChangesItsOwnEntryAlone() throws Exception {
    Decision signed = sign("4", "JOHN WRENN\ndied 1814");
    assertThat(changed()).isEqualTo(1);
    archive.journal().undo(signed.id(), ADA);
    assertThat(changed()).isEqualTo(1);
    thatIsTheIndexMadeAnew();
  }

  @Test
  void aLinkAndItsUndoChangeTheEntriesOfItsTwoMarkers() throws Exception {
    Link link = new LinkStore(archive).confirm("3", Link.Kind.FOOTSTONE_OF, "7", "", ADA);
    assertThat(changed()).isEqualTo(2);
    assertThat(entries()).filteredOn(e -> e.fact("link").size() == 1).hasSize(2);
    thatIsTheIndexMadeAnew();
    archive.journal().undo(link.decision(), ADA);
    assertThat(changed()).isEqualTo(2);
    assertThat(entries()).allMatch(e -> e.fact("link").isEmpty());
  }

  @Test
  void aNewNumberIsToldByTheMarkersLinkedWithIt() throws Exception {
    new LinkStore(archive).confirm("3", Link.Kind.FOOTSTONE_OF, "7", "", ADA);
    assertThat(changed()).isEqualTo(2);
    MarkerStore markers = new MarkerStore(archive);
    markers.renumber(markers.byNumber("7").orElseThrow().id(), "7a", ADA);
    assertThat(changed()).isEqualTo(2);
    assertThat(entries()).anyMatch(e -> e.fact("link").equals(List.of("footstone of 7a")));
    thatIsTheIndexMadeAnew();
  }

  private void thatIsTheIndexMadeAnew() throws Exception {
    List<Entry> followed = entries();
    new GroundSearch(archive).update(true);
    assertThat(followed).containsExactlyInAnyOrderElementsOf(entries());
  }

  private List<Entry> entries() throws Exception {
    try (GroundSearch search = new GroundSearch(archive)) {
      return search.search("wren", 100).answers().stream()
          .map(found -> found.hit().entry())
          .toList();
    }
  }

  private int changed() {
    return new GroundSearch(archive).update(false).orElseThrow().changed();
  }

  private Decision sign(String marker, String leiden) throws LeidenException {
    ReadingStore readings = new ReadingStore(archive);
    return archive
        .journal()
        .find(
            readings
                .sign(
                    new PhotoStore(archive).faceOf(marker, "front", ADA).id(),
                    Leiden.parse(leiden),
                    new Basis(
                        Basis.Kind.PHOTOGRAPHS,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty()),
                    Optional.empty(),
                    ADA)
                .decision())
        .orElseThrow();
  }
}
