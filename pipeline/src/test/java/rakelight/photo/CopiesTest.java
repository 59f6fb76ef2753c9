package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;

/**
 * Pictures made of originals that can't be read here; raw files without a preview stand for all.
 */
class CopiesTest {
  @TempDir Path folder;
  private Path shots;
  private Archive archive;
  private PhotoStore store;

  @BeforeEach
  void open() throws IOException {
    shots = Files.createDirectories(folder.resolve("shots"));
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    archive =
        Archive.init(
            folder.resolve("archive"),
            ground,
            List.of(MarkerStore.projection(), PhotoStore.projection()));
    store = new PhotoStore(archive);
  }

  @AfterEach
  void close() {
    archive.close();
  }

  private void original(String name, String time) throws IOException {
    OddShots.unreadable(shots.resolve(name), time);
  }

  private void copy(String name, String model, String time) throws IOException {
    OddShots.copy(shots.resolve(name), model, time);
  }

  private List<String> proposed() {
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
    return Copies.proposed(store.photographs()).stream()
        .map(pair -> pair.copy().originalName() + " of " + pair.original().originalName())
        .toList();
  }

  @Test
  void aCopyIsKnownByMomentCameraAndShape() throws IOException {
    original("1.dng", "10:00:00");
    original("2.dng", "10:00:05");
    copy("1.jpg", "Seven", "10:00:00");
    copy("2.jpg", "Eight", "10:00:05");
    assertThat(proposed()).containsExactly("1.jpg of 1.dng");

    store.tieCopies(Copies.proposed(store.photographs()), "Ada");
    assertThat(proposed()).isEmpty();
    Photograph original =
        store.photographs().stream()
            .filter(p -> p.originalName().equals("1.dng"))
            .findFirst()
            .orElseThrow();
    assertThat(store.photographs())
        .filteredOn(p -> p.originalName().equals("1.jpg"))
        .extracting(Photograph::copyOf)
        .containsExactly(java.util.Optional.of(original.id()));
  }

  @Test
  void twoShotsOfOneSecondAreToldApartByNobody() throws IOException {
    original("1.dng", "10:00:00");
    original("2.dng", "10:00:00");
    copy("1.jpg", "Seven", "10:00:00");
    assertThat(proposed()).isEmpty();
  }
}
