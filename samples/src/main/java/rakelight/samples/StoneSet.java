package rakelight.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Random stones for tests and benchmarks: the same numbers always give the same photographs.
 *
 * @param count how many stones
 * @param seed of the first; each next stone has the next one
 * @param widthPx width of the upright pictures, 200 to 9000
 * @param wear taken in turn, one for each material
 * @param view {@code usual}; {@code steep}, from far to the side and from below or above; {@code
 *     above}, 45 to 65 degrees from above, as a slab is seen; {@code turned}, the camera on its
 *     side or upside down, which the file doesn't say; {@code ringed}, seen as usual, but with the
 *     first lines cut round a disc; {@code several}, as usual with another lettered stone, smaller,
 *     to the right; what is on that one is not in the tables; {@code parted}, seen as usual, with
 *     long dashes and wide gaps inside lines, or a roll in columns, each cell of which is a line
 * @param lights photographs of each stone: 1, or the lights of a raking set, always seen as usual
 */
public record StoneSet(
    int count, long seed, int widthPx, List<Weathering> wear, String view, int lights) {
  private static final List<String> VIEWS =
      List.of("usual", "steep", "above", "turned", "ringed", "several", "parted");

  /** From a stone's number to that of the one beside it. */
  private static final int NEXT_STONES = 5_003;

  public StoneSet {
    wear = List.copyOf(wear);
    if (wear.isEmpty() || count < 0 || lights < 1) {
      throw new IllegalArgumentException("A set has some wear, and each stone a photograph");
    }
    if (!VIEWS.contains(view)) {
      throw new IllegalArgumentException("A view is one of " + VIEWS + ", not '" + view + "'");
    }
  }

  /**
   * Renders them into a folder, with {@code manifest.csv}, {@code truth.tsv} and {@code boxes.tsv}
   * beside them as {@link SampleWriter} describes them.
   */
  public void writeTo(Path folder) throws IOException {
    Files.createDirectories(folder);
    StringBuilder manifest =
        new StringBuilder("file,marker,face,bearing,light_azimuth,light_elevation\n");
    StringBuilder truth =
        new StringBuilder(
            "file\tmarker\tface\tline\ttext\tas_cut\tlegibility\tmaterial\tweathering\tlight\n");
    StringBuilder boxes = new StringBuilder("file\tline\tpolygon\n");
    for (int i = 0; i < count; i++) {
      SampleFace face = face(i);
      List<View> views = views(face, seed + i);
      List<RenderedPhotograph> photographs = Renderer.render(face, views, seed + i);
      for (int k = 0; k < views.size(); k++) {
        String file =
            String.format(Locale.ROOT, "R%06d", seed + i)
                + (lights > 1 ? "-" + (k + 1) : "")
                + ".jpg";
        byte[] jpeg = photographs.get(k).jpeg();
        Files.write(
            folder.resolve(file),
            view.equals("several") ? Neighbour.beside(jpeg, neighbour(i)) : jpeg);
        Lamp light = views.get(k).light();
        manifest.append(
            String.format(
                Locale.ROOT,
                "%s,%s,%s,%.1f,%s\n",
                file,
                face.marker(),
                face.face(),
                face.bearingDegrees(),
                light.sun() > 0
                    ? String.format(
                        Locale.ROOT, "%.1f,%.1f", light.azimuthDegrees(), light.elevationDegrees())
                    : ","));
        rows(truth, boxes, file, face, light, photographs.get(k));
      }
    }
    Files.writeString(folder.resolve("manifest.csv"), manifest, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("truth.tsv"), truth, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("boxes.tsv"), boxes, StandardCharsets.UTF_8);
  }

  private byte[] neighbour(int i) {
    SampleFace other = face(i + NEXT_STONES);
    View seen = StoneMaker.view(other, widthPx, seed + i + NEXT_STONES);
    return Renderer.render(other, List.of(seen), seed + i + NEXT_STONES).get(0).jpeg();
  }

  private SampleFace face(int i) {
    Material[] materials = Material.values();
    Typeface[] typefaces = Typeface.values();
    SampleFace face =
        StoneMaker.random(
            seed + i,
            materials[i % materials.length],
            wear.get((i / materials.length) % wear.size()),
            typefaces[(int) Math.floorMod(seed + i * 5L, (long) typefaces.length)]);
    return switch (view) {
      case "ringed" -> StoneMaker.ringed(face);
      case "parted" -> PartedStone.of(face, seed + i);
      default -> face;
    };
  }

  private List<View> views(SampleFace face, long stone) {
    if (lights > 1) {
      return StoneMaker.rakingViews(face, lights, widthPx, stone);
    }
    View usual = StoneMaker.view(face, widthPx, stone);
    return List.of(
        switch (view) {
          case "steep" -> StoneMaker.steep(usual, stone);
          case "above" -> StoneMaker.above(usual, stone);
          case "turned" -> StoneMaker.turned(usual, stone);
          default -> usual;
        });
  }

  private static void rows(
      StringBuilder truth,
      StringBuilder boxes,
      String file,
      SampleFace face,
      Lamp light,
      RenderedPhotograph photograph) {
    for (RenderedPhotograph.Line line : numbered(photograph.lines())) {
      List<String> cells = new ArrayList<>();
      cells.add(file);
      cells.add(face.marker());
      cells.add(face.face());
      cells.add(String.valueOf(line.number()));
      cells.add(PartedStone.written(line.leiden()));
      cells.add(PartedStone.written(line.asCut()));
      for (Enum<?> word :
          List.of(line.legibility(), face.stone().material(), face.stone().weathering())) {
        cells.add(word.name().toLowerCase(Locale.ROOT));
      }
      cells.add(StoneMaker.lightWord(face, light));
      truth.append(String.join("\t", cells)).append('\n');
      boxes
          .append(String.join("\t", file, String.valueOf(line.number())))
          .append('\t')
          .append(SampleWriter.polygon(line.polygon()))
          .append('\n');
    }
  }

  private static List<RenderedPhotograph.Line> numbered(List<RenderedPhotograph.Line> lines) {
    return lines.stream().sorted(Comparator.comparingInt(RenderedPhotograph.Line::number)).toList();
  }
}
