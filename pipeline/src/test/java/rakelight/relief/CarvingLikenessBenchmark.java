package rakelight.relief;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.opencv.calib3d.Calib3d;
import org.opencv.core.DMatch;
import org.opencv.core.KeyPoint;
import org.opencv.core.Mat;
import org.opencv.core.MatOfDMatch;
import org.opencv.core.MatOfKeyPoint;
import org.opencv.core.MatOfPoint2f;
import org.opencv.features2d.BFMatcher;
import org.opencv.features2d.SIFT;
import rakelight.archive.Sha256;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.CarvingSet;
import rakelight.samples.Weathering;

/**
 * How well carvings of one motif, and of one motif by one hand, are found among 240 by likeness:
 * mean average precision. {@code -Dcarvings.folder} keeps the pictures; {@code -Dcarvings.drawn}
 * ({@code own}, {@code signs}), {@code -Dcarvings.wear}, {@code -Dcarvings.lights}, {@code
 * -Dcarvings.by} (of {@code shape,sift,colour}), {@code -Dcarvings.part=2} takes about half the
 * motifs.
 */
class CarvingLikenessBenchmark {
  private record One(
      String motif, String hand, List<byte[]> files, List<GrayImage> lights, Polygon outline) {}

  private static final RakedFace.View NOWHERE =
      new RakedFace.View(
          new PictureSource(Sha256.of("nowhere"), Optional.empty(), 1),
          Homography.identity(),
          Optional.empty());

  @Test
  void meanAveragePrecision() throws Exception {
    String drawn = System.getProperty("carvings.drawn", "own");
    int lights = Integer.getInteger("carvings.lights", 4);
    for (String wear : System.getProperty("carvings.wear", "heavy").split(",")) {
      List<One> all = carvings(drawn, wear, lights);
      for (String by : System.getProperty("carvings.by", "shape").split(",")) {
        long began = System.nanoTime();
        double[][] like =
            switch (by) {
              case "shape" -> inOrder(shapes(all));
              case "sift" -> sift(all);
              default -> colours(all);
            };
        System.out.printf(
            Locale.ROOT,
            "%s %s, %d lights, %d carvings, by %s: same motif %.3f, same hand %.3f (%.0f s)%n",
            drawn,
            wear,
            lights,
            all.size(),
            by,
            precision(all, like, false),
            precision(all, like, true),
            (System.nanoTime() - began) / 1e9);
      }
    }
  }

  private static List<One> carvings(String drawn, String wear, int lights) throws Exception {
    Path folder =
        Path.of(System.getProperty("carvings.folder", "target"))
            .resolve(drawn + "-" + wear + "-" + lights);
    if (!Files.exists(folder)) {
      long seed = drawn.equals("own") ? 1 : 5000;
      new CarvingSet(
              240,
              seed,
              320,
              List.of(Weathering.valueOf(wear.toUpperCase(Locale.ROOT))),
              lights,
              drawn)
          .writeTo(folder);
    }
    int part = Integer.getInteger("carvings.part", 1);
    List<One> all = new ArrayList<>();
    List<String> rows = Files.readAllLines(folder.resolve("carvings.tsv"));
    for (int i = 1; i < rows.size(); i += lights) {
      String[] cells = rows.get(i).split("\t");
      if (Math.floorMod(cells[2].hashCode(), 97) % part != 0) {
        continue;
      }
      List<Point> corners = new ArrayList<>();
      for (String corner : cells[7].split(" ")) {
        String[] xy = corner.split(",");
        corners.add(new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])));
      }
      Polygon outline = new Polygon(corners);
      One one = new One(cells[2], cells[3], new ArrayList<>(), new ArrayList<>(), outline);
      for (int k = 0; k < lights; k++) {
        byte[] file = Files.readAllBytes(folder.resolve(rows.get(i + k).split("\t")[0]));
        one.files().add(file);
        one.lights().add(FindCarving.cut(Picture.upright(file, 1), FindCarving.square(outline)));
      }
      all.add(one);
    }
    return all;
  }

  private static double precision(List<One> all, double[][] like, boolean sameHand) {
    double sum = 0;
    for (int asked = 0; asked < all.size(); asked++) {
      int me = asked;
      One own = all.get(me);
      IntToDoubleFunction far = i -> -like[me][i];
      List<Integer> order =
          IntStream.range(0, all.size())
              .filter(i -> i != me)
              .boxed()
              .sorted(Comparator.comparingDouble(far::applyAsDouble))
              .toList();
      int hits = 0;
      double precision = 0;
      for (int k = 0; k < order.size(); k++) {
        One other = all.get(order.get(k));
        if (other.motif().equals(own.motif()) && (!sameHand || other.hand().equals(own.hand()))) {
          hits++;
          precision += hits / (k + 1.0);
        }
      }
      sum += precision / Math.max(1, hits);
    }
    return sum / all.size();
  }

  private static double[][] shapes(List<One> all) {
    double[][] like = new double[all.size()][all.size()];
    List<CarvingLook> looks = new ArrayList<>();
    for (One one : all) {
      Polygon o = one.outline();
      FindCarving.Input input = FindCarving.Input.of(o, List.of(NOWHERE));
      looks.add(CarvingLook.of(one.lights(), input.widthShare(), input.heightShare()));
    }
    for (int i = 0; i < all.size(); i++) {
      CarvingSought sought = CarvingSought.of(looks.get(i));
      for (int j = i + 1; j < all.size(); j++) {
        like[i][j] = sought.likeness(looks.get(j));
        like[j][i] = like[i][j];
      }
    }
    return like;
  }

  /** As {@code CarvingsAlike} puts them in order: the place of each among the others, negative. */
  private static double[][] inOrder(double[][] like) {
    int n = like.length;
    double[][] places = new double[n][n];
    for (int i = 0; i < n; i++) {
      int me = i;
      int[] others = IntStream.range(0, n).filter(j -> j != me).toArray();
      List<Integer> order =
          CarvingOrder.of(
              Arrays.stream(others).mapToDouble(j -> like[me][j]).toArray(),
              (one, some) ->
                  Arrays.stream(some).mapToDouble(j -> like[others[one]][others[j]]).toArray());
      for (int k = 0; k < order.size(); k++) {
        places[me][others[order.get(k)]] = -k;
      }
    }
    return places;
  }

  /** What one light shows, without relief. */
  private static double[][] sift(List<One> all) {
    double[][] like = new double[all.size()][all.size()];
    try (NativeScope scope = new NativeScope()) {
      List<KeyPoint[]> points = new ArrayList<>();
      List<Mat> described = new ArrayList<>();
      for (One one : all) {
        MatOfKeyPoint found = scope.own(new MatOfKeyPoint());
        Mat numbers = scope.mat();
        SIFT.create(200)
            .detectAndCompute(one.lights().get(0).in(scope), scope.mat(), found, numbers);
        points.add(found.toArray());
        described.add(numbers);
      }
      for (int i = 0; i < all.size(); i++) {
        for (int j = i + 1; j < all.size(); j++) {
          like[i][j] = inliers(points.get(i), described.get(i), points.get(j), described.get(j));
          like[j][i] = like[i][j];
        }
      }
    }
    return like;
  }

  private static int inliers(KeyPoint[] a, Mat numbersA, KeyPoint[] b, Mat numbersB) {
    if (a.length < 4 || b.length < 4) {
      return 0;
    }
    try (NativeScope scope = new NativeScope()) {
      List<MatOfDMatch> pairs = new ArrayList<>();
      BFMatcher.create().knnMatch(numbersA, numbersB, pairs, 2);
      List<org.opencv.core.Point> from = new ArrayList<>();
      List<org.opencv.core.Point> to = new ArrayList<>();
      for (MatOfDMatch pair : pairs) {
        DMatch[] two = scope.own(pair).toArray();
        if (two[0].distance < 0.85 * two[1].distance) {
          from.add(a[two[0].queryIdx].pt);
          to.add(b[two[0].trainIdx].pt);
        }
      }
      if (from.size() < 4) {
        return 0;
      }
      Mat carried = scope.mat();
      scope.own(
          Calib3d.estimateAffinePartial2D(
              scope.own(new MatOfPoint2f(from.toArray(org.opencv.core.Point[]::new))),
              scope.own(new MatOfPoint2f(to.toArray(org.opencv.core.Point[]::new))),
              carried,
              Calib3d.RANSAC,
              8));
      return carried.empty() ? 0 : org.opencv.core.Core.countNonZero(carried);
    }
  }

  /** Shares of colours and of directions of edges, which two have in common. */
  private static double[][] colours(List<One> all) throws IOException {
    List<double[]> shares = new ArrayList<>();
    for (One one : all) {
      BufferedImage picture = ImageIO.read(new ByteArrayInputStream(one.files().get(0)));
      shares.add(shares(picture, one.outline()));
    }
    double[][] like = new double[all.size()][all.size()];
    for (int i = 0; i < all.size(); i++) {
      for (int j = i + 1; j < all.size(); j++) {
        for (int k = 0; k < shares.get(i).length; k++) {
          like[i][j] += Math.min(shares.get(i)[k], shares.get(j)[k]);
        }
        like[j][i] = like[i][j];
      }
    }
    return like;
  }

  private static double[] shares(BufferedImage picture, Polygon o) {
    double[] shares = new double[128 + 36];
    double pixels = 0;
    double edges = 0;
    int x1 = (int) Math.min(picture.getWidth() - 1.0, o.right());
    int y1 = (int) Math.min(picture.getHeight() - 1.0, o.bottom());
    for (int y = (int) Math.max(1, o.top()); y < y1; y++) {
      for (int x = (int) Math.max(1, o.left()); x < x1; x++) {
        Color c = new Color(picture.getRGB(x, y));
        float[] hsb = Color.RGBtoHSB(c.getRed(), c.getGreen(), c.getBlue(), new float[3]);
        int bin =
            Math.min(7, (int) (hsb[0] * 8)) * 16
                + Math.min(3, (int) (hsb[1] * 4)) * 4
                + Math.min(3, (int) (hsb[2] * 4));
        shares[bin]++;
        pixels++;
        double dx = green(picture, x + 1, y) - green(picture, x - 1, y);
        double dy = green(picture, x, y + 1) - green(picture, x, y - 1);
        double way = Math.atan2(dy, dx) / Math.PI * 18 + 18;
        shares[128 + (int) way % 36] += Math.hypot(dx, dy);
        edges += Math.hypot(dx, dy);
      }
    }
    for (int k = 0; k < shares.length; k++) {
      shares[k] /= Math.max(1, k < 128 ? pixels : edges);
    }
    return shares;
  }

  private static int green(BufferedImage picture, int x, int y) {
    return picture.getRGB(x, y) >> 8 & 0xff;
  }
}
