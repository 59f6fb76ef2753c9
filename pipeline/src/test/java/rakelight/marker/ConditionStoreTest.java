package rakelight.marker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Ground;
import rakelight.archive.MarkerId;
import rakelight.photo.PhotoStore;

class ConditionStoreTest {
  private static final LocalDate SPRING = LocalDate.parse("2025-04-30");
  private static final LocalDate AUTUMN = LocalDate.parse("2025-10-02");

  @TempDir Path folder;
  private Archive archive;
  private ConditionStore conditions;
  private MarkerId marker;

  @BeforeEach
  void open() {
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Fenn Lane", 54.1, -3.2, ZoneOffset.UTC),
            List.of(
                MarkerStore.projection(), PhotoStore.projection(), ConditionStore.projection()));
    conditions = new ConditionStore(archive);
    marker = new PhotoStore(archive).faceOf("12", "front", "Ada Fenn").marker();
  }

  @AfterEach
  void close() {
    archive.close();
  }

  private void note(LocalDate on, String remark, Condition... words) {
    conditions.note(marker, on, List.of(words), remark, "Ada Fenn");
  }

  @Test
  void notesAreAddedAndTheNewestObservationSaysHowItIs() {
    note(AUTUMN, "towards the path", Condition.SUGARING, Condition.LEANING);
    note(SPRING, "", Condition.SOUND, Condition.BIOLOGICAL_GROWTH);
    assertThat(conditions.ofMarker(marker))
        .extracting(ConditionNote::told)
        .containsExactly("leaning, sugaring (towards the path)", "sound, biological growth");
    ConditionNote newest = conditions.newest(marker).orElseThrow();
    assertThat(newest.unsafe()).isEqualTo("leaning");
    assertThat(newest.fading()).isEqualTo("sugaring");
    assertThat(conditions.newest()).containsOnlyKeys(marker);
    archive.journal().rebuild();
    assertThat(conditions.newest(marker)).contains(newest);
  }

  @Test
  void anUndoneNoteLeavesTheOneBefore() {
    note(SPRING, "", Condition.SOUND);
    note(AUTUMN, "", Condition.LOOSE);
    archive.journal().undo(conditions.newest(marker).orElseThrow().decision(), "Ada Fenn");
    assertThat(conditions.ofMarker(marker))
        .extracting(ConditionNote::told)
        .containsExactly("sound");
  }

  @Test
  void aMarkerThatLeansIsNotSoundAndANoteHasAWord() {
    assertThatThrownBy(() -> note(SPRING, "", Condition.SOUND, Condition.LEANING))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("leaning isn't sound");
    assertThatThrownBy(() -> note(SPRING, "mossy"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("in a word or more");
    assertThat(conditions.ofMarker(marker)).isEmpty();
  }
}
