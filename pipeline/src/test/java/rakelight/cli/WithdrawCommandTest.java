package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Sha256;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.FacePictures;
import rakelight.work.QuickReaders;
import rakelight.work.Role;

/** Taking things out of the archive, from the command line to the files. */
class WithdrawCommandTest {
  private static final String DAY = "2026-11-25";

  @TempDir Path folder;
  private Path archive;
  private Path season;

  @BeforeEach
  void twoStonesWithTheirPhotographs() throws Exception {
    archive = folder.resolve("archive");
    season = folder.resolve("season");
    run("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    photograph("12/whole.png", 1);
    photograph("14/left.png", 2);
    photograph("14/near.png", 3);
    run("ingest", archive, season, "--reader", "Ada");
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file,
        "marker\tline\ttext\n"
            + "12\t1\tIN MEMORY OF | HANNAH WREN | died March 14, 1851\n"
            + "14\t1\tROBERT GARSIDE | born 1849 died 1911 | ALICE HIS WIFE | born 1853 died 1921\n",
        StandardCharsets.UTF_8);
    run("confirm", archive, "--new-markers", "--from", file, "--reader", "Ada");
    run("link", archive, "12", "footstone-of", "14", "--reader", "Ada");
    run("condition", archive, "14", "leaning", "--on", DAY, "--reader", "Ada");
    run("index", archive);
  }

  private void photograph(String name, int shade) throws IOException {
    Path file = season.resolve(name);
    Files.createDirectories(file.getParent());
    BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
    picture.setRGB(0, 0, shade);
    ImageIO.write(picture, "png", file.toFile());
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  private Ran withdraw(String... what) {
    List<Object> words = new ArrayList<>(List.of("withdraw", archive));
    words.addAll(List.of(what));
    words.addAll(List.of("--reason", "it was asked", "--asked-by", "B. Cole"));
    words.addAll(List.of("--reader", "Ada"));
    return run(words.toArray());
  }

  private static String decision(Ran ran) {
    String line = ran.outLines().get(0);
    return line.substring(line.lastIndexOf('(') + 1, line.length() - 1);
  }

  private Path original(String file, String under) throws IOException {
    String hex = Sha256.of(season.resolve(file)).hex();
    return archive
        .resolve("originals")
        .resolve(under)
        .resolve(hex.substring(0, 2))
        .resolve(hex.substring(2, 4))
        .resolve(hex + ".png");
  }

  private String photographs() {
    return run("photographs", archive, "--json").out();
  }

  private String export() throws IOException {
    Path out = Files.createTempDirectory(folder, "out");
    run("export", archive, "--to", out, "--as-of", DAY, "--photographs", "--tables");
    StringBuilder all = new StringBuilder();
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        all.append(file).append('\n').append(Files.readString(file, StandardCharsets.ISO_8859_1));
      }
    }
    return all.toString();
  }

  @Test
  void whatIsWithdrawnIsListedActByActUntilItIsBroughtBack() throws Exception {
    withdraw("--photograph", "near.png", "--seal");
    String marker = decision(withdraw("--marker", "12", "--purge"));
    List<String> listed = run("withdrawn", archive).outLines();
    assertThat(listed).hasSize(2);
    assertThat(listed.get(0))
        .startsWith("1 photograph; originals sealed: it was asked; asked by B.");
    assertThat(listed.get(1))
        .startsWith("1 face, 1 marker, 1 photograph; originals deleted: it was asked")
        .endsWith("(" + marker + ")")
        .doesNotContain("whole.png");
    assertThat(run("withdrawn", archive, "--json").out()).contains("\"things\":{\"photograph\":1}");
    run("undo", archive, marker, "--reader", "Ada");
    assertThat(run("withdrawn", archive).outLines()).hasSize(1);
  }

  @Test
  void aWithdrawnPhotographIsNotTakenAgainFromTheSameFolder() throws Exception {
    String decision = decision(withdraw("--photograph", "near.png", "--seal"));
    Ran again = run("ingest", archive, season, "--reader", "Bert");
    assertThat(again.errLines())
        .containsOnlyOnce(
            season.resolve("14/near.png").toAbsolutePath()
                + ": was withdrawn from the archive and isn't taken again ("
                + decision
                + ").");
    assertThat(again.outLines().get(0))
        .isEqualTo("0 photographs taken, 2 there already, 1 withdrawn before and not taken.");
    assertThat(photographs()).doesNotContain("near.png");
    assertThat(original("14/near.png", "")).doesNotExist();
  }

  @Test
  void norByAManifestUnderAnotherNameOrAsAScan() throws Exception {
    withdraw("--photograph", "near.png", "--purge");
    Path copy = season.resolve("copy.png");
    Files.copy(season.resolve("14/near.png"), copy);
    Path manifest = folder.resolve("season/manifest.csv");
    Files.writeString(manifest, "file,marker\ncopy.png,14\n14/left.png,14\n");
    Ran again = run("ingest", archive, season, "--manifest", manifest, "--reader", "Bert");
    assertThat(again.out()).contains("2 withdrawn before and not taken");
    assertThat(again.err()).contains("copy.png: was withdrawn").doesNotContain("manifest.csv:");
    run("source", archive, "--kind", "register", "--title", "Register of 1911", "--reader", "Ada");
    Ran scan = Ran.command("source", archive, "1", "--scan", copy, "--reader", "Ada");
    assertThat(scan.code()).isNotZero();
    assertThat(original("14/near.png", "")).doesNotExist();
  }

  @Test
  void aWithdrawnPhotographIsInNoListExportOrDerivedFile() throws Exception {
    String sha256 = Sha256.of(season.resolve("14/near.png")).hex();
    try (Archive open = Archive.open(archive, Projections.all())) {
      for (Photograph photograph : new PhotoStore(open).photographs()) {
        new FacePictures(open).smaller(photograph, 800);
      }
    }
    assertThat(derived(sha256)).isPresent();
    assertThat(photographs() + export()).contains("near.png").contains(sha256);

    Ran ran = withdraw("--photograph", "near.png", "--seal");

    assertThat(ran.out())
        .contains("Withdrawn: photograph near.png  (")
        .contains("1 original sealed; what a machine made of it is deleted.")
        .contains("The journal still says of it, in 2 decisions: its name, path")
        .contains("Backups, exports and copies made before still have it.");
    assertThat(derived(sha256)).isEmpty();
    assertThat(photographs() + export()).doesNotContain("near.png").doesNotContain(sha256);
    assertThat(run("search", archive, "garside", "--json").out()).doesNotContain(sha256);
    assertThat(run("proposals", archive, "--json").out()).doesNotContain(sha256);
    // What is left of it in the journal isn't printed either, but for the digest remembered.
    assertThat(run("decisions", archive, "--last", "0", "--json").out()).doesNotContain("near.png");
  }

  private Optional<Path> derived(String sha256) throws IOException {
    try (Stream<Path> files = Files.walk(archive.resolve("derived"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        if (Files.readString(file, StandardCharsets.ISO_8859_1).contains(sha256)) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  @Test
  void sealedBytesAreCheckedAndBackedUpAndComeBackByUndo() throws Exception {
    byte[] bytes = Files.readAllBytes(season.resolve("14/near.png"));
    String before = photographs();
    String decision = decision(withdraw("--photograph", "near.png", "--seal"));
    Path sealed = original("14/near.png", "sealed");
    assertThat(sealed).hasBinaryContent(bytes);
    assertThat(run("check", archive).outLines().get(0)).startsWith("3 originals read");
    Path backup = folder.resolve("backup");
    run("backup", archive, backup);
    Path kept = backup.resolve("data");
    assertThat(kept.resolve(archive.relativize(sealed))).hasBinaryContent(bytes);
    run("check", backup);

    run("undo", archive, decision, "--reader", "Ada");
    assertThat(sealed).doesNotExist();
    assertThat(original("14/near.png", "")).hasBinaryContent(bytes);
    assertThat(photographs()).isEqualTo(before);
    run("check", archive);
    run("backup", archive, backup);
    assertThat(kept.resolve(archive.relativize(sealed))).doesNotExist();
    assertThat(kept.resolve(archive.relativize(original("14/near.png", ""))))
        .hasBinaryContent(bytes);

    withdraw("--photograph", "near.png", "--seal");
    Files.delete(sealed);
    Files.writeString(sealed, "rotten");
    Ran check = Ran.command("check", archive);
    assertThat(check.code()).isEqualTo(1);
    assertThat(check.out()).contains(sealed + ": its content has changed");
  }

  @Test
  void purgedBytesAreGoneFromABackupTooAndUndoWaitsForTheFile() throws Exception {
    Path backup = folder.resolve("backup");
    run("backup", archive, backup);
    Path kept = backup.resolve("data").resolve(archive.relativize(original("14/near.png", "")));
    assertThat(kept).exists();
    String decision = decision(withdraw("--photograph", "near.png", "--purge"));
    assertThat(original("14/near.png", "")).doesNotExist();
    assertThat(run("backup", archive, backup).out()).contains("went from the backup too");
    assertThat(kept).doesNotExist();
    assertThat(archive.resolve("originals/sealed")).doesNotExist();
    assertThat(run("check", archive).outLines().get(0)).startsWith("2 originals read");
    run("undo", archive, decision, "--reader", "Ada");
    assertThat(Ran.command("check", archive).out()).contains("the original is gone");
    assertThat(run("ingest", archive, season, "--reader", "Ada").out()).contains("mended");
    run("check", archive);
  }

  @Test
  void aWithdrawnReadingIsInNoListSearchIndexOrExport() throws Exception {
    assertThat(names()).contains("GARSIDE");
    String decision = decision(withdraw("--reading", "14", "--seal"));
    assertThat(names()).doesNotContainIgnoringCase("garside").contains("WREN");
    try (Stream<Path> files =
        Stream.concat(
            Files.walk(archive.resolve("index")), Files.walk(archive.resolve("derived")))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        assertThat(Files.readString(file, StandardCharsets.ISO_8859_1))
            .as(file.toString())
            .doesNotContainIgnoringCase("garside");
      }
    }
    assertThat(photographs()).contains("near.png");
    run("check", archive);
    run("undo", archive, decision, "--reader", "Ada");
    run("index", archive);
    assertThat(names()).contains("GARSIDE");
  }

  @Test
  void aFaceCanBeReadAnewAfterItsReadingWasWithdrawn() throws Exception {
    withdraw("--reading", "14:front", "--seal");
    Path file = folder.resolve("again.tsv");
    Files.writeString(file, "marker\tline\ttext\n14\t1\tROBERT GARSIDE\n");
    run("confirm", archive, "--new-markers", "--from", file, "--reader", "Bert");
    run("index", archive);
    assertThat(names()).contains("GARSIDE").doesNotContain("ALICE");
    run("check", archive);
    run("check", archive, "--rebuild");
  }

  @Test
  void aReadingIsSealedAndNeverPurgedSinceTheJournalKeepsItsLetters() {
    Ran ran =
        Ran.command(
            "withdraw",
            archive,
            "--reading",
            "14",
            "--reason",
            "asked",
            "--purge",
            "--reader",
            "Ada");
    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.err()).contains("its letters stay in the journal").contains("--seal");
    assertThat(names()).contains("GARSIDE");
  }

  private String names() {
    StringBuilder all = new StringBuilder();
    for (String query : List.of("garside", "robert", "wren")) {
      Ran found = Ran.command("search", archive, query, "--json");
      all.append(found.out());
    }
    all.append(run("persons", archive, "--json").out());
    all.append(run("statements", archive, "--json").out());
    all.append(run("dates", archive, "--json").out());
    all.append(run("links", archive, "--json").out());
    try {
      all.append(export());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
    all.append(run("decisions", archive, "--last", "0", "--json").out());
    return all.toString();
  }

  @Test
  void aWithdrawnMarkerGoesWithItsPhotographsReadingsNotesAndLinksAndComesBackAsOne()
      throws Exception {
    String before = photographs() + run("links", archive).out() + run("conditions", archive).out();
    Ran ran = withdraw("--marker", "14", "--seal");
    assertThat(ran.out()).contains("2 originals sealed");
    assertThat(names()).doesNotContainIgnoringCase("garside").contains("WREN");
    assertThat(photographs()).doesNotContain("near.png").doesNotContain("left.png");
    assertThat(run("links", archive).out() + run("conditions", archive).out()).doesNotContain("14");
    assertThat(Ran.command("sheet", archive, "14", "--out", folder.resolve("s.pdf")).err())
        .contains("no marker 14");
    run("check", archive);
    run("check", archive, "--rebuild");
    assertThat(photographs()).doesNotContain("near.png");

    run("undo", archive, "--reader", "Ada");
    assertThat(photographs() + run("links", archive).out() + run("conditions", archive).out())
        .isEqualTo(before);
    assertThat(original("14/left.png", "")).exists();
    run("check", archive);
  }

  @Test
  void aPhotographThatAlsoShowsAWithdrawnMarkerStaysAndIsToldNoMore() throws Exception {
    run("beside", archive, "whole.png", "--area", "0,0,9,9", "--marker", "14", "--reader", "Ada");
    String digest = Sha256.of(season.resolve("12/whole.png")).hex();
    assertThat(export()).contains(digest);

    withdraw("--marker", "14", "--seal");

    assertThat(photographs()).contains("whole.png", digest);
    assertThat(export()).doesNotContain(digest);
  }

  @Test
  void whatWasSaidOfItsPersonsAndAskedAboutItDoesNotStandInTheWay() throws Exception {
    run("person", archive, "different", "12:front:1", "14:front:1", "--reader", "Ada");
    run("question", archive, "raise", "Who set it up?", "--marker", "14", "--reader", "Ada");
    run(
        "withhold",
        archive,
        "person",
        "14:front:2",
        "--why",
        "family",
        "--reason",
        "by letter",
        "--on",
        DAY,
        "--reader",
        "Ada");
    for (String[] what :
        List.of(new String[] {"--reading", "14"}, new String[] {"--marker", "14"})) {
      String decision = decision(withdraw(what[0], what[1], "--seal"));
      assertThat(names()).doesNotContainIgnoringCase("garside").contains("WREN");
      for (String list : List.of("questions", "conditions", "groups", "proposals")) {
        run(list, archive);
      }
      run("withheld", archive, "--as-of", DAY);
      run("check", archive);
      run("undo", archive, decision, "--reader", "Ada");
      assertThat(names()).contains("GARSIDE");
      run("check", archive);
    }
  }

  @Test
  void aPhotographCantComeBackBeforeTheMarkerItIsOn() throws Exception {
    String photograph = decision(withdraw("--photograph", "near.png", "--seal"));
    String marker = decision(withdraw("--marker", "14", "--seal"));
    Ran early = Ran.command("undo", archive, photograph, "--reader", "Ada");
    assertThat(early.code()).isEqualTo(1);
    assertThat(early.err()).contains("belongs to it is withdrawn").contains("Nothing was changed");
    run("check", archive);
    run("undo", archive, marker, "--reader", "Ada");
    run("undo", archive, photograph, "--reader", "Ada");
    assertThat(photographs()).contains("near.png");
    run("check", archive);
  }

  @Test
  void whatACrashLeftInTheOpenIsNamedByCheckAndPutAwayByTheNextIngest() throws Exception {
    withdraw("--photograph", "near.png", "--seal");
    Files.move(original("14/near.png", "sealed"), original("14/near.png", ""));
    assertThat(Ran.command("check", archive).out()).contains("no row speaks of this file");
    run("ingest", archive, season, "--reader", "Ada");
    assertThat(original("14/near.png", "")).doesNotExist();
    assertThat(original("14/near.png", "sealed")).exists();
    run("check", archive);
  }

  @Test
  void anOriginalThatIsAScanOfASourceIsNotWithdrawn() {
    Path scan = season.resolve("12/whole.png");
    run(
        "source",
        archive,
        "--kind",
        "letter",
        "--title",
        "A letter",
        "--scan",
        scan,
        "--reader",
        "Ada");
    Ran ran =
        Ran.command(
            "withdraw",
            archive,
            "--photograph",
            "whole.png",
            "--reason",
            "asked",
            "--purge",
            "--reader",
            "Ada");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("a scan of a source");
    run("backup", archive, folder.resolve("backup"));
  }

  @Test
  void onlyAnArchivistWithdraws() {
    try (Archive open = Archive.open(archive, Projections.all())) {
      QuickReaders.of(open).admit("Carl", Role.READER, "four words or more".toCharArray(), "Ada");
    }
    Ran ran =
        Ran.command(
            "withdraw",
            archive,
            "--marker",
            "14",
            "--reason",
            "asked",
            "--seal",
            "--reader",
            "Carl");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("Only an archivist");
  }
}
