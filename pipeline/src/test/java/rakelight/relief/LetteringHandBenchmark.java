package rakelight.relief;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.LetteringSet;
import rakelight.samples.Typeface;
import rakelight.samples.Weathering;

/**
 * How well faces by one cutter are found among faces of the same typeface by others, and among all:
 * mean average precision, beside the mean difference of pixels. Letters stand where a machine would
 * say, a little off: a sixteenth of a capital along the line and up to so much in its height.
 * {@code -Dlettering.folder} keeps the pictures; {@code -Dlettering.typefaces}, {@code
 * -Dlettering.seed}, {@code -Dlettering.strength=1}, {@code -Dlettering.cutters=5}, {@code
 * -Dlettering.stones=4}, {@code -Dlettering.wear=fresh,light,heavy}; {@code -Dlettering.whole=true}
 * also among all.
 */
class LetteringHandBenchmark {
  private static final int SIDE = LetterShape.SIDE;
  private static final double OFF = 1 / 16.0;

  private record One(
      String typeface,
      String cutter,
      Map<String, List<LetterShape>> letters,
      Map<String, List<LetterShape>> plain) {}

  private record Cell(String letter, Point at, double half, Point head, Point foot) {}

  @Test
  void meanAveragePrecision() throws Exception {
    Path folder = Path.of(System.getProperty("lettering.folder", "target/lettering"));
    if (!Files.exists(folder.resolve("letters.tsv"))) {
      new LetteringSet(
              Integer.getInteger("lettering.cutters", 5),
              Integer.getInteger("lettering.stones", 4),
              Long.getLong("lettering.seed", 1),
              1000,
              Stream.of(words("typefaces", "roman,serif,sans_bold,italic"))
                  .map(Typeface::valueOf)
                  .toList(),
              Stream.of(words("wear", "fresh,light,heavy")).map(Weathering::valueOf).toList(),
              Double.parseDouble(System.getProperty("lettering.strength", "1")))
          .writeTo(folder);
    }
    List<One> all = faces(folder);
    int n = all.size();
    double[][] like = new double[n][n];
    double[][] pixels = new double[n][n];
    long began = System.nanoTime();
    boolean whole = Boolean.getBoolean("lettering.whole");
    int pairs = 0;
    for (int i = 0; i < n; i++) {
      int me = i;
      List<Integer> others =
          IntStream.range(0, n)
              .filter(j -> j != me)
              .filter(j -> whole || all.get(j).typeface().equals(all.get(me).typeface()))
              .boxed()
              .toList();
      List<Optional<HandsCompared.Compared>> compared =
          HandsCompared.of(
              all.get(i).letters(), others.stream().map(j -> all.get(j).letters()).toList());
      for (int k = 0; k < others.size(); k++) {
        like[i][others.get(k)] = compared.get(k).map(HandsCompared.Compared::likeness).orElse(-9.0);
      }
      pairs += others.size();
    }
    double milliseconds = (System.nanoTime() - began) / 1e6 / pairs;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        pixels[i][j] = -difference(all.get(i).plain(), all.get(j).plain());
      }
    }
    double[][] chance = new double[n][n];
    SplittableRandom random = new SplittableRandom(4);
    Arrays.stream(chance).forEach(row -> Arrays.setAll(row, j -> random.nextDouble()));
    System.out.printf(
        Locale.ROOT,
        "%d faces, %.0f ms a pair; the cutter among his typeface: %.3f, by pixels %.3f, by chance"
            + " %.3f%n",
        n,
        milliseconds,
        precision(all, like, true),
        precision(all, pixels, true),
        precision(all, chance, true));
    if (whole) {
      System.out.printf(
          Locale.ROOT,
          "among all: %.3f, by pixels %.3f, by chance %.3f; the first is by the same cutter: %.2f%n",
          precision(all, like, false),
          precision(all, pixels, false),
          precision(all, chance, false),
          first(all, like));
    }
  }

  private static String[] words(String name, String otherwise) {
    return System.getProperty("lettering." + name, otherwise).toUpperCase(Locale.ROOT).split(",");
  }

  private static double precision(List<One> all, double[][] like, boolean ownTypeface) {
    double sum = 0;
    for (int me = 0; me < all.size(); me++) {
      int hits = 0;
      double precision = 0;
      List<Integer> order = order(all, like[me], me, ownTypeface);
      for (int k = 0; k < order.size(); k++) {
        if (all.get(order.get(k)).cutter().equals(all.get(me).cutter())) {
          hits++;
          precision += hits / (k + 1.0);
        }
      }
      sum += precision / Math.max(1, hits);
    }
    return sum / all.size();
  }

  /** How often the first of all is by the same cutter. */
  private static double first(List<One> all, double[][] like) {
    return IntStream.range(0, all.size())
            .filter(
                me ->
                    all.get(order(all, like[me], me, false).get(0))
                        .cutter()
                        .equals(all.get(me).cutter()))
            .count()
        / (double) all.size();
  }

  private static List<Integer> order(List<One> all, double[] row, int me, boolean ownTypeface) {
    return IntStream.range(0, all.size())
        .filter(i -> i != me)
        .filter(i -> !ownTypeface || all.get(i).typeface().equals(all.get(me).typeface()))
        .boxed()
        .sorted(Comparator.comparingDouble((Integer i) -> -row[i]))
        .toList();
  }

  /** Of letters that both have, as they are on the photograph at one height of capitals. */
  private static double difference(
      Map<String, List<LetterShape>> one, Map<String, List<LetterShape>> other) {
    double sum = 0;
    int letters = 0;
    for (Map.Entry<String, List<LetterShape>> entry : one.entrySet()) {
      for (LetterShape a : entry.getValue()) {
        for (LetterShape b : other.getOrDefault(entry.getKey(), List.of())) {
          double difference = 0;
          for (int i = 0; i < a.ink().length; i++) {
            difference += Math.abs(a.ink()[i] - b.ink()[i]) / a.ink().length;
          }
          sum += difference;
          letters++;
        }
      }
    }
    return letters == 0 ? 1000 : sum / letters;
  }

  private static List<One> faces(Path folder) throws Exception {
    Map<String, Map<String, List<Cell>>> files = new LinkedHashMap<>();
    Map<String, String[]> heads = new LinkedHashMap<>();
    List<String> rows = Files.readAllLines(folder.resolve("letters.tsv"));
    for (String row : rows.subList(1, rows.size())) {
      String[] cells = row.split("\t");
      heads.put(cells[0], cells);
      List<Point> cell = points(cells[7]);
      List<Point> capital = points(cells[8]);
      files
          .computeIfAbsent(cells[0], file -> new LinkedHashMap<>())
          .computeIfAbsent(cells[4], line -> new ArrayList<>())
          .add(
              new Cell(
                  cells[5],
                  new Polygon(cell).centre(),
                  cell.get(0).distance(cell.get(1)) / 2,
                  capital.get(0),
                  capital.get(1)));
    }
    List<One> all = new ArrayList<>();
    for (String file : files.keySet()) {
      GrayImage picture = Picture.upright(Files.readAllBytes(folder.resolve(file)), 1);
      SplittableRandom random = new SplittableRandom(17 + all.size());
      List<FindLettering.Line> lines = new ArrayList<>();
      for (List<Cell> line : files.getOrDefault(file, Map.of()).values()) {
        if (line.size() >= 2) {
          lines.add(line(line, random));
        }
      }
      String[] head = heads.getOrDefault(file, new String[0]);
      all.add(
          new One(
              head[2],
              head[3],
              FindLettering.look(picture, lines).byLetter(),
              new LetteringLook(plain(picture, lines)).byLetter()));
    }
    return all;
  }

  private static List<LetterShape> plain(GrayImage picture, List<FindLettering.Line> lines) {
    List<LetterShape> shapes = new ArrayList<>();
    for (FindLettering.Line line : lines) {
      LaidLine laid = LaidLine.own(new FoundLine(line.ribbon(), line.heightPx(), 1));
      GrayImage strip = LineStrip.cut(picture, List.of(laid), 2 * LetterShape.CAPITAL_PX, 2).get(0);
      byte[] pixels = strip.pixels();
      int top = (strip.heightPx() - SIDE) / 2;
      for (FindLettering.Letter letter : line.letters()) {
        double middle = (letter.from() + letter.to()) / 2 * strip.widthPx();
        int left = (int) Math.round(middle - SIDE / 2.0);
        if (left >= 0 && left + SIDE <= strip.widthPx()) {
          float[] square = new float[SIDE * SIDE];
          for (int i = 0; i < square.length; i++) {
            square[i] = pixels[(top + i / SIDE) * strip.widthPx() + left + i % SIDE] & 0xff;
          }
          shapes.add(new LetterShape(letter.letter(), square, 0));
        }
      }
    }
    return shapes;
  }

  private static FindLettering.Line line(List<Cell> cells, SplittableRandom random) {
    List<Point> ribbon = new ArrayList<>();
    List<Point> feet = new ArrayList<>();
    double up = random.nextDouble(-OFF, OFF);
    double down = random.nextDouble(-OFF, OFF);
    double height = 0;
    for (Cell cell : cells) {
      ribbon.add(cell.foot().towards(cell.head(), 1 + up));
      feet.add(0, cell.head().towards(cell.foot(), 1 + down));
      height += cell.head().distance(cell.foot()) * (1 + up + down) / cells.size();
    }
    ribbon.addAll(feet);
    FoundLine line = new FoundLine(new Polygon(ribbon), height, 1);
    double length = line.lengthPx() + height;
    List<FindLettering.Letter> letters = new ArrayList<>();
    for (Cell cell : cells) {
      double at =
          LineStrip.columnOf(line, cell.at()) + OFF * height / length * random.nextGaussian();
      double half = cell.half() / length * (1 + 0.15 * random.nextGaussian());
      letters.add(new FindLettering.Letter(cell.letter(), at - half, at + half));
    }
    return new FindLettering.Line(line.ribbon(), line.heightPx(), letters);
  }

  private static List<Point> points(String text) {
    List<Point> points = new ArrayList<>();
    for (String corner : text.split(" ")) {
      String[] xy = corner.split(",");
      points.add(new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])));
    }
    return points;
  }
}
