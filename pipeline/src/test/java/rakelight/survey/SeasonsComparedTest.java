package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.ProposalStore;
import rakelight.reading.ReaderOnDemand;
import rakelight.reading.SmallArchive;

class SeasonsComparedTest {
  @TempDir Path folder;
  private SmallArchive small;
  private Archive archive;
  private Face face;

  /** M04's second light was taken a year after the first; HANNAH WREN, DIED 1848 are read on it. */
  @BeforeEach
  void twoSeasons() throws Exception {
    small =
        new SmallArchive(
            folder,
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection()));
    archive = small.archive();
    PhotoStore photos = new PhotoStore(archive);
    List<Photograph> shots =
        photos.photographs().stream().filter(shot -> shot.face().isPresent()).toList();
    archive
        .ledger()
        .write(
            handle ->
                handle.execute(
                    "UPDATE photograph SET taken_local = replace(taken_local, '2026-', '2027-')"
                        + " WHERE id = ?",
                    shots.get(1).id().toString()));
    face = photos.face(small.face()).orElseThrow();
    small.propose();
  }

  private void signedAtTheStone(int year, String text) throws Exception {
    new ReadingStore(archive)
        .sign(
            face.id(),
            Leiden.parse(text),
            new Basis(
                Basis.Kind.STONE,
                Optional.of(LocalDate.of(year, 6, 1)),
                Optional.empty(),
                Optional.empty()),
            Optional.empty(),
            "Ada");
  }

  private List<SeasonsCompared.Line> compared() throws Exception {
    try (ReaderOnDemand reader = new ReaderOnDemand(small::reader)) {
      return new SeasonsCompared(archive, reader).of(face).orElseThrow().lines();
    }
  }

  @Test
  void whatPeopleToldInBothSeasonsCountsBesideTheMachine() throws Exception {
    List<SeasonsCompared.Line> alone = compared();
    assertThat(alone).hasSize(2).allMatch(line -> line.people().isEmpty());
    assertThat(alone.get(0).machine().before()).isPositive();
    signedAtTheStone(2026, "HANNAH WREN\nDIED 1848");
    assertThat(compared()).allMatch(line -> line.people().isEmpty());
    signedAtTheStone(2027, "HANN++ [....]\nDIED 1848");
    List<SeasonsCompared.Line> both = compared();
    assertThat(both.get(0).people()).contains(new SeasonsCompared.Told(10, 4));
    assertThat(both.get(1).people()).contains(new SeasonsCompared.Told(8, 8));
    assertThat(both.get(0).change().change()).isLessThan(alone.get(0).change().change());
    assertThat(both.get(0).contrast()).isEqualTo(alone.get(0).contrast());
    assertThat(SeasonsCompared.known(archive).values())
        .singleElement()
        .satisfies(kept -> assertThat(kept.lines()).hasSize(2));
  }

  /** A reading that an earlier list gives is of no season here, nor is one read in another year. */
  @Test
  void readingsOfOtherYearsAreOfNeitherSeason() throws Exception {
    signedAtTheStone(2019, "HANNAH WREN\nDIED 1848");
    signedAtTheStone(2027, "HANN++ [....]\nDIED 1848");
    assertThat(compared()).allMatch(line -> line.people().isEmpty());
  }
}
