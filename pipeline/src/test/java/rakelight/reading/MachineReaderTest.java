package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.finding.Found;
import rakelight.finding.FoundLine;
import rakelight.finding.LineFinder;
import rakelight.measure.ErrorRate;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Samples;
import rakelight.samples.StoneSet;
import rakelight.samples.Weathering;

class MachineReaderTest {
  @TempDir static Path folder;
  private static int liveBefore;

  @BeforeAll
  static void copyThePhotographs() throws Exception {
    liveBefore = NativeScope.live();
    Samples.copyCommitted(folder);
  }

  @AfterAll
  static void everyHandleIsClosed() {
    assertThat(NativeScope.live()).isEqualTo(liveBefore);
  }

  @Test
  void aLegibleStoneIsReadLineByLine() throws Exception {
    // The side of a family monument: four lines, all of them legible by the samples' own truth.
    try (MachineReader reader = MachineReader.standard()) {
      ReadPicture read =
          reader.read(Picture.upright(Files.readAllBytes(folder.resolve("M21-E.jpg")), 1));

      assertThat(read.lines()).hasSize(4);
      String text =
          read.lines().stream().map(l -> l.lattice().best()).collect(Collectors.joining(" "));
      String truth =
          "CAPT. SILAS PENHALLIS Born April 2, 1819 Died Oct. 30, 1884 Anchored within the veil";
      assertThat(ErrorRate.ofLetters(truth, text).rate()).isLessThan(0.05);
    }
  }

  @Test
  void wordsRoundADiscAreOneLine() throws Exception {
    new StoneSet(1, 5_260_009, 1200, List.of(Weathering.LIGHT), "ringed", 1)
        .writeTo(folder.resolve("ringed"));
    try (MachineReader reader = MachineReader.standard()) {
      ReadPicture read =
          reader.read(
              Picture.upright(Files.readAllBytes(folder.resolve("ringed/R5260009.jpg")), 1));

      String truth = Truth.read(folder.resolve("ringed/truth.tsv")).get(0).text();
      assertThat(read.lines())
          .anySatisfy(
              line ->
                  assertThat(ErrorRate.ofLetters(truth, line.lattice().best()).rate())
                      .isLessThan(0.1));
    }
  }

  @Test
  void whatOnlyASecondLookSeesOfAStoneIsReadThoughOtherLinesAreUnsure() {
    byte[] grey = new byte[640 * 480];
    for (int i = 0; i < grey.length; i++) {
      grey[i] = (byte) (i / 640 < 160 ? 50 : i / 640 < 320 ? 100 : 150);
    }
    Recogniser byShade =
        reads(
            shade -> shade < 75 ? "" : shade < 125 ? "DIED 1848" : "AHEIN",
            shade -> shade < 125 ? .8 : .4);
    try (MachineReader reader =
        new MachineReader(
            List.of(new FindsAt(80)),
            Optional.of(new FindsAt(240, 400)),
            List.of(new MachineReader.Voice(byShade, 1)),
            Odds.PLAIN)) {
      assertThat(reader.read(new GrayImage(640, 480, grey)).lines())
          .extracting(line -> line.lattice().best())
          .containsExactly("DIED 1848");
    }
  }

  @Test
  void whatASecondLookFindsIsShownToTheOtherRecognisersOnlyIfTheFirstSeesLettersThere() {
    byte[] grey = new byte[640 * 480];
    for (int i = 0; i < grey.length; i++) {
      grey[i] = (byte) (i / 640 < 160 ? 50 : i / 640 < 320 ? 100 : 150);
    }
    List<Integer> asked = new ArrayList<>();
    Recogniser first =
        reads(shade -> shade < 75 ? "BORN 1790" : shade < 125 ? "DIED 1848" : "", shade -> .9);
    Recogniser other =
        reads(
            shade -> {
              asked.add(shade);
              return shade < 75 ? "BORN 1790" : "DIED 1848";
            },
            shade -> .9);
    try (MachineReader reader =
        new MachineReader(
            List.of(new FindsAt(80)),
            Optional.of(new FindsAt(240, 400)),
            List.of(new MachineReader.Voice(first, 1), new MachineReader.Voice(other, 1)),
            Odds.PLAIN)) {
      assertThat(reader.read(new GrayImage(640, 480, grey)).lines()).hasSize(2);
    }
    assertThat(asked).containsExactlyInAnyOrder(50, 100);
  }

  @Test
  void aSmallStoneInAWidePictureIsReadAsInALargeOne() throws Exception {
    GrayImage large = Picture.upright(Files.readAllBytes(folder.resolve("M21-E.jpg")), 1);
    GrayImage wide = new GrayImage(7000, 5000, field(7000, 5000, large, 4400, 2400));
    try (MachineReader reader = MachineReader.standard()) {
      String read =
          reader.read(wide).lines().stream()
              .map(line -> line.lattice().best())
              .collect(Collectors.joining(" "));

      String truth =
          "CAPT. SILAS PENHALLIS Born April 2, 1819 Died Oct. 30, 1884 Anchored within the veil";
      assertThat(ErrorRate.ofLetters(truth, read).rate()).isLessThan(0.05);
    }
  }

  /** Grey meadow with a picture in it, a third as large. */
  private static byte[] field(int width, int height, GrayImage picture, int left, int top) {
    byte[] grey = new byte[width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        grey[y * width + x] = (byte) (90 + (x * 7 + y * 13) % 17);
      }
    }
    for (int y = 0; y < picture.heightPx() / 3; y++) {
      for (int x = 0; x < picture.widthPx() / 3; x++) {
        int sum = 0;
        for (int k = 0; k < 9; k++) {
          sum += picture.at(3 * x + k % 3, 3 * y + k / 3);
        }
        grey[(top + y) * width + left + x] = (byte) (sum / 9);
      }
    }
    return grey;
  }

  @Test
  void datesWithALongDashBetweenAreOneLine() throws Exception {
    assertThat(readAs(9_791_404)).contains("B. 1776 — D. 1853").hasSize(6);
  }

  @Test
  void eachNameOfARollInColumnsIsALine() throws Exception {
    List<String> read = readAs(9_791_414).stream().map(line -> line.replace(" ", "")).toList();
    List<String> truth = truthOf(9_791_414).stream().map(line -> line.replace(" ", "")).toList();
    assertThat(read).containsExactlyElementsOf(truth);
  }

  /** What is read on a stone whose rows are parted by dashes, gaps or columns. */
  private static List<String> readAs(long seed) throws Exception {
    new StoneSet(1, seed, 1200, List.of(Weathering.LIGHT), "parted", 1)
        .writeTo(folder.resolve("parted"));
    try (MachineReader reader = MachineReader.standard()) {
      byte[] bytes = Files.readAllBytes(folder.resolve("parted/R" + seed + ".jpg"));
      return reader.read(Picture.upright(bytes, 1)).lines().stream()
          .map(line -> line.lattice().best())
          .toList();
    }
  }

  private static List<String> truthOf(long seed) throws Exception {
    return Truth.read(folder.resolve("parted/truth.tsv")).stream()
        .filter(line -> line.file().equals("R" + seed + ".jpg"))
        .map(TruthLine::text)
        .toList();
  }

  @Test
  void bareStoneSaysNothing() {
    byte[] grey = new byte[640 * 480];
    java.util.Arrays.fill(grey, (byte) 128);
    try (MachineReader reader = MachineReader.standard()) {
      assertThat(reader.read(new GrayImage(640, 480, grey)).lines()).isEqualTo(List.of());
    }
  }

  @Test
  void fewLettersThatAreUnsureAreGrainAndFewThatAreSureAreALine() {
    assertThat(MachineReader.believed(ViewBuilder.lattice("XE", .55))).isFalse();
    assertThat(MachineReader.believed(ViewBuilder.lattice("E T", .7))).isTrue();
    assertThat(MachineReader.believed(ViewBuilder.lattice("HANNAH WREN", .55))).isTrue();
    assertThat(MachineReader.believed(new LineLattice(List.of()))).isFalse();
  }

  @Test
  void aPictureWithoutLinesAsItLiesIsLookedAtTheOtherWaysRound() {
    try (MachineReader reader =
        new MachineReader(new OnItsSide(), List.of(new MachineReader.Voice(says(.9), 1)))) {
      ReadPicture read = reader.read(new GrayImage(300, 600, new byte[300 * 600]));

      assertThat(read.lines()).hasSize(1);
      assertThat(read.lines().get(0).line().ribbon().contains(new Point(150, 300))).isTrue();
    }
  }

  @Test
  void aStoneOnItsHeadIsTurnedHoweverSurelyItsLettersAreTakenForOthers() {
    // Read by what lies just below the middle of its line: shade on a stone on its head.
    Recogniser reader = reads(shade -> shade < 75 ? "N3HM HVNNVH" : "HANNAH WREN", shade -> .85);
    assertThat(readHalfShaded(reader, true)).containsExactly("N3HM HVNNVH");

    Recogniser surer =
        reads(shade -> shade < 75 ? "N3HM HVNNVH" : "HANNAH WREN", shade -> shade < 75 ? .85 : .95);
    assertThat(readHalfShaded(surer, true)).containsExactly("HANNAH WREN");
    assertThat(readHalfShaded(surer, false)).containsExactly("HANNAH WREN");
  }

  /** What is read where one half of a picture lies in the shade, along the middle of a line. */
  private static List<String> readHalfShaded(Recogniser recogniser, boolean below) {
    byte[] grey = new byte[640 * 480];
    for (int i = 0; i < grey.length; i++) {
      grey[i] = (byte) (i / 640 < 240 == below ? 150 : 50);
    }
    try (MachineReader reader =
        new MachineReader(new FindsAt(240), List.of(new MachineReader.Voice(recogniser, 1)))) {
      return reader.read(new GrayImage(640, 480, grey)).lines().stream()
          .map(line -> line.lattice().best())
          .toList();
    }
  }

  @Test
  void grainIsNotReadOnlyBecauseAPictureIsLookedAtFourWays() {
    try (MachineReader reader =
        new MachineReader(new OnItsSide(), List.of(new MachineReader.Voice(says(.5), 1)))) {
      assertThat(reader.read(new GrayImage(300, 600, new byte[300 * 600])).lines()).isEmpty();
    }
  }

  @Test
  void aPlaceThatIsHardlySeenIsKeptBesideTheLinesAndIsNoneOfThem() {
    ReadPicture read = hardlySeen("HANNAH WREN", .7);

    // Of the places one lies on the line, one on another stone.
    assertThat(read.lines()).extracting(line -> line.line().score()).containsExactly(.9);
    assertThat(read.passedOver()).extracting(line -> line.line().score()).containsExactly(.2);
    assertThat(read.passedOver().get(0).lattice().best()).isEqualTo("HANNAH WREN");
  }

  @Test
  void aShortWordThatIsSurelyReadWhereALineWouldStandIsOne() {
    ReadPicture read = hardlySeen("OF", .9);
    assertThat(read.lines()).extracting(line -> line.line().score()).containsExactly(.9, .2);
    assertThat(read.passedOver()).isEmpty();

    assertThat(hardlySeen("I", .9).lines()).hasSize(1);
  }

  private static ReadPicture hardlySeen(String said, double p) {
    Recogniser recogniser = reads(shade -> said, shade -> p);
    try (MachineReader reader =
        new MachineReader(new HardlySeen(), List.of(new MachineReader.Voice(recogniser, 1)))) {
      return reader.read(new GrayImage(600, 600, new byte[600 * 600]));
    }
  }

  /** One line, and three places where it hardly sees anything. */
  private static final class HardlySeen implements LineFinder {
    @Override
    public String name() {
      return "hardly-seen";
    }

    @Override
    public String digest() {
      return "none";
    }

    @Override
    public Found find(GrayImage upright) {
      return new Found(
          Polygon.rectangle(0, 0, 400, 600),
          2.0 / 3,
          List.of(line(50, 300, 100, .9)),
          List.of(),
          List.of(Polygon.rectangle(420, 0, 600, 600)),
          List.of(),
          List.of(line(60, 290, 104, .3), line(50, 300, 200, .2), line(440, 590, 200, .25)));
    }

    private static FoundLine line(double left, double right, double middle, double score) {
      return new FoundLine(Polygon.rectangle(left, middle - 10, right, middle + 10), 20, score);
    }

    @Override
    public void close() {}
  }

  /** Finds one line in the middle of pictures that are wider than high, and none in others. */
  private static final class OnItsSide implements LineFinder {
    @Override
    public String name() {
      return "on-its-side";
    }

    @Override
    public String digest() {
      return "none";
    }

    @Override
    public Found find(GrayImage upright) {
      int w = upright.widthPx();
      int h = upright.heightPx();
      Polygon ribbon = Polygon.rectangle(w / 2.0 - 100, h / 2.0 - 10, w / 2.0 + 100, h / 2.0 + 10);
      return new Found(
          Polygon.rectangle(0, 0, w, h),
          (double) w / h,
          w > h ? List.of(new FoundLine(ribbon, 20, .9)) : List.of());
    }

    @Override
    public void close() {}
  }

  /** Finds lines 40 pixels high at these heights of pictures that are wider than high. */
  private record FindsAt(int... middles) implements LineFinder {
    @Override
    public String name() {
      return "finds-at";
    }

    @Override
    public String digest() {
      return "none";
    }

    @Override
    public Found find(GrayImage upright) {
      List<FoundLine> lines =
          Arrays.stream(upright.widthPx() > upright.heightPx() ? middles : new int[0])
              .mapToObj(y -> new FoundLine(Polygon.rectangle(100, y - 20, 500, y + 20), 40, .9))
              .toList();
      return new Found(
          Polygon.rectangle(0, 0, upright.widthPx(), upright.heightPx()), 640.0 / 480, lines);
    }

    @Override
    public void close() {}
  }

  private static Recogniser says(double p) {
    return reads(shade -> "HANNAH WREN", shade -> p);
  }

  /** Reads by the shade in the middle of a strip, 0 to 255. */
  private static Recogniser reads(IntFunction<String> text, IntToDoubleFunction p) {
    return new Recogniser() {
      @Override
      public String name() {
        return "reads-shades";
      }

      @Override
      public String digest() {
        return "none";
      }

      @Override
      public List<LineLattice> read(List<GrayImage> strips) {
        return strips.stream()
            .map(strip -> strip.at(strip.widthPx() / 2, strip.heightPx() / 2))
            .map(shade -> ViewBuilder.lattice(text.apply(shade), p.applyAsDouble(shade)))
            .toList();
      }

      @Override
      public void close() {}
    };
  }
}
