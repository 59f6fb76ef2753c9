package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Sha256;
import rakelight.archive.StageKind;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Cut;
import rakelight.samples.Emblem;
import rakelight.samples.Lamp;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.SampleLine;
import rakelight.samples.Stone;
import rakelight.samples.StoneForm;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * A rendered stone, photographed from in front and far from the side under one lamp. Its lines were
 * read on the oblique photograph; the strips of all pictures are laid over each other letter by
 * letter.
 */
class LineStripsTest {
  private static final int WIDTH_PX = 1000;
  private static final double FIFTH_OF_A_LETTER = 0.2;

  private final Map<Sha256, byte[]> originals = new HashMap<>();
  private final Map<DerivationKey, NamedFiles> made = new HashMap<>();

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void everyLetterStandsInTheSameColumnOfEveryStrip() throws BadInputException {
    SampleFace face = stone();
    View usual = StoneMaker.view(face, WIDTH_PX, 5).with(Lamp.raking(face, -50, 30), 0);
    View oblique = StoneMaker.steep(usual, 6);
    RenderedPhotograph front = Renderer.render(face, usual, 1);
    RenderedPhotograph side = Renderer.render(face, oblique, 1);
    Homography sideToFront = homography(side).inverse().then(homography(front));
    Polygon outline =
        Polygon.rectangle(20, 20, face.stone().widthMm() - 20, face.stone().heightMm() - 20)
            .map(homography(front)::map);
    List<LineStrips.Line> lines = new ArrayList<>();
    for (RenderedPhotograph.Line line : side.lines()) {
      lines.add(new LineStrips.Line(line.number(), found(line), sideToFront));
    }
    RakedFace raked =
        new RakedFace(
            outline,
            Optional.empty(),
            List.of(
                new RakedFace.View(source(front), Homography.identity(), Optional.empty()),
                new RakedFace.View(source(side), sideToFront, Optional.empty())));
    ReliefPictures.Input relief =
        new ReliefPictures.Input(
            raked,
            lines.get(0).line().heightPx(),
            lines.stream().map(line -> line.line().ribbon().map(sideToFront::map)).toList());
    DerivationKey reliefKey = ReliefPictures.KIND.key(relief);
    Given given = given();
    made.put(reliefKey, new ReliefPictures().run(relief, given));

    NamedFiles ofFront =
        new LightStrips()
            .run(new LightStrips.Input(source(front), Homography.identity(), lines), given);
    NamedFiles ofSide =
        new LightStrips().run(new LightStrips.Input(source(side), sideToFront, lines), given);
    NamedFiles ofRelief =
        new LineStrips()
            .run(new LineStrips.Input(reliefKey, outline, Optional.empty(), lines), given);

    int letters = 0;
    for (RenderedPhotograph.Line line : side.lines()) {
      FoundLine found = found(line);
      GrayImage own = strip(ofSide, LightStrips.fileOf(line.number()));
      Map<String, GrayImage> others =
          Map.of(
              "the front", strip(ofFront, LightStrips.fileOf(line.number())),
              "contrast", strip(ofRelief, LineStrips.fileOf(line.number(), "contrast")),
              "cut", strip(ofRelief, LineStrips.fileOf(line.number(), "cut")));
      for (String name : others.keySet()) {
        GrayImage other = others.get(name);
        assertThat(other.widthPx()).isEqualTo(own.widthPx());
        for (RenderedPhotograph.Letter letter : line.letters()) {
          Polygon box = box(letter);
          double from = column(found, box.points().get(0).towards(box.points().get(3), 0.5));
          double to = column(found, box.points().get(1).towards(box.points().get(2), 0.5));
          assertThat(shift(own, other, from, to))
              .as("%s of “%s” in %s", letter.letter(), line.asCut(), name)
              .isLessThan(FIFTH_OF_A_LETTER);
          letters++;
        }
      }
    }
    assertThat(letters).isGreaterThan(80);
  }

  private static SampleFace stone() {
    return new SampleFace(
        "R1",
        "E",
        90,
        new Stone(
            Material.SLATE,
            StoneForm.FLAT_TOP,
            Weathering.LIGHT,
            Cut.V_CUT,
            Typeface.values()[0],
            Emblem.NONE,
            600,
            700,
            1850,
            Set.of("clean")),
        List.of(
            new SampleLine(1, 1.3, Set.of("arch"), "MERCY TULL"),
            new SampleLine(2, 1, Set.of(), "WIFE OF AMOS"),
            new SampleLine(3, 1, Set.of(), "DIED 9 MAY 1948"),
            new SampleLine(4, 1, Set.of(), "AGED 71 YEARS")),
        7);
  }

  private static Homography homography(RenderedPhotograph photograph) {
    return Homography.of(photograph.faceToImage());
  }

  private PictureSource source(RenderedPhotograph photograph) {
    Sha256 digest = Sha256.of(photograph.jpeg());
    originals.put(digest, photograph.jpeg());
    return new PictureSource(digest, Optional.empty(), 1);
  }

  /** A line between its true outlines, capitals as high as the outline on average. */
  private static FoundLine found(RenderedPhotograph.Line line) {
    Polygon ribbon =
        new Polygon(line.polygon().stream().map(p -> new Point(p.getX(), p.getY())).toList());
    double length = new FoundLine(ribbon, 1, 1).lengthPx();
    return new FoundLine(ribbon, ribbon.area() / length, 1);
  }

  private static Polygon box(RenderedPhotograph.Letter letter) {
    return new Polygon(letter.corners().stream().map(p -> new Point(p.getX(), p.getY())).toList());
  }

  /** The column of a line's strip, 0 to 1, that a point of its photograph is nearest to. */
  private static double column(FoundLine line, Point point) {
    return IntStream.rangeClosed(0, 2000)
        .mapToObj(i -> i / 2000.0)
        .min(
            java.util.Comparator.comparingDouble(
                t -> LineStrip.boxOf(line, t, t).centre().distance(point)))
        .orElseThrow();
  }

  private static GrayImage strip(NamedFiles strips, String file) throws BadInputException {
    return Picture.upright(strips.file(file).orElseThrow(), 1);
  }

  /** How far a letter of one strip is moved in another, in letter widths, by likeness. */
  private static double shift(GrayImage own, GrayImage other, double from, double to) {
    int left = (int) Math.round(from * own.widthPx());
    int right = (int) Math.round(to * own.widthPx());
    int width = right - left;
    int pad = width / 4;
    double best = -2;
    int at = 0;
    for (int by = -width; by <= width; by++) {
      double like = likeness(own, other, left - pad, right + pad, by);
      if (like > best) {
        best = like;
        at = by;
      }
    }
    return Math.abs(at) / (double) width;
  }

  /** Correlation of the brightness of some columns of one strip with those so much aside. */
  private static double likeness(GrayImage own, GrayImage other, int left, int right, int by) {
    double n = 0;
    double a = 0;
    double b = 0;
    double aa = 0;
    double bb = 0;
    double ab = 0;
    for (int y = own.heightPx() / 8; y < own.heightPx() * 7 / 8; y++) {
      for (int x = left; x < right; x++) {
        if (x < 0 || x >= own.widthPx() || x + by < 0 || x + by >= other.widthPx()) {
          continue;
        }
        double p = own.at(x, y);
        double q = other.at(x + by, y);
        n++;
        a += p;
        b += q;
        aa += p * p;
        bb += q * q;
        ab += p * q;
      }
    }
    return n < (right - left) * own.heightPx() / 3.0
        ? -1
        : (ab - a * b / n) / Math.sqrt((aa - a * a / n) * (bb - b * b / n) + 1e-6);
  }

  private Given given() {
    return new Given() {
      @Override
      public byte[] original(Sha256 digest) {
        return Optional.ofNullable(originals.get(digest)).orElseThrow();
      }

      @Override
      @SuppressWarnings("unchecked")
      public <O> O result(StageKind<?, O> kind, DerivationKey key) {
        return (O) Optional.ofNullable(made.get(key)).orElseThrow();
      }
    };
  }
}
