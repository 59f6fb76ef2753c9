package rakelight.samples.plots;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import rakelight.samples.plots.InventedPlot.Measured;
import rakelight.samples.plots.InventedPlot.Named;
import rakelight.samples.plots.InventedPlot.Role;
import rakelight.samples.plots.InventedPlot.Stone;

/**
 * Makes family plots.
 *
 * <p>A couple has children; some die small, some marry and bring a wife, some stay single. A third
 * of the children bear a parent's or a dead sister's or brother's name. Graves are dug as deaths
 * come: beside husband or wife where there is room, else at whichever end of the row is nearer the
 * monument, children now and then at the feet of their mother; after six a second row is begun. The
 * monument names the couple on its front and the others on whichever face was free, mostly in the
 * order of their deaths. Footstones are set for some, more often for adults; one of twenty has been
 * moved by mowers; a neighbour's strays in now and then. Receivers are off together on one visit
 * and each by itself, with tails longer than a bell's; three plots of ten were taped.
 *
 * <p>Of worn letters a third is gone, two of five are left open between letters of like shape, the
 * right one among them five times of six, and the rest are misread without a mark. Wear begins at
 * one end of the stone and eats on from there.
 */
public final class InventedPlots {
  private static final String[] MEN =
      ("John William Thomas James George Robert Joseph Henry Charles Edward Samuel Richard Daniel"
              + " Benjamin Isaac Matthew Stephen Francis Nathan Amos Caleb Silas Levi Walter Hugh"
              + " Andrew Owen Peter Philip Ezra Job Luke Enoch Urban Victor Zachary Jonas")
          .split(" ");
  private static final String[] WOMEN =
      ("Mary Ann Elizabeth Sarah Jane Margaret Hannah Martha Susan Rebecca Rachel Esther Ruth"
              + " Abigail Lydia Dorothy Alice Agnes Catherine Isabel Charlotte Harriet Emma Ellen"
              + " Fanny Louisa Matilda Sophia Phoebe Grace Keziah Bridget Naomi Olive Ursula Violet")
          .split(" ");
  private static final Map<String, String> PET_NAMES =
      Map.ofEntries(
          Map.entry("Mary", "P"),
          Map.entry("Ann", "N"),
          Map.entry("Elizabeth", "B"),
          Map.entry("Margaret", "P"),
          Map.entry("Martha", "P"),
          Map.entry("Ellen", "N"),
          Map.entry("Sarah", "S"),
          Map.entry("William", "B"),
          Map.entry("Robert", "B"),
          Map.entry("Richard", "D"),
          Map.entry("Edward", "T"),
          Map.entry("Henry", "H"),
          Map.entry("Dorothy", "D"),
          Map.entry("Isabel", "B"));
  private static final String[] BEGINNINGS =
      ("Ash Bar Cor Dun Ell Far Gar Hol Ing Kel Lang Mar Nor Old Pen Quar Row Sed Thorn Ulls Val"
              + " Wen Yar Zeal")
          .split(" ");
  private static final String[] ENDINGS =
      "by cott den field gate ham ley low mere ridge ston thwaite wick worth".split(" ");
  private static final String[] ALIKE = {
    "CGOQD", "BPRE", "HMNW", "IJLT", "EFLB", "UVYW", "KXRH", "SZB", "AHR", "TFIP"
  };
  private static final String[] FIGURES_ALIKE = {"38", "17", "069", "56", "149", "27"};

  private static final double NAMESAKE = 0.33;
  private static final double DIES_SMALL = 0.28;
  private static final double LIES_ELSEWHERE = 0.12;
  private static final double OWN_HEADSTONE = 0.1;
  private static final double MOVED = 0.05;
  private static final double TAPED = 0.3;
  private static final double STRANGERS = 0.7;
  private static final double GONE = 0.34;
  private static final double OPEN = 0.4;
  private static final double RIGHT_AMONG_OPEN = 5 / 6.0;

  /** Somebody while the plot is being filled. */
  private static final class Body {
    final List<String> given = new ArrayList<>();
    String surname = "";
    String birthSurname = "";
    boolean woman;
    int born;
    int died;
    Body spouse = this;
    final List<Role> roles = new ArrayList<>();
    double face;
    boolean elsewhere;
    double along = Double.NaN;
    double across;

    int age() {
      return died - born;
    }
  }

  private final Random random;
  private final PlotHabits habits;

  private InventedPlots(Random random, PlotHabits habits) {
    this.random = random;
    this.habits = habits;
  }

  /** So many plots; the same for a seed. */
  public static List<InventedPlot> of(long seed, int count, PlotHabits habits) {
    List<InventedPlot> plots = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      plots.add(new InventedPlots(new Random(seed * 1_000_003 + i), habits).plot(4, 12));
    }
    return plots;
  }

  /** One plot of a family that has so many persons. */
  public static InventedPlot of(long seed, int persons, int least, PlotHabits habits) {
    return new InventedPlots(new Random(seed), habits).plot(least, persons);
  }

  private InventedPlot plot(int least, int most) {
    List<Body> family = family(least + random.nextInt(most - least + 1));
    List<Body> deaths = new ArrayList<>(family);
    deaths.sort(Comparator.comparingInt(body -> body.died));
    double front = random.nextInt(8) * 45;
    faces(family, deaths, front);
    dig(deaths);
    // Rows run to the right of who looks at the front; the graves lie before it.
    double rowEast = Math.cos(Math.toRadians(front));
    double rowNorth = -Math.sin(Math.toRadians(front));
    double aheadEast = Math.sin(Math.toRadians(front));
    double aheadNorth = Math.cos(Math.toRadians(front));
    boolean taped = random.nextDouble() < TAPED;
    double shiftEast = taped ? 0 : random.nextGaussian() * 0.8 * habits.errorTimes();
    double shiftNorth = taped ? 0 : random.nextGaussian() * 0.8 * habits.errorTimes();
    Measured monument = measured(50, 50, shiftEast, shiftNorth, taped);
    List<Stone> stones = new ArrayList<>();
    List<Named> persons = new ArrayList<>();
    List<Body> named = named(family);
    for (Body body : named) {
      double east = 50 + body.along * rowEast + body.across * aheadEast;
      double north = 50 + body.along * rowNorth + body.across * aheadNorth;
      Optional<Measured> own =
          !body.elsewhere && random.nextDouble() < OWN_HEADSTONE
              ? Optional.of(
                  measured(
                      east - 1.7 * aheadEast,
                      north - 1.7 * aheadNorth,
                      shiftEast,
                      shiftNorth,
                      taped))
              : Optional.empty();
      persons.add(
          new Named(
              String.join(" ", body.given),
              body.surname,
              body.birthSurname.isEmpty() || random.nextDouble() < 0.5
                  ? Optional.empty()
                  : Optional.of(body.birthSurname),
              body.woman,
              random.nextDouble() < 0.75 ? Optional.of(body.age()) : Optional.empty(),
              random.nextDouble() < 0.85 ? Optional.of(body.died) : Optional.empty(),
              body.roles,
              body.face,
              body.elsewhere && random.nextBoolean(),
              own));
      double share = body.age() < 12 ? habits.childrenWithStone() : habits.adultsWithStone();
      if (!body.elsewhere && random.nextDouble() < share) {
        boolean moved = random.nextDouble() < MOVED;
        double far = moved ? 2 + random.nextDouble() * 4 : 0;
        double way = random.nextDouble() * 2 * Math.PI;
        Measured at =
            measured(
                east + far * Math.cos(way),
                north + far * Math.sin(way),
                shiftEast,
                shiftNorth,
                taped);
        stones.add(
            new Stone(
                read(cut(body)), at, width(body.age() < 12), year(body.died), named.indexOf(body)));
      }
    }
    for (int i = 0; i < 3; i++) {
      if (random.nextDouble() < STRANGERS / 3) {
        stones.add(stranger(shiftEast, shiftNorth, taped));
      }
    }
    java.util.Collections.shuffle(stones, random);
    return new InventedPlot(monument, persons, stones);
  }

  private List<Body> family(int size) {
    String surname = surname();
    List<Body> family = new ArrayList<>();
    Body father = body(false, 1740 + random.nextInt(120), surname);
    Body mother = body(true, father.born + random.nextInt(8), surname);
    mother.birthSurname = surname();
    grownUp(father);
    grownUp(mother);
    marry(father, mother);
    father.roles.add(Role.FATHER);
    mother.roles.add(Role.MOTHER);
    family.add(father);
    family.add(mother);
    int year = mother.born + 20;
    while (family.size() < size) {
      year += 1 + random.nextInt(3);
      Body child = body(random.nextBoolean(), year, surname);
      if (random.nextDouble() < NAMESAKE) {
        Body like = family.get(random.nextInt(family.size()));
        if (like.woman == child.woman && !(like.age() > 12 && like != father && like != mother)) {
          child.given.set(0, like.given.get(0));
        }
      }
      if (random.nextDouble() < DIES_SMALL) {
        child.died = child.born + (int) Math.floor(Math.pow(random.nextDouble(), 2) * 11);
        if (child.age() < 2) {
          child.roles.add(Role.INFANT);
        }
      } else {
        grownUp(child);
        if (!child.woman && random.nextDouble() < 0.4 && family.size() + 1 < size) {
          Body wife = body(true, child.born + random.nextInt(9) - 2, surname);
          wife.birthSurname = surname();
          grownUp(wife);
          marry(child, wife);
          family.add(wife);
        }
      }
      family.add(child);
    }
    return family;
  }

  private void marry(Body husband, Body wife) {
    husband.spouse = wife;
    wife.spouse = husband;
    husband.roles.add(Role.HUSBAND);
    wife.roles.add(Role.WIFE);
  }

  private void grownUp(Body body) {
    body.died = body.born + 18 + (int) (Math.pow(random.nextDouble(), 0.6) * 72);
  }

  private Body body(boolean woman, int born, String surname) {
    Body body = new Body();
    String[] names = woman ? WOMEN : MEN;
    // The first of the list are borne oftenest.
    body.given.add(names[(int) (names.length * Math.pow(random.nextDouble(), 1.8))]);
    if (random.nextDouble() < 0.45) {
      body.given.add(random.nextDouble() < 0.3 ? surname() : names[random.nextInt(names.length)]);
    }
    body.woman = woman;
    body.born = born;
    body.surname = surname;
    body.elsewhere = random.nextDouble() < LIES_ELSEWHERE;
    return body;
  }

  private String surname() {
    return BEGINNINGS[random.nextInt(BEGINNINGS.length)] + ENDINGS[random.nextInt(ENDINGS.length)];
  }

  private void faces(List<Body> family, List<Body> deaths, double front) {
    List<Double> free = new ArrayList<>(List.of(front + 90, front + 270, front + 180));
    if (random.nextBoolean()) {
      java.util.Collections.swap(free, 0, 1);
    }
    for (Body body : deaths) {
      boolean couple = family.indexOf(body) < 2;
      int at = couple || deaths.size() < 5 ? -1 : (deaths.indexOf(body) * 4 / deaths.size()) - 1;
      body.face = (at < 0 ? front : free.get(Math.min(2, at))) % 360;
    }
  }

  /** The order in which the monument names them: the couple, then mostly as they died. */
  private List<Body> named(List<Body> family) {
    List<Body> named = new ArrayList<>(family.subList(0, 2));
    List<Body> others = new ArrayList<>(family.subList(2, family.size()));
    Map<Body, Double> key = new HashMap<>();
    others.forEach(
        body ->
            key.put(
                body, (random.nextDouble() < 0.8 ? body.died : body.born) + random.nextDouble()));
    others.sort(Comparator.comparingDouble(key::get));
    named.addAll(others);
    return named;
  }

  /** Graves as deaths come. */
  private void dig(List<Body> deaths) {
    List<Body> rowOne = new ArrayList<>();
    List<Body> rowTwo = new ArrayList<>();
    for (Body body : deaths) {
      List<Body> row = rowOne.size() < 6 ? rowOne : rowTwo;
      double foot = row == rowOne ? 2.1 : 5.0;
      body.across = foot + random.nextGaussian() * 0.15;
      if (body.elsewhere) {
        body.along = 0;
        continue;
      }
      Body mother =
          deaths.stream()
              .filter(b -> b.roles.contains(Role.MOTHER) && !Double.isNaN(b.along) && !b.elsewhere)
              .findFirst()
              .orElse(body);
      if (body.age() < 3 && mother != body && random.nextDouble() < 0.4) {
        body.along = mother.along + random.nextGaussian() * 0.25;
        body.across = mother.across + 0.5;
        continue;
      }
      double step = habits.spacingMetres() * Math.exp(random.nextGaussian() * 0.17);
      step *= body.age() < 12 ? 0.75 : 1;
      double left = row.stream().mapToDouble(b -> b.along).min().orElse(0);
      double right = row.stream().mapToDouble(b -> b.along).max().orElse(0);
      boolean besideSpouse = !Double.isNaN(body.spouse.along) && body.spouse != body;
      if (row.isEmpty()) {
        body.along = random.nextGaussian() * 0.5;
      } else if (besideSpouse && row.contains(body.spouse) && body.spouse.along == left) {
        body.along = left - step;
      } else if (besideSpouse && row.contains(body.spouse) && body.spouse.along == right) {
        body.along = right + step;
      } else {
        // Room is kept for a husband or wife who still lives.
        double room =
            body.spouse != body && Double.isNaN(body.spouse.along) && random.nextBoolean()
                ? habits.spacingMetres()
                : 0;
        body.along = Math.abs(right) <= Math.abs(left) ? right + step + room : left - step - room;
      }
      row.add(body);
    }
  }

  private String cut(Body body) {
    String given = body.given.get(0);
    String all = body.given.stream().map(name -> name.substring(0, 1)).reduce("", String::concat);
    String last = body.surname.substring(0, 1);
    double which = random.nextDouble();
    if (which < 0.05) {
      return given.toUpperCase(Locale.ROOT);
    }
    if (which < 0.13 && !body.roles.isEmpty()) {
      Role role = body.roles.get(random.nextInt(body.roles.size()));
      return role == Role.INFANT ? (random.nextBoolean() ? "BABY" : "INFANT") : role.name();
    }
    if (which < 0.17 && PET_NAMES.containsKey(given)) {
      return PET_NAMES.get(given) + last;
    }
    if (which < 0.22 && !body.birthSurname.isEmpty()) {
      return given.charAt(0) + body.birthSurname.substring(0, 1) + last;
    }
    if (which < 0.29) {
      return all;
    }
    return which < 0.7 ? all + last : given.charAt(0) + last;
  }

  private Stone stranger(double shiftEast, double shiftNorth, boolean taped) {
    double far = 2 + random.nextDouble() * 7;
    double way = random.nextDouble() * 2 * Math.PI;
    Measured at =
        measured(50 + far * Math.cos(way), 50 + far * Math.sin(way), shiftEast, shiftNorth, taped);
    Body body = body(random.nextBoolean(), 1750 + random.nextInt(120), surname());
    grownUp(body);
    return new Stone(read(cut(body)), at, width(random.nextInt(5) == 0), year(body.died), -1);
  }

  private Measured measured(
      double east, double north, double shiftEast, double shiftNorth, boolean taped) {
    double each = taped ? 0.08 : 0.9;
    double off = each * habits.errorTimes();
    double error = taped ? each : Math.hypot(each, 0.8) * Math.exp(random.nextGaussian() * 0.25);
    return new Measured(
        east + shiftEast + off * tailed(), north + shiftNorth + off * tailed(), error);
  }

  /** Laplace's distribution with a variance of one. */
  private double tailed() {
    double u = random.nextDouble() - 0.5;
    return -Math.signum(u) * Math.log(1 - 2 * Math.abs(u)) / Math.sqrt(2);
  }

  private Optional<Double> width(boolean small) {
    if (random.nextDouble() < 0.4) {
      return Optional.empty();
    }
    return Optional.of(
        small ? 0.13 + random.nextDouble() * 0.11 : 0.2 + random.nextDouble() * 0.15);
  }

  private Optional<String> year(int died) {
    if (random.nextDouble() > 0.15) {
      return Optional.empty();
    }
    StringBuilder read = new StringBuilder();
    for (char figure : String.valueOf(died).toCharArray()) {
      boolean worn = random.nextDouble() < habits.worn();
      read.append(
          !worn ? figure : random.nextDouble() < 0.6 ? '?' : like(figure, FIGURES_ALIKE, "0", 10));
    }
    return Optional.of(read.toString());
  }

  /** What a reader makes of letters, worn from one end of the stone on. */
  private List<Map<Character, Double>> read(String cut) {
    double[] wear = new double[cut.length()];
    boolean fromLeft = random.nextBoolean();
    double begun = 2 * habits.worn() * random.nextDouble();
    for (int i = 0; i < wear.length; i++) {
      int place = fromLeft ? i : wear.length - 1 - i;
      double tilt = wear.length == 1 ? 1 : 1.4 - 0.8 * place / (wear.length - 1);
      wear[i] = Math.min(1, begun * tilt);
    }
    List<Map<Character, Double>> letters = new ArrayList<>();
    for (int i = 0; i < wear.length; i++) {
      char letter = cut.charAt(i);
      if (random.nextDouble() >= wear[i]) {
        char seen = random.nextDouble() < 0.005 ? like(letter, ALIKE, "A", 26) : letter;
        letters.add(Map.of(seen, 1.0));
        continue;
      }
      double how = random.nextDouble();
      if (how < GONE) {
        letters.add(Map.of());
      } else if (how < GONE + OPEN) {
        char one = random.nextDouble() < RIGHT_AMONG_OPEN ? letter : like(letter, ALIKE, "A", 26);
        char other = like(one, ALIKE, "A", 26);
        double share = 0.5 + 0.1 * random.nextInt(3);
        boolean favoured = random.nextDouble() < 0.6;
        letters.add(Map.of(one, favoured ? share : 1 - share, other, favoured ? 1 - share : share));
      } else {
        letters.add(Map.of(like(letter, ALIKE, "A", 26), 1.0));
      }
    }
    return letters;
  }

  /** Another of like shape, four times of five. */
  private char like(char letter, String[] groups, String first, int signs) {
    List<Character> others = new ArrayList<>();
    for (String group : groups) {
      if (group.indexOf(letter) >= 0) {
        group.chars().filter(c -> c != letter).forEach(c -> others.add((char) c));
      }
    }
    if (!others.isEmpty() && random.nextDouble() < 0.8) {
      return others.get(random.nextInt(others.size()));
    }
    char any = letter;
    while (any == letter) {
      any = (char) (first.charAt(0) + random.nextInt(signs));
    }
    return any;
  }
}
