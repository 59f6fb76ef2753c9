package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Ground;
import rakelight.archive.UndoRefusedException;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.MentionId;
import rakelight.person.PersonStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.ProposalStore;

class LinkStoreTest {
  @TempDir Path folder;
  private Archive archive;
  private MarkerStore markers;
  private LinkStore links;
  private Reading wren;

  /** Headstone 4 of Hannah Wren, footstone 5, and 6, of which nothing is known. */
  @BeforeEach
  void makeAnArchive() throws LeidenException {
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                LinkStore.projection()));
    markers = new MarkerStore(archive);
    links = new LinkStore(archive);
    for (String number : List.of("4", "5", "6")) {
      markers.create(number, "Ada");
    }
    wren =
        new ReadingStore(archive)
            .sign(
                new PhotoStore(archive).faceOf("4", "front", "Ada").id(),
                Leiden.parse("In memory of | HANNAH WREN | died 1848"),
                Basis.FROM_PHOTOGRAPHS,
                Optional.empty(),
                "Ada");
  }

  @AfterEach
  void theStateIsWhatAReplayGives() {
    List<Link> standing = links.links();
    archive.journal().rebuild();
    assertThat(links.links()).isEqualTo(standing);
    archive.close();
  }

  private Link footstone() {
    return links.confirm("5", Link.Kind.FOOTSTONE_OF, "4", "initials agree", "Ada");
  }

  private Marker marker(String number) {
    return markers.named(number);
  }

  @Test
  void aLinkIsSeenFromBothItsMarkersAndFromNoOther() {
    Link footstone = footstone();
    assertThat(footstone.toMarker()).contains(marker("4").id());
    assertThat(footstone.toWords()).isEmpty();
    assertThat(footstone.note()).isEqualTo("initials agree");
    assertThat(links.ofMarker(marker("5").id())).containsExactly(footstone);
    assertThat(links.ofMarker(marker("4").id())).containsExactly(footstone);
    assertThat(links.ofMarker(marker("6").id())).isEmpty();
  }

  @Test
  void aMarkerIsLinkedByANumberItHadEarlier() {
    markers.renumber(marker("4").id(), "B-4", "Ada");
    assertThat(footstone().toMarker()).contains(marker("B-4").id());
  }

  @Test
  void aPersonInWordsIsKeptAsWritten() {
    Link said = links.confirm("6", Link.Kind.SAID_TO_BE, " the Rudds, by an old list ", "", "Ada");
    assertThat(said.toWords()).contains("the Rudds, by an old list");
    assertThat(said.toMarker()).isEmpty();
    assertThat(said.toPerson()).isEmpty();
  }

  @Test
  void aPersonNamedByAPlaceOnAStoneIsLinkedToTheSignsOfTheName() {
    Link buried = links.confirm("5", Link.Kind.BURIED_HERE, "4:front:1", "", "Ada");
    assertThat(buried.toWords()).contains("Hannah Wren");
    assertThat(buried.toPerson()).map(MentionId::face).contains(wren.face());
    assertThatThrownBy(() -> archive.journal().undo(wren.decision(), "Ada"))
        .as("the reading holds as long as the link rests on it")
        .isInstanceOf(UndoRefusedException.class);
    archive.journal().undo(buried.decision(), "Ada");
    archive.journal().undo(wren.decision(), "Ada");
  }

  @Test
  void theSameLinkIsntMadeTwiceButAnotherKindOrPersonIs() {
    Link first = footstone();
    long before = archive.journal().lastCounter();
    assertThat(links.confirm("5", Link.Kind.FOOTSTONE_OF, "4", "said again", "Bo"))
        .isEqualTo(first);
    assertThat(archive.journal().lastCounter()).isEqualTo(before);
    links.confirm("5", Link.Kind.FOOTSTONE_OF, "6", "", "Ada");
    links.confirm("5", Link.Kind.COMMEMORATED, "Amos Rudd", "", "Ada");
    links.confirm("5", Link.Kind.BURIED_HERE, "Amos Rudd", "", "Ada");
    assertThat(links.links()).hasSize(4);
  }

  @Test
  void anUndoneLinkIsGoneAndCanBeConfirmedAgainOrBroughtBack() {
    Link first = footstone();
    Link other = links.confirm("5", Link.Kind.BURIED_HERE, "Hannah Wren", "", "Ada");
    var undo = archive.journal().undo(first.decision(), "Ada");
    assertThat(links.links()).containsExactly(other);

    archive.journal().undo(undo.id(), "Ada");
    assertThat(links.links()).containsExactly(first, other);

    archive.journal().undo(first.decision(), "Ada");
    assertThat(footstone().decision()).isNotEqualTo(first.decision());
    assertThat(links.links()).hasSize(2);
  }

  @Test
  void aMarkerIsntUndoneWhileALinkLeadsToIt() {
    Link link = links.confirm("5", Link.Kind.FOOTSTONE_OF, "6", "", "Ada");
    assertThatThrownBy(() -> archive.journal().undo(markers.madeBy(marker("6").id()), "Ada"))
        .isInstanceOf(UndoRefusedException.class)
        .hasMessageContaining(link.decision().toString());
  }

  @Test
  void whatCantBeLinkedIsRefusedAndNothingIsKept() {
    assertThatThrownBy(() -> links.confirm("4", Link.Kind.FOOTSTONE_OF, "4", "", "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessage("Marker 4 can't be linked to itself.");
    assertThatThrownBy(() -> links.confirm("4", Link.Kind.FOOTSTONE_OF, "99", "", "Ada"))
        .hasMessageContaining("There is no marker 99 here");
    assertThatThrownBy(() -> links.confirm("99", Link.Kind.REBURIED, "Amos Rudd", "", "Ada"))
        .hasMessageContaining("There is no marker 99 here");
    assertThatThrownBy(() -> links.confirm("5", Link.Kind.BURIED_HERE, "4:front:7", "", "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("4:front:7");
    assertThat(links.links()).isEmpty();
  }

  @Test
  void aFileOfWhichOneLinkFailsLeavesNoneAndNamesItsLine() {
    LinkFile file =
        new LinkFile(
            List.of(
                new LinkFile.Row(2, "5", Link.Kind.FOOTSTONE_OF, "4", ""),
                new LinkFile.Row(9, "99", Link.Kind.FOOTSTONE_OF, "4", "")));
    assertThatThrownBy(() -> links.confirmAll(file, "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageStartingWith("line 9: There is no marker 99");
    assertThat(links.links()).isEmpty();
  }

  @Test
  void ofAFileOnlyNewLinksAreCounted() {
    footstone();
    LinkFile file =
        new LinkFile(
            List.of(
                new LinkFile.Row(2, "5", Link.Kind.FOOTSTONE_OF, "4", ""),
                new LinkFile.Row(3, "6", Link.Kind.FOOTSTONE_OF, "4", "")));
    assertThat(links.confirmAll(file, "Ada")).isEqualTo(1);
    assertThat(links.confirmAll(file, "Ada")).isZero();
  }
}
