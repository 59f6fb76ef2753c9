package rakelight.samples.burials;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

/**
 * Invented burials.
 *
 * <p>Surnames are as common as their rank allows (Zipf's law, exponent 0.9, the usual finding for
 * surnames, from memory, no source); a marker names one to three persons who mostly share one, and
 * of a wife only the given name may be cut. One letter of three that are touched by wear is misread
 * without a mark, the others are lost (six of ten), or open between two letters (four of ten; the
 * likelier is right seven times of ten). Half of the wear lies in patches of two to five letters;
 * of twenty patches one has no known length. These shares are choices, no source.
 */
public final class InventedBurials {
  private static final int SURNAMES = 20_000;
  private static final double ZIPF = 0.9;
  static final double MISREAD = 1 / 3.0;
  static final double LOST = 0.6;
  static final double LIKELIER_IS_TRUE = 0.7;
  private static final double IN_PATCHES = 0.5;
  private static final double LENGTH_UNKNOWN = 0.05;
  private static final int LONGEST_PATCH = 5;
  private static final int YEARS_EITHER_WAY = 5;

  static final String[] MEN =
      ("John John John John William William William Thomas Thomas James James George George Robert"
              + " Robert Joseph Henry Charles Edward Samuel Richard Peter David Daniel Benjamin Isaac"
              + " Matthew Mark Stephen Philip Francis Ralph Nathaniel Josiah Amos Caleb Silas Gideon"
              + " Levi Moses Simon Walter Gilbert Humphrey Giles Hugh Andrew Alexander Patrick Owen")
          .split(" ");
  static final String[] WOMEN =
      ("Mary Mary Mary Mary Ann Ann Elizabeth Elizabeth Elizabeth Sarah Sarah Sarah Jane Jane"
              + " Margaret Margaret Hannah Martha Susannah Rebecca Rachel Esther Ruth Abigail Lydia"
              + " Dorothy Alice Agnes Catherine Isabella Charlotte Harriet Emma Eliza Ellen Fanny"
              + " Louisa Matilda Sophia Maria Phoebe Mercy Grace Keziah Bridget Janet Jean Rhoda")
          .split(" ");
  private static final String[] BEGIN =
      ("Ald Ash Bar Beck Birk Black Bram Bran Brad Brock Cal Car Chad Clay Cold Cop Crow Dal Den Dun"
              + " East Ell Fair Far Fen Gar Gold Gran Had Hal Ham Har Hart Hazel Hol Hun Ken Kirk Lam"
              + " Lang Led Lin Mar Mel Mid Nor Oak Pel Pen Rad Red Rol Rush Sax Scar Sed Shel Sil Stan"
              + " Sten Sut Tarn Thorn Tod Tun Wad Wal Wen Wes Whit Wil Win Wood Wor Yar Yel")
          .split(" ");
  private static final String[] MIDDLE =
      ", , , , , , er, en, ing, el, ea, ow, is, on, a, le".split(",", -1);
  private static final String[] END =
      ("ley ton ford well by thorpe wick worth field croft more ridge combe stead hurst shaw den"
              + " bourne cote ham grave land stone wood house man sby gate low mere son er ett kin"
              + " ock ard all est ick nell")
          .split(" ");
  private static final String[] OPENINGS = {
    "in memory of", "sacred to the memory of", "here lieth the body of", "in loving memory of"
  };
  private static final String[] CLOSINGS = {
    "peace perfect peace",
    "thy will be done",
    "gone but not forgotten",
    "at rest",
    "until the day break",
    "also of an infant who died young",
    ""
  };

  /** What is taken for what where the cut is worn: by shape, from memory, no source. */
  static final Map<Character, String> TAKEN_FOR =
      Map.ofEntries(
          Map.entry('a', "rhe"),
          Map.entry('b', "reh"),
          Map.entry('c', "goe"),
          Map.entry('d', "obp"),
          Map.entry('e', "fbc"),
          Map.entry('f', "ept"),
          Map.entry('g', "coq"),
          Map.entry('h', "nmb"),
          Map.entry('i', "ltj"),
          Map.entry('j', "il"),
          Map.entry('k', "rhx"),
          Map.entry('l', "iet"),
          Map.entry('m', "nhw"),
          Map.entry('n', "hmu"),
          Map.entry('o', "cqd"),
          Map.entry('p', "frd"),
          Map.entry('q', "ogp"),
          Map.entry('r', "bpn"),
          Map.entry('s', "gbe"),
          Map.entry('t', "ilf"),
          Map.entry('u', "von"),
          Map.entry('v', "uyw"),
          Map.entry('w', "vmn"),
          Map.entry('x', "ky"),
          Map.entry('y', "vtg"),
          Map.entry('z', "s2"),
          Map.entry('0', "68"),
          Map.entry('1', "74"),
          Map.entry('2', "7z"),
          Map.entry('3', "85"),
          Map.entry('4', "1"),
          Map.entry('5', "36"),
          Map.entry('6', "05"),
          Map.entry('7', "1"),
          Map.entry('8', "36"),
          Map.entry('9', "04"));

  private final long seed;
  private final double worn;
  private final List<String> surnames;
  private final double[] upTo;

  /**
   * @param perCentWorn of the letters, 0 to 100
   */
  public InventedBurials(long seed, int perCentWorn) {
    this.seed = seed;
    this.worn = perCentWorn / 100.0;
    this.surnames = surnames(new Random(seed));
    this.upTo = new double[surnames.size()];
    double sum = 0;
    for (int i = 0; i < upTo.length; i++) {
      sum += 1 / Math.pow(i + 1, ZIPF);
      upTo[i] = sum;
    }
  }

  private static List<String> surnames(Random random) {
    java.util.Set<String> all = new java.util.LinkedHashSet<>();
    while (all.size() < SURNAMES) {
      all.add(
          BEGIN[random.nextInt(BEGIN.length)]
              + MIDDLE[random.nextInt(MIDDLE.length)].strip()
              + END[random.nextInt(END.length)]);
    }
    return List.copyOf(all);
  }

  /** All surnames, the most common first. */
  List<String> surnames() {
    return surnames;
  }

  /** How common the surname of a rank is. */
  double share(int rank) {
    return (upTo[rank] - (rank == 0 ? 0 : upTo[rank - 1])) / upTo[upTo.length - 1];
  }

  /** The share of letters that are touched by wear. */
  double worn() {
    return worn;
  }

  private String surname(Random random) {
    double at = random.nextDouble() * upTo[upTo.length - 1];
    int place = java.util.Arrays.binarySearch(upTo, at);
    return surnames.get(place >= 0 ? place : Math.min(upTo.length - 1, -place - 1));
  }

  /** The burial of a number, from 0. */
  public Burial burial(int number) {
    Random random = new Random(seed * 1_000_003 + number);
    List<String> words = new ArrayList<>();
    add(words, OPENINGS[random.nextInt(OPENINGS.length)]);
    int count = 1 + (random.nextInt(10) < 5 ? 1 : 0) + (random.nextInt(10) < 2 ? 1 : 0);
    String surname = surname(random);
    int surnameWord = -1;
    int died = 1720 + random.nextInt(211);
    List<Burial.Person> persons = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      boolean woman = i == 1 ? random.nextInt(10) < 8 : random.nextBoolean();
      String[] from = woman ? WOMEN : MEN;
      String given = from[random.nextInt(from.length)];
      boolean without = i > 0 && random.nextInt(10) < 4;
      if (i > 0) {
        add(words, without && woman ? "also his wife" : "also");
        if (random.nextInt(10) < 1) {
          surname = surname(random);
          without = false;
        }
      }
      int first = words.size();
      words.add(given);
      if (random.nextInt(10) < 2) {
        words.add(from[random.nextInt(from.length)]);
      }
      if (!without) {
        surnameWord = words.size();
        words.add(surname);
      }
      int last = words.size() - 1;
      add(words, "who died");
      died += i == 0 ? 0 : random.nextInt(21) - 5;
      add(words, Integer.toString(died));
      add(words, "aged " + (1 + random.nextInt(89)) + " years");
      persons.add(new Burial.Person(first, last, surnameWord, given, surname, died));
    }
    add(words, CLOSINGS[random.nextInt(CLOSINGS.length)]);
    return new Burial(wear(words, new Random(seed * 7_000_003 + number)), persons);
  }

  private static void add(List<String> words, String text) {
    for (String word : text.split(" ", -1)) {
      if (!word.isEmpty()) {
        words.add(word);
      }
    }
  }

  private List<List<CutSign>> wear(List<String> words, Random random) {
    double covered = worn * IN_PATCHES;
    double length = (2 + LONGEST_PATCH) / 2.0;
    double patchBegins = covered / (length - covered * (length - 1));
    double single = covered == 0 ? 0 : (worn - covered) / (1 - covered);
    int patch = 0;
    boolean open = false;
    List<List<CutSign>> all = new ArrayList<>();
    for (String word : words) {
      List<CutSign> signs = new ArrayList<>();
      for (char letter : word.toLowerCase(Locale.ROOT).toCharArray()) {
        if (patch == 0 && random.nextDouble() < patchBegins) {
          patch = 2 + random.nextInt(LONGEST_PATCH - 1);
          open = random.nextDouble() < LENGTH_UNKNOWN;
        }
        boolean touched = patch > 0 || random.nextDouble() < single;
        CutSign sign = touched ? worn(letter, random) : new CutSign.Read(letter);
        boolean goneOn =
            patch > 0
                && open
                && !signs.isEmpty()
                && signs.get(signs.size() - 1) instanceof CutSign.Gone;
        if (patch > 0 && open) {
          sign = new CutSign.Gone();
        }
        if (!goneOn) {
          signs.add(sign);
        }
        patch = Math.max(0, patch - 1);
      }
      all.add(signs);
    }
    return all;
  }

  private static CutSign worn(char letter, Random random) {
    String others = TAKEN_FOR.getOrDefault(letter, "e");
    char other = others.charAt(random.nextInt(others.length()));
    if (random.nextDouble() < MISREAD) {
      return new CutSign.Read(other);
    }
    if (random.nextDouble() < LOST) {
      return new CutSign.Lost();
    }
    return random.nextDouble() < LIKELIER_IS_TRUE
        ? new CutSign.Open(letter, other)
        : new CutSign.Open(other, letter);
  }

  /**
   * What somebody types who looks for a person on one of the first burials.
   *
   * @param number of the asking, from 0
   * @param among so many burials
   * @param slip whether he mistypes a letter of one of the names
   */
  public Asking asking(int number, int among, boolean slip) {
    Random random = new Random(seed * 13_000_027 + number);
    int wanted = random.nextInt(among);
    Burial burial = burial(wanted);
    Burial.Person person = burial.persons().get(random.nextInt(burial.persons().size()));
    int year = person.died() + random.nextInt(2 * YEARS_EITHER_WAY + 1) - YEARS_EITHER_WAY;
    String given = person.given().toLowerCase(Locale.ROOT);
    String surname = person.surname().toLowerCase(Locale.ROOT);
    if (slip) {
      if (random.nextInt(4) == 0) {
        given = slipped(given, random);
      } else {
        surname = slipped(surname, random);
      }
    }
    return new Asking(wanted, given, surname, year - YEARS_EITHER_WAY, year + YEARS_EITHER_WAY);
  }

  /** A slip is one letter more, one fewer, another, or two neighbours swapped, each as often. */
  private static String slipped(String word, Random random) {
    int at = random.nextInt(word.length());
    char letter = (char) ('a' + random.nextInt(26));
    return switch (random.nextInt(4)) {
      case 0 -> word.substring(0, at) + letter + word.substring(at);
      case 1 -> word.substring(0, at) + word.substring(at + 1);
      case 2 -> word.substring(0, at) + letter + word.substring(at + 1);
      default ->
          at + 1 < word.length()
              ? word.substring(0, at)
                  + word.charAt(at + 1)
                  + word.charAt(at)
                  + word.substring(at + 2)
              : word.substring(0, at) + letter;
    };
  }
}
