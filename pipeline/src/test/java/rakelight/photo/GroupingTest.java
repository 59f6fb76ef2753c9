package rakelight.photo;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Ground;
import rakelight.archive.Uuid7;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

class GroupingTest {
  @TempDir Path folder;
  private final List<String> lines = new ArrayList<>();
  private Path shots;
  private Archive archive;
  private PhotoStore store;

  @BeforeEach
  void makeAnArchive() throws IOException {
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
  void closeIt() {
    archive.close();
  }

  @Test
  void aManifestPutsPhotographsOnFacesWithTheirLight() throws IOException {
    shot("a.jpg", "10:00:00");
    shot("deep/b.jpg", "10:00:10");
    ingest();
    Path table =
        table(
            "\uFEFFfile,marker,face,bearing,light_azimuth,light_elevation,photographer,taken\r\n"
                + "a.jpg,17,W,270.0,347.8,10.2,Ida Marsh,2024-05-01T09:00:00+02:00\r\n"
                + "b.jpg,17,,,,,,\r\n");

    Grouping.Result result = grouping().byManifest(Manifest.read(table));

    assertThat(result).isEqualTo(new Grouping.Result(2, 0, 0));
    Photograph a = photograph("a.jpg");
    Face west = store.face(a.face().orElseThrow()).orElseThrow();
    assertThat(west.name()).isEqualTo("W");
    assertThat(west.bearingDegrees()).contains(270.0);
    assertThat(new MarkerStore(archive).marker(west.marker())).map(Marker::number).contains("17");
    assertThat(a.light()).contains(new Light(347.8, Optional.of(10.2)));
    assertThat(a.photographer()).contains("Ida Marsh");
    assertThat(a.taken()).map(CaptureTime::source).contains("manifest");
    assertThat(faceOf("b.jpg")).isEqualTo("17 front");

    long before = archive.journal().lastCounter();
    assertThat(grouping().byManifest(Manifest.read(table)).assigned()).isZero();
    assertThat(archive.journal().lastCounter()).isEqualTo(before);
  }

  @Test
  void whatAManifestNamesAndNobodyHasSeenIsReported() throws IOException {
    shot("a.jpg", "10:00:00");
    shot("x/same.jpg", "10:01:00");
    shot("y/same.jpg", "10:02:00");
    ingest();
    Path table = table("file,marker\nz.jpg,1\nsame.jpg,2\nx/same.jpg,3\n");

    assertThat(grouping().byManifest(Manifest.read(table))).isEqualTo(new Grouping.Result(1, 0, 2));
    assertThat(lines)
        .containsExactly(
            table + ":2: z.jpg isn't among the photographs. Check the name.",
            table
                + ":3: 2 photographs are named same.jpg. Give the path as seen from the manifest's"
                + " folder.");
  }

  @Test
  void aTableWhoseCellsArePartedBySemicolonsOrTabsIsRead() throws IOException {
    for (String parted : List.of("file;marker\na.jpg;17\n", "file\tmarker\na.jpg\t17\n")) {
      assertThat(Manifest.read(table(parted)).rows())
          .extracting(row -> row.file() + " " + row.marker().orElseThrow())
          .containsExactly("a.jpg 17");
    }
  }

  @Test
  void aTimeThatTheClocksLeftOutOrShowedTwiceIsSaidToBeOne() {
    ZoneId london = ZoneId.of("Europe/London");

    assertThat(taken("2024-03-31T01:30:00").inWords(london))
        .isEqualTo("2024-03-31T01:30:00 (a time that was left out in Europe/London)");
    assertThat(taken("2024-10-27T01:30:00").inWords(london))
        .isEqualTo("2024-10-27T01:30:00 (a time that was twice in Europe/London)");
    assertThat(taken("2024-07-01T10:00:00").inWords(london)).isEqualTo("2024-07-01T10:00:00+01:00");
  }

  private static CaptureTime taken(String local) {
    return new CaptureTime(LocalDateTime.parse(local), Optional.empty(), "manifest");
  }

  @Test
  void everyFaultOfAManifestIsNamedByItsLine() throws IOException {
    Path table =
        table(
            "file,marker,bearing,light_azimuth,light_elevation,taken\n"
                + "a.jpg,1,400,,,\n"
                + ",2,,,,\n"
                + "b.jpg,3,,north,,\n"
                + "c.jpg,4,,,12,\n"
                + "c.jpg,5,,,,yesterday\n");

    assertThatThrownBy(() -> Manifest.read(table))
        .isInstanceOf(ArchiveException.class)
        .hasMessage(
            String.join(
                "\n",
                table + ":2: bearing must be degrees from 0 to 360: 400",
                table + ":3: no file named.",
                table + ":4: light_azimuth must be degrees from 0 to 360: north",
                table + ":5: a light_elevation without a light_azimuth.",
                table + ":6: taken must be a time such as 2024-05-01T10:20:30+01:00: yesterday",
                table + ":6: a second line for c.jpg."));
    assertThatThrownBy(() -> Manifest.read(table("datei,marker\n")))
        .hasMessageContaining("no column \"file\"");
  }

  @Test
  void aPersonsDecisionStandsAgainstALaterManifest() throws IOException {
    shot("a.jpg", "10:00:00");
    ingest();
    Face back = store.faceOf("17", "back", "Ada");
    store.assign(photograph("a.jpg").id(), back.id(), Optional.empty(), "person", "Ada");

    grouping().byManifest(Manifest.read(table("file,marker,face\na.jpg,18,front\n")));

    assertThat(faceOf("a.jpg")).isEqualTo("17 back");
    assertThat(lines).hasSize(1).allMatch(line -> line.contains("stays there"));
  }

  @Test
  void aCardNamesTheShotsThatFollowItUntilTheNextOfTheSameCamera() throws IOException {
    shot("1.jpg", "10:00:00");
    shot("2-card.jpg", "10:01:00");
    shot("3.jpg", "10:01:20");
    shot("4.jpg", "10:02:00");
    shot("5-card.jpg", "10:03:00");
    shot("6.jpg", "10:03:30");
    ingest();
    store.showsCard(photograph("2-card.jpg").id(), new CardLabel("17", "front"), "Ada");
    store.showsCard(photograph("5-card.jpg").id(), new CardLabel("17", "back"), "Ada");

    assertThat(grouping().byCards().assigned()).isEqualTo(3);

    assertThat(photograph("1.jpg").face()).isEmpty();
    assertThat(photograph("2-card.jpg").face()).isEmpty();
    assertThat(faceOf("3.jpg")).isEqualTo("17 front");
    assertThat(faceOf("4.jpg")).isEqualTo("17 front");
    assertThat(faceOf("6.jpg")).isEqualTo("17 back");
  }

  @Test
  void twoTelephonesOfOneModelAreToldApartByTheirSerialNumbers() throws IOException {
    shot("a/1.jpg", "10:00:00", "W7-1");
    shot("b/1.jpg", "10:00:10", "W7-2");
    shot("a/2.jpg", "10:00:20", "W7-1");
    shot("b/2.jpg", "10:00:30", "W7-2");
    ingest();
    store.showsCard(byPath("b/1.jpg").id(), new CardLabel("18", "front"), "Ada");

    assertThat(grouping().byCards().assigned()).isEqualTo(1);
    assertThat(byPath("b/2.jpg").face()).isPresent();
    assertThat(byPath("a/2.jpg").face()).as("the other telephone's").isEmpty();
  }

  @Test
  void aClockThatWasAnHourSlowIsPutRightForItsCameraAndItsDaysAlone() throws IOException {
    shot("a/1.jpg", "09:00:00", "W7-1");
    shot("b/1.jpg", "10:00:10", "W7-2");
    ingest();
    LocalDate day = LocalDate.of(2024, 5, 1);
    ClockCorrection hour =
        new ClockCorrection(
            byPath("a/1.jpg").takenBy(),
            Optional.of(day),
            Optional.of(day),
            3600,
            Optional.empty());

    assertThat(store.goesFor(hour)).containsExactly(byPath("a/1.jpg"));
    store.correctClock(hour, "Ada");

    CaptureTime right = byPath("a/1.jpg").taken().orElseThrow();
    assertThat(right.local()).isEqualTo("2024-05-01T10:00:00");
    assertThat(right.source()).isEqualTo("Exif DateTimeOriginal, clock put right by +1:00:00");
    assertThat(byPath("b/1.jpg").taken().orElseThrow().local()).isEqualTo("2024-05-01T10:00:10");
    assertThat(store.takenAsWritten(byPath("a/1.jpg").id()).orElseThrow().local())
        .isEqualTo("2024-05-01T09:00:00");

    store.correctClock(
        new ClockCorrection(
            hour.camera(), Optional.of(day.plusDays(1)), Optional.empty(), 60, Optional.empty()),
        "Ada");
    assertThat(byPath("a/1.jpg").taken()).contains(right);
    store.date(
        byPath("a/1.jpg").id(),
        new CaptureTime(LocalDateTime.parse("2024-05-01T11:11:00"), Optional.empty(), "manifest"),
        "Ada");
    assertThat(byPath("a/1.jpg").taken().orElseThrow().local())
        .as("a time that a person gave stays")
        .isEqualTo("2024-05-01T11:11:00");
    long before = archive.journal().lastCounter();
    archive.journal().rebuild();
    assertThat(archive.journal().lastCounter()).isEqualTo(before);
    assertThat(store.goesFor(hour)).isEmpty();
  }

  @Test
  void withoutSerialNumbersAFolderIsACamera() throws IOException {
    shot("a/1.jpg", "10:00:00");
    shot("b/1.jpg", "10:00:10");
    shot("a/2.jpg", "10:00:20");
    ingest();
    store.showsCard(byPath("b/1.jpg").id(), new CardLabel("18", "front"), "Ada");

    assertThat(grouping().byCards().assigned()).isZero();
  }

  @Test
  void whereTwoCamerasAreMixedInOneFolderNothingIsGuessed() throws IOException {
    String[] names = {"0101", "0501", "0102", "0502", "0103", "0503"};
    for (int i = 0; i < names.length; i++) {
      shot("IMG_" + names[i] + ".jpg", "10:0" + i + ":00");
    }
    ingest();
    store.showsCard(photograph("IMG_0501.jpg").id(), new CardLabel("18", "front"), "Ada");

    assertThat(grouping().byCards().assigned()).isZero();
    assertThat(lines).hasSize(1).allMatch(line -> line.contains("two cameras of one model"));
  }

  @Test
  void whatAPersonTookOffAFaceNoCardPutsBack() throws IOException {
    shot("1-card.jpg", "10:00:00");
    shot("2.jpg", "10:00:20");
    shot("3.jpg", "10:00:40");
    ingest();
    store.showsCard(photograph("1-card.jpg").id(), new CardLabel("17", "front"), "Ada");
    grouping().byCards();
    store.takeOff(List.of(photograph("2.jpg").id()), "Bo");
    undoLatest(photograph("3.jpg"));

    assertThat(grouping().byCards().assigned()).isZero();
    assertThat(photograph("2.jpg").face()).isEmpty();
    assertThat(photograph("3.jpg").face()).isEmpty();
  }

  private void undoLatest(Photograph photograph) {
    List<Decision> all = archive.journal().standing(photograph.id().value());
    archive.journal().undo(all.get(all.size() - 1).id(), "Bo");
  }

  @Test
  void aTableThatIsOffByARowIsPutRightInOneAct() throws IOException {
    for (int i = 1; i <= 3; i++) {
      shot(i + ".jpg", "10:0" + i + ":00");
    }
    ingest();
    grouping().byManifest(Manifest.read(table("file,marker\n1.jpg,2\n2.jpg,3\n3.jpg,4\n")));
    Manifest right = Manifest.read(table("file,marker\n1.jpg,1\n2.jpg,2\n3.jpg,3\n"));

    Grouping.Result again = grouping().byManifest(right);
    assertThat(again).isEqualTo(new Grouping.Result(0, 3, 0));
    assertThat(faceOf("2.jpg")).isEqualTo("3 front");

    List<Grouping.Move> moves = grouping().moves(right);
    assertThat(moves)
        .extracting(move -> Grouping.inWords(move.from().orElseThrow()))
        .containsExactly("marker 2, front", "marker 3, front", "marker 4, front");
    grouping().move(moves, right, Uuid7.next());
    assertThat(faceOf("1.jpg")).isEqualTo("1 front");
    assertThat(faceOf("3.jpg")).isEqualTo("3 front");
    assertThat(grouping().moves(right)).isEmpty();
  }

  @Test
  void twoRowsForOneFilesBytesOnTwoFacesAreRefused() throws IOException {
    shot("a.jpg", "10:00:00");
    Files.copy(shots.resolve("a.jpg"), shots.resolve("b.jpg"));
    ingest();

    assertThat(grouping().byManifest(Manifest.read(table("file,marker\na.jpg,1\nb.jpg,2\n"))))
        .isEqualTo(new Grouping.Result(1, 0, 1));
    assertThat(faceOf("a.jpg")).isEqualTo("1 front");
    assertThat(lines)
        .hasSize(1)
        .allMatch(line -> line.contains("the same bytes as a.jpg of line 2"));
  }

  @ParameterizedTest
  @CsvSource({
    "17/a.jpg, 17 front",
    "row 3/A-12/a.jpg, A-12 front",
    "17/Back/a.jpg, 17 back",
    "17 back/a.jpg, 17 back",
    "17_N/a.jpg, 17 n",
    "100CANON/a.jpg, ''",
    "2024/a.jpg, ''",
    "2024-05-01/a.jpg, ''",
    "a.jpg, ''",
    "holiday/a.jpg, ''",
    "back/a.jpg, ''"
  })
  void foldersNamedLikeMarkersPutPhotographsOnThem(String path, String expected) {
    Path root = Path.of("/somewhere/12");

    assertThat(
            FolderNames.of(root.resolve(path), root)
                .map(label -> label.markerNumber() + " " + label.faceName())
                .orElse(""))
        .isEqualTo(expected);
  }

  @Test
  void shotsCloseInTimeAreProposedAsAGroupAndNothingIsDecided() throws IOException {
    shot("1.jpg", "10:00:00");
    shot("2.jpg", "10:00:30");
    shot("3.jpg", "10:02:00");
    ingest();

    List<List<Photograph>> groups = ProposedGroups.of(store.photographs(), archive.ground().zone());

    assertThat(groups)
        .extracting(group -> group.stream().map(Photograph::originalName).toList())
        .containsExactly(List.of("1.jpg", "2.jpg"), List.of("3.jpg"));
    assertThat(store.faces()).isEmpty();
  }

  private void shot(String name, String time) throws IOException {
    shot(name, time, "");
  }

  private void shot(String name, String time, String serial) throws IOException {
    Path file = shots.resolve(name);
    Files.createDirectories(file.resolveSibling("."));
    Files.write(file, Shots.taken("2024:05:01 " + time, serial, name.hashCode()));
  }

  private void ingest() {
    new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
  }

  private Grouping grouping() {
    lines.clear();
    return new Grouping(archive, "Ada", lines::add);
  }

  private Path table(String text) throws IOException {
    return Files.write(shots.resolve("manifest.csv"), text.getBytes(UTF_8));
  }

  private Photograph byPath(String path) {
    return store.photographs().stream()
        .filter(photograph -> photograph.originalPath().endsWith("/" + path))
        .findFirst()
        .orElseThrow();
  }

  private Photograph photograph(String name) {
    return store.photographs().stream()
        .filter(photograph -> photograph.originalName().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private String faceOf(String name) {
    Face face = store.face(photograph(name).face().orElseThrow()).orElseThrow();
    return new MarkerStore(archive).marker(face.marker()).orElseThrow().number()
        + " "
        + face.name();
  }
}
