package rakelight.photo;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
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
import rakelight.archive.Ground;
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

    assertThat(result).isEqualTo(new Grouping.Result(2, 0));
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

    assertThat(grouping().byManifest(Manifest.read(table))).isEqualTo(new Grouping.Result(1, 2));
    assertThat(lines)
        .containsExactly(
            table + ":2: z.jpg isn't among the photographs. Check the name.",
            table
                + ":3: 2 photographs are named same.jpg. Give the path as seen from the manifest's"
                + " folder.");
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
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained()
        .text(0x010F, "Wren")
        .directories(0x8769, exif.loose().text(0x9003, "2024:05:01 " + time));
    Path file = shots.resolve(name);
    Files.createDirectories(file.resolveSibling("."));
    Files.write(file, Shots.withExif(Shots.jpeg(name.hashCode()), exif.build()));
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
