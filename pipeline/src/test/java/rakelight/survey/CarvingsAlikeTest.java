package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Ground;
import rakelight.archive.UndoRefusedException;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.Manifest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.ProposalStore;
import rakelight.samples.CarvingSet;
import rakelight.samples.Weathering;

/** Two carvings, each on two markers in another light. */
class CarvingsAlikeTest {
  @TempDir static Path shots;
  @TempDir Path scratch;
  private Archive archive;
  private final List<EmblemNote> notes = new ArrayList<>();

  @BeforeAll
  static void carved() throws Exception {
    new CarvingSet(2, 5, 240, List.of(Weathering.FRESH), 2, "own").writeTo(shots);
    Files.writeString(
        shots.resolve("which.csv"),
        "file,marker\nC001-1.jpg,90\nC001-2.jpg,91\nC002-1.jpg,92\nC002-2.jpg,93\n");
  }

  @BeforeEach
  void outlined() throws Exception {
    archive =
        Archive.init(
            scratch.resolve("archive"),
            new Ground("Tarrow", 44, -50, ZoneId.of("America/Halifax")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                EmblemStore.projection(),
                AlikeStore.projection()));
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
    new Grouping(archive, "Ada", said -> {}).byManifest(Manifest.read(shots.resolve("which.csv")));
    EmblemStore emblems = new EmblemStore(archive);
    for (String row : Files.readAllLines(shots.resolve("carvings.tsv")).subList(1, 5)) {
      String[] cells = row.split("\t");
      Photograph shot =
          new PhotoStore(archive)
              .photographs().stream()
                  .filter(one -> one.originalName().equals(cells[0]))
                  .findFirst()
                  .orElseThrow();
      Marker marker = new MarkerStore(archive).named(90 + notes.size() + "");
      emblems.note(
          marker.id(),
          "front",
          cells[2],
          Optional.of(
              new EmblemNote.Outline(
                  shot.id(), Stream.of(cells[7].split("[ ,]")).map(Double::parseDouble).toList())),
          Map.of(),
          "",
          "Ada");
      notes.add(emblems.all().get(notes.size()));
    }
  }

  @AfterEach
  void close() {
    archive.close();
  }

  @Test
  void theSameCarvingInAnotherLightComesFirstAndIsKept() throws Exception {
    CarvingsAlike alike = new CarvingsAlike(archive);
    CarvingsAlike.Carving asked = alike.of(notes.get(0)).orElseThrow();
    List<CarvingsAlike.Like> likes = alike.of(asked, 12);
    assertThat(likes).hasSize(3);
    CarvingsAlike.Like first = likes.get(0);
    assertThat(first.carving().note()).contains(notes.get(1));
    assertThat(first.match().likeness()).isGreaterThan(2 * likes.get(1).match().likeness());
    assertThat(first.match().places()).hasSizeGreaterThan(5);
    assertThat(first.match().places())
        .allSatisfy(place -> assertThat(place.here().distance(place.there())).isLessThan(0.1));
    assertThat(alike.beside(asked, first)).hasSizeGreaterThan(1000);
    assertThat(alike.of(asked, 1)).containsExactly(first);
  }

  @Test
  void whatPeopleSayOfTwoIsKeptAndTakenBack() {
    AlikeStore store = new AlikeStore(archive);
    store.say(notes.get(1), notes.get(0), SaidOfCarvings.SAME_HAND, "Ada");
    SaidOfTwo<DecisionId, SaidOfCarvings> said =
        store.newest(notes.get(0).decision(), notes.get(1).decision()).orElseThrow();
    assertThat(said.said()).isEqualTo(SaidOfCarvings.SAME_HAND);
    assertThatThrownBy(() -> archive.journal().undo(notes.get(0).decision(), "Ada"))
        .isInstanceOf(UndoRefusedException.class);
    archive.journal().undo(said.decision(), "Ada");
    assertThat(store.all()).isEmpty();
    assertThatThrownBy(() -> store.say(notes.get(0), notes.get(0), SaidOfCarvings.NOT, "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("name two");
  }
}
