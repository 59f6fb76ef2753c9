package rakelight.samples.removals;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;

/**
 * An invented clearance: so many graves of a chapel's yard, moved within two summers to rows of a
 * new ground. A little under half got a stone with a name, over half of the rest one that says
 * UNKNOWN, the others none; of the unknown the register still names two of three. A stone in seven
 * has lost letters of its name. These shares are choices, no source.
 *
 * <p>Nine faults are put in, each of another kind, on rows of which nothing else is wrong.
 */
public final class InventedRemovals {
  /** The header of the register: the words of an office, not the fields of a program. */
  private static final List<String> COLUMNS =
      List.of(
          "Page",
          "Burial ground",
          "Name of deceased",
          "Date of death",
          "Old row",
          "Old grave",
          "New row",
          "New grave",
          "Removed on",
          "Stone",
          "Remarks");

  /** Which column of the register a field is, as somebody who takes it in says it. */
  public static final Map<String, String> FIELDS =
      Map.of(
          "ground", "Burial ground",
          "name", "Name of deceased",
          "died", "Date of death",
          "old-row", "Old row",
          "old-number", "Old grave",
          "new-row", "New row",
          "new-number", "New grave",
          "moved", "Removed on",
          "stone", "Stone",
          "note", "Remarks");

  private static final String[] GIVEN =
      "John William Thomas James George Robert Samuel Mary Ann Elizabeth Sarah Jane Hannah Martha"
          .split(" ");
  private static final String[] BEGIN =
      "Ald Birk Crow Dun Ell Fen Gar Hol Ing Kel Lam Mel Nor Oak Pel Rad Scar Tod Ul Win"
          .split(" ");
  private static final String[] END =
      "by combe croft den field gate hurst land ley more ridge shaw stead thorpe wick".split(" ");
  private static final String[] MONTHS =
      "Jan Feb March April May June July Aug Sept Oct Nov Dec".split(" ");
  private static final int STONES_IN_ROW = 16;

  private final List<Grave> graves = new ArrayList<>();
  private final List<InventedFault> faults = new ArrayList<>();
  private final List<String[]> rows = new ArrayList<>();
  private final int statedRecorded;

  /**
   * A stone of the new ground.
   *
   * @param number as the new ground numbers it: {@code 3-14}
   * @param lines in Leiden signs
   */
  public record MovedStone(String number, List<String> lines) {}

  /**
   * A fault put in on purpose.
   *
   * @param kind as the program is to name it
   * @param rows of the register, from 1; empty where it is of the whole
   */
  public record InventedFault(String kind, List<Integer> rows) {
    public InventedFault {
      rows = List.copyOf(rows);
    }
  }

  /** What a grave got in the new ground. */
  private enum Fate {
    NAMED,
    UNKNOWN,
    NONE
  }

  private static final class Grave {
    private final String given;
    private final String surname;
    private final boolean nameInRegister;
    private final int[] died;
    private final Fate fate;
    private final int place;
    private final boolean worn;
    private boolean accounted;
    private final int row;

    Grave(int row, Random random, Fate fate, int place, Set<String> names) {
      this.row = row;
      String first;
      String last;
      do {
        first = GIVEN[random.nextInt(GIVEN.length)];
        last = BEGIN[random.nextInt(BEGIN.length)] + END[random.nextInt(END.length)];
      } while (!names.add(first + " " + last));
      given = first;
      surname = last;
      this.fate = fate;
      this.place = place;
      nameInRegister = fate != Fate.UNKNOWN || random.nextInt(3) < 2;
      died = new int[] {1831 + random.nextInt(35), 1 + random.nextInt(12), 1 + random.nextInt(28)};
      worn = random.nextInt(7) == 0;
      accounted = fate != Fate.NONE;
    }

    String newRow() {
      return String.valueOf(1 + place / STONES_IN_ROW);
    }

    String newNumber() {
      return String.valueOf(1 + place % STONES_IN_ROW);
    }
  }

  /**
   * @param count of the graves, 60 or more
   */
  public InventedRemovals(long seed, int count) {
    if (count < 60) {
      throw new IllegalArgumentException("60 graves or more leave room for nine faults: " + count);
    }
    Random random = new Random(seed);
    Set<String> names = new LinkedHashSet<>();
    int place = 0;
    for (int i = 0; i < count; i++) {
      int draw = random.nextInt(20);
      // The first of each fate are sure to be there, for the faults.
      Fate fate =
          i < 24
              ? Fate.values()[i % 3]
              : draw < 9 ? Fate.NAMED : draw < 16 ? Fate.UNKNOWN : Fate.NONE;
      Grave grave = new Grave(i + 1, random, fate, place, names);
      place += fate == Fate.NONE ? 0 : 1;
      graves.add(grave);
      rows.add(row(grave, i, random));
    }
    int counted = count;
    statedRecorded = counted + 3;
    faults.add(new InventedFault("stated-otherwise", List.of()));
    spoil();
  }

  private String[] row(Grave grave, int i, Random random) {
    boolean moved = grave.fate != Fate.NONE || random.nextInt(3) > 0;
    int year = 1867 + random.nextInt(2);
    return new String[] {
      String.valueOf(1 + i / 20),
      "Low Carr chapel yard",
      grave.nameInRegister ? grave.surname + ", " + grave.given : "unknown",
      grave.nameInRegister
          ? grave.died[2] + " " + MONTHS[grave.died[1] - 1] + " " + grave.died[0]
          : "",
      String.valueOf((char) ('A' + i / 30)),
      String.valueOf(1 + i % 30),
      grave.fate == Fate.NONE ? "" : grave.newRow(),
      grave.fate == Fate.NONE ? "" : grave.newNumber(),
      moved ? (1 + random.nextInt(28)) + " " + MONTHS[4 + random.nextInt(4)] + " " + year : "",
      grave.fate == Fate.NAMED
          ? (random.nextBoolean() ? "carried over" : "uniform")
          : grave.fate == Fate.UNKNOWN ? "uniform" : "",
      ""
    };
  }

  private Grave take(Fate fate, int which) {
    return graves.stream()
        .filter(grave -> grave.fate == fate && (fate != Fate.UNKNOWN || grave.nameInRegister))
        .skip(which)
        .findFirst()
        .orElseThrow();
  }

  private String[] rowOf(Grave grave) {
    return rows.get(grave.row - 1);
  }

  private void spoil() {
    Grave before = take(Fate.NAMED, 0);
    rowOf(before)[8] = "3 May 1829";
    fault("moved-before-death", before.row);

    Grave nowhere = take(Fate.NAMED, 1);
    rowOf(nowhere)[6] = "99";
    nowhere.accounted = false;
    fault("no-such-row", nowhere.row);

    Grave bare = take(Fate.NAMED, 2);
    rowOf(bare)[5] = "";
    fault("no-old-number", bare.row);

    Grave never = take(Fate.UNKNOWN, 0);
    rowOf(never)[3] = "30 Feb 1859";
    fault("no-such-day", never.row);

    Grave first = take(Fate.NONE, 0);
    Grave second = take(Fate.NONE, 1);
    rowOf(second)[4] = rowOf(first)[4];
    rowOf(second)[5] = rowOf(first)[5];
    fault("number-twice", first.row, second.row);

    Grave owner = take(Fate.UNKNOWN, 1);
    Grave intruder = take(Fate.UNKNOWN, 2);
    rowOf(intruder)[6] = rowOf(owner)[6];
    rowOf(intruder)[7] = rowOf(owner)[7];
    intruder.accounted = false;
    fault("marker-twice", owner.row, intruder.row);

    Grave again = take(Fate.NAMED, 3);
    rows.add(rowOf(again).clone());
    fault("row-twice", again.row, rows.size());

    Grave torn = take(Fate.NAMED, 4);
    String[] other = rowOf(torn).clone();
    other[6] = rowOf(take(Fate.UNKNOWN, 3))[6];
    other[7] = rowOf(take(Fate.UNKNOWN, 3))[7];
    rows.add(other);
    torn.accounted = false;
    fault("two-places", torn.row, rows.size());
  }

  private void fault(String kind, Integer... of) {
    faults.add(new InventedFault(kind, List.of(of)));
  }

  /** The register, RFC 4180. */
  public String csv() {
    StringBuilder csv = new StringBuilder(line(COLUMNS.toArray(String[]::new)));
    rows.forEach(row -> csv.append(line(row)));
    return csv.toString();
  }

  private static String line(String[] cells) {
    List<String> quoted = new ArrayList<>();
    for (String cell : cells) {
      quoted.add(cell.matches("[^,\"\r\n]*") ? cell : "\"" + cell.replace("\"", "\"\"") + "\"");
    }
    return String.join(",", quoted) + "\r\n";
  }

  /** The stones of the new ground, row by row. */
  public List<MovedStone> stones() {
    List<MovedStone> stones = new ArrayList<>();
    for (Grave grave : graves) {
      String number = grave.newRow() + "-" + grave.newNumber();
      if (grave.fate == Fate.UNKNOWN) {
        stones.add(new MovedStone(number, List.of("UNKNOWN")));
      } else if (grave.fate == Fate.NAMED) {
        String surname = grave.surname.toUpperCase(Locale.ROOT);
        String carved = grave.worn ? surname.substring(0, surname.length() - 2) + "[..]" : surname;
        stones.add(
            new MovedStone(
                number,
                List.of(
                    "In memory of",
                    grave.given.toUpperCase(Locale.ROOT) + " " + carved,
                    "who died",
                    grave.died[2] + " " + MONTHS[grave.died[1] - 1] + " " + grave.died[0])));
      }
    }
    return stones;
  }

  /** The faults put in, in no order. */
  public List<InventedFault> faults() {
    return List.copyOf(faults);
  }

  /** How many graves the register says it records, wrongly. */
  public int statedRecorded() {
    return statedRecorded;
  }

  /** How many rows the register has. */
  public int rows() {
    return rows.size();
  }

  /** The figures that are right, by their labels. */
  public Map<String, Integer> figures() {
    Map<String, Integer> figures = new TreeMap<>();
    figures.put("recorded", graves.size());
    figures.put("marked", count(Fate.NAMED, true));
    figures.put("unknown", count(Fate.UNKNOWN, true));
    figures.put("unaccounted", (int) graves.stream().filter(grave -> !grave.accounted).count());
    figures.put("moved", (int) graves.stream().filter(g -> !rowOf(g)[8].isEmpty()).count());
    figures.put("not-moved", (int) graves.stream().filter(g -> rowOf(g)[8].isEmpty()).count());
    figures.put(
        "named-by-register",
        (int)
            graves.stream()
                .filter(g -> g.fate == Fate.UNKNOWN && g.accounted && g.nameInRegister)
                .count());
    return figures;
  }

  private int count(Fate fate, boolean accounted) {
    return (int) graves.stream().filter(g -> g.fate == fate && g.accounted == accounted).count();
  }

  /** By row: the number of the marker that names its person; empty where none does. */
  public Optional<String> namedOn(int row) {
    Grave grave = graves.get(row - 1);
    return grave.fate == Fate.NAMED
        ? Optional.of(grave.newRow() + "-" + grave.newNumber())
        : Optional.empty();
  }
}
