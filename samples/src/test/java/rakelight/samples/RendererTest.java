package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifDirectoryBase;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import com.drew.metadata.exif.GpsDirectory;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class RendererTest {
  private static final View.Position HERE =
      new View.Position(44.000281, -49.999873, 13.5, 4.7, 271.5);

  private static SampleFace stone(Material material, Weathering wear, String... lines) {
    Stone s =
        new Stone(
            material,
            StoneForm.ROUND_TOP,
            wear,
            Cut.V_CUT,
            Typeface.BOLD,
            Emblem.NONE,
            500,
            700,
            1851,
            Set.of("clean"));
    List<SampleLine> text = new java.util.ArrayList<>();
    for (String l : lines) {
      text.add(new SampleLine(text.size() + 1, 5, Set.of(), l));
    }
    return new SampleFace("T1", "E", 90, s, text, 4711);
  }

  private static View view(SampleFace face, int orientation) {
    return new View(
        Lamp.raking(face, -60, 18),
        6,
        8,
        1,
        0.8,
        480,
        630,
        orientation,
        0.4,
        0,
        0.95,
        new View.Equipment("Orrery", "Orrery X2", "Orrery 23mm f/2", 23, 35, 5.6),
        OffsetDateTime.parse("2026-07-11T20:51:07.250-03:00"),
        HERE);
  }

  @Test
  void theSameSeedGivesTheSameBytes() {
    SampleFace f = stone(Material.SANDSTONE, Weathering.HEAVY, "HANNAH", "WREN 1851");
    byte[] first = Renderer.render(f, view(f, 1), 3).jpeg();
    assertThat(Renderer.render(f, view(f, 1), 3).jpeg()).isEqualTo(first);
    assertThat(Renderer.render(f, view(f, 1), 4).jpeg()).isNotEqualTo(first);
    SampleFace random = StoneMaker.random(12, Material.SLATE, Weathering.LIGHT, Typeface.ITALIC);
    assertThat(StoneMaker.random(12, Material.SLATE, Weathering.LIGHT, Typeface.ITALIC))
        .isEqualTo(random);
  }

  @Test
  void theReliefOfALetterLiesInsideItsPolygonAndNowhereElse() {
    SampleFace f = stone(Material.GRANITE, Weathering.FRESH, "HANNAH", "WREN 1851");
    FaceModel m = new FaceModel(f, 1);
    double inside = 0;
    double all = 0;
    Path2D polygons = new Path2D.Double();
    for (Layout.Line l : m.layout.lines) {
      Path2D p = path(l.polygon());
      polygons.append(p, false);
      for (Layout.Placed s : l.signs()) {
        Rectangle2D b = s.path().getBounds2D();
        assertThat(p.contains(b)).as("letter cell in line polygon").isTrue();
        assertThat(meanRelief(m, path(s.corners()))).isLessThan(-0.3);
      }
    }
    for (int y = 0; y < m.h; y++) {
      for (int x = 0; x < m.w; x++) {
        double r = Math.abs(m.letterRelief.v[y * m.w + x]);
        all += r;
        inside += polygons.contains(x + 0.5, y + 0.5) ? r : 0;
      }
    }
    assertThat(inside / all).isGreaterThan(0.98);
  }

  @Test
  void polygonsInThePictureLieOnTheLetters() throws IOException {
    SampleFace f = stone(Material.MARBLE, Weathering.FRESH, "HANNAH", "WREN 1851");
    RenderedPhotograph p = Renderer.render(f, view(f, 1), 3);
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(p.jpeg()));
    for (RenderedPhotograph.Line l : p.lines()) {
      assertThat(l.legibility()).isEqualTo(RenderedPhotograph.Legibility.LEGIBLE);
      double on = unrest(image, path(l.polygon()));
      Path2D above =
          path(
              l.polygon().stream()
                  .map(q -> (Point2D) new Point2D.Double(q.getX(), q.getY() + 45))
                  .toList());
      if (l.number() == 2) {
        assertThat(on).isGreaterThan(1.6 * unrest(image, above));
      }
      assertThat(on).isGreaterThan(6);
    }
  }

  @Test
  void aLostLetterLeavesNoReliefAndABracketInTheTruth() {
    SampleFace f = stone(Material.SLATE, Weathering.LIGHT, "HAN[NA]H WREN", "DIED ~~~~");
    FaceModel m = new FaceModel(f, 1);
    Layout.Line line = m.layout.lines.get(0);
    int lost = 0;
    for (int k = 0; k < line.signs().size(); k++) {
      if (m.standings.get(0).get(k) == StoneStanding.LOST) {
        lost++;
        assertThat(Math.abs(meanRelief(m, path(line.signs().get(k).corners())))).isLessThan(0.12);
      }
    }
    assertThat(lost).isGreaterThanOrEqualTo(2);
    assertThat(StoneTruth.leiden(line, m.standings.get(0))).matches("HA?N?\\[\\.{2,4}\\]H? WREN");
    assertThat(StoneTruth.leiden(m.layout.lines.get(1), m.standings.get(1)))
        .isEqualTo("DIED (vac. 4)");
  }

  /** Slate loses its face to frost, marble is worn to traces: common practice, no source. */
  @Test
  void slateLosesLettersWholeAndMarbleKeepsTraces() {
    String[] lines = {"SACRED TO THE MEMORY", "OF HANNAH WREN", "WHO DIED IN 1848", "AGED 41"};
    assertThat(share(Material.SLATE, StoneStanding.LOST, lines))
        .isGreaterThan(2 * share(Material.MARBLE, StoneStanding.LOST, lines));
    assertThat(share(Material.MARBLE, StoneStanding.ILLEGIBLE, lines))
        .isGreaterThan(share(Material.SLATE, StoneStanding.ILLEGIBLE, lines));
  }

  private static double share(Material material, StoneStanding standing, String... lines) {
    List<StoneStanding> all =
        new FaceModel(stone(material, Weathering.RUINOUS, lines), 1)
            .standings.stream().flatMap(List::stream).toList();
    return all.stream().filter(standing::equals).count() / (double) all.size();
  }

  @Test
  void marbleLosesDepthBeforeGraniteDoes() {
    double marble = relief(stone(Material.MARBLE, Weathering.RUINOUS, "HANNAH"));
    double granite = relief(stone(Material.GRANITE, Weathering.RUINOUS, "HANNAH"));
    assertThat(marble).isLessThan(0.5 * granite);
  }

  @Test
  void aReaderOfExifFindsTimeOffsetPlaceAndCamera() throws IOException, ImageProcessingException {
    SampleFace f = stone(Material.MARBLE, Weathering.LIGHT, "HANNAH");
    RenderedPhotograph p = Renderer.render(f, view(f, 6), 3);
    Metadata meta = ImageMetadataReader.readMetadata(new ByteArrayInputStream(p.jpeg()));
    ExifIFD0Directory first = meta.getFirstDirectoryOfType(ExifIFD0Directory.class);
    ExifSubIFDDirectory exif = meta.getFirstDirectoryOfType(ExifSubIFDDirectory.class);
    GpsDirectory gps = meta.getFirstDirectoryOfType(GpsDirectory.class);
    assertThat(meta.getDirectories()).noneMatch(com.drew.metadata.Directory::hasErrors);
    assertThat(first.getString(ExifDirectoryBase.TAG_MODEL)).isEqualTo("Orrery X2");
    assertThat(first.getInteger(ExifDirectoryBase.TAG_ORIENTATION)).isEqualTo(6);
    assertThat(exif.getDateOriginal().toInstant())
        .isEqualTo(Instant.parse("2026-07-11T23:51:07.250Z"));
    assertThat(exif.getString(ExifDirectoryBase.TAG_TIME_ZONE_ORIGINAL)).isEqualTo("-03:00");
    assertThat(exif.getDoubleObject(ExifDirectoryBase.TAG_FOCAL_LENGTH)).isEqualTo(23);
    assertThat(exif.getString(ExifDirectoryBase.TAG_LENS_MODEL)).isEqualTo("Orrery 23mm f/2");
    assertThat(gps.getGeoLocation().getLatitude()).isCloseTo(HERE.latitude(), within(1e-6));
    assertThat(gps.getGeoLocation().getLongitude()).isCloseTo(HERE.longitude(), within(1e-6));
    assertThat(gps.getDoubleObject(GpsDirectory.TAG_H_POSITIONING_ERROR))
        .isCloseTo(4.7, within(1e-3));
    assertThat(gps.getDoubleObject(GpsDirectory.TAG_IMG_DIRECTION)).isCloseTo(271.5, within(1e-3));
  }

  @Test
  void aTurnedFileShowsTheSameUprightPicture() throws IOException {
    SampleFace f = stone(Material.MARBLE, Weathering.LIGHT, "HANNAH");
    BufferedImage upright =
        ImageIO.read(new ByteArrayInputStream(Renderer.render(f, view(f, 1), 3).jpeg()));
    BufferedImage turned =
        ImageIO.read(new ByteArrayInputStream(Renderer.render(f, view(f, 6), 3).jpeg()));
    assertThat(turned.getWidth()).isEqualTo(upright.getHeight());
    double sum = 0;
    // Orientation 6 is shown by a quarter turn clockwise: stored (x, y) appears at (height - 1 - y,
    // x).
    for (int y = 5; y < upright.getHeight(); y += 7) {
      for (int x = 5; x < upright.getWidth(); x += 7) {
        int a = upright.getRGB(x, y) >> 8 & 255;
        int b = turned.getRGB(y, upright.getWidth() - 1 - x) >> 8 & 255;
        sum += Math.abs(a - b);
      }
    }
    assertThat(sum / (90 * 68)).isLessThan(3);
  }

  @Property(tries = 200)
  void aRakingLampComesFromWhereItIsSaidToCome(
      @ForAll @DoubleRange(min = 0, max = 359) double bearing,
      @ForAll @DoubleRange(min = -180, max = 180) double around,
      @ForAll @DoubleRange(min = 2, max = 88) double grazing,
      @ForAll boolean lying) {
    Stone s =
        new Stone(
            Material.SLATE,
            lying ? StoneForm.LEDGER : StoneForm.OGEE,
            Weathering.LIGHT,
            Cut.V_CUT,
            Typeface.BOLD,
            Emblem.NONE,
            500,
            700,
            1800,
            Set.of());
    SampleFace f = new SampleFace("T2", "E", bearing, s, List.of(), 1);
    double[] l = Lamp.raking(f, around, grazing).inFrameOf(f);
    double g = Math.toRadians(grazing);
    assertThat(l[0]).isCloseTo(Math.cos(g) * Math.sin(Math.toRadians(around)), within(1e-9));
    assertThat(l[1]).isCloseTo(Math.cos(g) * Math.cos(Math.toRadians(around)), within(1e-9));
    assertThat(l[2]).isCloseTo(Math.sin(g), within(1e-9));
  }

  @Test
  void theSunOfTheRendererStandsWhereThePublishedAlgorithmPutsIt() {
    // Worked example of I. Reda and A. Andreas, NREL/TP-560-34302: zenith 50.11162, azimuth
    // 194.34024 degrees.
    Sun sun = Sun.at(Instant.parse("2003-10-17T19:30:30Z"), 39.742476, -105.1786);
    assertThat(sun.azimuthDegrees()).isCloseTo(194.340, within(0.1));
    assertThat(sun.elevationDegrees()).isCloseTo(90 - 50.112, within(0.1));
  }

  @Test
  void aCutUnderARakingLampIsDarkBehindTheEdgeNearestTheLamp() {
    SampleFace f = stone(Material.GRANITE, Weathering.FRESH, "III");
    FaceModel m = new FaceModel(f, 0.5);
    HeightField lit = Shading.shadows(m, Lamp.raking(f, -90, 42).inFrameOf(f));
    Rectangle2D stroke = m.layout.lines.get(0).signs().get(1).path().getBounds2D();
    int y = (int) (stroke.getCenterY() / 0.5);
    int middle = (int) (stroke.getCenterX() / 0.5);
    int quarter = Math.max(2, (int) (stroke.getWidth() * 0.13 / 0.5));
    assertThat(lit.v[y * m.w + middle - quarter]).isLessThan(0.4f);
    assertThat(lit.v[y * m.w + middle + quarter]).isGreaterThan(0.6f);
  }

  @Test
  void noSystemFontIsEverAskedFor() throws IOException, URISyntaxException {
    // What a class refers to stands by name in its constant pool.
    Path folder = Path.of(Renderer.class.getResource("Renderer.class").toURI()).getParent();
    try (Stream<Path> files = Files.list(folder)) {
      List<Path> classes = files.filter(f -> f.toString().endsWith(".class")).toList();
      assertThat(classes).hasSizeGreaterThan(20);
      for (Path c : classes) {
        assertThat(new String(Files.readAllBytes(c), StandardCharsets.ISO_8859_1))
            .as(c.getFileName().toString())
            .doesNotContain("java/awt/Font", "java/awt/GraphicsEnvironment", "drawString");
      }
    }
  }

  @Test
  void everyDesignHasEverySignTheStonesUse() {
    String needed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&.,;:()’–—·ſ/";
    for (Typeface t : Typeface.values()) {
      for (char c : needed.toCharArray()) {
        assertThat(t.glyph(c).path().getBounds2D().isEmpty()).as(t + " " + c).isFalse();
      }
    }
  }

  private static double relief(SampleFace f) {
    FaceModel m = new FaceModel(f, 1);
    return -meanRelief(m, path(m.layout.lines.get(0).polygon()));
  }

  private static Path2D path(List<Point2D> points) {
    Path2D p = new Path2D.Double();
    p.moveTo(points.get(0).getX(), points.get(0).getY());
    points.subList(1, points.size()).forEach(q -> p.lineTo(q.getX(), q.getY()));
    p.closePath();
    return p;
  }

  private static double meanRelief(FaceModel m, Path2D where) {
    double sum = 0;
    int n = 0;
    for (int y = 0; y < m.h; y++) {
      for (int x = 0; x < m.w; x++) {
        if (where.contains((x + 0.5) * m.mmPerPx, (y + 0.5) * m.mmPerPx)) {
          sum += m.letterRelief.v[y * m.w + x];
          n++;
        }
      }
    }
    return sum / Math.max(1, n);
  }

  private static double unrest(BufferedImage image, Path2D where) {
    double sum = 0;
    double square = 0;
    int n = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        if (where.contains(x, y)) {
          int v = image.getRGB(x, y) >> 8 & 255;
          sum += v;
          square += v * v;
          n++;
        }
      }
    }
    double mean = sum / Math.max(1, n);
    return Math.sqrt(square / Math.max(1, n) - mean * mean);
  }
}
