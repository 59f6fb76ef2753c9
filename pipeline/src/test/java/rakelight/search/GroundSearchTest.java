package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;

class GroundSearchTest {
  @TempDir Path folder;
  private ReadStones stones;
  private GroundSearch search;

  @BeforeEach
  void makeAnArchive() {
    stones = new ReadStones(folder.resolve("archive"));
    search = new GroundSearch(stones.archive());
  }

  @AfterEach
  void close() {
    search.close();
    stones.close();
  }

  private List<String> markers(String query) throws QueryException {
    search.update(false);
    return search.search(query, 100).answers().stream()
        .map(found -> found.hit().entry().marker())
        .toList();
  }

  @Test
  void theIndexFollowsTheJournalAndTakesOnlyWhatChanged() {
    stones.add("4", "HANNAH WREN");
    stones.add("5", "AMOS RUDD");
    assertThat(search.update(false)).contains(new GroundSearch.Updated(2, 2));
    assertThat(search.update(false)).contains(new GroundSearch.Updated(0, 2));
    stones.add("6", "ELI HOLT");
    assertThat(search.isUpToDate()).isFalse();
    assertThat(search.update(false)).contains(new GroundSearch.Updated(1, 3));
    assertThat(search.isUpToDate()).isTrue();
    assertThat(search.update(true)).as("made anew").contains(new GroundSearch.Updated(3, 3));
  }

  @Test
  void whatAMachineProposesIsAClassOfItsOwn() throws Exception {
    stones.add("4", "HANNAH WREN");
    propose("5", "front", "HANNAH WREN");
    propose("4", "back", "AMOS RUDD");
    assertThat(markers("hannah wren")).containsExactly("4");
    assertThat(markers("amos rudd")).isEmpty();
    assertThat(proposed("hannah wren")).containsExactly("5");
    assertThat(proposed("amos rudd")).containsExactly("4");
    stones.add("5", "HANNAH LARK");
    assertThat(proposed("hannah wren")).isEmpty();
    try (Stream<Path> left = Files.list(stones.archive().workingFolder())) {
      assertThat(left.filter(each -> each.getFileName().toString().startsWith("proposed-")))
          .isEmpty();
    }
  }

  @Test
  void ofWhatNobodyHasReadTheLikeliestToAnswerIsTold() throws Exception {
    stones.add("4", "HANNAH WREN");
    propose("65", "front", "HANNAH WREN");
    propose("66", "front", "HANNAH WRENN");
    propose("67", "front", "AMOS RUDD");
    search.update(false);
    try (Proposed proposed = search.proposed()) {
      List<GroundSearch.Unread> could =
          search.couldAnswer(proposed, "hannah wren", SearchIndex.EVERY_WIDENING);
      assertThat(could).extracting(GroundSearch.Unread::number).startsWith("65", "66");
      assertThat(could).extracting(GroundSearch.Unread::number).doesNotContain("4", "67");
      assertThat(could.get(0).probability()).isBetween(.5, 1.0);
      assertThat(search.couldAnswer(proposed, "eli holt", SearchIndex.EVERY_WIDENING)).isEmpty();
    }
  }

  @Test
  void whatTwoReadBlindIsNoProposalToFind() throws Exception {
    new ReadingStore(stones.archive()).require(2, "Ada");
    propose("5", "front", "HANNAH WREN");
    assertThat(proposed("hannah wren")).isEmpty();
  }

  private void propose(String marker, String face, String line) throws IOException {
    FaceId id = new PhotoStore(stones.archive()).faceOf(marker, face, "Ada").id();
    GivenProposal.of(stones.archive(), id, line);
  }

  private List<String> proposed(String query) throws QueryException {
    return search.findProposed(query, 10, SearchIndex.EVERY_WIDENING).hits().stream()
        .map(hit -> hit.entry().marker())
        .toList();
  }

  @Test
  void aNewVersionOfAReadingTakesThePlaceOfTheOldOne() throws Exception {
    stones.add("4", "HANNAH WREN");
    assertThat(markers("wren")).containsExactly("4");
    Reading second = stones.add("4", "HANNAH LARK");
    assertThat(markers("wren")).isEmpty();
    assertThat(markers("lark")).containsExactly("4");

    stones.archive().journal().undo(second.decision(), "Ada");
    assertThat(markers("lark")).isEmpty();
    assertThat(markers("wren")).containsExactly("4");
  }

  @Test
  void aHitComesWithTheReadingAsItStandsEvenIfTheIndexIsBehind() throws Exception {
    Reading first = stones.add("4", "HANNAH WREN");
    search.update(false);
    assertThat(search.search("wren", 1).answers().get(0).faces().get(0).reading()).contains(first);
    Reading second = stones.add("4", "HANNAH WRENN");
    assertThat(search.search("wren", 1).answers().get(0).faces().get(0).reading()).contains(second);
    stones.archive().journal().undo(second.decision(), "Ada");
    stones.archive().journal().undo(first.decision(), "Ada");
    assertThat(search.search("wren", 1).answers().get(0).faces().get(0).reading()).isEmpty();
    assertThat(markers("wren")).isEmpty();
  }

  @Test
  void aRenumberedMarkerIsFoundByBothItsNumbers() throws Exception {
    stones.add("4", "HANNAH WREN");
    assertThat(markers("marker:4")).containsExactly("4");
    MarkerStore store = new MarkerStore(stones.archive());
    store.renumber(store.named("4").id(), "B-4", "Ada");
    assertThat(markers("wren")).containsExactly("B-4");
    assertThat(markers("marker:B-4")).containsExactly("B-4");
    assertThat(markers("marker:4")).containsExactly("B-4");
  }

  @Test
  void aLinkIsFoundAtBothItsEndsUntilItIsUndone() throws Exception {
    stones.add("4", "HANNAH WREN");
    stones.add("5", "H W");
    Link link =
        new LinkStore(stones.archive()).confirm("5", Link.Kind.FOOTSTONE_OF, "4", "", "Ada");
    assertThat(markers("link:footstone")).containsExactly("4", "5");
    stones.archive().journal().undo(link.decision(), "Ada");
    assertThat(markers("link:footstone")).isEmpty();
  }

  @Test
  void whenTheGroundsCalendarIsStatedEveryStoneIsReckonedAnew() {
    stones.add("4", "HANNAH WREN | died Feb. 11, 1731");
    stones.add("5", "AMOS RUDD");
    search.update(false);
    var ground = stones.archive().ground();
    stones.archive().describe(ground, "Ada");
    assertThat(search.update(false)).contains(new GroundSearch.Updated(2, 2));
  }

  @Test
  void whileAnotherProgramWritesTheIndexItIsLeftToIt() throws IOException {
    stones.add("4", "HANNAH WREN");
    Path index = stones.archive().root().resolve("index");
    try (IndexWriting other = IndexWriting.open(index, false).orElseThrow()) {
      assertThat(other.counter()).isZero();
      assertThat(search.update(false)).isEqualTo(Optional.empty());
    }
    assertThat(search.update(false)).contains(new GroundSearch.Updated(1, 1));
  }

  @Test
  void aDamagedIndexIsCalledDamagedAndIsMadeAgain() throws Exception {
    stones.add("4", "HANNAH WREN");
    search.update(false);
    Path index = stones.archive().root().resolve("index");
    try (var files = Files.walk(index)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        if (!file.getFileName().toString().matches("lock|write.lock|current")) {
          Files.writeString(file, "no index");
        }
      }
    }
    assertThatThrownBy(() -> search.search("wren", 1))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("damaged");
    assertThat(search.isUpToDate()).isFalse();
    assertThat(search.update(true)).contains(new GroundSearch.Updated(1, 1));
    assertThat(markers("wren")).containsExactly("4");
  }

  @Test
  void aQueryThatCantBeUnderstoodSaysHowToWriteIt() {
    search.update(false);
    assertThatThrownBy(() -> search.search("year:soon", 1))
        .isInstanceOf(QueryException.class)
        .hasMessageContaining("year:1863");
  }
}
