package rakelight.marker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
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
                MarkerStore.projection(),
                PhotoStore.projection(),
                ConditionStore.projection(),
                DescriptionStore.projection()));
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

  @Test
  void aNoteSaysWhichPartWhereOnTheFaceAndSinceWhen() {
    ConditionNote.Where where =
        new ConditionNote.Where(
            List.of("Shaft"), List.of(ConditionNote.Area.TOP_LEFT), Optional.of("2024-05"));
    conditions.note(marker, AUTUMN, List.of(Condition.VANDALISED), where, "", "Ada Fenn");
    assertThat(conditions.newest(marker).orElseThrow().told())
        .isEqualTo("vandalised: shaft; top left; happened 2024-05");
    archive.journal().rebuild();
    assertThat(conditions.newest(marker).orElseThrow().where().parts()).containsExactly("shaft");
    for (ConditionNote.Where wrong :
        List.of(
            new ConditionNote.Where(List.of("roof"), List.of(), Optional.empty()),
            new ConditionNote.Where(List.of(), List.of(), Optional.of("2999")),
            new ConditionNote.Where(List.of(), List.of(), Optional.of("lately")))) {
      assertThatThrownBy(
              () ->
                  conditions.note(
                      marker, AUTUMN, List.of(Condition.CRACKED), wrong, "", "Ada Fenn"))
          .isInstanceOf(ArchiveException.class);
    }
  }

  @Test
  void notesOfOneDayAreOneLookAndTheWorseIsKept() {
    note(AUTUMN, "", Condition.LEANING);
    note(AUTUMN, "the front", Condition.SOUND);
    ConditionNote look = conditions.newest(marker).orElseThrow();
    assertThat(look.unsafe()).isEqualTo("leaning");
    assertThat(look.told()).isEqualTo("leaning (the front)");
    assertThat(conditions.ofMarker(marker)).hasSize(2);
  }

  /** A crack may let a stone fall and lets water in; a crust only lies on it. */
  @Test
  void aCrackMayBeUnsafeAndACrustIsNot() {
    note(AUTUMN, "", Condition.CRACKED);
    assertThat(conditions.newest(marker).orElseThrow().unsafe()).isEqualTo("cracked");
    assertThat(conditions.newest(marker).orElseThrow().fading()).isEqualTo("cracked");
    assertThat(Condition.CRUST.concerns()).isEmpty();
    assertThat(Condition.CRUST.meaning()).doesNotContain("hard");
    assertThat(Condition.ENCRUSTATION.meaning()).contains("hard");
  }
}
