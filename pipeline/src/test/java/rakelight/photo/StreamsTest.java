package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.archive.Uuid7;
import rakelight.marker.MarkerStore;

/** Photographs as they were taken, which wait and which don't. */
class StreamsTest {
  private static final ZoneId ZONE = ZoneId.of("Europe/London");

  @TempDir Path folder;
  private Path shots;
  private Archive archive;
  private PhotoStore store;

  @BeforeEach
  void makeAnArchive() throws IOException {
    shots = Files.createDirectories(folder.resolve("shots"));
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Fennick Lane", 54.5, -3.25, ZONE),
            List.of(MarkerStore.projection(), PhotoStore.projection()));
    store = new PhotoStore(archive);
  }

  @AfterEach
  void closeIt() {
    archive.close();
  }

  @Test
  void aStreamIsOneCameraOnOneDayPartedByCardsFacesAndPauses() throws IOException {
    for (String[] shot :
        new String[][] {
          {"a1", "01 10:00:00", "A"}, {"a2", "01 10:01:00", "A"}, {"a3", "01 10:01:20", "A"},
          {"a4", "01 10:01:40", "A"}, {"a5", "01 10:05:00", "A"}, {"a6", "02 09:00:00", "A"},
          {"b1", "01 10:00:30", "B"}
        }) {
      shot(shot[0], shot[1], shot[2]);
    }
    Files.write(shots.resolve("n1.jpg"), Shots.jpeg(1));
    ingest();
    store.showsCard(photograph("a1").id(), new CardLabel("17", "front"), "Ada");
    FaceId face = store.faceOf("17", "front", "Ada").id();
    store.assign(photograph("a2").id(), face, Optional.empty(), "card", "Ada");

    assertThat(Streams.of(store.photographs(), ZONE))
        .extracting(
            stream ->
                stream.camera().serial().orElse("-")
                    + stream.day().map(day -> " " + day.getDayOfMonth()).orElse("")
                    + ": "
                    + stream.runs().stream().map(run -> names(run.shots())).toList())
        .containsExactly("A 1: [a1, a2, a3 a4, a5]", "B 1: [b1]", "A 2: [a6]", "-: [n1]");
    Streams.Run waiting = Streams.of(store.photographs(), ZONE).get(0).runs().get(2);
    assertThat(names(waiting.from(photograph("a4")))).isEqualTo("a4");
    assertThat(waiting.from(photograph("a5"))).isEmpty();
  }

  @Test
  void whatIsSetAsideWaitsForNothingUntilThatIsTakenBack() throws IOException {
    shot("a1", "01 10:00:00", "A");
    shot("a2", "01 10:00:10", "A");
    ingest();
    store.showsCard(photograph("a1").id(), new CardLabel("17", "front"), "Ada");

    store.setAside(List.of(photograph("a2").id()), SetAside.NO_STONE, "Ada");

    assertThat(photograph("a2").setAside()).contains(SetAside.NO_STONE);
    assertThat(photograph("a2").isWaiting()).isFalse();
    assertThat(ProposedGroups.of(store.photographs(), ZONE)).isEmpty();
    Grouping cards = new Grouping(archive, "Ada", line -> {});
    assertThat(cards.byCards().assigned()).isZero();

    List<Decision> about = archive.journal().bySubject(photograph("a2").id().value());
    archive.journal().undo(about.get(about.size() - 1).id(), "Ada");
    assertThat(photograph("a2").isWaiting()).isTrue();
    assertThat(cards.byCards().assigned()).isEqualTo(1);
  }

  @Test
  void aPhotographSetAsideComesBackByBeingPlaced() throws IOException {
    shot("a1", "01 10:00:00", "A");
    ingest();
    store.setAside(List.of(photograph("a1").id()), SetAside.UNFIT, "Ada");

    FaceId face = store.faceOf("17", "front", "Ada").id();
    store.assignTogether(Map.of(photograph("a1").id(), face), Map.of(), Uuid7.next(), "Ada");
    assertThat(photograph("a1").setAside()).isEmpty();

    store.takeOff(List.of(photograph("a1").id()), "Ada");
    assertThat(photograph("a1").isWaiting()).isTrue();
  }

  @Test
  void aPhotographWithoutATimeIsAGroupOfItsOwn() throws IOException {
    shot("a1", "01 10:00:00", "A");
    Files.write(shots.resolve("n1.jpg"), Shots.jpeg(1));
    ingest();

    assertThat(ProposedGroups.of(store.photographs(), ZONE))
        .extracting(StreamsTest::names)
        .containsExactly("a1", "n1");
  }

  @Test
  void aFaceIsNearInTimeOnceTheClockIsRight() throws IOException {
    shot("a1", "01 10:00:00", "A");
    shot("a2", "01 10:02:00", "A");
    shot("b1", "01 09:00:20", "B");
    ingest();
    FaceId first = store.faceOf("17", "front", "Ada").id();
    FaceId second = store.faceOf("18", "front", "Ada").id();
    store.assign(photograph("a1").id(), first, Optional.empty(), "person", "Ada");
    store.assign(photograph("a2").id(), second, Optional.empty(), "person", "Ada");
    assertThat(new NearInTime(store.photographs(), ZONE).to(photograph("b1"))).isEmpty();

    store.correctClock(
        new ClockCorrection(
            photograph("b1").takenBy(), Optional.empty(), Optional.empty(), 3600, Optional.empty()),
        "Ada");

    NearInTime near = new NearInTime(store.photographs(), ZONE);
    assertThat(near.to(photograph("b1")).keySet()).containsExactly(first, second);
    assertThat(near.secondsApart(photograph("b1"), photograph("a1"))).isEqualTo(20);
  }

  private static String names(List<Photograph> shots) {
    return String.join(
        " ", shots.stream().map(shot -> shot.originalName().replace(".jpg", "")).toList());
  }

  private void shot(String name, String time, String serial) throws IOException {
    Files.write(
        shots.resolve(name + ".jpg"), Shots.taken("2024:05:" + time, serial, name.hashCode()));
  }

  private void ingest() {
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
  }

  private Photograph photograph(String name) {
    return store.photographs().stream()
        .filter(photograph -> photograph.originalName().equals(name + ".jpg"))
        .findFirst()
        .orElseThrow();
  }
}
