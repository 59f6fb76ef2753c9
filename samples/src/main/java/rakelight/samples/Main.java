package rakelight.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Renders from the command line.
 *
 * <pre>
 * ground OUT [--width W] [--markers M04,M07] [--workers N]   photographs of the invented ground
 * render OUT [--count N] [--seed S] [--width W]              random stones with truth.tsv and boxes.tsv
 * </pre>
 */
public final class Main {
  private Main() {}

  public static void main(String[] args) throws IOException {
    System.setProperty("java.awt.headless", "true");
    if (args.length < 2) {
      System.err.println(
          "Say: ground OUT [--width W] [--markers M04,M07] [--workers N] | render OUT [--count N] [--seed S] [--width W]");
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
          width);
    } else {
      System.err.println("Don't know '" + args[0] + "': say ground or render");
      System.exit(2);
    }
  }

  private static String option(String[] args, String name, String otherwise) {
    int at = List.of(args).indexOf(name);
    return at >= 0 && at + 1 < args.length ? args[at + 1] : otherwise;
  }

  private static void random(Path out, int count, long seed, int width) throws IOException {
    Files.createDirectories(out);
    StringBuilder truth =
        new StringBuilder(
            "file\tmarker\tface\tline\ttext\tas_cut\tlegibility\tmaterial\tweathering\n");
    StringBuilder boxes = new StringBuilder("file\tline\tpolygon\n");
    for (int i = 0; i < count; i++) {
      SampleFace face =
          StoneMaker.random(
              seed + i,
              Material.values()[i % Material.values().length],
              Weathering.values()[(i / Material.values().length) % Weathering.values().length],
              Typeface.values()[
                  (int) Math.floorMod(seed + i * 5L, (long) Typeface.values().length)]);
      RenderedPhotograph p =
          Renderer.render(face, StoneMaker.view(face, width, seed + i), seed + i);
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
                face.stone().weathering().name().toLowerCase(Locale.ROOT)));
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
