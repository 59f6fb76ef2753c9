package rakelight.samples;

import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SplittableRandom;

/**
 * Carvings without letters, to measure what tells that two show one thing or one hand: every motif
 * is cut by three hands in turn, each time on another stone, of another material and size, in
 * another light, seen from elsewhere.
 *
 * @param count how many; 240 is each of 40 motifs twice by each of three hands
 * @param seed of the first
 * @param widthPx width of the pictures, 200 to 9000
 * @param wear taken in turn
 * @param lights photographs of each: 1, or the lights of a raking set
 * @param drawn whose patterns: {@code own}, see {@link Motif}; {@code signs}, picture signs of a
 *     typeface, drawn by its makers
 */
public record CarvingSet(
    int count, long seed, int widthPx, List<Weathering> wear, int lights, String drawn) {
  private static final Material[] MATERIALS = {Material.MARBLE, Material.SLATE, Material.SANDSTONE};

  /** Hands of the second set: no habit of the first. */
  private static final CarverHand[] OTHER_THREE = {
    new CarverHand(
        "broad",
        71,
        CarverHand.Profile.ROUND,
        CarverHand.Surround.PANEL,
        0.92,
        0.05,
        0,
        1,
        false,
        1.2),
    new CarverHand(
        "low", 72, CarverHand.Profile.FLAT, CarverHand.Surround.NONE, 1.05, 0.07, 0, 1, true, 0.6),
    new CarverHand(
        "lined",
        73,
        CarverHand.Profile.INCISED,
        CarverHand.Surround.OVAL,
        1.15,
        0.09,
        0,
        1,
        false,
        1)
  };

  /** Room around a carving's outline, in its own size. */
  private static final double ROOM = 0.08;

  public CarvingSet {
    wear = List.copyOf(wear);
    if (wear.isEmpty() || count < 1 || lights < 1) {
      throw new IllegalArgumentException("A set has some wear, and each carving a photograph");
    }
    if (!drawn.equals("own") && !drawn.equals("signs")) {
      throw new IllegalArgumentException("Patterns are own or signs, not '" + drawn + "'");
    }
  }

  /**
   * Renders them into a folder with {@code carvings.tsv}: file, marker, motif, hand, wear,
   * material, light, and the outline's corners {@code x,y} in upright pixels.
   */
  public void writeTo(Path folder) throws IOException {
    Files.createDirectories(folder);
    StringBuilder table =
        new StringBuilder("file\tmarker\tmotif\thand\twear\tmaterial\tlight\toutline\n");
    for (int i = 0; i < count; i++) {
      one(i, folder, table);
    }
    Files.writeString(folder.resolve("carvings.tsv"), table, StandardCharsets.UTF_8);
  }

  private void one(int i, Path folder, StringBuilder table) throws IOException {
    CarverHand[] hands = drawn.equals("own") ? CarverHand.THREE : OTHER_THREE;
    int motifs = drawn.equals("own") ? Motif.values().length : PictureSign.values().length;
    int motif = i % motifs;
    CarverHand hand = hands[i / motifs % hands.length];
    String word =
        drawn.equals("own") ? Motif.values()[motif].word() : PictureSign.values()[motif].word();
    long own = (seed + i) * 0x9E3779B97F4A7C15L;
    SplittableRandom r = new SplittableRandom(own);
    double radius = r.nextDouble(55, 130);
    double side = radius * r.nextDouble(2.9, 3.6);
    Weathering weathering = wear.get(Math.floorMod(i / motifs + motif, wear.size()));
    Stone stone =
        new Stone(
            MATERIALS[r.nextInt(MATERIALS.length)],
            StoneForm.FLAT_TOP,
            weathering,
            Cut.V_CUT,
            Typeface.ROMAN,
            Emblem.NONE,
            side,
            side,
            r.nextInt(1760, 1900),
            r.nextInt(3) == 0 ? Set.of("base", "lichen") : Set.of("base"));
    SampleFace face =
        new SampleFace(String.format(Locale.ROOT, "C%03d", i + 1), "E", 90, stone, List.of(), own);
    Carving carving =
        new Carving(
            drawn.equals("own")
                ? Motif.values()[motif].drawing()
                : PictureSign.values()[motif].drawing(),
            word,
            hand,
            radius,
            own + 1);
    List<View> views = views(face, r);
    List<RenderedPhotograph> photographs = Renderer.render(face, carving, views, own);
    for (int k = 0; k < views.size(); k++) {
      String file = face.marker() + (lights > 1 ? "-" + (k + 1) : "") + ".jpg";
      Files.write(folder.resolve(file), photographs.get(k).jpeg());
      table.append(
          String.join(
              "\t",
              file,
              face.marker(),
              word,
              hand.word(),
              weathering.name().toLowerCase(Locale.ROOT),
              stone.material().name().toLowerCase(Locale.ROOT),
              StoneMaker.lightWord(face, views.get(k).light()),
              outline(carving, side, photographs.get(k).faceToImage(), r)));
      table.append('\n');
    }
  }

  /** As somebody would draw it: a box about the carving, a little off at each side. */
  private static String outline(
      Carving carving, double side, double[] toImage, SplittableRandom r) {
    Rectangle2D box = carving.extent();
    double room = ROOM * Math.max(box.getWidth(), box.getHeight());
    double[] edges = {
      box.getMinX() - room * r.nextDouble(0.3, 1.7),
      box.getMinY() - room * r.nextDouble(0.3, 1.7),
      box.getMaxX() + room * r.nextDouble(0.3, 1.7),
      box.getMaxY() + room * r.nextDouble(0.3, 1.7)
    };
    int[][] corners = {{0, 1}, {2, 1}, {2, 3}, {0, 3}};
    double left = Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double right = 0;
    double bottom = 0;
    for (int[] corner : corners) {
      Point2D p =
          Renderer.apply(
              toImage,
              side / 2 + carving.radiusMm() * edges[corner[0]],
              side / 2 + carving.radiusMm() * edges[corner[1]]);
      left = Math.min(left, p.getX());
      top = Math.min(top, p.getY());
      right = Math.max(right, p.getX());
      bottom = Math.max(bottom, p.getY());
    }
    return String.format(
        Locale.ROOT,
        "%.0f,%.0f %.0f,%.0f %.0f,%.0f %.0f,%.0f",
        left,
        top,
        right,
        top,
        right,
        bottom,
        left,
        bottom);
  }

  private List<View> views(SampleFace face, SplittableRandom r) {
    double fill = r.nextDouble(0.7, 1.05);
    View first =
        new View(
            light(face, r),
            r.nextDouble(-14, 14),
            r.nextDouble(-4, 14),
            r.nextDouble(-5, 5),
            fill,
            widthPx,
            widthPx,
            1,
            r.nextDouble(0.5, 1.2) * widthPx / 600,
            r.nextDouble(0.008, 0.03),
            r.nextDouble(0.7, 0.92),
            new View.Equipment(
                "Halden", "Halden Pocket 4", "Halden 4.3mm f/1.8", 4.3, r.nextDouble(25, 50), 1.8),
            OffsetDateTime.of(
                2026, 6, 13, 10, r.nextInt(60), r.nextInt(60), 250_000_000, ZoneOffset.ofHours(-3)),
            new View.Position(44, -50, 14, 5, (face.bearingDegrees() + 180) % 360));
    if (lights == 1) {
      return List.of(first);
    }
    List<View> views = new ArrayList<>();
    for (int i = 0; i < lights; i++) {
      double around = -82 + 164.0 * i / (lights - 1) + r.nextDouble(-4, 4);
      views.add(first.with(Lamp.raking(face, around, r.nextDouble(9, 18)), 40L * i));
    }
    return views;
  }

  /** Mostly sun from some side, one in ten shade. */
  private static Lamp light(SampleFace face, SplittableRandom r) {
    double around = r.nextDouble(-85, 85);
    double grazing = r.nextInt(2) == 0 ? r.nextDouble(8, 28) : r.nextDouble(28, 60);
    Lamp way = Lamp.raking(face, around, grazing);
    return r.nextInt(10) == 0
        ? new Lamp(0, 45, 0, 1, false)
        : new Lamp(way.azimuthDegrees(), way.elevationDegrees(), 1, 0.3, false);
  }
}
