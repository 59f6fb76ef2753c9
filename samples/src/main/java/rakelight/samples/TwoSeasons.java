package rakelight.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * The same stones photographed in two seasons, to measure what tells that two photographs show one
 * stone: in the second season light, standpoint, lens, surroundings, grain and sharpness are
 * others; the stones have worn no further. Some stones were passed over in the first season.
 *
 * @param count stones that were photographed in both seasons
 * @param strangers stones that were photographed in the second season only
 * @param seed of the first stone; each next stone has the next one
 * @param widthPx width of the upright pictures, 200 to 9000
 * @param kind {@code usual}: every material and wear in turn; {@code government}: slabs of one
 *     pattern, which differ in a few words
 */
public record TwoSeasons(int count, int strangers, long seed, int widthPx, String kind) {
  /** From a stone's number to that of its second visit. */
  private static final long NEXT_SEASON = 7_000_003;

  private static final long A_YEAR_SECONDS = 365L * 24 * 3600;

  public TwoSeasons {
    if (count < 1 || strangers < 0) {
      throw new IllegalArgumentException("Two seasons have at least one stone");
    }
    if (!kind.equals("usual") && !kind.equals("government")) {
      throw new IllegalArgumentException("Stones are usual or government, not '" + kind + "'");
    }
  }

  /**
   * Renders them into the folders {@code first} and {@code second}; {@code first.csv} and {@code
   * second.csv} say which marker each photograph shows.
   */
  public void writeTo(Path folder) throws IOException {
    StringBuilder first = new StringBuilder("file,marker\n");
    StringBuilder second = new StringBuilder("file,marker\n");
    for (int i = 0; i < count + strangers; i++) {
      SampleFace face = face(i);
      if (i < count) {
        visit(face, StoneMaker.view(face, widthPx, seed + i), seed + i, folder, "first", first);
      }
      long visit = seed + i + NEXT_SEASON;
      View usual = StoneMaker.view(face, widthPx, visit);
      visit(face, usual.with(usual.light(), A_YEAR_SECONDS), visit, folder, "second", second);
    }
    Files.writeString(folder.resolve("first.csv"), first, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("second.csv"), second, StandardCharsets.UTF_8);
  }

  private SampleFace face(int i) {
    Weathering wear = Weathering.values()[i / Material.values().length % 4];
    return kind.equals("government")
        ? StoneMaker.government(seed + i, wear)
        : StoneMaker.random(
            seed + i,
            Material.values()[i % Material.values().length],
            wear,
            Typeface.values()[(int) Math.floorMod(seed + i * 5L, (long) Typeface.values().length)]);
  }

  private static void visit(
      SampleFace face, View view, long visit, Path folder, String season, StringBuilder table)
      throws IOException {
    String file = String.format(Locale.ROOT, "%s/%s.jpg", season, face.marker());
    Path target = folder.resolve(file);
    Files.createDirectories(target.resolveSibling(""));
    Files.write(target, Renderer.render(face, view, visit).jpeg());
    table.append(file).append(',').append(face.marker()).append('\n');
  }
}
