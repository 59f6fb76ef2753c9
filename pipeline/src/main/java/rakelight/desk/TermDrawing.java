package rakelight.desk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import rakelight.marker.Condition;
import rakelight.marker.Term.Quality;

/**
 * A line drawing of what a word of the lists looks like, in a box of 64 by 72: how somebody who
 * doesn't know the word finds it. Each is composed here of simple outlines.
 *
 * @param lines drawn one after the other
 */
public record TermDrawing(List<Line> lines) {
  private static final String SLAB = "M18 64V24A14 14 0 0 1 46 24V64";
  private static final String GROUND = "M4 64H60";
  private static final String TEXT = "M25 28H39M24 35H40M24 42H40M26 49H38";
  private static final String LYING = "M6 58L20 44H58L44 58ZM6 58V62H44L58 48V44";

  private static final Map<String, TermDrawing> ALL = drawn();

  /**
   * One line.
   *
   * @param how {@code strong}, {@code fine}, {@code dotted} or {@code full}
   * @param path as SVG has it
   */
  public record Line(String how, String path) {}

  public TermDrawing {
    lines = List.copyOf(lines);
  }

  /** What a term looks like; empty for those of a ground's own, and for what has no one look. */
  public static Optional<TermDrawing> of(Quality list, String term) {
    return Optional.ofNullable(ALL.get(list.label() + " " + term));
  }

  /** What a word of a marker's condition looks like. */
  public static TermDrawing of(Condition word) {
    return Optional.ofNullable(ALL.get("condition " + word.label())).orElseThrow();
  }

  private TermDrawing with(String how, String path) {
    List<Line> more = new ArrayList<>(lines);
    more.add(new Line(how, path));
    return new TermDrawing(more);
  }

  private static TermDrawing strong(String path) {
    return new TermDrawing(List.of(new Line("fine", GROUND), new Line("strong", path)));
  }

  private TermDrawing fine(String path) {
    return with("fine", path);
  }

  private TermDrawing dotted(String path) {
    return with("dotted", path);
  }

  private TermDrawing full(String path) {
    return with("full", path);
  }

  /** A slab of which the drawing shows what ails it. */
  private static TermDrawing ailing(String path) {
    return new TermDrawing(
        List.of(new Line("fine", GROUND), new Line("fine", SLAB), new Line("strong", path)));
  }

  private static Map<String, TermDrawing> drawn() {
    Map<String, TermDrawing> all = new HashMap<>();
    kinds().forEach((term, drawing) -> all.put("kind " + term, drawing));
    forms().forEach((term, drawing) -> all.put("form " + term, drawing));
    states().forEach((term, drawing) -> all.put("state " + term, drawing));
    stands().forEach((word, drawing) -> all.put("condition " + word.label(), drawing));
    decays().forEach((word, drawing) -> all.put("condition " + word.label(), drawing));
    return Map.copyOf(all);
  }

  private static Map<String, TermDrawing> kinds() {
    return Map.ofEntries(
        Map.entry("headstone", strong(SLAB).fine(TEXT)),
        Map.entry("footstone", strong("M24 64V48A8 8 0 0 1 40 48V64").fine("M28 53H31M34 53H37")),
        Map.entry(
            "family monument",
            strong("M8 64V56H56V64M13 56V24H51V56M10 24L32 10L54 24Z").fine("M20 32H44M18 40H46")),
        Map.entry("ledger", strong(LYING).fine("M19 53H44M23 49H48")),
        Map.entry(
            "table tomb",
            strong("M6 38L18 28H58L46 38ZM6 38V42H46L58 32V28M10 42V64M42 42V64M54 35V56")
                .fine("M20 42V50M18 34H46")),
        Map.entry(
            "chest tomb",
            strong("M6 38L18 28H58L46 38ZM6 38V42H46L58 32V28M9 42V64H43V42M43 64L55 54V34")
                .fine("M14 48H38V58H14Z")),
        Map.entry(
            "obelisk", strong("M26 52L29 14L32 6L35 14L38 52M20 52H44V58H20ZM15 58H49V64H15Z")),
        Map.entry(
            "pillar", strong("M26 54V16M38 54V16M22 10H42V16H22ZM22 54H42V59H22ZM17 59H47V64H17Z")),
        Map.entry("cross", strong("M28 58V30H16V22H28V8H36V22H48V30H36V58M22 58H42V64H22Z")),
        Map.entry(
            "tablet",
            strong("M16 18H48V50H16Z")
                .fine(
                    "M22 27H42M22 34H42M24 41H40M4 8H60M4 58H60M10 8V18M54 8V18M10 50V58M54 50V58")),
        Map.entry(
            "flush marker",
            strong("M10 60L20 50H54L44 60Z").fine("M24 55H42M3 50L5 45L7 50M56 60L58 55L60 60")),
        Map.entry(
            "government-furnished headstone",
            strong("M19 64V16Q32 8 45 16V64")
                .fine("M24 24H40V36Q40 46 32 50Q24 46 24 36ZM28 33H36M28 39H36")),
        Map.entry(
            "war-grave headstone",
            strong("M18 64V15Q32 9 46 15V64")
                .fine("M27 22A5 5 0 0 0 37 22A5 5 0 0 0 27 22M25 33H39M32 40V58M26 46H38")),
        Map.entry(
            "tree-stump stone",
            strong(
                    "M21 64Q27 44 25 14Q32 9 39 14Q37 44 43 64M25 28L15 22L17 17L25 21M39 36L49 30L47 25L39 29")
                .fine("M25 14Q32 19 39 14M30 26V38M34 42V54")),
        Map.entry(
            "rough stone",
            strong("M15 64Q12 50 18 40Q16 27 26 21Q35 13 43 23Q51 34 47 47Q52 56 48 64")),
        Map.entry(
            "vault",
            strong("M7 64V28L32 12L57 28V64M23 64V42A9 9 0 0 1 41 42V64")
                .fine("M28 36V64M32 33V64M36 36V64")),
        Map.entry(
            "wooden headboard",
            strong("M15 44V24Q32 8 49 24V44ZM29 44V64M35 44V64")
                .fine("M20 26V43M26 21V43M38 21V43M44 26V43")),
        Map.entry(
            "iron marker",
            strong("M32 64V14M18 30H46M25 30A7 7 0 0 1 39 30A7 7 0 0 1 25 30")
                .full(
                    "M29 12A3 3 0 0 1 35 12A3 3 0 0 1 29 12M13 30A3 3 0 0 1 19 30A3 3 0 0 1 13 30M45 30A3 3 0 0 1 51 30A3 3 0 0 1 45 30")));
  }

  private static Map<String, TermDrawing> forms() {
    return Map.ofEntries(
        Map.entry("square top", strong("M16 64V12H48V64")),
        Map.entry("round top", strong("M16 64V26A16 16 0 0 1 48 26V64")),
        Map.entry("shouldered", strong("M16 64V28H22V22A10 10 0 0 1 42 22V28H48V64")),
        Map.entry("pointed top", strong("M16 64V24L32 8L48 24V64")),
        Map.entry("segmental top", strong("M16 64V19Q32 7 48 19V64")),
        Map.entry("pedimented", strong("M16 64V22M48 64V22M13 22L32 13L51 22Z")),
        Map.entry(
            "shaped top",
            strong("M16 64V26H20Q19 17 27 17Q28 9 32 9Q36 9 37 17Q45 17 44 26H48V64")),
        Map.entry(
            "recessed shield",
            strong("M16 64V16Q32 8 48 16V64").full("M22 24H42V38Q42 48 32 53Q22 48 22 38Z")),
        Map.entry(
            "cut as if broken",
            strong("M25 56V17L29 24L33 14L36 22L39 18V56M19 56H45V64H19Z")
                .dotted("M25 14V6H39V15")),
        Map.entry(
            "draped",
            strong("M24 58V18L32 8L40 18V58M18 58H46V64H18Z")
                .fine(
                    "M20 22Q26 30 32 23Q38 30 44 22M20 22V46Q24 40 27 44V27M44 22V38Q40 34 37 40V26")));
  }

  private static Map<String, TermDrawing> states() {
    return Map.of(
        "standing", strong(SLAB),
        "leaning", strong("M20 64L28 17Q36 6 46 17Q50 20 49 24L42 64").dotted("M20 64V8"),
        "lying face up", strong(LYING).fine("M19 53H44M23 49H48"),
        "lying face down", strong(LYING),
        "buried", strong("M18 64V58A14 12 0 0 1 46 58V64").dotted("M18 66V71M46 66V71"),
        "stored", strong("M24 60V38A8 8 0 0 1 40 38V60Z").fine("M6 64V28L32 10L58 28V64"),
        "missing", strong("M22 64V60H42V64").dotted("M18 60V24A14 14 0 0 1 46 24V60"));
  }

  private static Map<Condition, TermDrawing> stands() {
    return Map.ofEntries(
        Map.entry(Condition.SOUND, strong(SLAB).fine(TEXT)),
        Map.entry(
            Condition.LEANING,
            strong("M20 64L28 17Q36 6 46 17Q50 20 49 24L42 64").dotted("M20 64V8")),
        Map.entry(
            Condition.LOOSE,
            strong("M19 52V24A13 13 0 0 1 45 24V50ZM12 56H52V64H12Z")
                .fine("M8 40Q5 46 8 52M56 40Q59 46 56 52")),
        Map.entry(
            Condition.BROKEN,
            strong(
                "M18 64V44L26 48L32 42L40 49L46 45V64M21 38V22A14 14 0 0 1 49 25V39L43 43L35 36L29 42Z")),
        Map.entry(Condition.FALLEN, strong(LYING).fine("M4 44V36H14V44")),
        Map.entry(
            Condition.UNDERMINED,
            new TermDrawing(List.of(new Line("strong", SLAB)))
                .fine("M4 64H18M46 64H60")
                .full("M18 64H46Q42 71 32 71Q22 71 18 64Z")),
        Map.entry(
            Condition.SUNKEN,
            strong("M18 64V46A14 14 0 0 1 46 46V64")
                .dotted("M18 65V72M46 65V72")
                .fine("M32 12V26M27 21L32 27L37 21")),
        Map.entry(Condition.CRACKED, ailing("M27 12L32 24L27 33L36 43L31 52L35 64")),
        Map.entry(
            Condition.BOWED, strong("M26 64Q44 38 28 10L34 10Q50 38 33 64").dotted("M28 64V10")),
        Map.entry(
            Condition.PART_MISSING,
            strong("M18 64V24A14 14 0 0 1 32 10L34 22L42 26L46 36V64")
                .dotted("M32 10A14 14 0 0 1 46 24V36")),
        Map.entry(
            Condition.STRUCK, ailing("M21 56L29 50M22 61L34 52M32 60L40 54M46 46L42 49L46 53")),
        Map.entry(
            Condition.VANDALISED,
            ailing("M32 34L26 24M32 34L40 22M32 34L44 36M32 34L38 46M32 34L24 46M32 34L20 33")
                .full("M29 34A3 3 0 0 1 35 34A3 3 0 0 1 29 34")),
        Map.entry(
            Condition.REPAIRED,
            ailing("M18 40L26 36L34 42L46 36")
                .fine(
                    "M23 31V45M21 31H25M21 45H25M31 33V47M29 33H33M29 47H33M40 31V46M38 31H42M38 46H42")),
        Map.entry(Condition.ILLEGIBLE, strong(SLAB).dotted("M25 28H39M24 36H40M24 44H40M26 52H38")),
        Map.entry(
            Condition.OPEN_VAULT, ailing("M4 64L9 56H24L20 64").full("M4 64L9 56H24L20 64V70H4Z")),
        Map.entry(
            Condition.DEAD_BRANCH,
            ailing("M2 10Q22 4 60 14M20 7L28 2M34 9L46 3M44 11L54 20M14 7L10 16")),
        Map.entry(
            Condition.INSECTS,
            ailing(
                "M26 36A6 4 0 0 1 38 36A6 4 0 0 1 26 36M29 33V39M33 32.500V39.500M32 32Q26 22 23 28Q25 32 32 32Q38 22 41 28Q39 32 32 32M38 35L42 32")),
        Map.entry(
            Condition.ROADSIDE,
            new TermDrawing(List.of(new Line("strong", "M26 46V20A9 9 0 0 1 44 20V46")))
                .fine("M2 46H62M2 70H62")
                .full("M6 56H16V60H6ZM27 56H37V60H27ZM48 56H58V60H48Z")));
  }

  private static Map<Condition, TermDrawing> decays() {
    return Map.ofEntries(
        Map.entry(
            Condition.BLISTERING,
            ailing("M23 30Q27 22 31 30ZM33 40Q38 31 43 40ZM23 51Q28 43 33 51Z")),
        Map.entry(
            Condition.BURSTING,
            ailing("M32 26L35 32L42 30L38 36L43 41L36 41L34 48L30 42L23 44L27 38L21 33L29 33Z")
                .full("M29 36A3 3 0 0 1 35 36A3 3 0 0 1 29 36")),
        Map.entry(
            Condition.DELAMINATING,
            strong(
                    "M24 64V20Q22 12 17 8M28 64V18M32 64V16M36 64V18Q37 12 41 8M40 64V22Q43 14 50 12")
                .fine("M24 64H40")),
        Map.entry(
            Condition.EXFOLIATING,
            ailing("M24 26H40V34L36 30M22 36H40V45L35 40M24 47H38V56L33 51")),
        Map.entry(Condition.SUGARING, strong(SLAB).full(dots(46, 1.1, 64))),
        Map.entry(
            Condition.SPLINTERING,
            ailing("M18 34L25 38L18 43M46 26L40 31L46 35M46 50L39 54L46 60M30 10L32 17L36 11")
                .fine("M10 40L14 36L15 41ZM52 30L56 28L55 33ZM52 56L57 54L56 59Z")),
        Map.entry(Condition.PEELING, ailing("M22 28H42V46M42 28Q36 34 38 42Q32 38 22 42V28")),
        Map.entry(
            Condition.SCALING,
            ailing(
                    "M21 26L30 22L34 30L28 36L21 34ZM34 38L42 34L44 44L37 48ZM22 46L30 42L33 52L25 56Z")
                .fine("M23 31L29 26M37 44L41 38M25 52L29 46")),
        Map.entry(Condition.HONEYCOMBED, strong(SLAB).with("strong", cells())),
        Map.entry(
            Condition.ERODING,
            strong("M17 64Q20 50 17 38Q20 24 26 17Q33 10 40 17Q46 26 45 38Q49 50 46 64")
                .dotted("M27 31Q32 29 37 31M26 40Q32 38 38 40M27 49Q32 47 38 49")),
        Map.entry(Condition.PITTED, strong(SLAB).with("fine", rings())),
        Map.entry(
            Condition.CRUST,
            strong(SLAB)
                .full(
                    "M18 40V24A14 14 0 0 1 40 12Q36 22 40 28Q34 34 36 42Q28 40 24 46Q20 42 18 40Z")),
        Map.entry(
            Condition.ENCRUSTATION,
            ailing(
                "M20 22H44M23 22V36Q25 40 27 36V22M30 22V48Q32 53 34 48V22M38 22V32Q40 36 42 32V22")),
        Map.entry(Condition.SALT, ailing(stars())),
        Map.entry(
            Condition.DEPOSIT,
            strong(SLAB)
                .full(
                    "M26 18Q31 14 36 18Q37 24 34 24V34Q32 37 31 33V25Q29 30 28 25Q25 23 26 18ZM40 42Q43 41 43 44Q42 50 40 46ZM22 40Q25 39 25 42Q24 48 22 44Z")),
        Map.entry(Condition.STAINED, ailing("M24 16V44M29 13V56M35 12V38M40 16V50")),
        Map.entry(
            Condition.SOILED,
            strong(SLAB)
                .fine(
                    "M18 46L24 40M18 52L30 40M18 58L36 40M20 62L42 40M26 62L46 42M32 62L46 48M38 62L46 54")),
        Map.entry(
            Condition.GRAFFITI,
            ailing("M22 34Q26 24 29 33Q31 42 34 32Q37 26 39 34Q40 40 44 30M24 50Q32 44 42 51")),
        Map.entry(
            Condition.BIOLOGICAL_GROWTH,
            strong(SLAB)
                .fine("M10 64Q14 50 22 46M14 64Q20 56 28 54")
                .full(
                    "M22 46Q22 39 29 39Q29 46 22 46ZM28 54Q28 47 35 47Q35 54 28 54ZM24 26A4 4 0 0 1 32 26A4 4 0 0 1 24 26M37 33A3 3 0 0 1 43 33A3 3 0 0 1 37 33M15 52Q11 47 15 42Q19 47 15 52Z")));
  }

  /** Grains strewn over the slab, always the same ones. */
  private static String dots(int count, double radius, int seed) {
    StringBuilder path = new StringBuilder();
    java.util.Random random = new java.util.Random(seed);
    for (int i = 0; i < count; i++) {
      path.append(ring(22 + 20 * random.nextDouble(), 18 + 43 * random.nextDouble(), radius));
    }
    return path.toString();
  }

  private static String cells() {
    StringBuilder path = new StringBuilder();
    for (int row = 0; row < 4; row++) {
      for (int place = 0; place < 3; place++) {
        path.append(ring(24 + 7.5 * place + (row % 2) * 2, 28 + 8.5 * row, 3));
      }
    }
    return path.toString();
  }

  private static String rings() {
    StringBuilder path = new StringBuilder();
    double[][] places = {
      {25, 25}, {34, 21}, {40, 30}, {29, 35}, {36, 42}, {23, 45}, {41, 52}, {30, 55}
    };
    for (double[] place : places) {
      path.append(ring(place[0], place[1], 2.2));
    }
    return path.toString();
  }

  private static String stars() {
    StringBuilder path = new StringBuilder();
    double[][] places = {{26, 28}, {38, 24}, {33, 37}, {24, 46}, {40, 46}, {32, 55}};
    for (double[] place : places) {
      path.append(
          String.format(
              Locale.ROOT, "M%1$.0f %2$.0fh8m-6.500 -3.500l5 7m0 -7l-5 7", place[0] - 4, place[1]));
    }
    return path.toString();
  }

  private static String ring(double x, double y, double radius) {
    return String.format(
        Locale.ROOT,
        "M%1$.1f %2$.1fa%3$.1f %3$.1f 0 0 1 %4$.1f 0a%3$.1f %3$.1f 0 0 1 -%4$.1f 0",
        x - radius,
        y,
        radius,
        2 * radius);
  }
}
