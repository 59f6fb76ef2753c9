package rakelight.relief;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Cut;
import rakelight.samples.Lamp;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * What the relief images of one photograph bring, on rendered stones whose letters and light are
 * known. Not run with the tests; see docs/measurements.md.
 *
 * <p>How well an eye sees a letter isn't measured: no people were asked. What stands in for it is
 * how well the brightness of single pixels tells the inside of letters from the stone within a
 * third of a capital beside them: the area under the ROC curve, the chance that a pixel inside is
 * darker than one beside, 0.5 for guessing; and by how much it is darker on average, in parts of
 * the full range. {@code -Drakelight.pictures=FOLDER} keeps the pictures.
 */
class OnePhotographBenchmark {
  /** Nothing was chosen with stones of these seeds. */
  private static final long SEED = Long.getLong("rakelight.seed", 970_000);

  private static final int STONES = Integer.getInteger("rakelight.stones", 80);
  private static final int WIDTH_PX = 1300;

  /** Outlines of faces take in this much more than the text on every side. */
  private static final double AROUND = 0.25;

  private static final double MM = 0.5;

  /**
   * Of the height of a line's ink, which has ascenders and descenders, capitals have about this.
   */
  private static final double CAPITAL_OF_INK = 0.72;

  private final Map<String, double[]> seen = new TreeMap<>();
  private final Map<String, double[]> lights = new TreeMap<>();
  private final Map<String, int[]> coloured = new TreeMap<>();

  @Test
  void lettersAgainstStoneAndLightAgainstTruth() throws IOException, PictureException {
    for (int i = 0; i < STONES; i++) {
      measure(i);
    }
    System.out.println("| stones | picture | inside darker | contrast | photographs |");
    System.out.println("|---|---|---|---|---|");
    seen.forEach(
        (what, sum) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %.3f | %.3f | %.0f |%n",
                what,
                sum[0] / sum[2],
                sum[1] / sum[2],
                sum[2]));
    System.out.println(
        "| light | along its line, degrees | side, degrees | turned about | stones |");
    System.out.println("|---|---|---|---|---|");
    lights.forEach(
        (what, sum) ->
            System.out.printf(
                Locale.ROOT,
                "| %s | %.1f | %.1f | %.1f | %.0f | %.0f |%n",
                what,
                sum[0] / sum[4],
                sum[1] / sum[4],
                sum[2] / sum[4],
                sum[3],
                sum[4]));
    coloured.forEach(
        (what, counts) ->
            System.out.printf("%s: taken for coloured %d of %d%n", what, counts[0], counts[1]));
  }

  /** Time of one thread for the pictures of a face, not counting the decoding and squaring. */
  @Test
  void processorTimeAndMemoryOfTwoHundredFaces() throws IOException, PictureException {
    SampleFace face =
        StoneMaker.random(SEED, Material.MARBLE, Weathering.LIGHT, Typeface.values()[0]);
    RenderedPhotograph photograph = Renderer.render(face, StoneMaker.view(face, 3000, SEED), SEED);
    Shown shown = shown(face, photograph);
    var threads = ManagementFactory.getThreadMXBean();
    long start = 0;
    long resident = 0;
    for (int i = -10; i < 200; i++) {
      if (i == 0) {
        start = threads.getCurrentThreadCpuTime();
        resident = residentKb();
      }
      Relief.of(shown.squared, shown.capitalPx, shown.lines);
    }
    System.out.printf(
        Locale.ROOT,
        "face of %d x %d pixels, capitals of %.0f: %.1f ms of one thread; resident %d MB after 10,"
            + " %d MB after 210%n",
        shown.squared.widthPx(),
        shown.squared.heightPx(),
        shown.capitalPx,
        (threads.getCurrentThreadCpuTime() - start) / 200e6,
        resident / 1024,
        residentKb() / 1024);
  }

  private static long residentKb() throws IOException {
    for (String line : Files.readAllLines(Path.of("/proc/self/status"))) {
      if (line.startsWith("VmRSS:")) {
        return Long.parseLong(line.replaceAll("\\D", ""));
      }
    }
    return 0;
  }

  /** The face with something of what stands around, squared, and what of it is inside letters. */
  private record Shown(GrayImage squared, double capitalPx, List<Polygon> lines, float[] inside) {}

  private void measure(int i) throws IOException, PictureException {
    long seed = SEED + i;
    Weathering wear = i / 5 % 2 == 0 ? Weathering.LIGHT : Weathering.HEAVY;
    SampleFace face =
        StoneMaker.random(
            seed,
            Material.values()[i % 5],
            wear,
            Typeface.values()[(int) (seed % Typeface.values().length)]);
    View view = StoneMaker.view(face, WIDTH_PX, seed);
    boolean lamp = i % 3 == 2;
    if (lamp) {
      SplittableRandom random = new SplittableRandom(seed * 7 + 1);
      view = view.with(Lamp.raking(face, random.nextDouble(0, 360), random.nextDouble(9, 22)), 1);
    }
    Shown shown = shown(face, Renderer.render(face, view, seed));
    Relief relief = Relief.of(shown.squared, shown.capitalPx, shown.lines);
    double[] towards = view.light().inFrameOf(face);
    double grazing = Math.toDegrees(Math.asin(towards[2]));
    boolean sun = view.light().sun() > 0 && !view.light().dappled();
    String light =
        !sun
            ? "shade, dappled"
            : grazing < 20
                ? "light at 8 to 20 degrees"
                : grazing < 35 ? "light at 20 to 35" : "light at 35 to 60";
    boolean colour = face.stone().finish().stream().anyMatch(COLOURS::contains);
    for (ReliefImage image : relief.images()) {
      double[] eye = eye(image, shown);
      for (String stones :
          List.of("all", wear == Weathering.LIGHT ? "light wear" : "heavy wear", light)) {
        add(seen, stones + " | " + image.name(), eye[0], Math.abs(eye[1]), 1);
      }
      keep(face, image);
    }
    if (sun && grazing < 35 && relief.lettering().shaded()) {
      double truth = Math.toDegrees(Math.atan2(towards[0], towards[1]));
      double full = apart(truth, relief.lettering().light().aroundDegrees());
      String kind =
          (lamp ? "lamp on any side" : "sun")
              + (face.stone().cut() == Cut.RAISED ? ", raised" : ", cut");
      double second = apart(truth, secondMoment(shown));
      add(
          lights,
          kind,
          Math.min(second, 180 - second),
          Math.min(full, 180 - full),
          full,
          full > 90 ? 1 : 0,
          1);
    }
    int[] counts =
        coloured.computeIfAbsent(
            colour
                ? (face.stone().finish().contains("polished") ? "polished" : "painted, gilded")
                    + ", "
                    + wear
                : "others",
            k -> new int[2]);
    counts[0] += relief.lettering().coloured() ? 1 : 0;
    counts[1]++;
  }

  private static final List<String> COLOURS = List.of("polished", "painted", "gilded");

  /** The line that light falls along by the mean structure tensor, for comparison. */
  private static double secondMoment(Shown shown) {
    try (NativeScope scope = new NativeScope()) {
      Mat shade = Relief.shade(shown.squared.in(scope), shown.capitalPx, scope);
      double sigma = shown.capitalPx / 20;
      Imgproc.GaussianBlur(shade, shade, new Size(), sigma, sigma);
      float[] values = new float[shade.rows() * shade.cols()];
      shade.get(0, 0, values);
      ShadingAzimuth line = ShadingAzimuth.of(values, shade.cols(), shade.rows());
      return Math.toDegrees(Math.atan2(line.x(), line.y()));
    }
  }

  private static void add(Map<String, double[]> sums, String key, double... values) {
    double[] sum = sums.computeIfAbsent(key, k -> new double[values.length]);
    for (int i = 0; i < values.length; i++) {
      sum[i] += values[i];
    }
  }

  private static double apart(double a, double b) {
    double apart = Math.abs(a - b) % 360;
    return Math.min(apart, 360 - apart);
  }

  private static void keep(SampleFace face, ReliefImage image) throws IOException {
    String folder = System.getProperty("rakelight.pictures", "");
    if (!folder.isEmpty()) {
      Files.createDirectories(Path.of(folder));
      Files.write(
          Path.of(folder, face.marker() + "-" + image.name() + ".jpg"),
          Picture.jpeg(image.image(), 85));
    }
  }

  private static Shown shown(SampleFace face, RenderedPhotograph photograph)
      throws IOException, PictureException {
    Homography toImage = Homography.of(photograph.faceToImage());
    Homography toFace = toImage.inverse();
    List<Point> ink = new ArrayList<>();
    List<Double> heights = new ArrayList<>();
    List<Polygon> lines = new ArrayList<>();
    for (RenderedPhotograph.Line line : photograph.lines()) {
      int half = line.polygon().size() / 2;
      double height = 0;
      for (int k = 0; k < line.polygon().size(); k++) {
        var corner = line.polygon().get(k);
        ink.add(toFace.map(new Point(corner.getX(), corner.getY())));
        if (k < half) {
          height += corner.distance(line.polygon().get(line.polygon().size() - 1 - k)) / half;
        }
      }
      heights.add(height);
      lines.add(
          new Polygon(line.polygon().stream().map(p -> new Point(p.getX(), p.getY())).toList()));
    }
    heights.sort(null);
    Polygon block = new Polygon(ink);
    double across = AROUND * (block.right() - block.left());
    double down = AROUND * (block.bottom() - block.top());
    Polygon outline =
        Polygon.rectangle(
                block.left() - across,
                block.top() - down,
                block.right() + across,
                block.bottom() + down)
            .map(toImage::map);
    SquaredFace squared =
        SquaredFace.of(Picture.upright(photograph.jpeg(), 1), outline, Optional.empty());
    int w = squared.image().widthPx();
    int h = squared.image().heightPx();
    float[] letters = Renderer.letters(face, MM);
    int wide = Math.max(8, (int) Math.round(face.stone().widthMm() / MM));
    Homography there = squared.toPhotograph().then(toFace);
    float[] inside = new float[w * h];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        Point mm = there.map(new Point(x + 0.5, y + 0.5));
        int u = (int) (mm.x() / MM);
        int v = (int) (mm.y() / MM);
        boolean on = u >= 0 && v >= 0 && u < wide && v < letters.length / wide;
        inside[y * w + x] = on ? letters[v * wide + u] : 0;
      }
    }
    double scale = Math.sqrt((double) w * h / outline.area());
    return new Shown(
        squared.image(),
        CAPITAL_OF_INK * scale * heights.get(heights.size() / 2),
        lines.stream().map(line -> line.map(squared.toPhotograph().inverse()::map)).toList(),
        inside);
  }

  /**
   * The chance that inside is darker than beside, and the difference of their means. On pictures
   * that show letters as they come, bright or dark, the other way about where that is better.
   */
  private static double[] eye(ReliefImage image, Shown shown) {
    int w = shown.squared.widthPx();
    int h = shown.squared.heightPx();
    int near = (int) Math.max(1, shown.capitalPx / 3);
    // Pixels inside letters, summed from the upper left, to see whether any lies near.
    int[] table = new int[(w + 1) * (h + 1)];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        table[(y + 1) * (w + 1) + x + 1] =
            table[y * (w + 1) + x + 1]
                + table[(y + 1) * (w + 1) + x]
                - table[y * (w + 1) + x]
                + (shown.inside[y * w + x] > 0.5 ? 1 : 0);
      }
    }
    long[] inside = new long[256];
    long[] beside = new long[256];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        float part = shown.inside[y * w + x];
        if (part > 0.8) {
          inside[image.image().at(x, y)]++;
        } else if (part < 0.1) {
          int left = Math.max(0, x - near);
          int top = Math.max(0, y - near);
          int right = Math.min(w, x + near + 1);
          int bottom = Math.min(h, y + near + 1);
          int letters =
              table[bottom * (w + 1) + right]
                  - table[top * (w + 1) + right]
                  - table[bottom * (w + 1) + left]
                  + table[top * (w + 1) + left];
          if (letters > 0) {
            beside[image.image().at(x, y)]++;
          }
        }
      }
    }
    double brighter = 0;
    double wins = 0;
    double[] sum = new double[4];
    for (int value = 255; value >= 0; value--) {
      wins += inside[value] * (brighter + beside[value] / 2.0);
      brighter += beside[value];
      sum[0] += inside[value];
      sum[1] += beside[value];
      sum[2] += (double) value * inside[value];
      sum[3] += (double) value * beside[value];
    }
    double area = wins / (sum[0] * sum[1]);
    boolean either = !image.name().equals("cut");
    return new double[] {
      either ? Math.max(area, 1 - area) : area, (sum[3] / sum[1] - sum[2] / sum[0]) / 255
    };
  }
}
