package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Ground;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.archive.UndoRefusedException;
import rakelight.marker.MarkerStore;

class PhotoStoreTest {
  @TempDir Path folder;
  private Archive archive;
  private PhotoStore store;

  @BeforeEach
  void makeAnArchive() {
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    archive =
        Archive.init(
            folder.resolve("a"),
            ground,
            List.of(MarkerStore.projection(), PhotoStore.projection()));
    store = new PhotoStore(archive);
  }

  @AfterEach
  void theStateIsWhatAReplayGives() {
    List<Photograph> photographs = store.photographs();
    List<Face> faces = store.faces();

    archive.journal().rebuild();

    assertThat(store.photographs()).isEqualTo(photographs);
    assertThat(store.faces()).isEqualTo(faces);
    archive.close();
  }

  @Test
  void aPhotographComesBackAsItWasWritten() {
    PhotographId id = photograph("north/IMG_1.jpg");

    Photograph photograph = store.photograph(id).orElseThrow();

    assertThat(photograph.originalName()).isEqualTo("IMG_1.jpg");
    assertThat(photograph.taken())
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2024-05-01T10:20:30.125"),
                Optional.of(ZoneOffset.ofHours(1)),
                "Exif DateTimeOriginal"));
    assertThat(photograph.position())
        .contains(new Position(54.5, -3.25, Optional.of(4.5), Optional.empty()));
    assertThat(photograph.direction()).contains(new Direction(90, Optional.of("true")));
    assertThat(photograph.preview()).contains(new Preview(100, 2000));
    assertThat(photograph.face()).isEmpty();
    assertThat(store.photograph(photograph.sha256())).contains(photograph);
  }

  @Test
  void aPhotographMovesToAnotherFaceByADecisionAndBackByUndo() {
    PhotographId id = photograph("IMG_1.jpg");
    Face front = store.faceOf("17", "front", "Ada");
    Face back = store.faceOf("17", "back", "Ada");
    Light west = new Light(270, Optional.of(12.0));
    store.assign(id, front.id(), Optional.of(west), "manifest", "Ada");
    store.assign(id, back.id(), Optional.empty(), "person", "Ben");
    assertThat(store.ofFace(front.id())).isEmpty();
    assertThat(store.ofFace(back.id())).extracting(Photograph::light).contains(Optional.of(west));

    List<Decision> decided = archive.journal().standing(id.value());
    archive.journal().undo(decided.get(decided.size() - 1).id(), "Ben");

    assertThat(store.ofFace(front.id())).extracting(Photograph::id).containsExactly(id);
  }

  @Test
  void aMarkerStaysWhileAFaceRestsOnIt() {
    Face front = store.faceOf("17", "front", "Ada");
    Decision made = archive.journal().standing(front.marker().value()).get(0);

    assertThatThrownBy(() -> archive.journal().undo(made.id(), "Ada"))
        .isInstanceOf(UndoRefusedException.class)
        .hasMessageContaining("face.created");
  }

  @Test
  void creditsCanBeChangedOneByOne() {
    PhotographId id = photograph("IMG_1.jpg");
    store.credit(id, Optional.of("Ida Marsh"), Optional.empty(), Optional.of("CC BY 4.0"), "Ada");
    store.credit(id, Optional.empty(), Optional.of("Marsh collection"), Optional.empty(), "Ada");

    Photograph photograph = store.photograph(id).orElseThrow();
    assertThat(photograph.photographer()).contains("Ida Marsh");
    assertThat(photograph.credit()).contains("Marsh collection");
    assertThat(photograph.rights()).contains("CC BY 4.0");
  }

  private PhotographId photograph(String path) {
    PhotographId id = PhotographId.next();
    archive
        .journal()
        .append(
            NewDecision.of(
                "Ada",
                PhotoDecisions.INGESTED,
                1,
                id.value(),
                new PhotoDecisions.Ingested(
                    Sha256.of(path),
                    String.valueOf(Path.of(path).getFileName()),
                    path,
                    Optional.empty(),
                    12_345,
                    FileFormat.DNG,
                    PictureKind.EMBEDDED_PREVIEW,
                    Optional.of(new Preview(100, 2000)),
                    4000,
                    3000,
                    6,
                    Optional.of(
                        new CaptureTime(
                            LocalDateTime.parse("2024-05-01T10:20:30.125"),
                            Optional.of(ZoneOffset.ofHours(1)),
                            "Exif DateTimeOriginal")),
                    Optional.of(new Position(54.5, -3.25, Optional.of(4.5), Optional.empty())),
                    Optional.of(new Direction(90, Optional.of("true"))),
                    Optional.of("Wren 7"),
                    Optional.of("W7-0042"),
                    Optional.empty(),
                    Optional.of(4.25),
                    Optional.of(26.0),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Json.tree(Map.of("Exif IFD0", Map.of("Make", "Wren"))),
                    List.of(),
                    Optional.empty(),
                    Optional.empty())));
    return id;
  }
}
