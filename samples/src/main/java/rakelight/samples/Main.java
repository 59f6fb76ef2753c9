package rakelight.samples;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.samples.inscriptions.Inscriptions;

/**
 * Renders and invents from the command line.
 *
 * <pre>
 * ground OUT [--width W] [--markers M04,M07] [--workers N]   photographs of the invented ground
 * render OUT [--count N] [--seed S] [--width W] [--wear A,B] [--view V] [--lights N]
 *                                                     random stones with truth.tsv and boxes.tsv
 * seasons OUT [--count N] [--strangers N] [--seed S] [--width W] [--kind usual|government]
 *                                                     the same stones in two seasons
 * season OUT [--markers N] [--seed S] [--width W]    a season as it comes in, with its mistakes
 * carvings OUT [--count N] [--seed S] [--width W] [--wear A,B] [--lights N] [--drawn own|signs]
 *                                                     carvings without letters, with carvings.tsv
 * lettering OUT [--cutters N] [--stones N] [--seed S] [--width W] [--typefaces A,B] [--wear A,B]
 *     [--strength 100]
 *                                                     stones by invented cutters, with letters.tsv
 * worn OUT [--worn N] [--kept N] [--seed S] [--width W]
 *                                                     two seasons with a known loss between them
 * inscriptions OUT [--count N] [--seed S] [--loss 0,10,20]
 *                                                     invented inscriptions with what they say
 * </pre>
 *
 * Wear of random stones: some of {@code fresh,light,heavy,ruinous}, in turn; all if not said. Views
 * of random stones: {@code usual}; {@code steep}, from far to the side and from below or above;
 * {@code turned}, the camera on its side or upside down, which the file doesn't say; {@code
 * ringed}, as usual, but with the first lines cut round a disc; {@code several}, with another
 * lettered stone beside, which the tables leave out; {@code parted}, with lines parted by dashes
 * and gaps, and rolls in columns. With several lights each stone is a raking set.
 */
public final class Main {
  private static final String USAGE =
      "Say: ground OUT [--width W] [--markers M04,M07] [--workers N] | render OUT [--count N]"
          + " [--seed S] [--width W] [--wear fresh,light,heavy,ruinous] [--view"
          + " usual|steep|above|turned|ringed|several|parted] [--lights N] | seasons OUT [--count"
          + " N] [--strangers N] [--seed S] [--width W] [--kind usual|government] | season OUT"
          + " [--markers N] [--seed S] [--width W] | carvings OUT [--count N] [--seed S] [--width"
          + " W] [--wear fresh,light,heavy,ruinous] [--lights N] [--drawn own|signs] | lettering"
          + " OUT [--cutters N] [--stones N] [--seed S] [--width W] [--typefaces roman,serif]"
          + " [--wear fresh,light,heavy,ruinous] [--strength 100] | worn OUT [--worn N] [--kept N]"
          + " [--seed S] [--width W] | inscriptions OUT [--count N] [--seed S] [--loss 0,10,20]";

  private Main() {}

  public static void main(String[] args) throws IOException {
    System.setProperty("java.awt.headless", "true");
    if (args.length < 2 || args[1].startsWith("-")) {
      System.err.println(USAGE);
      System.exit(2);
      return;
    }
    try {
      run(args);
    } catch (IllegalArgumentException e) {
      System.err.println(args[0] + ": " + e.getMessage());
      System.err.println(USAGE);
      System.exit(2);
    }
  }

  static void run(String[] args) throws IOException {
    Path out = Path.of(args[1]);
    if (args[0].equals("ground")) {
      Map<String, String> said = options(args, Set.of("--width", "--markers", "--workers"));
      String markers = said.getOrDefault("--markers", "");
      int width = (int) number(said, "--width", 1600);
      int workers = (int) number(said, "--workers", 1);
      Samples.ground()
          .writeTo(
              out,
              width,
              markers.isEmpty() ? Set.of() : Set.copyOf(Arrays.asList(markers.split(","))),
              workers);
    } else if (args[0].equals("render")) {
      Map<String, String> said =
          options(args, Set.of("--count", "--seed", "--width", "--wear", "--view", "--lights"));
      new StoneSet(
              (int) number(said, "--count", 12),
              number(said, "--seed", 1),
              (int) number(said, "--width", 1600),
              wears(said),
              said.getOrDefault("--view", "usual"),
              (int) number(said, "--lights", 1))
          .writeTo(out);
    } else if (args[0].equals("seasons")) {
      Map<String, String> said =
          options(args, Set.of("--count", "--strangers", "--seed", "--width", "--kind"));
      new TwoSeasons(
              (int) number(said, "--count", 100),
              (int) number(said, "--strangers", 20),
              number(said, "--seed", 1),
              (int) number(said, "--width", 800),
              said.getOrDefault("--kind", "usual"))
          .writeTo(out);
    } else if (args[0].equals("season")) {
      Map<String, String> said = options(args, Set.of("--markers", "--seed", "--width"));
      new Season(
              (int) number(said, "--markers", 90),
              number(said, "--seed", 1),
              (int) number(said, "--width", 480))
          .writeTo(out);
    } else if (args[0].equals("carvings")) {
      Map<String, String> said =
          options(args, Set.of("--count", "--seed", "--width", "--wear", "--lights", "--drawn"));
      new CarvingSet(
              (int) number(said, "--count", 240),
              number(said, "--seed", 1),
              (int) number(said, "--width", 480),
              wears(said),
              (int) number(said, "--lights", 1),
              said.getOrDefault("--drawn", "own"))
          .writeTo(out);
    } else if (args[0].equals("lettering")) {
      Map<String, String> said =
          options(
              args,
              Set.of(
                  "--cutters",
                  "--stones",
                  "--seed",
                  "--width",
                  "--typefaces",
                  "--wear",
                  "--strength"));
      new LetteringSet(
              (int) number(said, "--cutters", 5),
              (int) number(said, "--stones", 4),
              number(said, "--seed", 1),
              (int) number(said, "--width", 1000),
              Stream.of(said.getOrDefault("--typefaces", "roman,serif,sans_bold,italic").split(","))
                  .map(Main::typeface)
                  .toList(),
              wears(said),
              number(said, "--strength", 100) / 100.0)
          .writeTo(out);
    } else if (args[0].equals("worn")) {
      Map<String, String> said = options(args, Set.of("--worn", "--kept", "--seed", "--width"));
      new WornSeasons(
              (int) number(said, "--worn", 10),
              (int) number(said, "--kept", 10),
              number(said, "--seed", 1),
              (int) number(said, "--width", 1000))
          .writeTo(out);
    } else if (args[0].equals("inscriptions")) {
      Map<String, String> said = options(args, Set.of("--count", "--seed", "--loss"));
      Inscriptions.write(
          out,
          (int) number(said, "--count", 2000),
          number(said, "--seed", 1),
          Stream.of(said.getOrDefault("--loss", "0,10,20").split(",")).map(Main::perCent).toList());
    } else {
      throw new IllegalArgumentException(
          "say ground, render, seasons, season, carvings, lettering, worn or inscriptions");
    }
  }

  private static int perCent(String text) {
    try {
      return Integer.parseInt(text.strip());
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("--loss takes whole numbers of per cent, not " + text);
    }
  }

  private static List<Weathering> wears(Map<String, String> said) {
    return Stream.of(said.getOrDefault("--wear", "fresh,light,heavy,ruinous").split(","))
        .map(Main::wear)
        .toList();
  }

  private static Weathering wear(String word) {
    return Stream.of(Weathering.values())
        .filter(one -> one.name().equalsIgnoreCase(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no wear is called " + word));
  }

  private static Typeface typeface(String word) {
    return Stream.of(Typeface.values())
        .filter(one -> one.name().equalsIgnoreCase(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no typeface is called " + word));
  }

  /** What stands after OUT, by name. */
  private static Map<String, String> options(String[] args, Set<String> known) {
    Map<String, String> said = new HashMap<>();
    for (int i = 2; i < args.length; i += 2) {
      if (!known.contains(args[i])) {
        throw new IllegalArgumentException("there is no option " + args[i]);
      }
      if (i + 1 == args.length) {
        throw new IllegalArgumentException(args[i] + " needs a value");
      }
      said.put(args[i], args[i + 1]);
    }
    return said;
  }

  private static long number(Map<String, String> said, String name, long otherwise) {
    String text = said.getOrDefault(name, Long.toString(otherwise));
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(name + " takes a whole number, not " + text);
    }
  }
}
