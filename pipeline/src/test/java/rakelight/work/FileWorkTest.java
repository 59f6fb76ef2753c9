package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.inscription.Basis;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingFile;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

class FileWorkTest {
  private static final NamedReader ADA = new NamedReader("Ada Penrose", Role.ARCHIVIST);
  private static final NamedReader COL = new NamedReader("Col Reeve", Role.READER);
  private static final NamedReader EVE = new NamedReader("Eve Marsh", Role.READER);

  @TempDir Path folder;
  private WorkGround ground;
  private Archive archive;
  private ReadingStore readings;
  private PhotoStore photographs;
  private FileWork files;
  private FaceId face;

  @BeforeEach
  void open() {
    ground = new WorkGround(folder.resolve("archive"));
    archive = ground.archive();
    readings = new ReadingStore(archive);
    photographs = new PhotoStore(archive);
    files = new FileWork(archive);
    face = ground.face("12").id();
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("readings.tsv"), text, StandardCharsets.UTF_8);
  }

  private static ReadingFile saying(String text) throws LeidenException {
    return new ReadingFile(
        List.of(new ReadingFile.Entry("12", "front", Leiden.parse(text), Optional.empty())));
  }

  @Test
  void whatSomebodyWritesDownIsHisToSayAlsoADoubtfulLetterOfADate() throws Exception {
    ground.propose(photographs.face(face).orElseThrow(), "died 18(350840)4");
    assertThat(files.confirm(saying("died 18(3 or 8)4"), Basis.FROM_PHOTOGRAPHS, ADA).signed())
        .isEqualTo(1);
    assertThat(Leiden.print(readings.current(face).orElseThrow().inscription()))
        .isEqualTo("died 18(3 or 8)4");
  }

  @Test
  void aGuestSignsNothingByAFile() throws Exception {
    NamedReader guest = new NamedReader("Gil Orme", Role.GUEST);
    assertThatThrownBy(() -> files.confirm(saying("ELI"), Basis.FROM_PHOTOGRAPHS, guest))
        .isInstanceOfSatisfying(
            RefusedException.class,
            e -> assertThat(e.refused()).isEqualTo(new Refused.OnlyLooks()));
    assertThat(readings.all()).isEmpty();
  }

  @Test
  void aThirdReadersFileSettlesWhereTwoDiffer() throws Exception {
    new ReaderStore(archive).require(2, ADA);
    files.confirm(saying("died 1834"), Basis.FROM_PHOTOGRAPHS, ADA);
    files.confirm(saying("died 1884"), Basis.FROM_PHOTOGRAPHS, COL);
    assertThat(readings.ofFace(face).state()).isEqualTo(FaceReadings.State.TO_SETTLE);
    files.confirm(saying("died 1884"), Basis.FROM_PHOTOGRAPHS, EVE);
    assertThat(readings.ofFace(face).state()).isEqualTo(FaceReadings.State.SETTLED);
    assertThat(readings.current(face).map(Reading::reader)).contains("Eve Marsh");
  }

  @Test
  void aFileIsSignedWholeAndItsNewMarkersAreMade() throws Exception {
    ReadingFile file =
        ReadingFile.read(
            file(
                "marker\tface\tline\ttext\n"
                    + "40\tback\t2\t|ory of [Jane?]\n"
                    + "40\tback\t1\t[sacred to] mem\n"
                    + "41\t\t1\tIN MEMORY | of | ELI\n"));
    Basis basis =
        new Basis(
            Basis.Kind.EARLIER,
            Optional.of(LocalDate.of(1931, 5, 2)),
            Optional.empty(),
            Optional.of("list of the vicar Orme"));
    assertThat(files.confirm(file, basis, ADA)).isEqualTo(new FileWork.Confirmed(2, 0));
    assertThat(files.confirm(file, basis, ADA)).isEqualTo(new FileWork.Confirmed(0, 2));
    Reading back = readings.current(photographs.faceOf("40", "back", "Ada Penrose").id()).get();
    assertThat(Leiden.print(back.inscription())).isEqualTo("[sacred to] mem|ory of [Jane?]");
    assertThat(back.basis()).isEqualTo(basis);
    Reading front = readings.current(photographs.faceOf("41", "front", "Ada Penrose").id()).get();
    assertThat(front.inscription().lines()).hasSize(3);
  }

  @Test
  void aProposalThatAFileCountsIsKeptInTheLedger() throws Exception {
    Proposal proposal = GivenProposal.of(archive, face, "ELI");
    ReadingFile.Entry entry =
        new ReadingFile.Entry("12", "front", Leiden.parse("ELI"), Optional.of(proposal.id()));
    ReadingFile file = new ReadingFile(List.of(entry));
    files.confirm(file, Basis.FROM_PHOTOGRAPHS, ADA);
    ProposalStore proposals = new ProposalStore(archive);
    assertThat(proposals.kept(proposal.id())).contains(proposal);
    // A newer one may come: what was used is still known, and may be used again.
    GivenProposal.of(archive, face, "EL(I60J40)");
    assertThat(files.confirm(file, Basis.FROM_PHOTOGRAPHS, COL).signed()).isEqualTo(1);
    archive.journal().rebuild();
    assertThat(proposals.kept(proposal.id())).contains(proposal);
  }

  @Test
  void aProposalOfAnotherFaceIsRefusedAndNothingIsSigned() throws Exception {
    FaceId other = photographs.faceOf("13", "front", "Ada Penrose").id();
    Proposal proposal = GivenProposal.of(archive, other, "ELI");
    ReadingFile.Entry right =
        new ReadingFile.Entry("13", "front", Leiden.parse("ELI"), Optional.of(proposal.id()));
    ReadingFile.Entry wrong =
        new ReadingFile.Entry("12", "front", Leiden.parse("ELI"), Optional.of(proposal.id()));
    assertThatThrownBy(
            () ->
                files.confirm(new ReadingFile(List.of(right, wrong)), Basis.FROM_PHOTOGRAPHS, ADA))
        .isInstanceOf(RefusedException.class)
        .hasMessageStartingWith("Marker 12, front: proposal " + proposal.id());
    assertThat(readings.all()).isEmpty();
    assertThat(new ProposalStore(archive).kept(proposal.id())).isEmpty();
  }
}
