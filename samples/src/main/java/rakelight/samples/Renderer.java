package rakelight.samples;

import java.awt.geom.Point2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * Photographs a face: model, light, scenery, camera, file. About a second of one core for three
 * megapixels; memory about 60 bytes per pixel of the picture. Safe for any number of threads.
 */
public final class Renderer {
  /** A model finer than this many pixels gains nothing at the sizes anybody photographs at. */
  private static final double MAX_MODEL_PX = 12e6;

  private Renderer() {}

  /**
   * Takes one photograph.
   *
   * @param seed decides scenery and sensor grain; the stone itself follows the face's own seed
   */
  public static RenderedPhotograph render(SampleFace face, View view, long seed) {
    return render(face, List.of(view), seed).get(0);
  }

  /**
   * Takes several photographs of one face, building the stone once: they should share a camera
   * position.
   */
  public static List<RenderedPhotograph> render(SampleFace face, List<View> views, long seed) {
    View first = views.get(0);
    FaceModel model = new FaceModel(face, spacing(face, new Camera(face, first)));
    List<RenderedPhotograph> out = new ArrayList<>();
    for (int i = 0; i < views.size(); i++) {
      out.add(photograph(model, views.get(i), seed, seed + i));
    }
    return out;
  }

  /** The same, with each photograph taken before other surroundings, as by another person. */
  static List<RenderedPhotograph> renderApart(SampleFace face, List<View> views, long seed) {
    FaceModel model = new FaceModel(face, spacing(face, new Camera(face, views.get(0))));
    List<RenderedPhotograph> out = new ArrayList<>();
    for (int i = 0; i < views.size(); i++) {
      out.add(photograph(model, views.get(i), seed + 31L * i, seed + i));
    }
    return out;
  }

  /** Takes photographs of a face with a carving in its middle. */
  static List<RenderedPhotograph> render(
      SampleFace face, Carving carving, List<View> views, long seed) {
    double spacing = spacing(face, new Camera(face, views.get(0)));
    FaceModel model = new FaceModel(face, spacing, Optional.of(carving), 0);
    List<RenderedPhotograph> out = new ArrayList<>();
    for (int i = 0; i < views.size(); i++) {
      out.add(photograph(model, views.get(i), seed, seed + i));
    }
    return out;
  }

  /** Takes one photograph of a face that somebody lettered in his own way. */
  static RenderedPhotograph render(SampleFace face, LetterHand cutter, View view, long seed) {
    FaceModel model = new FaceModel(face, spacing(face, new Camera(face, view)), cutter);
    return photograph(model, view, seed, seed);
  }

  /**
   * A photograph of a face after further years, and the share of each line's relief that they took.
   *
   * @param since how much they take of the letters, 0 to 1; more in some places than in others
   */
  static Later later(SampleFace face, double since, View view, long seed) {
    double spacing = spacing(face, new Camera(face, view));
    FaceModel model = new FaceModel(face, spacing, Optional.empty(), since);
    return new Later(photograph(model, view, seed, seed), model.takenSince.clone());
  }

  /**
   * @param taken by line, in the order of the face's lines
   */
  record Later(RenderedPhotograph photograph, double[] taken) {}

  /**
   * The height of a face in millimetres, row by row, for tests of relief; the spacing is
   * millimetres per sample.
   */
  public static float[] heights(SampleFace face, double mmPerSample) {
    return new FaceModel(face, mmPerSample).height.v.clone();
  }

  /**
   * How much of each place of a face is inside a letter that is still there, 0 to 1, row by row, at
   * the same places as {@link #heights}.
   */
  public static float[] letters(SampleFace face, double mmPerSample) {
    FaceModel model = new FaceModel(face, mmPerSample);
    float[] inside = new float[model.letterMask.v.length];
    for (int i = 0; i < inside.length; i++) {
      inside[i] = model.letterMask.v[i] * (1 - model.lost.v[i]);
    }
    return inside;
  }

  private static double spacing(SampleFace face, Camera camera) {
    Stone s = face.stone();
    double mm = 1 / camera.scaleAt(0, 0, 0);
    return Math.max(mm, Math.sqrt(s.widthMm() * s.heightMm() / MAX_MODEL_PX));
  }

  private static RenderedPhotograph photograph(
      FaceModel model, View view, long sceneSeed, long grainSeed) {
    SampleFace face = model.face;
    Camera camera = new Camera(face, view);
    float[] shaded = Shading.shade(model, view.light());
    Scenery scenery = new Scenery(face, view, camera, sceneSeed);
    float[] rgb = scenery.behind();
    scenery.sides(rgb, meanColour(model));
    double[] toImage = camera.homography(face.stone().widthMm(), face.stone().heightMm());
    double stoneLight = warp(model, shaded, toImage, rgb, view);
    scenery.foot(rgb);
    byte[] bytes = develop(rgb, view, stoneLight, grainSeed);
    return new RenderedPhotograph(
        bytes,
        view.widthPx(),
        view.heightPx(),
        StoneTruth.lines(model, shaded, view, toImage),
        toImage);
  }

  private static float[] meanColour(FaceModel m) {
    double[] sum = new double[3];
    int n = 0;
    for (int i = 0; i < m.red.v.length; i += 37) {
      if (m.cover.v[i] > 0.5f) {
        sum[0] += m.red.v[i];
        sum[1] += m.green.v[i];
        sum[2] += m.blue.v[i];
        n++;
      }
    }
    int d = Math.max(1, n);
    return new float[] {(float) (sum[0] / d), (float) (sum[1] / d), (float) (sum[2] / d)};
  }

  /** Lays the shaded face into the picture; returns its mean brightness. */
  private static double warp(
      FaceModel m, float[] shaded, double[] toImage, float[] rgb, View view) {
    double[] inv = Camera.invert(toImage);
    double wm = m.face.stone().widthMm();
    double hm = m.face.stone().heightMm();
    double x0 = Double.MAX_VALUE;
    double y0 = Double.MAX_VALUE;
    double x1 = 0;
    double y1 = 0;
    for (double[] c : new double[][] {{0, 0}, {wm, 0}, {wm, hm}, {0, hm}}) {
      Point2D p = apply(toImage, c[0], c[1]);
      x0 = Math.min(x0, p.getX());
      x1 = Math.max(x1, p.getX());
      y0 = Math.min(y0, p.getY());
      y1 = Math.max(y1, p.getY());
    }
    int left = (int) Math.max(0, x0);
    int right = (int) Math.min(view.widthPx() - 1.0, x1 + 1);
    int top = (int) Math.max(0, y0);
    int bottom = (int) Math.min(view.heightPx() - 1.0, y1 + 1);
    float scale = (float) (1 / m.mmPerPx);
    double sum = 0;
    double count = 0;
    for (int y = top; y <= bottom; y++) {
      for (int x = left; x <= right; x++) {
        double z = inv[6] * x + inv[7] * y + inv[8];
        float u = (float) ((inv[0] * x + inv[1] * y + inv[2]) / z) * scale - 0.5f;
        float v = (float) ((inv[3] * x + inv[4] * y + inv[5]) / z) * scale - 0.5f;
        if (u < 0 || v < 0 || u >= m.w - 1 || v >= m.h - 1) {
          continue;
        }
        int i = (int) u;
        int j = (int) v;
        float fx = u - i;
        float fy = v - j;
        int a = 4 * (j * m.w + i);
        int b = a + 4 * m.w;
        float w00 = (1 - fx) * (1 - fy);
        float w10 = fx * (1 - fy);
        float w01 = (1 - fx) * fy;
        float w11 = fx * fy;
        float cover =
            shaded[a + 3] * w00 + shaded[a + 7] * w10 + shaded[b + 3] * w01 + shaded[b + 7] * w11;
        if (cover <= 0.004f) {
          continue;
        }
        int o = 3 * (y * view.widthPx() + x);
        float[] s = shaded;
        float r = s[a] * w00 + s[a + 4] * w10 + s[b] * w01 + s[b + 4] * w11;
        float g = s[a + 1] * w00 + s[a + 5] * w10 + s[b + 1] * w01 + s[b + 5] * w11;
        float bl = s[a + 2] * w00 + s[a + 6] * w10 + s[b + 2] * w01 + s[b + 6] * w11;
        rgb[o] += (r - rgb[o]) * cover;
        rgb[o + 1] += (g - rgb[o + 1]) * cover;
        rgb[o + 2] += (bl - rgb[o + 2]) * cover;
        sum += 0.2126 * r + 0.7152 * g + 0.0722 * bl;
        count++;
      }
    }
    return count > 0 ? sum / count : 0.1;
  }

  static Point2D apply(double[] m, double x, double y) {
    double z = m[6] * x + m[7] * y + m[8];
    return new Point2D.Double((m[0] * x + m[1] * y + m[2]) / z, (m[3] * x + m[4] * y + m[5]) / z);
  }

  /** Exposure, lens, sensor, tone, file. */
  private static byte[] develop(float[] rgb, View view, double stoneLight, long seed) {
    int w = view.widthPx();
    int h = view.heightPx();
    SplittableRandom r = new SplittableRandom(seed ^ 0xCA3E4AL);
    double all = 0;
    int n = 0;
    for (int i = 0; i < rgb.length; i += 3 * 61) {
      all += Math.min(1.5, 0.2126 * rgb[i] + 0.7152 * rgb[i + 1] + 0.0722 * rgb[i + 2]);
      n++;
    }
    // The meter looks mostly at the stone in the middle.
    double metered = 0.72 * stoneLight + 0.28 * all / Math.max(1, n);
    float gain = (float) (0.21 * r.nextDouble(0.85, 1.2) / Math.max(1e-4, metered));
    double warm = r.nextDouble(0.96, 1.05);
    float[] balance = {(float) (gain * warm), gain, (float) (gain / warm)};
    boolean turned = view.orientation() == 6 || view.orientation() == 8;
    int ow = turned ? h : w;
    int oh = turned ? w : h;
    BufferedImage image = new BufferedImage(ow, oh, BufferedImage.TYPE_3BYTE_BGR);
    byte[] out = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    float noise = (float) view.noise();
    double cx = w / 2.0;
    double cy = h / 2.0;
    double corner = cx * cx + cy * cy;
    for (int c = 0; c < 3; c++) {
      HeightField f = new HeightField(w, h);
      for (int i = 0; i < f.v.length; i++) {
        f.v[i] = rgb[3 * i + c] * balance[c];
      }
      HeightField seen = f.blur(view.blurPx());
      long s = seed * 3 + c;
      for (int y = 0; y < h; y++) {
        for (int x = 0; x < w; x++) {
          double d = ((x - cx) * (x - cx) + (y - cy) * (y - cy)) / corner;
          float v = seen.v[y * w + x] * (float) (1 - 0.24 * d);
          // A shoulder keeps highlights from breaking off.
          v = v < 0.55f ? v : 0.55f + 0.45f * (1 - 1 / (1 + (v - 0.55f) / 0.45f));
          float grain = (Noise.hash(s, x, y) + Noise.hash(s + 91, x, y)) * 0.9f;
          v += grain * noise * (0.25f + (float) Math.sqrt(Math.max(0, v))) * 0.6f;
          int o =
              switch (view.orientation()) {
                case 3 -> (h - 1 - y) * w + (w - 1 - x);
                case 6 -> (w - 1 - x) * h + y;
                case 8 -> x * h + (h - 1 - y);
                default -> y * w + x;
              };
          out[3 * o + 2 - c] = (byte) Tone.srgb(v);
        }
      }
    }
    byte[] jpeg = encode(image, (float) view.quality());
    double exposure = 1 / Math.max(15, Math.min(2000, 400 / Math.max(0.2, gain / 2)));
    return Exif.insert(jpeg, view, ow, oh, exposure, gain > 3 ? 200 : 64);
  }

  static byte[] encode(BufferedImage image, float quality) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 20);
    try (MemoryCacheImageOutputStream stream = new MemoryCacheImageOutputStream(bytes)) {
      ImageWriteParam p = writer.getDefaultWriteParam();
      p.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      p.setCompressionQuality(quality);
      writer.setOutput(stream);
      writer.write(null, new IIOImage(image, null, null), p);
      stream.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("A rendered picture could not be written as JPEG", e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
