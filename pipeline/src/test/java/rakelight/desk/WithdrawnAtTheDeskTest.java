package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ProposalId;
import rakelight.ground.LinkStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.CorrectionStore;
import rakelight.person.PersonStore;
import rakelight.person.QuestionStore;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.publish.WithholdingStore;
import rakelight.reading.ProposalStore;
import rakelight.reading.SmallArchive;
import rakelight.work.LeftFaceStore;
import rakelight.work.ReaderStore;
import rakelight.work.Withdrawing;

/** What was withdrawn while the desk is open can't be had there by any address. */
class WithdrawnAtTheDeskTest {
  private static final Withdrawing.Terms SEALED =
      new Withdrawing.Terms("the family asked", Optional.empty(), true);

  @TempDir Path folder;
  private SmallArchive small;
  private Desk desk;
  private Visitor ada;
  private Withdrawing withdrawing;
  private Marker marker;
  private String face;
  private Photograph leading;
  private ProposalId proposal;

  @BeforeEach
  void open() throws Exception {
    small =
        new SmallArchive(
            folder,
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                PersonStore.projection(),
                CorrectionStore.projection(),
                QuestionStore.projection(),
                SourceStore.projection(),
                ConditionStore.projection(),
                LinkStore.projection(),
                ReaderStore.projection(),
                LeftFaceStore.projection(),
                WithholdingStore.projection()));
    small.propose();
    desk = Desk.start(small.archive(), InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
    ada = Visitor.named("Ada Fenn", desk.port());
    withdrawing = new Withdrawing(small.archive());
    marker = new MarkerStore(small.archive()).byNumber("M04").orElseThrow();
    face = small.face().toString();
    PhotoStore photographs = new PhotoStore(small.archive());
    var made = new ProposalStore(small.archive()).latest(small.face()).orElseThrow();
    proposal = made.id();
    leading = photographs.photograph(made.views().get(0).photograph()).orElseThrow();
  }

  @AfterEach
  void close() {
    desk.close();
    small.close();
  }

  private rakelight.work.NamedReader archivist() {
    return new ReaderStore(small.archive()).atTheTerminal("Ada Fenn");
  }

  private String photograph() {
    return "/images/photographs/" + leading.id() + "?longest=800";
  }

  private String relief() {
    return "/images/faces/" + face + "/" + proposal + "/reliefs/contrast";
  }

  private String strip() {
    return "/images/faces/" + face + "/" + proposal + "/strips/1/light-1";
  }

  private void decideOneLetter() throws Exception {
    ada.decide(face, "{\"do\":\"accept\",\"line\":1,\"from\":1,\"to\":6}");
  }

  private void nothingIsLeft() {
    assertThat(ada.get(photograph()).status()).isEqualTo(404);
    assertThat(ada.get(relief()).status()).isEqualTo(404);
    assertThat(ada.get(strip()).status()).isEqualTo(404);
    for (String page : List.of("/", "/queue", "/api/ground", "/api/next")) {
      Visitor.Answer answer = ada.get(page);
      assertThat(answer.status()).as(page).isEqualTo(200);
      assertThat(answer.body())
          .as(page)
          .doesNotContain(leading.id().toString(), leading.originalName());
    }
  }

  private void pagesOfTheMarkerOpenWithoutIt() throws Exception {
    for (String page :
        List.of(
            "/markers/" + marker.id(),
            "/faces/" + face,
            "/markers/" + marker.id() + "/sheet.pdf")) {
      Visitor.Answer answer = ada.get(page);
      assertThat(answer.status()).as(page + answer.body()).isEqualTo(200);
      assertThat(answer.body())
          .as(page)
          .doesNotContain(leading.id().toString(), leading.originalName());
    }
    assertThat(ada.open(face).toString())
        .doesNotContain(leading.id().toString(), leading.originalName(), proposal.toString());
  }

  @Test
  void aPhotographIsGoneFromEveryAddressWithItsProposalAndPictures() throws Exception {
    for (String picture : List.of(photograph(), relief(), strip())) {
      assertThat(ada.get(picture).status()).as(picture).isEqualTo(200);
    }
    withdrawing.photograph(leading, SEALED, archivist());
    nothingIsLeft();
    pagesOfTheMarkerOpenWithoutIt();
    small.propose();
    pagesOfTheMarkerOpenWithoutIt();
  }

  @Test
  void aDraftBegunFromItOpensWithoutItsProposal() throws Exception {
    assertThat(ada.get(relief()).status()).isEqualTo(200);
    decideOneLetter();
    withdrawing.photograph(leading, SEALED, archivist());
    nothingIsLeft();
    pagesOfTheMarkerOpenWithoutIt();
    small.propose();
    pagesOfTheMarkerOpenWithoutIt();
  }

  @Test
  void aReadingSignedFromItStays() throws Exception {
    new ProposalStore(small.archive())
        .keep(new ProposalStore(small.archive()).latest(small.face()).orElseThrow(), "Ada Fenn");
    new ReadingStore(small.archive())
        .sign(
            small.face(),
            Leiden.parse("HANNAH WREN\nDIED 1848"),
            Basis.FROM_PHOTOGRAPHS,
            Optional.of(proposal),
            "Ada Fenn");
    assertThat(ada.get("/markers/" + marker.id()).body()).contains(leading.id().toString());
    withdrawing.photograph(leading, SEALED, archivist());
    nothingIsLeft();
    pagesOfTheMarkerOpenWithoutIt();
    assertThat(ada.get("/markers/" + marker.id()).body()).contains("HANNAH WREN");
  }

  @Test
  void aMarkerIsGoneFromEveryAddress() throws Exception {
    decideOneLetter();
    assertThat(ada.get("/").body()).contains("M04");
    withdrawing.marker(marker, SEALED, archivist());
    nothingIsLeft();
    assertThat(ada.get("/").body()).doesNotContain("M04");
    assertThat(ada.get("/markers/" + marker.id()).status()).isEqualTo(404);
    assertThat(ada.get("/faces/" + face).status()).isEqualTo(404);
    assertThat(ada.get("/api/faces/" + face).status()).isEqualTo(404);
  }
}
