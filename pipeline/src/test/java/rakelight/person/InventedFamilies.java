package rakelight.person;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.SignId;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement.Kind;
import rakelight.photo.Face;
import rakelight.photo.Position;

/**
 * An invented ground of families over several generations, as its stones name them, with who is who
 * in truth: footstones with initials, second stones cut with other dates, parents named on their
 * children's stones, names used again for a child after one that died, wives who marry again, lines
 * that move away, letters and figures lost. Its rules know nothing of those that link; how often
 * each thing happens is a choice, no source.
 *
 * @param truth who each mention is of
 */
record InventedFamilies(
    List<FaceStatements> faces, Map<MarkerId, Position> places, Map<MentionId, Integer> truth) {

  /**
   * What kind of ground.
   *
   * @param lines families to begin with
   * @param surnames how many surnames they draw from, the first the commonest
   * @param givenSkew how much commoner the first given names are; 0 for all alike
   * @param worn share of names and dates that have lost something
   * @param footstones share of stones that have one
   * @param errorMetres standard deviation of a marker's position
   */
  record Setting(
      int lines,
      int surnames,
      double givenSkew,
      int from,
      int to,
      double worn,
      double footstones,
      double errorMetres) {

    /** A village: a third of all names and dates worn. */
    static final Setting VILLAGE = new Setting(24, 30, 0.9, 1740, 1900, 1 / 3.0, 0.3, 3);

    /** A village's corner. */
    static final Setting HAMLET = new Setting(7, 12, 0.9, 1760, 1880, 1 / 3.0, 0.3, 3);

    /** A larger ground with more families of one surname, fewer footstones and other names. */
    static final Setting TOWN = new Setting(90, 60, 0.5, 1790, 1930, 0.25, 0.12, 5);
  }

  private static final String[] MEN =
      ("John William Thomas James George Robert Joseph Henry Charles Edward Samuel Richard Peter David Daniel Benjamin Isaac"
              + " Abraham Matthew Stephen Philip Francis Ralph Nathaniel Josiah Elijah Amos Caleb Gideon Enoch Simon Walter"
              + " Humphrey Hugh Andrew Alexander Michael Owen Seth Lemuel")
          .split(" ");
  private static final String[] WOMEN =
      ("Mary Ann Elizabeth Sarah Jane Margaret Hannah Martha Susannah Rebecca Rachel Esther Ruth Judith Abigail Lydia Dorothy"
              + " Alice Agnes Catherine Isabella Charlotte Harriet Emma Eliza Ellen Emily Louisa Matilda Sophia Phoebe Priscilla"
              + " Mercy Patience Grace Keziah Bridget Honora Janet Euphemia")
          .split(" ");
  private static final Map<String, String> SHORT =
      Map.ofEntries(
          Map.entry("William", "Wm"),
          Map.entry("Thomas", "Thos"),
          Map.entry("James", "Jas"),
          Map.entry("Robert", "Robt"),
          Map.entry("Joseph", "Jos"),
          Map.entry("Samuel", "Saml"),
          Map.entry("Richard", "Richd"),
          Map.entry("Elizabeth", "Betty"),
          Map.entry("Margaret", "Peggy"),
          Map.entry("Mary", "Polly"),
          Map.entry("Catherine", "Kate"),
          Map.entry("Sarah", "Sally"));
  private static final String[] BEGIN =
      "Had Brad Wex Thorn Oak Pel Hol Crow Tar Mar Lind Ken Hart Wil Stan Fen Gar Cold Scar Nether Hun Kel Birk Gris"
          .split(" ");
  private static final String[] END =
      "ley ton ford well by thorpe wick worth croft more ridge combe shaw den cote ham land stone man gate"
          .split(" ");
  private static final double METRES_PER_DEGREE_NORTH = 111_132;
  private static final double METRES_PER_DEGREE_EAST = 65_000;

  static InventedFamilies of(Setting setting, long seed) {
    return new Maker(setting, new Random(seed)).make();
  }

  People people() {
    return People.of(faces, List.of(), places);
  }

  private static final class Somebody {
    final int id;
    final boolean man;
    final String given;
    final String birthSurname;
    String surname;
    final LocalDate born;
    LocalDate died;
    Optional<Somebody> father = Optional.empty();
    Optional<Somebody> mother = Optional.empty();

    Somebody(int id, boolean man, String given, String surname, LocalDate born, LocalDate died) {
      this.id = id;
      this.man = man;
      this.given = given;
      this.surname = surname;
      this.birthSurname = surname;
      this.born = born;
      this.died = died;
    }

    int age() {
      return born.until(died).getYears();
    }
  }

  /** Somebody on a stone, with kin to name: a relation and the relatives. */
  private record Named(Somebody who, String relation, List<Somebody> kin) {}

  private static final class Maker {
    private final Setting setting;
    private final Random random;
    private final List<String> surnames = new ArrayList<>();
    private final List<FaceStatements> faces = new ArrayList<>();
    private final Map<MarkerId, Position> places = new HashMap<>();
    private final Map<MentionId, Integer> truth = new HashMap<>();
    private int persons;
    private int markers;

    Maker(Setting setting, Random random) {
      this.setting = setting;
      this.random = random;
      while (surnames.size() < setting.surnames()) {
        String name = any(BEGIN) + any(END);
        if (!surnames.contains(name)) {
          surnames.add(name);
        }
      }
    }

    InventedFamilies make() {
      double side = 9 * Math.sqrt(setting.lines() * 5.0);
      for (int i = 0; i < setting.lines(); i++) {
        Somebody man =
            person(true, surname(), setting.from() - 45 + random.nextInt(50), Optional.empty());
        family(man, 0, random.nextDouble() * side, random.nextDouble() * side);
      }
      return new InventedFamilies(List.copyOf(faces), places, truth);
    }

    private String surname() {
      return surnames.get(skewed(surnames.size(), 0.6));
    }

    private int skewed(int size, double skew) {
      double all = 0;
      for (int i = 0; i < size; i++) {
        all += Math.pow(i + 1.0, -skew);
      }
      double left = random.nextDouble() * all;
      for (int i = 0; i < size; i++) {
        left -= Math.pow(i + 1.0, -skew);
        if (left <= 0) {
          return i;
        }
      }
      return size - 1;
    }

    private Somebody person(boolean man, String surname, int year, Optional<String> after) {
      String given =
          after.orElseGet(
              () -> {
                String[] all = man ? MEN : WOMEN;
                String first = all[skewed(all.length, setting.givenSkew())];
                return chance(0.15) ? first + " " + all[random.nextInt(all.length)] : first;
              });
      LocalDate born = LocalDate.of(year, 1, 1).plusDays(random.nextInt(365));
      int days =
          chance(0.22)
              ? random.nextInt(5 * 365)
              : chance(0.2) ? (5 + random.nextInt(35)) * 365 : (40 + random.nextInt(50)) * 365;
      return new Somebody(
          ++persons, man, given, surname, born, born.plusDays(days + random.nextInt(365)));
    }

    /** A man with his wives and children, and those of his sons who stayed. */
    private void family(Somebody man, int generation, double x, double y) {
      if (man.age() < 22) {
        return;
      }
      int year = man.born.getYear() + 21 + random.nextInt(8);
      List<Somebody> wives = new ArrayList<>(List.of(wife(man, year)));
      List<Somebody> children = new ArrayList<>();
      Somebody wife = wives.get(0);
      int wished = 1 + random.nextInt(8);
      while (children.size() < wished && year < man.died.getYear() && year < setting.to()) {
        year += 1 + random.nextInt(3);
        if (year >= wife.died.getYear()) {
          if (wives.size() > 1 || chance(0.6) || year + 1 >= man.died.getYear()) {
            break;
          }
          wife = wife(man, year);
          wives.add(wife);
        }
        if (year >= Math.min(wife.born.getYear() + 46, man.died.getYear())) {
          break;
        }
        children.add(child(man, wife, children, year));
      }
      stones(man, wives, children, x, y);
      for (Somebody child : children) {
        double away = chance(0.45) ? 4 : 40;
        if (child.man && generation < 4 && child.born.getYear() < setting.to() && chance(0.6)) {
          family(child, generation + 1, x + shift(away), y + shift(away));
        }
      }
    }

    private double shift(double most) {
      return (random.nextDouble() * 2 - 1) * most;
    }

    private Somebody wife(Somebody man, int year) {
      Somebody wife = person(false, surname(), year - 19 - random.nextInt(8), Optional.empty());
      if (wife.died.getYear() <= year + 1) {
        wife.died = wife.died.withYear(year + 2 + random.nextInt(50));
      }
      wife.surname = man.surname;
      return wife;
    }

    private Somebody child(Somebody father, Somebody mother, List<Somebody> before, int year) {
      boolean man = chance(0.5);
      Optional<String> after = Optional.empty();
      for (Somebody other : before) {
        if (other.man == man && other.died.getYear() < year && chance(0.5)) {
          after = Optional.of(other.given);
        }
      }
      String parents = man ? father.given : mother.given;
      boolean free = before.stream().noneMatch(b -> b.given.equals(parents));
      if (after.isEmpty() && free && chance(0.4)) {
        after = Optional.of(parents);
      }
      Somebody child = person(man, father.surname, year, after);
      child.father = Optional.of(father);
      child.mother = Optional.of(mother);
      return child;
    }

    private void stones(
        Somebody man, List<Somebody> wives, List<Somebody> children, double x, double y) {
      List<Named> stone = new ArrayList<>();
      if (isDead(man)) {
        stone.add(
            man.father.isPresent() && chance(0.2)
                ? new Named(man, "son", parents(man))
                : new Named(man, "", List.of()));
      }
      for (Somebody wife : wives) {
        boolean movedAway = chance(0.15);
        if (isDead(wife) && !movedAway) {
          if (wife.died.isAfter(man.died.plusYears(2)) && chance(0.2)) {
            remarried(wife, x, y);
          } else {
            stone.add(
                new Named(wife, wife.died.isAfter(man.died) ? "relict" : "wife", List.of(man)));
          }
        }
      }
      for (Somebody child : children) {
        boolean own = child.age() > 15 && (child.man || chance(0.5));
        if (!isDead(child)) {
          continue;
        }
        if (!own) {
          stone.add(new Named(child, child.man ? "son" : "daughter", parents(child)));
        } else if (!child.man || child.age() < 22) {
          set(List.of(new Named(child, child.man ? "son" : "daughter", parents(child))), x, y, 6);
        }
      }
      if (!stone.isEmpty()) {
        set(stone, x, y, 2);
      }
    }

    private boolean isDead(Somebody one) {
      return one.died.getYear() <= setting.to() + 20;
    }

    private static List<Somebody> parents(Somebody child) {
      List<Somebody> parents = new ArrayList<>(child.father.stream().toList());
      parents.addAll(child.mother.stream().toList());
      return parents;
    }

    /** A widow who took another name and lies with her second husband. */
    private void remarried(Somebody widow, double x, double y) {
      Somebody second =
          person(true, surname(), widow.born.getYear() - random.nextInt(5), Optional.empty());
      widow.surname = second.surname;
      List<Named> stone = new ArrayList<>(List.of(new Named(widow, "wife", List.of(second))));
      if (isDead(second)) {
        stone.add(0, new Named(second, "", List.of()));
      }
      set(stone, x + shift(50), y + shift(50), 2);
    }

    /** A headstone, perhaps on two faces, perhaps with a footstone or named again elsewhere. */
    private void set(List<Named> named, double x, double y, double about) {
      double atX = x + shift(about);
      double atY = y + shift(about);
      Marker marker = marker(atX, atY);
      if (named.size() > 2 && chance(0.15)) {
        face(marker, "E", named.subList(0, 1), false);
        face(marker, "W", named.subList(1, named.size()), false);
      } else {
        face(marker, "E", named, false);
      }
      if (chance(setting.footstones())) {
        face(marker(atX + 1.8, atY), "W", named.subList(0, Math.min(2, named.size())), true);
      }
      if (chance(0.1)) {
        List<Named> again = new ArrayList<>();
        named.stream().filter(n -> chance(0.7)).forEach(again::add);
        if (!again.isEmpty()) {
          double far = chance(0.5) ? 5 : 60;
          face(marker(atX + shift(far), atY + shift(far)), "N", again, false);
        }
      }
    }

    private Marker marker(double east, double north) {
      Marker marker = new Marker(MarkerId.next(), "G" + ++markers, List.of());
      places.put(
          marker.id(),
          new Position(
              54
                  + (north + setting.errorMetres() * random.nextGaussian())
                      / METRES_PER_DEGREE_NORTH,
              -3 + (east + setting.errorMetres() * random.nextGaussian()) / METRES_PER_DEGREE_EAST,
              Optional.empty(),
              Optional.empty()));
      return marker;
    }

    private void face(Marker marker, String name, List<Named> named, boolean initials) {
      Face face = new Face(FaceId.next(), marker.id(), name, Optional.empty());
      List<Statement> statements = new ArrayList<>();
      int sign = 0;
      boolean years = chance(0.5);
      Map<Integer, Integer> numbers = new LinkedHashMap<>();
      for (Named one : named) {
        numbers.put(one.who().id, numbers.size() + 1);
      }
      for (Named one : named) {
        int number = numbers.getOrDefault(one.who().id, 0);
        truth.put(new MentionId(face.id(), ++sign, 0), one.who().id);
        statements.add(
            statement(number, Kind.NAME, "", sign, Optional.of(carved(one.who(), initials))));
        if (initials) {
          if (years) {
            statements.add(
                statement(
                    number, Kind.DEATH, "" + one.who().died.getYear(), ++sign, Optional.empty()));
          }
          continue;
        }
        sign = facts(one.who(), number, statements, sign);
        if (!one.kin().isEmpty()) {
          sign = kin(face, one, number, numbers, statements, sign);
        }
      }
      faces.add(
          new FaceStatements(
              marker,
              face,
              Optional.empty(),
              Optional.empty(),
              Maker::blank,
              Statements.withReckoned(statements)));
    }

    private int kin(
        Face face,
        Named one,
        int number,
        Map<Integer, Integer> numbers,
        List<Statement> statements,
        int before) {
      int sign = before + 1;
      List<String> names = new ArrayList<>();
      List<Integer> here = new ArrayList<>();
      for (Somebody relative : one.kin()) {
        Integer place = numbers.get(relative.id);
        if (place != null) {
          here.add(place);
        }
      }
      if (here.isEmpty()) {
        for (Somebody relative : one.kin()) {
          boolean lent = one.kin().size() > 1 && relative == one.kin().get(0);
          String surname = lent && chance(0.7) ? "" : worn(spelt(relative.surname));
          names.add(worn(cut(relative.given)) + "|" + surname);
          truth.put(new MentionId(face.id(), sign, names.size()), relative.id);
        }
      }
      statements.add(
          statement(
              number,
              Kind.KIN,
              one.relation(),
              sign,
              Optional.of(new Detail.Kinship(one.relation(), names, here))));
      return sign;
    }

    private int facts(Somebody who, int number, List<Statement> statements, int before) {
      int sign = before;
      // Two cutters, two families' memories: what they were told isn't always the same.
      LocalDate died =
          chance(0.06)
              ? who.died.plusDays(chance(0.5) ? shiftDays() : 365L * (chance(0.5) ? 1 : -1))
              : who.died;
      String death =
          chance(0.2)
              ? "" + died.getYear()
              : chance(0.1) ? died.toString().substring(0, 7) : died.toString();
      statements.add(statement(number, Kind.DEATH, wornDate(death), ++sign, Optional.empty()));
      int age = Math.max(0, who.born.until(died).getYears() + (chance(0.08) ? shiftYears() : 0));
      if (chance(0.75) && !chance(setting.worn() / 2)) {
        statements.add(statement(number, Kind.AGE, "P" + age + "Y", ++sign, Optional.empty()));
      } else if (chance(0.3)) {
        statements.add(
            statement(number, Kind.BIRTH, "" + who.born.getYear(), ++sign, Optional.empty()));
      }
      return sign;
    }

    private int shiftDays() {
      return chance(0.5) ? 1 + random.nextInt(9) : -1 - random.nextInt(9);
    }

    private int shiftYears() {
      return chance(0.5) ? 1 : -1;
    }

    private static Statement statement(
        int number, Kind kind, String value, int sign, Optional<Detail> detail) {
      String text =
          detail
              .filter(Detail.Name.class::isInstance)
              .map(Detail.Name.class::cast)
              .map(n -> n.given() + "|" + n.surname())
              .orElse(value);
      return new Statement(
          List.of(number),
          kind,
          1,
          1,
          text.replace('|', ' '),
          text,
          detail,
          Optional.empty(),
          1,
          List.of(new SignId(sign)));
    }

    private Detail.Name carved(Somebody who, boolean initials) {
      if (initials) {
        StringBuilder given = new StringBuilder();
        for (String word : who.given.split(" ", -1)) {
          given.append(given.isEmpty() ? "" : " ").append(word.charAt(0));
        }
        return new Detail.Name(
            given.toString(), who.surname.substring(0, 1), "", List.of(), List.of());
      }
      String birth = !who.surname.equals(who.birthSurname) && chance(0.1) ? who.birthSurname : "";
      return new Detail.Name(
          worn(cut(who.given)), worn(spelt(who.surname)), birth, List.of(), List.of());
    }

    /** Cut short, by another form, or without the second name. */
    private String cut(String given) {
      String[] words = given.split(" ", -1);
      String first = chance(0.08) ? SHORT.getOrDefault(words[0], words[0]) : words[0];
      if (chance(0.04)) {
        first = first.substring(0, 1);
      }
      if (words.length == 1 || chance(0.4)) {
        return first;
      }
      return first + " " + (chance(0.4) ? words[1].substring(0, 1) : words[1]);
    }

    private String spelt(String surname) {
      return chance(0.04)
          ? chance(0.5) ? surname + "e" : surname.replaceFirst("([ln])([a-z])", "$1$1$2")
          : surname;
    }

    private String worn(String name) {
      if (name.length() < 3 || !chance(setting.worn() * 0.6)) {
        return name;
      }
      if (chance(0.3)) {
        int kept = 1 + random.nextInt(name.length() - 1);
        return chance(0.7) ? name.substring(0, kept) + "…" : "…" + name.substring(kept);
      }
      StringBuilder left = new StringBuilder();
      for (char letter : name.toCharArray()) {
        left.append(letter != ' ' && chance(0.3) ? '?' : letter);
      }
      return left.toString();
    }

    private String wornDate(String date) {
      if (!chance(setting.worn() * 0.5)) {
        return date;
      }
      String year = date.substring(0, 4);
      if (date.length() == 10 && chance(0.5)) {
        return date.substring(0, 8) + "XX";
      }
      int place = chance(0.3) ? 2 : 3;
      return (year.substring(0, place) + "X" + year.substring(place + 1)) + date.substring(4);
    }

    private boolean chance(double share) {
      return random.nextDouble() < share;
    }

    private String any(String[] words) {
      return words[random.nextInt(words.length)];
    }

    private static Inscription blank() {
      try {
        return Leiden.parse("E");
      } catch (LeidenException e) {
        throw new IllegalStateException(e);
      }
    }
  }
}
