package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.finding.FoundLine;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.reading.GivenProposal;
import rakelight.reading.SmallArchive;

/** A name where a line may be is no name for anything but the eyes of whoever reads the stone. */
class UnsureLineUncountedTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void propose() throws Exception {
    archive = folder.resolve("archive");
    try (SmallArchive small = new SmallArchive(folder, Projections.all())) {
      Photograph shot =
          new PhotoStore(small.archive())
              .photographs().stream()
                  .filter(photograph -> photograph.face().isPresent())
                  .findFirst()
                  .orElseThrow();
      GivenProposal.of(
          small.archive(),
          small.face(),
          shot.source(),
          shot.id(),
          Polygon.rectangle(0, 0, 700, 900),
          List.of(line(100), line(200), line(300)),
          List.of("HANNAH WREN", "?90 ELLEN MARSDEN", "DIED 1848"));
    }
  }

  private static FoundLine line(double top) {
    return new FoundLine(Polygon.rectangle(100, top, 600, top + 40), 40, .9);
  }

  private String out(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.err()).as(List.of(words).toString()).doesNotContain("Exception");
    return ran.out();
  }

  @Test
  void searchFindsNoStoneByIt() {
    // Of a stone that nobody has read, what a machine reads there says how likely it answers.
    String likely = "(?s).*\"marker\":\"M04\",\"probability\":0\\.[1-9].*";
    assertThat(out("search", archive, "hannah wren", "--json")).matches(likely);
    assertThat(out("search", archive, "ellen marsden", "--json")).doesNotMatch(likely);
  }

  @Test
  void neitherStatementsNorPersonsNorDoubtsNorDatesKnowIt() {
    for (String command : List.of("statements", "persons", "dates", "links", "questions")) {
      assertThat(out(command, archive, "--json")).as(command).doesNotContain("MARSDEN", "ELLEN");
    }
    assertThat(out("proposals", archive, "--doubts", "50")).doesNotContain("MARSDEN");
    assertThat(out("proposals", archive)).contains("a line may be here (0.90, nine in ten): ELLEN");
  }
}
