package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;
import rakelight.photo.Copies;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Heic;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;

class ShotsReadOnceTest {
  @TempDir Path folder;

  @Test
  void aCopyIsntReadBesideItsOriginalOnTheSameFace() throws Exception {
    Path face = Files.createDirectories(folder.resolve("shots/17"));
    byte[] grey = new byte[64 * 64];
    Files.write(face.resolve("a.heic"), new Heic(64, 64, grey, 128, 128).file());
    Files.write(face.resolve("a.png"), Picture.png(new GrayImage(64, 64, grey)));
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive =
        Archive.init(
            folder.resolve("archive"),
            ground,
            List.of(MarkerStore.projection(), PhotoStore.projection()))) {
      List<Path> folders = List.of(folder.resolve("shots"));
      new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(folders, Set.of());
      new Grouping(archive, "Ada", line -> {}).byFolders(folders);
      PhotoStore store = new PhotoStore(archive);
      List<Photograph> both = store.photographs();
      assertThat(Proposer.readable(store)).hasSize(2);

      store.tieCopies(List.of(new Copies.Pair(both.get(1), both.get(0))), "Ada");

      assertThat(Proposer.readable(store))
          .extracting(shown -> shown.photograph().originalName())
          .containsExactly("a.heic");
    }
  }
}
