package rakelight.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Markers photographed in two seasons, between which some lost a known share of their letters'
 * relief and others none; in the second season light, standpoint, lens and surroundings are others.
 *
 * @param worn how many lose something
 * @param kept how many lose nothing
 * @param seed of the first
 * @param widthPx width of the pictures, 200 to 9000
 */
public record WornSeasons(int worn, int kept, long seed, int widthPx) {
  private static final long NEXT_STONES = 1_000;
  private static final long NEXT_SEASON = 500_000;
  private static final long TEN_YEARS_SECONDS = 10L * 365 * 24 * 3600;
  private static final Material[] MATERIALS = {Material.MARBLE, Material.SANDSTONE, Material.SLATE};

  public WornSeasons {
    if (worn < 0 || kept < 0 || worn + kept == 0) {
      throw new IllegalArgumentException("Two seasons have at least one stone");
    }
  }

  /**
   * Renders them into {@code first} and {@code second} with {@code seasons.csv} (file, marker) and
   * {@code losses.tsv}: marker, line, loss (the share of the line's relief gone since the first
   * season), and the line's outline on the first photograph, corners {@code x,y}.
   */
  public void writeTo(Path folder) throws IOException {
    StringBuilder manifest = new StringBuilder("file,marker\n");
    StringBuilder losses = new StringBuilder("marker\tline\tloss\toutline\n");
    for (int i = 0; i < worn + kept; i++) {
      SampleFace face = face(i);
      SplittableRandom r = new SplittableRandom(seed + i);
      double since = i < worn ? r.nextDouble(0.08, 0.85) : 0;
      View first = sunny(face, seed + i);
      View second = sunny(face, seed + i + NEXT_SEASON);
      RenderedPhotograph one = Renderer.render(face, first, seed + i);
      Renderer.Later later =
          Renderer.later(
              face, since, second.with(second.light(), TEN_YEARS_SECONDS), seed + i + NEXT_SEASON);
      write(folder, "first", face, one, manifest);
      write(folder, "second", face, later.photograph(), manifest);
      List<RenderedPhotograph.Line> lines = one.lines();
      for (int n = 0; n < lines.size(); n++) {
        losses.append(
            String.format(
                Locale.ROOT,
                "%s\t%d\t%.3f\t%s\n",
                face.marker(),
                lines.get(n).number(),
                later.taken()[n],
                SampleWriter.polygon(lines.get(n).polygon())));
      }
    }
    Files.writeString(folder.resolve("seasons.csv"), manifest, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("losses.tsv"), losses, StandardCharsets.UTF_8);
  }

  /** Without paint and gold: those would stay where the relief under them goes. */
  private SampleFace face(int i) {
    Weathering before = i % 2 == 0 ? Weathering.LIGHT : Weathering.FRESH;
    Typeface[] typefaces = Typeface.values();
    Typeface typeface = typefaces[(int) Math.floorMod(seed + i * 5L, (long) typefaces.length)];
    long stone = seed + i;
    SampleFace face;
    do {
      face = StoneMaker.random(stone, MATERIALS[i % MATERIALS.length], before, typeface);
      stone += NEXT_STONES;
    } while (face.stone().has("painted") || face.stone().has("gilded"));
    return face;
  }

  /** In the sun, as somebody goes who wants letters to show. */
  private View sunny(SampleFace face, long visit) {
    View usual = StoneMaker.view(face, widthPx, visit);
    SplittableRandom r = new SplittableRandom(visit * 7 + 3);
    Lamp way = Lamp.raking(face, r.nextDouble(-80, 80), r.nextDouble(10, 35));
    return usual.with(new Lamp(way.azimuthDegrees(), way.elevationDegrees(), 1, 0.3, false), 0);
  }

  private static void write(
      Path folder,
      String season,
      SampleFace face,
      RenderedPhotograph photograph,
      StringBuilder manifest)
      throws IOException {
    String file = String.format(Locale.ROOT, "%s/%s.jpg", season, face.marker());
    Path target = folder.resolve(file);
    Files.createDirectories(target.resolveSibling(""));
    Files.write(target, photograph.jpeg());
    manifest.append(file).append(',').append(face.marker()).append('\n');
  }
}
