package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Apart;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.Backup;
import rakelight.archive.Ground;
import rakelight.archive.Merging;
import rakelight.archive.Sha256;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.samples.Samples;
import rakelight.work.BegunApart;
import rakelight.work.NamedReader;
import rakelight.work.Role;
import rakelight.work.Withdrawing;

/** Two archives of one ground, each begun by an {@code init} of its own, become one. */
class BegunApartTest {
  private static final Ground GROUND =
      new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
  private static final NamedReader ADA = new NamedReader("Ada", Role.ARCHIVIST);

  @TempDir static Path folder;
  private static Laptops laptops;

  @BeforeAll
  static void twoArchives() throws Exception {
    laptops = new Laptops(folder, how(List.of(), false));
    begin("one", "Ada", "1", "2", "3", "4");
    begin("other", "Ben", "2", "4", "5", "03");
  }

  private static Merging.How how(List<String> two, boolean dryRun) {
    return new Merging.How(Projections.joinings(), Optional.of(new BegunApart(two)), 0, dryRun);
  }

  /** Both have the same two photographs, the one of marker 4, the other of marker 2. */
  private static void begin(String name, String reader, String... numbers) throws Exception {
    Path shots = Files.createDirectories(folder.resolve("shots-of-" + reader));
    for (String shot : List.of("M04-W-1.jpg", "M04-W-2.jpg")) {
      Files.write(shots.resolve(shot), Samples.bytes(shot));
    }
    try (Archive archive = Archive.init(folder.resolve(name), GROUND, Projections.all())) {
      new Ingest(archive, Credits.NONE, reader, new NoListener()).run(List.of(shots), Set.of());
      PhotoStore photos = new PhotoStore(archive);
      for (String number : numbers) {
        sign(archive, number, "HANNAH WREN\nDIED 1849 AGED " + number.replace("0", ""), reader);
      }
      for (Photograph shot : photos.photographs()) {
        photos.assign(shot.id(), front(archive, "4").id(), Optional.empty(), "person", reader);
      }
    }
  }

  private static Face front(Archive archive, String number) {
    return new PhotoStore(archive).faceOf(number, Face.FRONT, "Ada");
  }

  private static void sign(Archive archive, String number, String text, String reader)
      throws Exception {
    new ReadingStore(archive)
        .sign(
            front(archive, number).id(),
            Leiden.parse(text),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            reader);
  }

  private static void apart(String name, Laptops.Deed one, Laptops.Deed other) throws Exception {
    laptops.apart(name, "one", "other", one, other);
  }

  @Test
  void randomHistoriesBecomeTheSameWhicheverIsMergedIntoWhich() throws IOException {
    Laptops.Tally everyday =
        laptops.pairs(EditHistory::everyday, "every", "one", "other", Laptops.SEED + 2000);
    Laptops.Tally tidying =
        laptops.pairs(EditHistory::tidying, "tidy", "one", "other", Laptops.SEED + 3000);
    System.out.println("begun apart, everyday: " + everyday);
    System.out.println("begun apart, tidying: " + tidying);
  }

  @Test
  void markersFacesAndPhotographsOfBothAreOneAndWhatWasDecidedKeepsItsPeopleAndTimes()
      throws Exception {
    apart("plain", archive -> {}, archive -> sign(archive, "2", "HANNA WREN\nDIED 1849", "Cleo"));

    Merging.Result merged = laptops.mergeBoth("plain");

    assertThat(merged.pairs().orElseThrow().markers()).isEqualTo(3);
    assertThat(merged.pairs().orElseThrow().photographs()).isEqualTo(2);
    try (Archive archive = laptops.open("plaina");
        Archive was = laptops.open("plainb-before")) {
      assertThat(new MarkerStore(archive).markers())
          .extracting(marker -> marker.number().replace("0", ""))
          .containsExactly("1", "2", "3", "4", "5");
      assertThat(new PhotoStore(archive).photographs()).hasSize(2);
      List<Reading> read = new ReadingStore(archive).versions(front(archive, "2").id());
      assertThat(read).extracting(Reading::reader).containsExactlyInAnyOrder("Ada", "Ben", "Cleo");
      Reading there = new ReadingStore(was).versions(front(was, "2").id()).get(1);
      assertThat(read).extracting(Reading::at).contains(there.at());
      // What somebody cited by the other archive's id is found still.
      assertThat(new PhotoStore(archive).face(front(was, "2").id())).isPresent();
      assertThat(new ApartStore(archive).waiting()).extracting(Apart::what).contains("the reading");
    }
    assertThat(exported("plaina")).isEqualTo(exported("plainb")).isNotEmpty();
  }

  private static Map<String, String> exported(String name) throws IOException {
    Path to = folder.resolve(name + "-exported");
    Ran ran =
        Ran.command(
            "export",
            folder.resolve(name),
            "--to",
            to,
            "--as-of",
            "2026-11-25",
            "--corpus",
            "--tables",
            "--gedcom",
            "--sidecars");
    assertThat(ran.code()).as(ran.err()).isZero();
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> all = Files.walk(to)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        files.put(
            to.relativize(file).toString(),
            Sha256.of(Files.readString(file).replace("../" + name + "/", "../")).hex());
      }
    }
    return files;
  }

  @Test
  void markersOfOneNumberThatSayDifferentThingsStayTwoAndSomebodyIsAsked() throws Exception {
    apart(
        "differ",
        archive -> sign(archive, "2", "TO THE GLORY OF GOD\nAND OF JOB THORNE MARINER", "Ada"),
        archive -> sign(archive, "2", "ANN PELL\nWIFE OF EZRA QUILLAN", "Ben"));

    Merging.Result merged = laptops.mergeBoth("differ");

    assertThat(merged.pairs().orElseThrow().keptApart())
        .singleElement()
        .asString()
        .startsWith("marker 2: its face front says different things");
    try (Archive archive = laptops.open("differa")) {
      MarkerStore markers = new MarkerStore(archive);
      assertThat(markers.byNumber("2 bis")).isPresent();
      assertThat(new ReadingStore(archive).versions(front(archive, "2").id())).hasSize(2);
      assertThat(new ReadingStore(archive).versions(front(archive, "2 bis").id())).hasSize(2);
      assertThat(new ApartStore(archive).waiting())
          .extracting(Apart::what)
          .contains("a marker of that number");
    }
  }

  @Test
  void whatWasWithdrawnFromTheOneIsWithdrawnFromBoth() throws Exception {
    apart(
        "asked",
        archive ->
            new Withdrawing(archive)
                .marker(
                    new MarkerStore(archive).named("4"),
                    new Withdrawing.Terms("asked", Optional.empty(), true),
                    ADA),
        archive -> sign(archive, "4", "HANNAH WREN", "Ben"));

    laptops.mergeBoth("asked");

    for (String side : List.of("askeda", "askedb")) {
      try (Archive archive = laptops.open(side)) {
        assertThat(new MarkerStore(archive).byNumber("4")).isEmpty();
        assertThat(new PhotoStore(archive).photographs()).isEmpty();
        assertThat(archive.withdrawals().sealed())
            .hasSize(2)
            .allSatisfy((path, bytes) -> assertThat(path).exists());
      }
    }
  }

  @Test
  void afterwardsBothGoOnAndAreMergedLikeCopies() throws Exception {
    apart("on", archive -> {}, archive -> {});
    laptops.mergeBoth("on");
    try (Archive archive = laptops.open("ona")) {
      sign(archive, "2", "HANNAH WREN\nDIED 1848", "Ada");
    }
    // This one knows nothing of the merge.
    try (Archive archive = laptops.open("onb-before")) {
      sign(archive, "2", "HANNAH WREN\nDIED 1847", "Ben");
    }
    laptops.copy("ona", "on-a2");
    laptops.copy("onb-before", "on-b2");

    Merging.Result merged = laptops.merge("ona", "onb-before");
    laptops.merge("on-b2", "on-a2");

    assertThat(laptops.content("on-b2")).isEqualTo(laptops.content("ona"));
    assertThat(merged.pairs()).isEmpty();
    assertThat(merged.apart()).extracting(Apart::what).contains("the reading");
  }

  @Test
  void aBackupOfEitherGoesOnAfterwards() throws Exception {
    apart("kept", archive -> {}, archive -> {});
    for (String side : List.of("kepta", "keptb")) {
      try (Archive archive = laptops.open(side)) {
        Backup.copy(archive, folder.resolve(side + "-backup"), Instant.EPOCH, file -> {});
      }
    }
    laptops.mergeBoth("kept");
    for (String side : List.of("kepta", "keptb")) {
      try (Archive archive = laptops.open(side)) {
        Backup.copy(archive, folder.resolve(side + "-backup"), Instant.EPOCH, file -> {});
      }
    }
  }

  @Test
  void aDryRunSaysAllOfItAndChangesNothingAndAnotherGroundIsRefused() throws Exception {
    apart("dry", archive -> {}, archive -> {});
    Map<String, List<String>> before = laptops.content("drya");
    Object a = folder.resolve("drya");
    Object b = folder.resolve("dryb");

    assertThat(Ran.command("merge", a, b).err()).contains("another archive", "--begun-apart");
    Ran dry = Ran.command("merge", a, b, "--begun-apart", "--two", "2", "--dry-run");
    assertThat(dry.out())
        .contains("Both have 2 markers of the same number and 2 photographs")
        .contains("Kept as two: marker 2: somebody says that these are two markers.")
        .contains("Nothing is changed yet.");
    assertThat(laptops.content("drya")).isEqualTo(before);

    for (Ground ground :
        List.of(
            new Ground("Fennick Lane", 54.6, -3.25, ZoneId.of("Europe/London")),
            new Ground("Tarrow", 54.5, -3.25, ZoneId.of("Europe/London")))) {
      Path elsewhere = folder.resolve("at" + ground.latitudeDegrees() + ground.name());
      Archive.init(elsewhere, ground, Projections.all()).close();
      assertThat(Ran.command("merge", a, elsewhere, "--begun-apart").err())
          .containsAnyOf("two grounds", "different names")
          .hasLineCount(1);
    }
    assertThat(laptops.content("drya")).isEqualTo(before);
    laptops.merge("drya", "dryb");
    try (Archive archive = laptops.open("drya")) {
      var joined =
          archive.journal().since(0).stream()
              .filter(decision -> decision.kind().equals("archives.joined"))
              .findFirst()
              .orElseThrow();
      assertThatThrownBy(() -> archive.journal().undo(joined.id(), "Ada"))
          .hasMessageContaining("can't be undone");
    }
  }
}
