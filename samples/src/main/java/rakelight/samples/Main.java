package rakelight.samples;

import java.io.IOException;
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
 * render OUT [--count N] [--seed S] [--width W] [--wear A,B] [--view V] [--lights N]
 *                                                     random stones with truth.tsv and boxes.tsv
 * </pre>
 *
 * Wear of random stones: some of {@code fresh,light,heavy,ruinous}, in turn; all if not said. Views
 * of random stones: {@code usual}; {@code steep}, from far to the side and from below or above;
 * {@code turned}, the camera on its side or upside down, which the file doesn't say; {@code
 * ringed}, as usual, but with the first lines cut round a disc; {@code several}, with another
 * lettered stone beside, which the tables leave out. With several lights each stone is a raking
 * set.
 */
public final class Main {
  private Main() {}

  public static void main(String[] args) throws IOException {
    System.setProperty("java.awt.headless", "true");
    if (args.length < 2) {
      System.err.println(
          "Say: ground OUT [--width W] [--markers M04,M07] [--workers N]"
              + " | render OUT [--count N] [--seed S] [--width W]"
              + " [--wear fresh,light,heavy,ruinous] [--view usual|steep|turned|ringed|several] [--lights N]");
      System.exit(2);
      return;
    }
    try {
      run(args);
    } catch (IllegalArgumentException e) {
      System.err.println(args[0] + ": " + e.getMessage());
      System.exit(2);
    }
  }

  private static void run(String[] args) throws IOException {
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
      new StoneSet(
              Integer.parseInt(option(args, "--count", "12")),
              Long.parseLong(option(args, "--seed", "1")),
              width,
              Stream.of(option(args, "--wear", "fresh,light,heavy,ruinous").split(","))
                  .map(word -> Weathering.valueOf(word.toUpperCase(Locale.ROOT)))
                  .toList(),
              option(args, "--view", "usual"),
              Integer.parseInt(option(args, "--lights", "1")))
          .writeTo(out);
    } else {
      throw new IllegalArgumentException("say ground or render");
    }
  }

  private static String option(String[] args, String name, String otherwise) {
    int at = List.of(args).indexOf(name);
    return at >= 0 && at + 1 < args.length ? args[at + 1] : otherwise;
  }
}
