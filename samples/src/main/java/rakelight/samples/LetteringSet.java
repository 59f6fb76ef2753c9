package rakelight.samples;

import java.awt.geom.Point2D;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * Stones lettered by invented cutters, to measure what tells one hand from another: each typeface
 * is the pattern of several cutters, each of whom letters several stones of other words, material,
 * wear and light.
 *
 * @param cutters for each typeface
 * @param stones of each cutter
 * @param seed of the first cutter and stone
 * @param widthPx width of the pictures, 200 to 9000
 * @param typefaces the patterns
 * @param wear taken in turn
 * @param strength of the cutters' habits: 1 as an eye sees them, less for what is closer to the
 *     pattern
 */
public record LetteringSet(
    int cutters,
    int stones,
    long seed,
    int widthPx,
    List<Typeface> typefaces,
    List<Weathering> wear,
    double strength) {
  private static final Material[] MATERIALS = {Material.MARBLE, Material.SLATE, Material.SANDSTONE};

  public LetteringSet {
    typefaces = List.copyOf(typefaces);
    wear = List.copyOf(wear);
    if (cutters < 1 || stones < 1 || typefaces.isEmpty() || wear.isEmpty()) {
      throw new IllegalArgumentException("A set has a cutter, a stone, a typeface and some wear");
    }
  }

  /**
   * Renders them into a folder with {@code manifest.csv} (file, marker, face) and {@code
   * letters.tsv}: file, marker, typeface, cutter, line, letter, standing, the corners {@code x,y}
   * of the letter's cell, and where capitals have head and foot in its middle, all in upright
   * pixels. Letters lost are left out.
   */
  public void writeTo(Path folder) throws IOException {
    Files.createDirectories(folder);
    StringBuilder manifest = new StringBuilder("file,marker,face\n");
    StringBuilder table =
        new StringBuilder(
            "file\tmarker\ttypeface\tcutter\tline\tletter\tstanding\tcell\tcapital\n");
    int n = 0;
    for (int t = 0; t < typefaces.size(); t++) {
      for (int c = 0; c < cutters; c++) {
        LetterHand cutter = LetterHand.invented(seed + 100L * t + c, strength);
        for (int s = 0; s < stones; s++) {
          SampleFace face = face(n++, typefaces.get(t));
          View view = StoneMaker.view(face, widthPx, seed + n);
          RenderedPhotograph shot = Renderer.render(face, cutter, view, seed + n);
          String file = face.marker() + ".jpg";
          Files.write(folder.resolve(file), shot.jpeg());
          manifest.append(file).append(',').append(face.marker()).append(",E\n");
          String head =
              String.join(
                  "\t",
                  file,
                  face.marker(),
                  typefaces.get(t).name().toLowerCase(Locale.ROOT),
                  typefaces.get(t).name().toLowerCase(Locale.ROOT) + "-" + (c + 1));
          for (RenderedPhotograph.Line line : shot.lines()) {
            rows(table, head, line, new Layout(face, cutter), shot.faceToImage());
          }
        }
      }
    }
    Files.writeString(folder.resolve("manifest.csv"), manifest, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("letters.tsv"), table, StandardCharsets.UTF_8);
  }

  /** Neither painted nor gilded, so that the cut itself is seen. */
  private SampleFace face(int n, Typeface typeface) {
    long stone = seed * 1000 + n;
    SampleFace face;
    do {
      face =
          StoneMaker.random(
              stone, MATERIALS[n % MATERIALS.length], wear.get(n % wear.size()), typeface);
      stone += 1_000_000;
    } while (face.stone().has("painted") || face.stone().has("gilded"));
    return face;
  }

  private static void rows(
      StringBuilder table,
      String head,
      RenderedPhotograph.Line line,
      Layout layout,
      double[] toImage) {
    Layout.Line laid =
        layout.lines.stream()
            .filter(one -> one.line().number() == line.number())
            .findFirst()
            .orElseThrow();
    for (int i = 0; i < line.letters().size(); i++) {
      RenderedPhotograph.Letter letter = line.letters().get(i);
      if (letter.standing() != StoneStanding.LOST) {
        List<Point2D> capital =
            laid.signs().get(i).capital().stream()
                .map(p -> Renderer.apply(toImage, p.getX(), p.getY()))
                .toList();
        table.append(
            String.join(
                "\t",
                head,
                String.valueOf(line.number()),
                String.valueOf(letter.letter()),
                letter.standing().name().toLowerCase(Locale.ROOT),
                SampleWriter.polygon(letter.corners()),
                SampleWriter.polygon(capital)));
        table.append('\n');
      }
    }
  }
}
