package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Markers counted twice, two under one number, readings on the wrong stone. */
class MarkerCommandTest {
  @TempDir Path folder;
  private Path archive;
  private int shades;

  @BeforeEach
  void aGroundWithPhotographs() throws Exception {
    archive = folder.resolve("archive");
    run("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    for (String file :
        List.of("21/a.png", "22/b.png", "22/back/c.png", "30/d.png", "31/e.png", "32/f.png")) {
      photograph(file);
    }
    run("ingest", archive, folder.resolve("season"), "--reader", "Ada");
  }

  /** The journal replayed gives the same state, whatever a test did. */
  @AfterEach
  void theJournalTellsTheSame() {
    run("check", archive);
  }

  private void photograph(String name) throws IOException {
    Path file = folder.resolve("season").resolve(name);
    Files.createDirectories(file.getParent());
    BufferedImage picture = new BufferedImage(60, 40, BufferedImage.TYPE_INT_RGB);
    picture.setRGB(0, 0, ++shades);
    ImageIO.write(picture, "png", file.toFile());
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  private Ran marker(Object... words) {
    return run(
        Stream.of(new Object[] {"marker", archive}, words, new Object[] {"--reader", "Ada"})
            .flatMap(Stream::of)
            .toArray());
  }

  private void read(String... rows) throws IOException {
    Path file = folder.resolve("readings.tsv");
    Files.writeString(file, "marker\tface\tline\ttext\n" + String.join("\n", rows) + "\n");
    run("confirm", archive, "--from", file, "--reader", "Bert");
  }

  /** What lies on a marker: file names by face. */
  private String on(String number) {
    return run("markers", archive).outLines().stream()
        .filter(line -> line.startsWith(number + " ") || line.equals(number))
        .findFirst()
        .orElse("none");
  }

  private String filesOn(String number) {
    return String.join(
        " ",
        run("photographs", archive, "--marker", number).outLines().stream()
            .flatMap(line -> Stream.of(line.split("\\s+")))
            .filter(word -> word.endsWith(".png"))
            .map(word -> word.substring(word.lastIndexOf('/') + 1))
            .toList());
  }

  private List<String> search(String query) {
    run("index", archive);
    return Ran.command("search", archive, query).outLines();
  }

  @Test
  void aMarkerCountedTwiceIsOneAndFoundByBothNumbers() throws Exception {
    read("22\tfront\t1\tELI HOLT");
    run("condition", archive, "22", "leaning", "--on", "2026-05-04", "--reader", "Ada");
    run("question", archive, "raise", "Who was he?", "--marker", "22", "--reader", "Ada");
    run("link", archive, "22", "footstone-of", "30", "--reader", "Ada");
    Ran merged = marker("merge", "22", "--into", "21");
    assertThat(merged.out())
        .contains("22 front -> 21 front: 1 photograph, the reading by Bert")
        .contains("22 back -> 21 back: 1 photograph");
    assertThat(merged.err()).isEmpty();
    assertThat(on("21")).isEqualTo("21 (also 22)  back: 1 photograph  front: 2 photographs, read");
    assertThat(on("22")).isEqualTo("none");
    assertThat(filesOn("22")).isEqualTo(filesOn("21")).isEqualTo("a.png b.png c.png");
    for (String number : List.of("21", "22")) {
      assertThat(search("marker:" + number)).as(number).anyMatch(line -> line.contains("ELI HOLT"));
      assertThat(run("conditions", archive, "--marker", number).out()).contains("leaning");
    }
    assertThat(run("questions", archive).out()).contains("21").doesNotContain("22");
    assertThat(run("links", archive).out()).startsWith("21  footstone of 30");
  }

  @Test
  void oneUndoPartsThemAgain() throws Exception {
    read("22\tfront\t1\tELI HOLT");
    String before = run("markers", archive, "--json").out();
    marker("merge", "22", "--into", "21");
    run("undo", archive, "--reader", "Ada");
    assertThat(run("markers", archive, "--json").out()).isEqualTo(before);
    assertThat(filesOn("22")).isEqualTo("b.png c.png");
  }

  @Test
  void twoReadingsOfOneFaceBothStayWithAWarning() throws Exception {
    read("22\tfront\t1\tELI HOLT", "21\tfront\t1\tELI H[OLT]");
    Ran merged = marker("merge", "22", "--into", "21");
    assertThat(merged.err()).contains("22 front and 21 front were both read");
    assertThat(on("21"))
        .isEqualTo(
            "21 (also 22)  back: 1 photograph  front: 2 photographs, read  front (22): 0"
                + " photographs, read");
    run("undo", archive, "--reader", "Ada");
    assertThat(on("22")).isEqualTo("22  back: 1 photograph  front: 1 photograph, read");
  }

  @Test
  void markersMergedOneAfterTheOtherAreFoundByEveryNumber() {
    run("renumber", archive, "32", "33", "--reader", "Ada");
    marker("merge", "33", "--into", "31");
    marker("merge", "31", "--into", "30");
    for (String number : List.of("30", "31", "32", "33", "0033")) {
      assertThat(filesOn(number)).as(number).isEqualTo("d.png e.png f.png");
    }
  }

  @Test
  void theNumberOfAMergedMarkerIsNotGivenAgain() {
    marker("merge", "22", "--into", "21");
    Ran again = Ran.command("renumber", archive, "30", "22", "--reader", "Ada");
    assertThat(again.code()).isEqualTo(1);
    assertThat(again.err()).contains("Marker 22 was merged into 21");
  }

  @Test
  void aCardOrManifestWithTheOldNumberLeadsToTheMarkerThatStays() throws Exception {
    marker("merge", "22", "--into", "21");
    photograph("later/g.png");
    Path manifest = folder.resolve("season/later/manifest.csv");
    Files.writeString(manifest, "file,marker\ng.png,22\n");
    run(
        "ingest",
        archive,
        folder.resolve("season/later"),
        "--manifest",
        manifest,
        "--reader",
        "Ada");
    assertThat(filesOn("21")).contains("g.png");
  }

  @Test
  void whatIsWithheldOfAMarkerIsWithheldOfTheOneItIsPartOf() throws Exception {
    read("22\tfront\t1\tELI HOLT died 1820");
    run(
        "withhold",
        archive,
        "marker",
        "22",
        "--why",
        "family",
        "--reason",
        "asked",
        "--on",
        "2026-05-04",
        "--reader",
        "Ada");
    marker("merge", "22", "--into", "21");
    Path out = folder.resolve("out");
    Ran.command("export", archive, "--to", out, "--as-of", "2026-11-25", "--tables");
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        assertThat(Files.readString(file)).as(file.toString()).doesNotContain("HOLT");
      }
    }
  }

  @Test
  void aMergedMarkerIsWithdrawnWithAllItsNumbers() throws Exception {
    read("22\tfront\t1\tELI HOLT");
    run("condition", archive, "22", "leaning", "--on", "2026-05-04", "--reader", "Ada");
    marker("merge", "22", "--into", "21");
    run("withdraw", archive, "--marker", "21", "--reason", "asked", "--seal", "--reader", "Ada");
    assertThat(on("21")).isEqualTo("none");
    assertThat(run("conditions", archive).out()).doesNotContain("leaning");
    assertThat(Ran.command("photographs", archive, "--marker", "22").err())
        .contains("no marker 22");
  }

  @Test
  void oneMarkerThatIsTwoIsSplitByPhotographsOrFaces() throws Exception {
    read("22\tfront\t1\tELI HOLT");
    Ran looked = marker("split", "22", "b.png", "--into", "22a", "--face", "back", "--dry-run");
    assertThat(on("22a")).isEqualTo("none");
    Ran split = marker("split", "22", "b.png", "--into", "22a", "--face", "back");
    assertThat(split.outLines().subList(0, 2)).isEqualTo(looked.outLines().subList(0, 2));
    assertThat(split.outLines())
        .startsWith("22 front -> 22a front: b.png", "22 back -> 22a back: 1 photograph");
    assertThat(split.err()).contains("22 front: the reading by Bert stays there.");
    assertThat(filesOn("22a")).isEqualTo("b.png c.png");
    run("undo", archive, "--reader", "Ada");
    assertThat(filesOn("22")).isEqualTo("b.png c.png");
    assertThat(on("22a")).endsWith("(no photograph, nothing read)");
    run("withdraw", archive, "--marker", "22a", "--reason", "none", "--seal", "--reader", "Ada");
    assertThat(on("22a")).isEqualTo("none");
    assertThat(on("22")).endsWith("back: 1 photograph  front: 1 photograph, read");
  }

  @Test
  void aFaceOfAnotherMarkerMovesWithItsReadingAndPhotographs() throws Exception {
    read("22\tback\t1\tELI HOLT");
    marker("move", "22", "--face", "back", "--into", "30");
    assertThat(on("22")).isEqualTo("22  front: 1 photograph");
    assertThat(on("30")).isEqualTo("30  back: 1 photograph, read  front: 1 photograph");
  }

  @Test
  void aReadingSignedOnTheWrongMarkerMovesAloneAndPhotographsStay() throws Exception {
    read("30\tfront\t1\tELI HOLT");
    marker("move", "30", "--into", "31", "--only-reading");
    assertThat(on("30")).isEqualTo("30  front: 1 photograph");
    assertThat(on("31")).isEqualTo("31  front: 1 photograph, read");
    assertThat(filesOn("30")).isEqualTo("d.png");
    assertThat(filesOn("31")).isEqualTo("e.png");
    Ran refused =
        Ran.command(
            "marker", archive, "move", "30", "--into", "31", "--only-reading", "--reader", "Ada");
    assertThat(refused.err()).contains("Nobody has read 30 front");
    run("undo", archive, "--reader", "Ada");
    assertThat(on("30")).isEqualTo("30  front: 1 photograph, read");
  }

  @Test
  void afterAManifestOffByARowReadingsGoWithTheirPhotographs() throws Exception {
    read("30\tfront\t1\tREAD OF D", "31\tfront\t1\tREAD OF E");
    Path table = folder.resolve("season/right.csv");
    Files.writeString(table, "file,marker\n30/d.png,31\n31/e.png,32\n32/f.png,30\n");
    String before = run("markers", archive, "--json").out();
    Ran moved = run("assign", archive, "--from", table, "--with-readings", "--reader", "Ada");
    assertThat(moved.err()).isEmpty();
    assertThat(moved.out()).contains("30 front -> 31 front: the reading by Bert");
    assertThat(filesOn("31")).isEqualTo("d.png");
    assertThat(search("READ").stream().filter(line -> line.contains("READ OF")).toList())
        .hasSize(2);
    assertThat(search("marker:31")).anyMatch(line -> line.contains("READ OF D"));
    assertThat(search("marker:32")).anyMatch(line -> line.contains("READ OF E"));
    assertThat(on("30")).isEqualTo("30  front: 1 photograph");
    run("undo", archive, "--reader", "Ada");
    assertThat(run("markers", archive, "--json").out()).isEqualTo(before);
  }
}
