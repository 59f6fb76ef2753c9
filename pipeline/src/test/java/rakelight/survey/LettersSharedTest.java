package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.reading.ProposalStore;

/** Letters read on two stones of one pattern, which differ in name and number. */
class LettersSharedTest {
  @TempDir Path folder;

  @Test
  void theNameSaysMoreThanWhatStandsOnEveryStone() throws IOException {
    try (Archive archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(), PhotoStore.projection(), ProposalStore.projection()))) {
      StoneLikeness likeness = new StoneLikeness(archive);
      FaceId wren = read(archive, "1", "J. WREN", "CO. D", "4 SKER. INF.");
      FaceId marsh = read(archive, "2", "T. MARSH", "CO. D", "4 SKER. INF.");
      FaceId again = read(archive, "3", "J. WREN", "CO. B", "4 SKER. INF.");
      FaceId unread = new PhotoStore(archive).faceOf("4", "front", "Ada").id();
      LettersShared letters = new LettersShared();
      for (FaceId face : List.of(wren, marsh, unread)) {
        letters.add(face, likeness.letters(face));
      }

      Set<String> asked = likeness.letters(again);

      assertThat(letters.with(wren, asked).orElseThrow())
          .isGreaterThan(0.6)
          .isGreaterThan(1.5 * letters.with(marsh, asked).orElseThrow());
      assertThat(letters.with(unread, asked)).isEmpty();
      assertThat(letters.with(wren, Set.of())).isEmpty();
      assertThat(letters.with(wren, likeness.letters(wren)).orElseThrow()).isBetween(0.99, 1.001);
    }
  }

  private static FaceId read(Archive archive, String marker, String... lines) throws IOException {
    FaceId face = new PhotoStore(archive).faceOf(marker, "front", "Ada").id();
    GivenProposal.of(archive, face, lines);
    return face;
  }
}
