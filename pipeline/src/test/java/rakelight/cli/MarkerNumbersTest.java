package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

/** Numbers as people write them on different days. */
class MarkerNumbersTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void aGround() throws IOException {
    archive = folder.resolve("archive");
    run("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    assertThat(confirm("--new-markers", "5\tfront", "A-12\tfront", "\u00d6-7\tfront").code())
        .isZero();
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  /** Signs a reading of each marker and face. */
  private Ran confirm(String option, String... faces) throws IOException {
    Path file = folder.resolve("readings.tsv");
    StringBuilder rows = new StringBuilder("marker\tface\tline\ttext\n");
    for (String face : faces) {
      rows.append(face).append("\t1\tELI HOLT of ").append(face.charAt(0)).append('\n');
    }
    Files.writeString(file, rows);
    return option.isEmpty()
        ? Ran.command("confirm", archive, "--from", file, "--reader", "Ada")
        : Ran.command("confirm", archive, option, "--from", file, "--reader", "Ada");
  }

  private String found(String number) {
    try (Archive open = Archive.open(archive, Projections.all())) {
      return new MarkerStore(open).byNumber(number).map(Marker::number).orElse("none");
    }
  }

  private int markers() {
    try (Archive open = Archive.open(archive, Projections.all())) {
      return new MarkerStore(open).markers().size();
    }
  }

  @Test
  void aNumberIsFoundInWhateverCaseWithOrWithoutZerosAndSpaces() {
    for (String five : new String[] {"5", "005", " 05 "}) {
      assertThat(found(five)).as(five).isEqualTo("5");
    }
    for (String twelve : new String[] {"A-12", "a-12", "A - 12", "a-0012"}) {
      assertThat(found(twelve)).as(twelve).isEqualTo("A-12");
    }
    assertThat(found("\u00f6-07")).isEqualTo("\u00d6-7");
    for (String other : new String[] {"50", "15", "5 0", "A-1 2", "A12", "A-120"}) {
      assertThat(found(other)).as(other).isEqualTo("none");
    }
  }

  @Test
  void aReadingOfAnotherSpellingGoesToTheSameMarkerAndFace() throws IOException {
    assertThat(confirm("", "005\tFront").out()).startsWith("1 reading signed");
    assertThat(markers()).isEqualTo(3);
    try (Archive open = Archive.open(archive, Projections.all())) {
      Marker five = new MarkerStore(open).byNumber("5").orElseThrow();
      assertThat(new PhotoStore(open).faces(five.id()))
          .extracting(Face::name)
          .containsExactly("front");
    }
    run("check", archive);
  }

  @Test
  void confirmNamesEachNumberThatIsNotHereAndSignsNothing() throws IOException {
    long before = decisions();
    Ran ran = confirm("", "5\tfront", "21\tfront", "A-13\tfront");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.errLines()).hasSize(3);
    assertThat(ran.err())
        .contains("there is no marker 21 here")
        .contains("there is no marker A-13 here")
        .contains("--new-markers");
    assertThat(decisions()).isEqualTo(before);
    assertThat(confirm("--new-markers", "21\tfront").code()).isZero();
    assertThat(markers()).isEqualTo(4);
  }

  private long decisions() {
    return run("decisions", archive, "--last", "0").outLines().size();
  }

  @Test
  void noOtherMarkerGetsANumberLikeOneThatIsThereAndItsOwnMayBeWrittenAnew() {
    Ran ran = Ran.command("renumber", archive, "A-12", "005", "--reader", "Ada");
    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err()).contains("There is a marker 5 already");
    run("renumber", archive, "5", "005", "--reader", "Ada");
    assertThat(found("5")).isEqualTo("005");
  }

  @Test
  void aNumberThatAnotherMarkerHadIsSaidWhenItIsGivenAgain() {
    assertThat(run("renumber", archive, "5", "6", "--reader", "Ada").outLines()).hasSize(1);
    assertThat(run("renumber", archive, "A-12", "05", "--reader", "Ada").out())
        .contains("05 was the number of marker 6 before");
    assertThat(found("5")).isEqualTo("05");
    assertThat(found("a-12")).isEqualTo("05");
  }
}
