package rakelight.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Renders from the command line.
 *
 * <pre>
 * ground OUT [--width W] [--markers M04,M07] [--workers N]   photographs of the invented ground
 * render OUT [--count N] [--seed S] [--width W] [--wear A,B] [--view V]
 *                                                     random stones with truth.tsv and boxes.tsv
 * </pre>
 *
 * Wear of random stones: some of {@code fresh,light,heavy,ruinous}, in turn; all if not said. Views
 * of random stones: {@code usual}; {@code steep}, from far to the side and from below or above;
 * {@code turned}, the camera on its side or upside down, which the file doesn't say.
 */
public final class Main {
  private Main() {}

  public static void main(String[] args) throws IOException {
    System.setProperty("java.awt.headless", "true");
    if (args.length < 2) {
      System.err.println(
          "Say: ground OUT [--width W] [--markers M04,M07] [--workers N]"
              + " | render OUT [--count N] [--seed S] [--width W]"
              + " [--wear fresh,light,heavy,ruinous] [--view usual|steep|turned]");
      System.exit(2);
      return;
    }
    Path out = Path.of(args[1]);
    int width = Integer.parseInt(option(args, "--width", "1600"));
    if (args[0].equals("ground")) {
      String markers = option(args, "--markers", "");
      Samples.ground()
          .writeTo(
              out,
              width,
              markers.isEmpty() ? Set.of() : Set.copyOf(Arrays.asList(markers.split(","))),
              Integer.parseInt(option(args, "--workers", "1")));
    } else if (args[0].equals("render")) {
      random(
          out,
          Integer.parseInt(option(args, "--count", "12")),
          Long.parseLong(option(args, "--seed", "1")),
          width,
          Stream.of(option(args, "--wear", "fresh,light,heavy,ruinous").split(","))
              .map(word -> Weathering.valueOf(word.toUpperCase(Locale.ROOT)))
              .toList(),
          option(args, "--view", "usual"));
    } else {
      System.err.println("Don't know '" + args[0] + "': say ground or render");
      System.exit(2);
    }
  }

  private static String option(String[] args, String name, String otherwise) {
    int at = List.of(args).indexOf(name);
    return at >= 0 && at + 1 < args.length ? args[at + 1] : otherwise;
  }

  private static View view(String kind, SampleFace face, int width, long seed) {
    View usual = StoneMaker.view(face, width, seed);
    return switch (kind) {
      case "usual" -> usual;
      case "steep" -> StoneMaker.steep(usual, seed);
      case "turned" -> StoneMaker.turned(usual, seed);
      default ->
          throw new IllegalArgumentException(
              "--view must be usual, steep or turned, not '" + kind + "'");
    };
  }

  private static void random(
      Path out, int count, long seed, int width, List<Weathering> wear, String kind)
      throws IOException {
    Files.createDirectories(out);
    StringBuilder truth =
        new StringBuilder(
            "file\tmarker\tface\tline\ttext\tas_cut\tlegibility\tmaterial\tweathering\tlight\n");
    StringBuilder boxes = new StringBuilder("file\tline\tpolygon\n");
    for (int i = 0; i < count; i++) {
      SampleFace face =
          StoneMaker.random(
              seed + i,
              Material.values()[i % Material.values().length],
              wear.get((i / Material.values().length) % wear.size()),
              Typeface.values()[
                  (int) Math.floorMod(seed + i * 5L, (long) Typeface.values().length)]);
      View view = view(kind, face, width, seed + i);
      RenderedPhotograph p = Renderer.render(face, view, seed + i);
      String file = String.format(Locale.ROOT, "R%06d.jpg", seed + i);
      Files.write(out.resolve(file), p.jpeg());
      for (RenderedPhotograph.Line l : p.lines()) {
        truth.append(
            String.join(
                "\t",
                file,
                face.marker(),
                face.face(),
                String.valueOf(l.number()),
                l.leiden(),
                l.asCut(),
                l.legibility().name().toLowerCase(Locale.ROOT),
                face.stone().material().name().toLowerCase(Locale.ROOT),
                face.stone().weathering().name().toLowerCase(Locale.ROOT),
                StoneMaker.lightWord(face, view.light())));
        truth.append('\n');
        boxes
            .append(file)
            .append('\t')
            .append(l.number())
            .append('\t')
            .append(SampleWriter.polygon(l.polygon()))
            .append('\n');
      }
    }
    Files.writeString(out.resolve("truth.tsv"), truth, StandardCharsets.UTF_8);
    Files.writeString(out.resolve("boxes.tsv"), boxes, StandardCharsets.UTF_8);
  }
}
