package rakelight.samples;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SplittableRandom;

/**
 * Makes any number of invented stones for benchmarks: form, setting and words follow the material
 * and the time, chance follows the seed. Names are drawn from invented lists; dates and ages agree.
 */
public final class StoneMaker {
  private static final String[] WOMEN = {
    "Abigail",
    "Hannah",
    "Mercy",
    "Dorcas",
    "Susanna",
    "Jane",
    "Charlotte",
    "Louisa",
    "Emma",
    "Ellen",
    "Grace",
    "Ruth",
    "Phebe",
    "Lydia",
    "Martha",
    "Isabel",
    "Catherine",
    "Amelia",
    "Dinah",
    "Keziah",
    "Tabitha",
    "Eliza",
    "Harriet",
    "Prudence"
  };
  private static final String[] MEN = {
    "John",
    "Ezekiel",
    "William",
    "Peter",
    "Samuel",
    "Henry",
    "Thomas",
    "Jasper",
    "Isaac",
    "Silas",
    "Robert",
    "Ebenezer",
    "Luke",
    "Amos",
    "Nicholas",
    "Arthur",
    "David",
    "Elias",
    "Reuben",
    "Barnabas",
    "George",
    "Edmund",
    "Jonas",
    "Walter"
  };
  private static final String[] SURNAMES = {
    "Tarrant",
    "Quillan",
    "Dunnock",
    "Hathersay",
    "Merriden",
    "Corrin",
    "Lidgate",
    "Oxspring",
    "Vellacott",
    "Penhallis",
    "Garside",
    "Tredwen",
    "Morrish",
    "Sallow",
    "Fenwright",
    "Skelby",
    "Brackley",
    "Wragby",
    "Pellow",
    "Ashlock",
    "Tull",
    "Harrowby",
    "Kestrill",
    "Mockridge",
    "Yarwell",
    "Loveday",
    "Zeal",
    "Umfrey"
  };
  private static final String[] PLACES = {
    "Netherquay", "Tarrow", "Saltmere", "Cold Harrow", "Bell Shoal", "Pell’s Landing"
  };
  private static final String[] MONTHS = {
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December"
  };
  private static final String[] VERSES = {
    "Gone but not forgotten",
    "At rest",
    "Until the day break",
    "Her toils are past, her work is done",
    "He lies where shade and sunlight meet",
    "The tide has turned and brought him home",
    "Sleep on, dear child, the night is short",
    "Not lost but gone before",
    "The gate is low, the garden wide",
    "Peace, perfect peace"
  };

  private static final int MODERN_REPLACEMENT = 1985;

  private StoneMaker() {}

  /** A stone of the wanted material and wear, lettered in the wanted design. */
  public static SampleFace random(
      long seed, Material material, Weathering wear, Typeface typeface) {
    SplittableRandom r = new SplittableRandom(seed);
    StoneForm form = form(material, r);
    int made = year(material, r);
    Cut cut =
        switch (material) {
          case BRONZE -> Cut.RAISED;
          case GRANITE -> r.nextBoolean() ? Cut.SANDBLAST : Cut.V_CUT;
          case MARBLE -> r.nextInt(6) == 0 ? Cut.RAISED : Cut.V_CUT;
          case SLATE, SANDSTONE -> r.nextInt(5) == 0 ? Cut.U_CUT : Cut.V_CUT;
        };
    Set<String> finish = new HashSet<>();
    chance(finish, r, "border", 0.35);
    chance(finish, r, "lichen", material == Material.BRONZE ? 0 : 0.35);
    chance(finish, r, "mossy", wear.amount() * 0.35);
    chance(finish, r, "cracked", wear.amount() * 0.2);
    chance(
        finish, r, "painted", material == Material.MARBLE || material == Material.SLATE ? 0.12 : 0);
    chance(finish, r, "gilded", material == Material.SLATE ? 0.12 : 0);
    chance(finish, r, "polished", material == Material.GRANITE ? 0.4 : 0);
    chance(finish, r, "base", form == StoneForm.FLAT_TOP ? 0.8 : form == StoneForm.OGEE ? 0.4 : 0);
    Emblem[] emblems = Emblem.values();
    Emblem emblem =
        form == StoneForm.TYMPANUM
            ? Emblem.WINGED_FACE
            : r.nextInt(10) < 5 ? emblems[r.nextInt(emblems.length)] : Emblem.NONE;
    double width =
        form == StoneForm.PLATE
            ? 600
            : form == StoneForm.FLAT_TOP ? r.nextDouble(620, 900) : r.nextDouble(430, 640);
    double height =
        form == StoneForm.PLATE
            ? 450
            : form == StoneForm.FLAT_TOP
                ? r.nextDouble(560, 760)
                : width * r.nextDouble(1.45, 1.85);
    Stone stone =
        new Stone(material, form, wear, cut, typeface, emblem, width, height, made, finish);
    return new SampleFace(
        "R" + seed,
        "E",
        r.nextDouble(60, 120),
        stone,
        lines(r, made),
        seed * 0x9E3779B97F4A7C15L + 1);
  }

  /**
   * A slab as a government furnished it: all of one pattern, only number, name and unit differ. Of
   * 10 inches in width and more than a foot above ground are replacements of our time, 39 x 10 x 3
   * in (cemetery administration's history pages, read in a secondary source).
   */
  public static SampleFace government(long seed, Weathering wear) {
    SplittableRandom r = new SplittableRandom(seed ^ 0x60F7L);
    boolean shield = r.nextInt(3) > 0;
    Stone stone =
        new Stone(
            Material.MARBLE,
            shield ? StoneForm.SHIELD : StoneForm.POINTED_SLAB,
            wear,
            shield ? Cut.RAISED : Cut.V_CUT,
            Typeface.SANS_BOLD,
            Emblem.NONE,
            255,
            720,
            MODERN_REPLACEMENT,
            wear.amount() > 0.5 && r.nextBoolean() ? Set.of("mossy") : Set.of("clean"));
    List<SampleLine> lines = new ArrayList<>();
    String name = pick(MEN, r).charAt(0) + ". " + pick(SURNAMES, r).toUpperCase(Locale.ROOT);
    add(lines, 4.4, shield ? "arch" : "", name);
    add(lines, 4.0, "", "CO. " + (char) ('A' + r.nextInt(10)));
    add(lines, 4.0, "", r.nextInt(1, 10) + " SKER. INF.");
    return new SampleFace("R" + seed, "E", 90, stone, lines, seed * 0x9E3779B97F4A7C15L + 1);
  }

  /**
   * A photograph of a random stone in random light: raking sun, other sun, shade, dappled shade.
   */
  public static View view(SampleFace face, int widthPx, long seed) {
    SplittableRandom r = new SplittableRandom(seed ^ 0x71E3L);
    int kind = r.nextInt(10);
    double around = r.nextDouble(-80, 80);
    double grazing = kind < 5 ? r.nextDouble(8, 28) : r.nextDouble(28, 60);
    Lamp way = Lamp.raking(face, around, grazing);
    Lamp light =
        kind == 9
            ? new Lamp(0, 45, 0, 1, false)
            : new Lamp(way.azimuthDegrees(), way.elevationDegrees(), 1, 0.3, kind == 8);
    return new View(
        light,
        r.nextDouble(-13, 13),
        r.nextDouble(2, 14),
        r.nextDouble(-2.5, 2.5),
        r.nextDouble(0.72, 0.9),
        widthPx,
        widthPx * 21 / 16,
        1,
        r.nextDouble(0.5, 1.0) * widthPx / 1600,
        r.nextDouble(0.008, 0.035),
        r.nextDouble(0.7, 0.92),
        new View.Equipment(
            "Halden", "Halden Pocket 4", "Halden 4.3mm f/1.8", 4.3, r.nextDouble(25, 50), 1.8),
        OffsetDateTime.of(
            2026, 6, 13, 10, r.nextInt(60), r.nextInt(60), 250_000_000, ZoneOffset.ofHours(-3)),
        new View.Position(44, -50, 14, 5, (face.bearingDegrees() + 180) % 360));
  }

  /**
   * A raking set of a random stone: the same camera, a lamp carried from one side over the top to
   * the other.
   *
   * @param lights 2 or more
   */
  public static List<View> rakingViews(SampleFace face, int lights, int widthPx, long seed) {
    if (lights < 2) {
      throw new IllegalArgumentException("A raking set has 2 lights or more, not " + lights);
    }
    SplittableRandom r = new SplittableRandom(seed ^ 0x4A2EL);
    View first = view(face, widthPx, seed);
    List<View> views = new ArrayList<>();
    for (int i = 0; i < lights; i++) {
      double around = -82 + 164.0 * i / (lights - 1) + r.nextDouble(-4, 4);
      views.add(first.with(Lamp.raking(face, around, r.nextDouble(9, 18)), 40L * i));
    }
    return views;
  }

  /** The same moment seen from far to one side, and from well below or above. */
  public static View steep(View usual, long seed) {
    SplittableRandom r = new SplittableRandom(seed ^ 0x57EE9L);
    int side = r.nextBoolean() ? 1 : -1;
    double pitch = r.nextBoolean() ? r.nextDouble(-24, -12) : r.nextDouble(18, 34);
    return usual.from(side * r.nextDouble(26, 46), pitch, usual.rollDegrees());
  }

  /** The same moment seen by somebody who stands beside a slab and looks down on it. */
  public static View above(View usual, long seed) {
    SplittableRandom r = new SplittableRandom(seed ^ 0xAB0FEL);
    double roll = usual.rollDegrees() + r.nextDouble(-6, 6);
    return usual.from(r.nextDouble(-22, 22), r.nextDouble(45, 65), roll);
  }

  /** The same face with its first two lines cut as one, in capitals round a disc. */
  static SampleFace ringed(SampleFace face) {
    List<SampleLine> lines = new ArrayList<>();
    String words = face.lines().get(0).asCut() + " " + face.lines().get(1).asCut();
    add(lines, 4, "ring", words.toUpperCase(Locale.ROOT));
    for (SampleLine line : face.lines().subList(2, face.lines().size())) {
      lines.add(new SampleLine(lines.size() + 1, line.size(), line.style(), line.marked()));
    }
    return new SampleFace(
        face.marker(), face.face(), face.bearingDegrees(), face.stone(), lines, face.seed());
  }

  /** The same moment with the camera on its side or upside down, and a file that doesn't say so. */
  public static View turned(View usual, long seed) {
    double roll = 90 * (1 + Math.floorMod(seed, 3L));
    View turned = usual.from(usual.yawDegrees(), usual.pitchDegrees(), usual.rollDegrees() + roll);
    return roll == 180 ? turned : turned.sized(usual.heightPx(), usual.widthPx());
  }

  /**
   * How the sun stands to a face, in a word: raking (within 28 degrees of it), sun, dappled, shade.
   */
  static String lightWord(SampleFace face, Lamp light) {
    if (light.sun() <= 0) {
      return "shade";
    }
    double grazing = Math.toDegrees(Math.asin(light.inFrameOf(face)[2]));
    return light.dappled() ? "dappled" : grazing < 28 ? "raking" : "sun";
  }

  private static void chance(
      Set<String> words, SplittableRandom r, String word, double probability) {
    if (r.nextDouble() < probability) {
      words.add(word);
    }
  }

  private static StoneForm form(Material material, SplittableRandom r) {
    StoneForm[] from =
        switch (material) {
          case SLATE ->
              new StoneForm[] {
                StoneForm.TYMPANUM, StoneForm.TYMPANUM, StoneForm.ROUND_TOP, StoneForm.OGEE
              };
          case SANDSTONE ->
              new StoneForm[] {
                StoneForm.ROUND_TOP, StoneForm.POINTED, StoneForm.FLAT_TOP, StoneForm.OGEE
              };
          case MARBLE ->
              new StoneForm[] {
                StoneForm.ROUND_TOP, StoneForm.POINTED, StoneForm.OGEE, StoneForm.ROUND_TOP
              };
          case GRANITE -> new StoneForm[] {StoneForm.FLAT_TOP, StoneForm.OGEE, StoneForm.FLAT_TOP};
          case BRONZE -> new StoneForm[] {StoneForm.PLATE};
        };
    return from[r.nextInt(from.length)];
  }

  private static int year(Material material, SplittableRandom r) {
    return switch (material) {
      case SLATE -> r.nextInt(1700, 1835);
      case SANDSTONE -> r.nextInt(1740, 1860);
      case MARBLE -> r.nextInt(1835, 1905);
      case GRANITE -> r.nextInt(1875, 1946);
      case BRONZE -> r.nextInt(1860, 1940);
    };
  }

  private static List<SampleLine> lines(SplittableRandom r, int made) {
    List<SampleLine> out = new ArrayList<>();
    boolean woman = r.nextBoolean();
    String given = pick(woman ? WOMEN : MEN, r);
    String surname = pick(SURNAMES, r);
    int age = r.nextInt(1, 93);
    boolean early = made < 1790;
    if (early) {
      add(out, 3.8, "smallcaps", r.nextBoolean() ? "Here lyes y^e^ Body of" : "In Memory of");
    } else {
      String[] heads = {
        "In memory of",
        "Sacred to the memory of",
        "In loving remembrance of",
        "Erected in memory of",
        ""
      };
      String head = pick(heads, r);
      if (!head.isEmpty()) {
        add(out, 3.2, r.nextBoolean() ? "italic" : "", head);
      }
    }
    String name = given + " " + surname;
    add(
        out,
        r.nextDouble(4.6, 6),
        early ? "smallcaps" : r.nextInt(4) == 0 ? "arch" : "",
        r.nextInt(3) > 0 ? name.toUpperCase(Locale.ROOT) : name);
    if (woman && r.nextInt(2) == 0) {
      add(
          out,
          3.4,
          "",
          (r.nextBoolean() ? "wife of " : "relict of ") + pick(MEN, r) + " " + surname);
    } else if (r.nextInt(3) == 0) {
      add(out, 3.4, "", "of " + pick(PLACES, r));
    }
    date(out, r, made, age);
    add(out, 3.5, early ? "old" : "", age(r, age, woman, early));
    if (r.nextInt(3) == 0 && made > 1780) {
      add(out, 4.4, "gap", "Also " + pick(woman ? MEN : WOMEN, r).toUpperCase(Locale.ROOT));
      date(out, r, made - r.nextInt(0, 3), r.nextInt(1, 80));
    }
    if (r.nextInt(2) == 0) {
      add(out, 2.6, "italic gap", pick(VERSES, r));
    }
    return out;
  }

  private static void date(List<SampleLine> out, SplittableRandom r, int year, int age) {
    int day = r.nextInt(1, 29);
    String month = MONTHS[r.nextInt(12)];
    switch (r.nextInt(5)) {
      case 0 -> {
        add(out, 3.4, "", "who died");
        add(out, 3.8, "smallcaps", month + " " + day + ", " + year);
      }
      case 1 -> add(out, 3.6, "", "died " + month.substring(0, 3) + ". " + day + ", " + year);
      case 2 -> add(out, 3.6, "", "Died " + day + "^" + ordinal(day) + "^ " + month + " " + year);
      case 3 -> add(out, 3.6, "", (year - age) + " – " + year);
      default -> {
        add(out, 3.4, "", "who departed this life");
        add(out, 3.6, "", month + " the " + day + "^" + ordinal(day) + "^ " + year);
      }
    }
  }

  private static String age(SplittableRandom r, int age, boolean woman, boolean early) {
    return switch (r.nextInt(4)) {
      case 0 -> "aged " + age + " years";
      case 1 ->
          "in the "
              + (age + 1)
              + "^"
              + ordinal(age + 1)
              + "^ year of "
              + (woman ? "her" : "his")
              + " age";
      case 2 -> early ? "Aged " + age + " Years" : "AE. " + age;
      default -> "aged " + age + " yrs. " + r.nextInt(1, 12) + " mos.";
    };
  }

  private static String ordinal(int n) {
    return n % 100 >= 11 && n % 100 <= 13
        ? "th"
        : n % 10 == 1 ? "st" : n % 10 == 2 ? "nd" : n % 10 == 3 ? "rd" : "th";
  }

  /** Adds a line below the others; {@code style} is words parted by spaces. */
  static void add(List<SampleLine> out, double size, String style, String text) {
    out.add(
        new SampleLine(
            out.size() + 1, size, style.isBlank() ? Set.of() : Set.of(style.split(" ")), text));
  }

  static String woman(SplittableRandom r) {
    return pick(WOMEN, r);
  }

  static String man(SplittableRandom r) {
    return pick(MEN, r);
  }

  static String surname(SplittableRandom r) {
    return pick(SURNAMES, r);
  }

  private static String pick(String[] from, SplittableRandom r) {
    return from[r.nextInt(from.length)];
  }
}
