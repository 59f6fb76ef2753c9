package rakelight.samples.plots;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import rakelight.samples.plots.InventedPlot.Measured;
import rakelight.samples.plots.InventedPlot.Named;
import rakelight.samples.plots.InventedPlot.Role;
import rakelight.samples.plots.InventedPlot.Stone;

/**
 * Family plots by a second set of rules, set down by somebody who had read neither the first ones
 * ({@link InventedPlots}) nor what is to be judged: a lot is bought at once and every grave in it
 * is kept for somebody, whenever he dies; one mason letters all its footstones in one manner; a
 * sexton may have set them in line along the kerb.
 *
 * <p>The founders lie at the north end, the husband south of his wife; then their children by
 * birth, married sons beside their wives; two infants share a place. Half of the daughters who
 * married are named and lie with their husbands. Footstones stand 1.9 m east of the monument's
 * line, a child's 1.0 m. All shares and lengths are choices, no source. Nobody here ever lived.
 */
public final class InventedLots {
  private static final String[] MEN = {
    "Abel", "Amos", "Benjamin", "Caleb", "Charles", "Daniel", "Edward", "Elias", "George", "Henry",
    "Isaac", "Jacob", "James", "John", "Joseph", "Luke", "Matthew", "Nathan", "Peter", "Robert",
    "Samuel", "Thomas", "William"
  };
  private static final String[] WOMEN = {
    "Ada", "Agnes", "Alice", "Ann", "Caroline", "Clara", "Dinah", "Elizabeth", "Emma", "Esther",
    "Frances", "Hannah", "Harriet", "Jane", "Lucy", "Margaret", "Martha", "Mary", "Phebe", "Rachel",
    "Ruth", "Sarah", "Susan"
  };
  private static final String[] SURNAME_STARTS = {
    "Al", "Bram", "Crow", "Dun", "Els", "Fen", "Gar", "Hol", "Ing", "Ket", "Lud", "Mar", "Nor",
    "Oak", "Pen", "Rud", "Sel", "Thorn", "Ul", "Wex"
  };
  private static final String[] SURNAME_ENDS = {"ley", "ham", "by", "wick", "mere", "stow", "den"};

  /** Letters that look alike once their thin strokes are gone; from memory, no source. */
  private static final String[] ALIKE = {
    "CGOQD", "EFLBT", "ILTJ", "MNWH", "PRBF", "VYUW", "SBZ", "KXR", "AXH", "DOBP", "HNKA", "JIUL"
  };

  private enum Manner {
    ALL_INITIALS,
    FIRST_AND_LAST,
    GIVEN_ONLY,
    RELATIONS
  }

  private static final class Somebody {
    String given = "";
    String surname = "";
    Optional<String> birthSurname = Optional.empty();
    boolean woman;
    int born;
    int died;
    final List<Role> roles = new ArrayList<>();
    boolean founder;
    boolean liesHere = true;
    boolean atSea;
    double place;

    int age() {
      return died - born;
    }

    boolean child() {
      return age() < 14;
    }
  }

  private final Random random;
  private final double worn;

  private InventedLots(long seed, double worn) {
    this.random = new Random(seed);
    this.worn = worn;
  }

  /**
   * So many lots, the same for the same seed.
   *
   * @param worn share of the letters that are worn, 0 to 1
   */
  public static List<InventedPlot> of(long seed, int count, double worn) {
    InventedLots lots = new InventedLots(seed, worn);
    return IntStream.range(0, count).mapToObj(i -> lots.lot()).toList();
  }

  private InventedPlot lot() {
    List<Somebody> family = family();
    layOut(family);
    boolean taped = chance(0.6);
    double stated = taped ? 0.2 : 3;
    double actual = taped ? 0.2 : 3.6;
    double[] shift = taped ? new double[2] : new double[] {gauss(1.5), gauss(1.5)};
    double width = family.stream().mapToDouble(s -> s.place).max().orElse(0);
    Measured monument = measured(0, -width / 2, shift, stated, actual);
    double front = chance(0.5) ? 90 : 270;
    List<Named> named = new ArrayList<>();
    for (int i = 0; i < family.size(); i++) {
      Somebody one = family.get(i);
      boolean headstone = one.liesHere && !one.founder && !one.child() && chance(0.15);
      named.add(
          new Named(
              one.given,
              one.surname,
              one.birthSurname.filter(b -> chance(0.4)),
              one.woman,
              chance(0.8) ? Optional.of(one.age()) : Optional.empty(),
              chance(0.85) ? Optional.of(one.died) : Optional.empty(),
              one.roles,
              i < 5 ? front : (front + (i % 2 == 0 ? 90 : 270)) % 360,
              one.atSea,
              headstone
                  ? Optional.of(measured(0.1, -one.place, shift, stated, actual))
                  : Optional.empty()));
    }
    return new InventedPlot(monument, named, stones(family, shift, stated, actual));
  }

  private List<Somebody> family() {
    String surname = surname();
    List<Somebody> family = new ArrayList<>();
    int born = 1790 + random.nextInt(80);
    Somebody father = somebody(false, surname, born, 45 + random.nextInt(42));
    Somebody mother = somebody(true, surname, born + 3, 38 + random.nextInt(50));
    mother.birthSurname = Optional.of(surname());
    father.founder = true;
    mother.founder = true;
    father.roles.addAll(List.of(Role.FATHER, Role.HUSBAND));
    mother.roles.addAll(List.of(Role.MOTHER, Role.WIFE));
    family.add(father);
    family.add(mother);
    int size = 4 + random.nextInt(9);
    for (int at = born + 25; family.size() < size; at += 1 + random.nextInt(3)) {
      int age = chance(0.3) ? random.nextInt(6) : 15 + random.nextInt(65);
      Somebody child = somebody(chance(0.5), surname, at, age);
      if (chance(0.3)) {
        child.given = child.woman ? mother.given : father.given;
      }
      if (chance(0.35)) {
        child.given += " " + (chance(0.3) ? surname() : pick(child.woman ? WOMEN : MEN));
      }
      family.add(child);
      if (age < 3) {
        child.roles.add(Role.INFANT);
      } else if (age > 24 && child.woman && chance(0.5)) {
        child.birthSurname = Optional.of(surname);
        child.surname = surname();
        child.roles.add(Role.WIFE);
        child.liesHere = chance(0.5);
      } else if (age > 24 && !child.woman && family.size() < size && chance(0.5)) {
        Somebody wife = somebody(true, surname, at + 2, 24 + random.nextInt(55));
        wife.birthSurname = Optional.of(surname());
        wife.roles.add(Role.WIFE);
        child.roles.add(Role.HUSBAND);
        family.add(wife);
      }
      if (age > 17 && !child.woman && chance(0.06)) {
        child.atSea = true;
        child.liesHere = false;
      }
    }
    return family;
  }

  private Somebody somebody(boolean woman, String surname, int born, int age) {
    Somebody one = new Somebody();
    one.woman = woman;
    one.surname = surname;
    one.given = pick(woman ? WOMEN : MEN);
    one.born = born;
    one.died = born + age;
    return one;
  }

  /** Places southwards from the north end, in metres, kept for each by birth and marriage. */
  private void layOut(List<Somebody> family) {
    double next = 0;
    boolean half = false;
    for (int i = 0; i < family.size(); i++) {
      // the husband lies south of his wife: founders are listed husband first
      Somebody one = family.get(i == 0 ? 1 : i == 1 ? 0 : i);
      if (!one.liesHere) {
        continue;
      }
      if (one.roles.contains(Role.INFANT)) {
        one.place = half ? next - 0.6 : next;
        next += half ? 0 : 1.2;
        half = !half;
      } else {
        one.place = next;
        next += 1.2;
      }
    }
  }

  private List<Stone> stones(List<Somebody> family, double[] shift, double stated, double actual) {
    Manner manner = pick(Manner.values(), new double[] {0.45, 0.3, 0.1, 0.15});
    boolean years = chance(0.1);
    boolean widths = chance(0.5);
    boolean kerb = chance(0.12);
    int founderDied = Math.min(family.get(0).died, family.get(1).died);
    List<Somebody> with = new ArrayList<>();
    for (Somebody one : family) {
      // one order for all who had died by then; afterwards each as the heirs saw fit
      if (one.liesHere && chance(one.died <= founderDied + 2 ? 0.8 : 0.6)) {
        with.add(one);
      }
    }
    with.sort((a, b) -> Double.compare(a.place, b.place));
    double soft = chance(0.5) ? 0.4 : 1.6;
    List<Stone> stones = new ArrayList<>();
    for (int i = 0; i < with.size(); i++) {
      Somebody one = with.get(i);
      double south = kerb ? i * 0.7 : one.place + gauss(0.1);
      double east = kerb ? 3 : (one.child() ? 1.0 : 1.9) + gauss(0.1);
      if (!kerb && i + 1 < with.size() && chance(0.03)) {
        south = with.get(i + 1).place - 0.3; // moved by whoever dug next door
      }
      stones.add(
          stone(
              legend(one, manner),
              soft,
              measured(east, -south, shift, stated, actual),
              widths
                  ? Optional.of(Math.max(0.12, (one.child() ? 0.2 : 0.3) + gauss(0.03)))
                  : Optional.empty(),
              years ? Optional.of(Integer.toString(one.died)) : Optional.empty(),
              family.indexOf(one)));
    }
    int strangers = chance(0.25) ? 1 + random.nextInt(2) : 0;
    double end = family.stream().mapToDouble(s -> s.place).max().orElse(0);
    for (int i = 0; i < strangers; i++) {
      Somebody other = somebody(chance(0.5), surname(), 1800, 50);
      double south = chance(0.5) ? -1.2 * (i + 1) : end + 1.2 * (i + 1);
      stones.add(
          stone(
              legend(other, manner == Manner.RELATIONS ? Manner.FIRST_AND_LAST : manner),
              1,
              measured(1.9, -south, shift, stated, actual),
              Optional.empty(),
              Optional.empty(),
              -1));
    }
    return stones;
  }

  private String legend(Somebody one, Manner manner) {
    if (manner == Manner.RELATIONS || (one.founder && chance(0.15))) {
      if (one.founder) {
        return one.woman ? "MOTHER" : "FATHER";
      }
      if (one.roles.contains(Role.INFANT)) {
        return chance(0.6) ? "BABY" : "INFANT";
      }
      if (one.roles.contains(Role.WIFE) && chance(0.5)) {
        return "WIFE";
      }
    }
    StringBuilder legend = new StringBuilder();
    for (String given : one.given.split(" ")) {
      legend.append(given.charAt(0));
      if (manner == Manner.FIRST_AND_LAST) {
        break;
      }
    }
    if (one.birthSurname.isPresent() && manner == Manner.ALL_INITIALS && chance(0.3)) {
      legend.append(one.birthSurname.get().charAt(0));
    }
    if (manner != Manner.GIVEN_ONLY) {
      legend.append(one.surname.charAt(0));
    }
    return legend.toString();
  }

  private Stone stone(
      String legend,
      double soft,
      Measured at,
      Optional<Double> width,
      Optional<String> year,
      int person) {
    List<Map<Character, Double>> letters = new ArrayList<>();
    for (char letter : legend.toCharArray()) {
      letters.add(read(letter, Math.min(0.95, worn * soft)));
    }
    Optional<String> readYear =
        year.map(
            figures -> {
              StringBuilder out = new StringBuilder();
              for (char figure : figures.toCharArray()) {
                out.append(chance(worn * soft) ? '?' : figure);
              }
              return out.toString();
            });
    return new Stone(letters, at, width, readYear, person);
  }

  /** What a reader makes of one letter. */
  private Map<Character, Double> read(char truth, double wornShare) {
    if (!chance(wornShare)) {
      // a slip of the reader's on a letter that is plain
      return chance(0.01) ? Map.of(alike(truth), 0.9, truth, 0.1) : Map.of(truth, 1.0);
    }
    if (chance(0.35)) {
      return Map.of();
    }
    double right = 0.3 + 0.4 * random.nextDouble();
    char other = alike(truth);
    char third = alike(truth);
    char first = chance(0.15) ? other : truth;
    Map<Character, Double> shares = new HashMap<>();
    shares.put(first, Math.max(right, 0.5));
    double rest = 1 - Math.max(right, 0.5);
    if (!chance(0.05) || first == truth) {
      shares.merge(truth, rest * 0.5, Double::sum);
      shares.merge(third, rest * 0.3, Double::sum);
      shares.merge(other, rest * 0.2, Double::sum);
    } else {
      shares.merge(third, rest, Double::sum);
    }
    return shares;
  }

  private char alike(char letter) {
    List<String> groups = new ArrayList<>();
    for (String group : ALIKE) {
      if (group.indexOf(letter) >= 0) {
        groups.add(group.replace(String.valueOf(letter), ""));
      }
    }
    if (groups.isEmpty()) {
      return (char) ('A' + random.nextInt(26));
    }
    String group = groups.get(random.nextInt(groups.size()));
    return group.charAt(random.nextInt(group.length()));
  }

  private Measured measured(
      double east, double north, double[] shift, double stated, double actual) {
    return new Measured(
        east + shift[0] + gauss(actual / Math.sqrt(2)),
        north + shift[1] + gauss(actual / Math.sqrt(2)),
        stated);
  }

  private String surname() {
    return pick(SURNAME_STARTS) + pick(SURNAME_ENDS);
  }

  private boolean chance(double share) {
    return random.nextDouble() < share;
  }

  private double gauss(double sd) {
    return random.nextGaussian() * sd;
  }

  private <T> T pick(T[] from) {
    return from[random.nextInt(from.length)];
  }

  private <T> T pick(T[] from, double[] shares) {
    double at = random.nextDouble();
    for (int i = 0; i < from.length; i++) {
      at -= shares[i];
      if (at < 0) {
        return from[i];
      }
    }
    return from[from.length - 1];
  }
}
