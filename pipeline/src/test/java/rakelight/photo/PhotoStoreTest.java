package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

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
import rakelight.archive.ArchiveException;
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
    List<PhotoPart> parts = store.parts();

    archive.journal().rebuild();

    assertThat(store.photographs()).isEqualTo(photographs);
    assertThat(store.faces()).isEqualTo(faces);
    assertThat(store.parts()).isEqualTo(parts);
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
  void aPhotographOfSeveralStonesStaysOnItsFaceAndIsOfTheOthersToo() {
    Photograph row = store.photograph(photograph("row.jpg")).orElseThrow();
    Face own = store.faceOf("17", "front", "Ada");
    Face other = store.faceOf("18", "front", "Ada");
    store.assign(row.id(), own.id(), Optional.empty(), "person", "Ada");

    store.alsoShows(photographOf(row), other.id(), new Frame(900, 100, 400, 600), "Ada");

    assertThat(store.ofFace(own.id())).extracting(Photograph::id).containsExactly(row.id());
    assertThat(store.ofFace(other.id())).extracting(Photograph::id).containsExactly(row.id());
    assertThat(store.onFace(other.id())).isEmpty();
    assertThat(store.facesOn(photographOf(row))).containsExactly(own.id(), other.id());
    assertThat(store.showings())
        .extracting(Showing::face, Showing::frame)
        .containsExactly(
            tuple(Optional.of(own.id()), Optional.empty()),
            tuple(Optional.of(other.id()), Optional.of(new Frame(900, 100, 400, 600))));
  }

  @Test
  void whatIsSaidOfAStoneAgainTakesThePlaceOfWhatWasSaidBefore() {
    Photograph row = store.photograph(photograph("row.jpg")).orElseThrow();
    Face wrong = store.faceOf("18", "front", "Ada");
    Face right = store.faceOf("19", "front", "Ada");
    store.alsoShows(row, wrong.id(), new Frame(900, 100, 400, 600), "Ada");
    assertThat(photographOf(row).isWaiting()).isFalse();

    store.alsoShows(row, right.id(), new Frame(905, 95, 400, 600), "Ben");
    assertThat(store.parts(row.id()))
        .extracting(PhotoPart::face)
        .containsExactly(Optional.of(right.id()));
    store.passOver(row, new Frame(100, 100, 300, 500), "Ben");
    assertThat(store.parts(row.id())).hasSize(2);
    store.passOver(row, new Frame(900, 100, 400, 600), "Ben");
    assertThat(store.parts(row.id())).extracting(PhotoPart::face).allMatch(Optional::isEmpty);
    assertThat(photographOf(row).isWaiting()).as("nobody knows what it is of").isTrue();

    List<Decision> decided = archive.journal().standing(row.id().value());
    archive.journal().undo(decided.get(decided.size() - 1).id(), "Ben");
    assertThat(store.facesOn(photographOf(row))).containsExactly(right.id());
  }

  @Test
  void aPhotographIsOnAFaceAsAWholeOrInPartNeverBoth() {
    Photograph row = store.photograph(photograph("row.jpg")).orElseThrow();
    Face front = store.faceOf("17", "front", "Ada");
    Frame frame = new Frame(0, 0, 400, 600);
    store.alsoShows(row, front.id(), frame, "Ada");
    store.assign(row.id(), front.id(), Optional.empty(), "person", "Ada");

    assertThat(store.facesOn(photographOf(row))).containsExactly(front.id());
    assertThatThrownBy(() -> store.alsoShows(photographOf(row), front.id(), frame, "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("row.jpg")
        .hasMessageContaining("assign --off");
  }

  private Photograph photographOf(Photograph earlier) {
    return store.photograph(earlier.id()).orElseThrow();
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
