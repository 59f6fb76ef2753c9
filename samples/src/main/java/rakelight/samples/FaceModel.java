package rakelight.samples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * A face as matter: height in millimetres and albedo per pixel of the face, built in the order
 * things happened to the stone. It is dressed, lettered, worn, broken, stained and overgrown.
 */
final class FaceModel {
  /**
   * Height of everything beside the stone: far below, so that the rim casts and takes no light from
   * there.
   */
  private static final float OUTSIDE_MM = -40;

  final SampleFace face;
  final double mmPerPx;
  final int w;
  final int h;
  final Layout layout;
  final HeightField cover;
  final HeightField height;

  /** Relief that is left of the letters, negative for cuts. */
  final HeightField letterRelief;

  /** Coverage of the letters as cut. */
  final HeightField letterMask;

  final HeightField red;
  final HeightField green;
  final HeightField blue;
  final double gloss;

  /** Standing of each placed sign of each line, in the order of the layout. */
  final List<List<StoneStanding>> standings;

  /**
   * Mean relief left per line over the roughness of the surface: the height of the signal over the
   * noise.
   */
  final double[] clarity;

  private final Stone stone;
  private final HeightField edge;
  final HeightField lost;
  private final HeightField cracks;
  private final double wear;
  private double roughnessMm;

  /** The share of each line's relief that further years have taken, in the order of the layout. */
  final double[] takenSince;

  FaceModel(SampleFace face, double mmPerPx) {
    this(face, mmPerPx, Optional.empty(), 0);
  }

  /**
   * @param cutter who cut its letters
   */
  FaceModel(SampleFace face, double mmPerPx, LetterHand cutter) {
    this(face, mmPerPx, Optional.empty(), 0, cutter);
  }

  /**
   * @param carving in the middle of the face
   * @param since how much of the letters further years take, 0 to 1; more in some places than in
   *     others
   */
  FaceModel(SampleFace face, double mmPerPx, Optional<Carving> carving, double since) {
    this(face, mmPerPx, carving, since, LetterHand.PATTERN);
  }

  private FaceModel(
      SampleFace face, double mmPerPx, Optional<Carving> carving, double since, LetterHand cutter) {
    this.face = face;
    this.mmPerPx = mmPerPx;
    this.stone = face.stone();
    this.w = Math.max(8, (int) Math.round(stone.widthMm() / mmPerPx));
    this.h = Math.max(8, (int) Math.round(stone.heightMm() / mmPerPx));
    this.wear = stone.weathering().amount();
    this.layout = new Layout(face, cutter);
    Shape outline = stone.form().outline(stone.widthMm(), stone.heightMm());
    this.cover = Masks.draw(w, h, mmPerPx, g -> g.fill(outline));
    this.edge = edgeDistance(40);
    this.letterMask =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              for (Layout.Line l : layout.lines) {
                for (Layout.Placed p : l.signs()) {
                  Masks.fill(g, p.path(), l.strokeMm());
                }
              }
              layout.dividers.forEach(g::fill);
            });
    this.height = new HeightField(w, h);
    this.letterRelief = carve();
    this.lost = new HeightField(w, h);
    this.cracks = stone.has("cracked") ? new HeightField(w, h) : new HeightField(1, 1);
    this.red = new HeightField(w, h);
    this.green = new HeightField(w, h);
    this.blue = new HeightField(w, h);
    this.gloss =
        stone.has("polished")
            ? 0.5
            : stone.material() == Material.SLATE
                ? 0.10
                : stone.material() == Material.BRONZE ? 0.25 : 0.0;
    dress();
    weatherLetters();
    takenSince = new double[layout.lines.size()];
    if (since > 0) {
      weatherFurther(since);
    }
    HeightField sunk = panelsAndEmblem();
    breakOff();
    carving.ifPresent(one -> carve(one, sunk));
    standings = new ArrayList<>();
    clarity = new double[layout.lines.size()];
    colour(sunk);
    grow();
    judge();
    rim();
  }

  private double px(double mm) {
    return mm / mmPerPx;
  }

  private long seed(int n) {
    return face.seed() * 31 + n * 0x9E3779B9L;
  }

  private HeightField edgeDistance(double limitMm) {

    return cover.distanceInside(Math.min(px(limitMm), 64));
  }

  /** Relief of the letters as the cutter left them. */
  private HeightField carve() {
    HeightField d = letterMask.distanceInside(px(7));
    double grit = 0.12;
    for (int i = 0; i < d.v.length; i++) {
      float mask = letterMask.v[i];
      if (mask <= 0) {
        continue;
      }
      double mm = Math.max(0, d.v[i] - 0.5 + (d.v[i] < 1.5 ? mask - 0.5 : 0)) * mmPerPx;
      double relief =
          switch (stone.cut()) {
            case V_CUT -> -Math.min(5, 0.55 * Math.min(1, mm / 0.3) + 1.15 * mm);
            case U_CUT ->
                -(0.5 + 1.9 * Math.sqrt(1 - square(1 - Math.min(1, mm / 2.2))))
                    * Math.min(1, mm / 0.3);
            case SANDBLAST ->
                -1.5 * Math.min(1, mm / 0.35) + grit * Noise.hash(seed(5), i % w, i / w);
            case RAISED ->
                (stone.material() == Material.BRONZE ? 2.6 : 4.2) * Math.min(1, mm / 0.9);
          };
      d.v[i] = (float) relief * Math.min(1, mask * 1.5f);
    }
    return d.blur(Math.max(0.45, px(0.2)));
  }

  private static double square(double x) {
    return x * x;
  }

  /** The surface before time: sawn, rubbed, riven or hammered. */
  private void dress() {
    switch (stone.material()) {
      case MARBLE -> {
        Noise.add(height, seed(11), px(210), px(170), 0.5);
        Noise.add(height, seed(12), px(60), px(60), 0.12 + 0.25 * wear);
        roughnessMm = 0.02 + 0.11 * wear;
        grain(0.9, 0.02 + 0.10 * wear);
        grain(2.2, 0.01 + 0.09 * wear);
      }
      case SLATE -> {
        Noise.add(height, seed(11), px(160), px(200), 0.9);
        Noise.add(height, seed(12), px(45), px(11), 0.10);
        Noise.add(height, seed(13), px(9), px(2.5), 0.035);
        roughnessMm = 0.02 + 0.02 * wear;
        grain(0.7, 0.02 + 0.02 * wear);
        grain(2.4, 0.015 + 0.02 * wear);
      }
      case SANDSTONE -> {
        Noise.add(height, seed(11), px(220), px(180), 0.8);
        Noise.add(height, seed(12), px(400), px(7), 0.10 + 0.35 * wear);
        Noise.add(height, seed(13), px(16), px(5), 0.10 + 0.2 * wear);
        roughnessMm = 0.05 + 0.13 * wear;
        grain(0.7, 0.05 + 0.08 * wear);
        grain(1.8, 0.03 + 0.10 * wear);
      }
      case GRANITE -> {
        if (stone.has("polished")) {
          Noise.add(height, seed(11), px(300), px(300), 0.03);
          roughnessMm = 0.01;
        } else {
          Noise.add(height, seed(11), px(200), px(200), 0.5);
          grain(3.2, 0.12);
          grain(1.1, 0.07);
          roughnessMm = 0.11;
        }
      }
      case BRONZE -> {
        Noise.add(height, seed(11), px(300), px(300), 0.2);
        Noise.add(height, seed(12), px(5), px(5), 0.05);
        grain(1.2, 0.03);
        roughnessMm = 0.04;
      }
    }
  }

  private void grain(double cellMm, double amplitudeMm) {
    // Grain finer than a pixel averages out.
    double seen = amplitudeMm * Math.min(1, px(cellMm));
    Noise.add(height, seed((int) (100 + cellMm * 10)), px(cellMm), px(cellMm), seen);
  }

  /** Rounds the letters and takes away their depth, more where the weather reaches more. */
  private void weatherLetters() {
    double[] round =
        switch (stone.material()) {
          case MARBLE -> new double[] {0, 0.45, 1.2, 1.8};
          case SANDSTONE -> new double[] {0.1, 0.4, 0.9, 1.4};
          case SLATE -> new double[] {0, 0.15, 0.25, 0.4};
          case GRANITE -> new double[] {0, 0.1, 0.2, 0.3};
          case BRONZE -> new double[] {0.15, 0.2, 0.25, 0.3};
        };
    double[] left =
        switch (stone.material()) {
          case MARBLE -> new double[] {1, 0.85, 0.46, 0.26};
          case SANDSTONE -> new double[] {1, 0.88, 0.58, 0.36};
          case SLATE -> new double[] {1, 0.96, 0.9, 0.75};
          case GRANITE, BRONZE -> new double[] {1, 1, 0.95, 0.9};
        };
    int level = stone.weathering().ordinal();
    double sigma = round[level];
    HeightField little = letterRelief.blur(px(sigma * 0.55));
    HeightField much = level == 0 ? little : letterRelief.blur(px(sigma * 1.45));
    HeightField exposure = Noise.octaves(w, h, seed(21), px(230), px(230), 3, 0.5);
    for (int y = 0; y < h; y++) {
      // Rain strikes the head, splash and frost the foot.
      double t = y / (double) h;
      double ends = 0.35 * (square(1 - t) + square(t) - 0.5);
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        float e = Noise.step(-1f, 1.1f, (float) (exposure.v[i] + ends));
        double keep = Math.min(1, left[level] + (1 - left[level]) * 0.9 * (0.5 - e));
        letterRelief.v[i] = (float) ((little.v[i] + (much.v[i] - little.v[i]) * e) * keep);
      }
    }
  }

  /** Takes more of the letters, edges first, and says how much of each line is gone since. */
  private void weatherFurther(double share) {
    HeightField before = letterRelief.copy();
    HeightField soft = letterRelief.blur(px(0.2 + 1.6 * share));
    HeightField where = Noise.octaves(w, h, seed(23), px(180), px(90), 3, 0.5);
    for (int i = 0; i < before.v.length; i++) {
      float e = Noise.step(-0.7f, 0.7f, where.v[i]);
      float taken = (float) Math.min(1, share * (0.4 + 1.2 * e));
      float left = before.v[i] + (soft.v[i] - before.v[i]) * Math.min(1, 2 * taken);
      letterRelief.v[i] = left * (1 - taken);
    }
    for (int n = 0; n < takenSince.length; n++) {
      double had = 0;
      double has = 0;
      for (Layout.Placed p : layout.lines.get(n).signs()) {
        Rectangle2D b = p.path().getBounds2D();
        for (int y = (int) Math.max(0, px(b.getMinY())); y < Math.min(h, px(b.getMaxY())); y++) {
          for (int x = (int) Math.max(0, px(b.getMinX())); x < Math.min(w, px(b.getMaxX())); x++) {
            had += letterMask.v[y * w + x] * Math.abs(before.v[y * w + x]);
            has += letterMask.v[y * w + x] * Math.abs(letterRelief.v[y * w + x]);
          }
        }
      }
      takenSince[n] = had > 0 ? 1 - has / had : 0;
    }
  }

  /** Cuts a carving; where the surface has fallen it is gone. */
  private void carve(Carving carving, HeightField sunk) {
    HeightField relief = carving.relief(w, h, mmPerPx, stone.material(), stone.weathering());
    for (int i = 0; i < relief.v.length; i++) {
      float left = relief.v[i] * (1 - lost.v[i]);
      height.v[i] += left;
      sunk.v[i] -= left;
    }
  }

  /**
   * Sinks shields and emblem grounds, cuts the margin line, raises the emblem. Returns how deep
   * each place is sunk.
   */
  private HeightField panelsAndEmblem() {
    double wm = stone.widthMm();
    double hm = stone.heightMm();
    HeightField sunk = new HeightField(w, h);
    Area panel = stone.form().panel(wm, hm);
    if (!panel.isEmpty()) {
      HeightField m =
          Masks.draw(w, h, mmPerPx, g -> g.fill(panel)).blur(Math.max(0.6, px(0.6 + 0.8 * wear)));
      for (int i = 0; i < m.v.length; i++) {
        sunk.v[i] = 5.5f * m.v[i];
      }
    }
    if (stone.has("border")) {
      double inset = wm * (stone.form() == StoneForm.TYMPANUM ? 0.07 : 0.045);
      AffineTransform shrink = AffineTransform.getTranslateInstance(inset, inset);
      shrink.scale((wm - 2 * inset) / wm, (hm - 2 * inset) / hm);
      Shape inner = shrink.createTransformedShape(stone.form().outline(wm, hm));
      HeightField m =
          Masks.draw(
                  w,
                  h,
                  mmPerPx,
                  g -> {
                    g.setStroke(new BasicStroke((float) (wm * 0.007)));
                    g.draw(inner);
                    if (stone.material() == Material.BRONZE) {
                      g.setStroke(new BasicStroke((float) (wm * 0.02)));
                      g.draw(inner);
                    }
                  })
              .blur(Math.max(0.6, px(0.5 + wear)));
      float depth = stone.material() == Material.BRONZE ? -2.5f : 1.6f;
      for (int i = 0; i < m.v.length; i++) {
        sunk.v[i] += depth * (1 - 0.5f * (float) wear) * m.v[i];
      }
    }
    if (layout.emblemRadius > 0) {
      emblem(sunk);
    }
    for (int i = 0; i < sunk.v.length; i++) {
      height.v[i] -= sunk.v[i];
    }
    return sunk;
  }

  private void emblem(HeightField sunk) {
    double r = layout.emblemRadius;
    Emblem.Drawing d = stone.emblem().drawing().placed(layout.emblemX, layout.emblemY, r);
    Area ground =
        new Area(
            new Ellipse2D.Double(
                layout.emblemX - r * 1.25, layout.emblemY - r * 1.15, r * 2.5, r * 2.3));
    HeightField m =
        Masks.draw(w, h, mmPerPx, g -> g.fill(ground)).blur(Math.max(0.7, px(0.7 + wear)));
    HeightField bodies =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              // Each body is parted from the ones behind it by a narrow gap.
              for (Shape s : d.bodies()) {
                g.setColor(Color.BLACK);
                g.setStroke(new BasicStroke((float) (r * 0.035)));
                g.draw(s);
                g.setColor(Color.WHITE);
                g.fill(s);
              }
              g.setColor(Color.BLACK);
              d.cuts().forEach(g::fill);
            });
    double puff = r * 0.11;
    HeightField dist = bodies.distanceInside(px(puff));
    float rise = (float) Math.min(6, r * 0.05);
    boolean incised = stone.material() == Material.GRANITE || stone.cut() == Cut.SANDBLAST;
    for (int i = 0; i < dist.v.length; i++) {
      double t = Math.min(1, dist.v[i] * mmPerPx / puff);
      dist.v[i] =
          bodies.v[i] > 0.5f ? (float) (rise * (0.25 + 0.75 * Math.sqrt(1 - square(1 - t)))) : 0;
    }
    HeightField shaped =
        dist.blur(
            Math.max(0.5, px(0.3 + 1.3 * wear * (stone.material() == Material.GRANITE ? 0.2 : 1))));
    float fade = (float) (1 - 0.45 * wear);
    for (int i = 0; i < shaped.v.length; i++) {
      if (incised) {
        sunk.v[i] += Math.min(1.4f, shaped.v[i]) * 0.8f;
      } else {
        sunk.v[i] += (3.2f * m.v[i] - shaped.v[i]) * fade;
      }
    }
  }

  /**
   * Where the surface has fallen: flakes of slate, scales of sandstone, and the places the ground's
   * tables say are gone.
   */
  private void breakOff() {
    double[] share =
        switch (stone.material()) {
          case SLATE -> new double[] {0, 0.012, 0.055, 0.15};
          case SANDSTONE -> new double[] {0, 0.008, 0.06, 0.17};
          case MARBLE, GRANITE, BRONZE -> new double[] {0, 0, 0, 0};
        };
    double wanted = share[stone.weathering().ordinal()];
    HeightField forced = forcedLoss();
    double reach = px(39);
    HeightField f = Noise.octaves(w, h, seed(31), px(150), px(110), 5, 0.55);
    for (int y = 0; y < h; y++) {
      float foot = Noise.step(0.8f, 1f, y / (float) h);
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        float rim = edge.v[i] < reach ? (float) Math.exp(-edge.v[i] * mmPerPx / 22) : 0;
        f.v[i] += 0.45f * rim + 0.35f * foot;
      }
    }
    float threshold = wanted <= 0 ? Float.MAX_VALUE : quantile(f, 1 - wanted);
    boolean slate = stone.material() == Material.SLATE;
    float soft = slate ? 0.012f : 0.06f;
    HeightField rough =
        Noise.octaves(w, h, seed(37), px(slate ? 14 : 7), px(slate ? 6 : 7), 3, 0.6);
    boolean raised = stone.cut() == Cut.RAISED;
    for (int i = 0; i < f.v.length; i++) {
      float natural = Noise.step(threshold - soft, threshold + soft, f.v[i]);
      float gone = Math.max(natural, forced.v[i]);
      float relief = letterRelief.v[i];
      if (gone > 0.02f) {
        float depth =
            slate
                ? 1.9f
                : 2.6f
                    + 1.2f
                        * (f.v[i] - threshold > 0 ? Math.min(1.5f, (f.v[i] - threshold) * 2) : 0);
        if (slate && f.v[i] > threshold + 0.3f) {
          depth += 1.7f;
        }
        depth = Math.max(depth, forced.v[i] * 5.2f) * gone;
        float floor = -depth + gone * rough.v[i] * (slate ? 0.22f : 0.55f);
        float rest = raised ? relief * (1 - gone) : Math.min(0, relief - Math.min(floor, 0));
        letterRelief.v[i] = rest;
        height.v[i] += floor + rest;
      } else {
        height.v[i] += relief;
      }
      lost.v[i] = gone;
    }
    if (stone.has("cracked")) {
      crack();
    }
  }

  private HeightField forcedLoss() {
    HeightField m =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              for (Layout.Line l : layout.lines) {
                for (Layout.Placed p : l.signs()) {
                  if (l.text().signs().get(p.index()).gone()) {
                    Rectangle2D b = p.path().getBounds2D();
                    double m1 = l.capMm() * 0.5;
                    g.fill(
                        new Rectangle2D.Double(
                            b.getX() - m1 * 0.6,
                            b.getY() - m1,
                            b.getWidth() + 1.2 * m1,
                            b.getHeight() + 2 * m1));
                  }
                }
              }
            });
    boolean any = false;
    for (float x : m.v) {
      if (x > 0) {
        any = true;
        break;
      }
    }
    if (!any) {
      return m;
    }
    double cap = layout.lines.get(0).capMm();
    HeightField soft = m.blur(px(cap * 0.32));
    HeightField wobble = Noise.octaves(w, h, seed(33), px(cap * 2.2), px(cap * 1.6), 5, 0.62);
    for (int i = 0; i < soft.v.length; i++) {
      soft.v[i] =
          Noise.step(0.38f, 0.42f, soft.v[i] + 0.26f * wobble.v[i] * Math.min(1, soft.v[i] * 6));
    }
    return soft;
  }

  private static float quantile(HeightField f, double q) {
    int n = 4096;
    float[] sample = new float[n];
    for (int i = 0; i < n; i++) {
      sample[i] = f.v[(int) ((long) i * (f.v.length - 1) / (n - 1))];
    }
    Arrays.sort(sample);
    return sample[(int) Math.min(n - 1, q * n)];
  }

  private void crack() {
    SplittableRandom r = new SplittableRandom(seed(41));
    double wm = stone.widthMm();
    double hm = stone.heightMm();
    Path2D path = new Path2D.Double();
    double x = r.nextBoolean() ? 0 : wm;
    double dir = x == 0 ? r.nextDouble(-0.7, 0.7) : Math.PI + r.nextDouble(-0.7, 0.7);
    double y = hm * r.nextDouble(0.25, 0.75);
    path.moveTo(x, y);
    while (x >= 0 && x <= wm && y > 0 && y < hm) {
      dir += r.nextDouble(-0.45, 0.45);
      x += 9 * Math.cos(dir);
      y += 9 * Math.sin(dir);
      path.lineTo(x, y);
    }
    HeightField m =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              g.setStroke(
                  new BasicStroke(
                      (float) (0.8 + wear * 1.4), BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL));
              g.draw(path);
            });
    for (int i = 0; i < m.v.length; i++) {
      height.v[i] -= 3.5f * m.v[i];
      cracks.v[i] = m.v[i];
    }
  }

  private void colour(HeightField sunk) {
    // All faces of a marker are of one block.
    float[] base =
        Palette.base(stone, new SplittableRandom(face.marker().hashCode() * 0x9E3779B97F4A7C15L));
    HeightField stain = Noise.octaves(w, h, seed(52), px(260), px(300), 4, 0.6);
    HeightField mottle = Noise.octaves(w, h, seed(53), px(28), px(24), 4, 0.7);
    HeightField runs = Noise.octaves(w, h, seed(54), px(16), px(700), 3, 0.7);
    HeightField fine = Noise.octaves(w, h, seed(55), px(3.2), px(3.2), 2, 0.8);
    HeightField bands = new HeightField(w, h);
    if (stone.material() == Material.SANDSTONE) {
      Noise.add(bands, seed(56), px(900), px(24), 0.10);
      Noise.add(bands, seed(57), px(600), px(7), 0.06);
    } else if (stone.material() == Material.MARBLE) {
      HeightField vein = Noise.octaves(w, h, seed(58), px(240), px(90), 5, 0.6);
      for (int i = 0; i < vein.v.length; i++) {
        bands.v[i] = -0.22f * Noise.step(0.07f, 0f, Math.abs(vein.v[i]));
      }
    }
    float dirt = (float) (stone.has("clean") ? 0.15 : 0.25 + 0.75 * wear);
    boolean granite = stone.material() == Material.GRANITE;
    float speckle =
        switch (stone.material()) {
          case SANDSTONE -> 0.13f;
          case SLATE -> 0.10f;
          case MARBLE -> 0.07f;
          case GRANITE, BRONZE -> 0.06f;
        };
    long speckleSeed = seed(61);
    boolean polished = stone.has("polished");
    boolean painted = stone.has("painted");
    boolean gilded = stone.has("gilded");
    HeightField paintLeft =
        painted || gilded
            ? Noise.octaves(w, h, seed(59), px(22), px(22), 4, 0.7)
            : new HeightField(1, 1);
    for (int y = 0; y < h; y++) {
      float foot = Noise.step(0.72f, 1f, y / (float) h);
      float head = Noise.step(0.16f, 0f, y / (float) h);
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        float tone =
            1
                + bands.v[i]
                + speckle * (fine.v[i] + 0.6f * Noise.hash(speckleSeed, x, y))
                + 0.10f * mottle.v[i] * (0.4f + dirt);
        float cr = base[0] * tone;
        float cg = base[1] * tone;
        float cb = base[2] * tone;
        if (granite) {
          float k = Palette.crystal(seed(60), x * mmPerPx, y * mmPerPx);
          float f = polished ? 0.55f + 0.9f * Math.max(0, k) : 1 + 0.30f * k;
          cr *= f;
          cg *= f;
          cb *= f;
        }
        // Grime: a dark film in patches and runs, thicker at head and foot.
        float film =
            dirt
                * Noise.step(
                    -0.35f,
                    1.1f,
                    stain.v[i]
                        + 0.55f * runs.v[i]
                        + 0.5f * head
                        + 0.35f * foot
                        + 0.25f * mottle.v[i]);
        if (stone.material() == Material.BRONZE) {
          float green =
              Noise.step(-0.3f, 0.9f, 0.6f * stain.v[i] + 0.32f * runs.v[i] + 0.45f * mottle.v[i])
                  * (0.3f + dirt);
          green *= letterRelief.v[i] > 1.2f ? 0.35f : 1;
          cr += (0.095f - cr) * green;
          cg += (0.145f - cg) * green;
          cb += (0.110f - cb) * green;
          if (letterRelief.v[i] > 1.4f) {
            float shine = 0.55f * (1 - green);
            cr += (0.30f - cr) * shine;
            cg += (0.20f - cg) * shine;
            cb += (0.09f - cb) * shine;
          }
        } else if (!polished) {
          float keep = 1 - 0.55f * film;
          cr *= keep * (1 - 0.03f * film);
          cg *= keep;
          cb *= keep * (1 - 0.08f * film);
          float algae = foot * 0.55f * dirt * Noise.step(-0.5f, 0.6f, mottle.v[i] + stain.v[i]);
          cr += (0.055f - cr) * algae;
          cg += (0.075f - cg) * algae;
          cb += (0.030f - cb) * algae;
        }
        float fresh = lost.v[i];
        if (fresh > 0) {
          // Under a flake the stone is paler and cleaner.
          float pale = stone.material() == Material.SLATE ? 1.35f : 1.22f;
          cr += (base[0] * pale * (1 + 0.12f * fine.v[i]) - cr) * fresh * 0.75f;
          cg += (base[1] * pale * (1 + 0.12f * fine.v[i]) - cg) * fresh * 0.75f;
          cb += (base[2] * pale * (1 + 0.12f * fine.v[i]) - cb) * fresh * 0.75f;
        }
        float inCut = letterMask.v[i] * (1 - fresh);
        if (inCut > 0) {
          if (polished) {
            cr += (0.34f - cr) * inCut;
            cg += (0.34f - cg) * inCut;
            cb += (0.33f - cb) * inCut;
          } else if (stone.cut() != Cut.RAISED) {
            float soot = inCut * dirt * 0.34f * Math.min(1, -letterRelief.v[i] * 0.8f);
            cr *= 1 - soot;
            cg *= 1 - soot;
            cb *= 1 - soot;
          }
          if (painted || gilded) {
            float left =
                inCut
                    * Noise.step(
                        (float) (-1.3 + 2.2 * wear), (float) (-0.9 + 2.2 * wear), paintLeft.v[i]);
            cr += ((gilded ? 0.50f : 0.016f) - cr) * left;
            cg += ((gilded ? 0.33f : 0.016f) - cg) * left;
            cb += ((gilded ? 0.07f : 0.017f) - cb) * left;
          }
        }
        if (sunk.v[i] > 3 && dirt > 0.3f) {
          float soot = 0.10f * dirt;
          cr *= 1 - soot;
          cg *= 1 - soot;
          cb *= 1 - soot;
        }
        if (cracks.v.length == red.v.length) {
          float c = 1 - 0.6f * cracks.v[i];
          cr *= c;
          cg *= c;
          cb *= c;
        }
        red.v[i] = cr;
        green.v[i] = cg;
        blue.v[i] = cb;
      }
    }
  }

  /** Lichen in discs, moss in what is deep and wet. */
  private void grow() {
    SplittableRandom r = new SplittableRandom(seed(71));
    double area = stone.widthMm() * stone.heightMm() / 1e6;
    boolean much = stone.has("lichen");
    int count =
        stone.has("clean")
            ? 0
            : (int) (area * (much ? 90 : 26) * (0.15 + wear) * r.nextDouble(0.5, 1.5));
    if (stone.material() == Material.BRONZE || stone.has("polished")) {
      count /= 6;
    }
    HeightField fray = Noise.octaves(w, h, seed(72), px(18), px(18), 4, 0.75);
    HeightField warts = Noise.octaves(w, h, seed(75), px(2.6), px(2.6), 2, 0.8);
    for (int n = 0; n < count; n++) {
      double radius = 4 * Math.exp(r.nextDouble() * (much ? 2.6 : 2.1));
      double cx = r.nextDouble() * stone.widthMm();
      double cy = Math.pow(r.nextDouble(), 1.3) * stone.heightMm();
      disc(cx, cy, radius, Palette.lichen(r), fray, warts, r.nextDouble(0.55, 0.95));
    }
    if (stone.has("mossy")) {
      HeightField wet = Noise.octaves(w, h, seed(73), px(150), px(200), 4, 0.6);
      HeightField tufts = Noise.octaves(w, h, seed(74), px(5), px(5), 2, 0.7);
      HeightField local = height.blur(px(5));
      for (int y = 0; y < h; y++) {
        float low = 0.5f * y / h;
        for (int x = 0; x < w; x++) {
          int i = y * w + x;
          float hollow = Math.min(2.2f, Math.max(0, local.v[i] - height.v[i]));
          float moss =
              Noise.step(
                  0.45f,
                  0.95f,
                  hollow * 0.42f + 0.45f * wet.v[i] + low * 0.8f - 0.1f + 0.15f * tufts.v[i]);
          if (moss > 0) {
            height.v[i] += moss * (0.55f * hollow + 0.5f + 0.4f * tufts.v[i]);
            float t = 1 + 0.35f * tufts.v[i];
            red.v[i] += (0.050f * t - red.v[i]) * moss;
            green.v[i] += (0.075f * t - green.v[i]) * moss;
            blue.v[i] += (0.014f * t - blue.v[i]) * moss;
            letterRelief.v[i] *= 1 - 0.5f * moss;
          }
        }
      }
    }
  }

  private void disc(
      double cx,
      double cy,
      double radius,
      float[] colour,
      HeightField fray,
      HeightField warts,
      double strength) {
    int x0 = (int) Math.max(0, px(cx - radius * 1.5));
    int x1 = (int) Math.min(w - 1.0, px(cx + radius * 1.5));
    int y0 = (int) Math.max(0, px(cy - radius * 1.5));
    int y1 = (int) Math.min(h - 1.0, px(cy + radius * 1.5));
    for (int y = y0; y <= y1; y++) {
      for (int x = x0; x <= x1; x++) {
        int i = y * w + x;
        double d = Math.hypot(x * mmPerPx - cx, y * mmPerPx - cy) / radius;
        float in = Noise.step(1.05f, 0.9f, (float) d + 0.30f * fray.v[i]);
        if (in <= 0) {
          continue;
        }
        float crust = 1 + 0.22f * fray.v[i] + 0.16f * warts.v[i];
        float ring = (float) (0.86 + 0.14 * Math.cos(d * 9)) * crust;
        // Crusts thin out towards the middle, where they are oldest.
        float a =
            (float)
                (in
                    * strength
                    * (0.62 + 0.38 * Math.min(1, d * 1.3))
                    * (0.85f + 0.2f * warts.v[i]));
        a = Math.min(1, Math.max(0, a));
        red.v[i] += (colour[0] * ring - red.v[i]) * a;
        green.v[i] += (colour[1] * ring - green.v[i]) * a;
        blue.v[i] += (colour[2] * ring - blue.v[i]) * a;
        height.v[i] += in * (0.20f + 0.14f * fray.v[i] + 0.16f * warts.v[i]);
        letterRelief.v[i] *= 1 - 0.25f * in;
      }
    }
  }

  /** Says of every letter what is left of it. */
  private void judge() {
    for (int n = 0; n < layout.lines.size(); n++) {
      Layout.Line line = layout.lines.get(n);
      List<StoneStanding> out = new ArrayList<>();
      double sum = 0;
      int seen = 0;
      for (Layout.Placed p : line.signs()) {
        Rectangle2D b = p.path().getBounds2D();
        int x0 = (int) Math.max(0, px(b.getMinX()));
        int x1 = (int) Math.min(w - 1.0, px(b.getMaxX()));
        int y0 = (int) Math.max(0, px(b.getMinY()));
        int y1 = (int) Math.min(h - 1.0, px(b.getMaxY()));
        double mask = 0;
        double gone = 0;
        double rest = 0;
        for (int y = y0; y <= y1; y++) {
          for (int x = x0; x <= x1; x++) {
            int i = y * w + x;
            mask += letterMask.v[i];
            gone += letterMask.v[i] * lost.v[i];
            rest += letterMask.v[i] * Math.abs(letterRelief.v[i]);
          }
        }
        double lostShare = mask > 0 ? gone / mask : 0;
        double contrast = mask > 0 ? rest / mask / (roughnessMm + 0.06) : 0;
        sum += contrast;
        seen++;
        if (lostShare > 0.72) {
          out.add(StoneStanding.LOST);
        } else if (contrast < 0.9) {
          out.add(StoneStanding.ILLEGIBLE);
        } else if (lostShare > 0.4 || contrast < 1.7) {
          out.add(StoneStanding.UNCLEAR);
        } else {
          out.add(StoneStanding.CLEAR);
        }
      }
      standings.add(List.copyOf(out));
      clarity[n] = seen > 0 ? sum / seen : 0;
    }
  }

  /** Rounds and chips the arris, and drops everything beside the stone. */
  private void rim() {
    HeightField chips = Noise.octaves(w, h, seed(81), px(40), px(40), 4, 0.7);
    double radius = stone.material() == Material.SLATE ? 2 : 4 + 7 * wear;
    for (int i = 0; i < height.v.length; i++) {
      double d = edge.v[i] * mmPerPx;
      float bite = (float) (Math.max(0, chips.v[i] - 0.35f) * (2 + 13 * wear));
      if (bite > 0.3f) {
        cover.v[i] = Math.min(cover.v[i], Noise.step(bite - 0.7f, bite + 0.3f, (float) d));
      }
      if (cover.v[i] <= 0.5f) {
        height.v[i] = OUTSIDE_MM;
      } else if (d < radius * 2.2) {
        double r = radius * (0.6 + Math.max(0, chips.v[i]) * (0.4 + 1.2 * wear));
        if (d < r) {
          height.v[i] -= (float) (r * (1 - Math.sqrt(1 - square(1 - d / r))) * 0.8);
        }
      }
    }
  }
}
