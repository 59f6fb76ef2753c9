package rakelight.cli;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.SmallArchive;

/** Markers go to a volunteer on a stick, and what was read there comes back. */
class LendCommandTest {
  @TempDir static Path folder;
  private static Path home;
  private static Path stick;
  private static FaceId face;

  @BeforeAll
  static void aStickIsPacked() throws Exception {
    home = folder.resolve("archive");
    stick = folder.resolve("stick");
    try (SmallArchive small = new SmallArchive(folder, Projections.all())) {
      small.propose();
      face = small.face();
      FaceId other = new PhotoStore(small.archive()).faceOf("M09", "front", "Ada").id();
      sign(small.archive(), other, "JOB THORNE", "Ada");
    }
    Ran lent =
        Ran.command(
            "lend", home, "--markers", "M04", "--for", "Ben", "--to", stick, "--reader", "Ada");
    assertThat(lent.err()).isEmpty();
    assertThat(lent.outLines().get(0)).contains("1 marker with 2 photographs, reduced");
  }

  private static void sign(Archive archive, FaceId face, String text, String reader)
      throws Exception {
    new ReadingStore(archive)
        .sign(face, Leiden.parse(text), Basis.FROM_PHOTOGRAPHS, Optional.empty(), reader);
  }

  @Test
  void thePartHasAllThatAReaderLooksAtAndNoOriginal() throws Exception {
    try (Archive part = Archive.open(stick, Projections.all())) {
      Proposal proposal = new ProposalStore(part).latest(face).orElseThrow();
      FacePictures pictures = new FacePictures(part);
      assertThat(pictures.lines(proposal)).exists();
      for (int line = 1; line <= proposal.lines().size(); line++) {
        for (String name : FacePictures.stripNames(proposal)) {
          pictures.strip(proposal, line, name).ifPresent(strip -> assertThat(strip).exists());
        }
      }
      PhotoStore photos = new PhotoStore(part);
      assertThat(photos.photographs()).hasSize(2);
      // The desk's largest size isn't lent: the next one is shown for it.
      assertThat(pictures.smaller(photos.photographs().get(0), 3200)).exists();
    }
    try (Stream<Path> files = Files.walk(stick.resolve("originals"))) {
      assertThat(files.filter(Files::isRegularFile)).isEmpty();
    }
    assertThat(Ran.command("check", stick).code()).isZero();
  }

  @Test
  void aStoneBesideAnotherIsLentWithThePhotographThatShowsIt() {
    Path other = folder.resolve("stick-of-m09");
    Ran.command(
        "beside", home, "M04-W-1.jpg", "--area", "0,0,50,50", "--marker", "M09", "--reader", "Ada");

    Ran.command("lend", home, "--markers", "M09", "--for", "Cem", "--to", other, "--reader", "Ada");

    assertThat(Ran.command("photographs", other, "--marker", "M09").out())
        .contains("M04-W-1.jpg")
        .contains("at 0,0,50,50");
    assertThat(Ran.command("check", other).code()).isZero();
  }

  @Test
  void nothingOfOtherMarkersIsInIt() throws Exception {
    String ledger = Files.readString(stick.resolve("ledger.sqlite"), ISO_8859_1);
    assertThat(ledger).contains("M04").doesNotContain("M09").doesNotContain("JOB THORNE");
    try (Stream<Path> files = Files.walk(stick)) {
      for (Path file : files.filter(one -> one.toString().endsWith(".json")).toList()) {
        assertThat(Files.readString(file)).as(file.toString()).doesNotContain("M07");
      }
    }
  }

  @Test
  void whatWasReadInItComesBackOnceAndASecondReadingStaysASecondReading() throws Exception {
    try (Archive archive = Archive.open(home, Projections.all());
        Archive part = Archive.open(stick, Projections.all())) {
      sign(part, face, "HANNAH WREN", "Ben");
      sign(archive, face, "HANNAH WRAN", "Ada");
    }
    assertThat(Ran.command("lend", home).out()).contains("Ben  M04  out");
    long before = lastCounter();
    Ran look = Ran.command("return", home, stick, "--reader", "Ada", "--dry-run");
    assertThat(look.code()).isZero();
    assertThat(look.out())
        .contains("1 decision and 0 originals would come")
        .contains("  Ben read marker M04, face W: HANNAH WREN")
        .contains("  the reading: marker M04, face W", "HANNAH WRAN")
        .endsWith("Nothing is changed yet.\n");
    assertThat(lastCounter()).isEqualTo(before);
    assertThat(Ran.command("lend", home).out()).contains("Ben  M04  out");
    assertThat(Ran.command("merge", home, stick).err()).contains("`return` takes those back");

    Ran returned = Ran.command("return", home, stick, "--reader", "Ada");

    assertThat(returned.err()).isEmpty();
    assertThat(returned.out()).contains("1 decision and 0 originals came").contains("see `apart`");
    assertThat(Ran.command("lend", home).out()).contains("Ben  M04  returned");
    Ran apart = Ran.command("apart", home);
    assertThat(apart.outLines().get(0)).isEqualTo("1  the reading: marker M04, face W");
    assertThat(apart.out()).contains("HANNAH WREN", "HANNAH WRAN");
    try (Archive archive = Archive.open(home, Projections.all())) {
      assertThat(new ReadingStore(archive).versions(face))
          .extracting(Reading::reader)
          .containsExactlyInAnyOrder("Ada", "Ben");
    }
    long decisions = lastCounter();
    assertThat(Ran.command("return", home, stick, "--reader", "Ada").out())
        .startsWith("Nothing in ");
    assertThat(lastCounter()).isEqualTo(decisions);
    assertThat(Ran.command("apart", home, "--leave", 1, "--reader", "Ada").code()).isZero();
    assertThat(Ran.command("apart", home).out()).startsWith("Nothing waits.");
  }

  private static long lastCounter() {
    try (Archive archive = Archive.open(home, Projections.all())) {
      return archive.journal().lastCounter();
    }
  }

  @Test
  void aWholeArchiveIsNoPartAndAPartLendsNothing() {
    assertThat(Ran.command("return", home, home, "--reader", "Ada").errLines())
        .singleElement()
        .asString()
        .contains("not a part that was lent");
    List<String> refused =
        Ran.command(
                "lend",
                stick,
                "--markers",
                "M04",
                "--for",
                "C",
                "--to",
                folder.resolve("x"),
                "--reader",
                "Ben")
            .errLines();
    assertThat(refused).singleElement().asString().contains("lent itself");
  }
}
