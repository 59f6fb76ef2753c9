package rakelight.samples.burials;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * A search that knows the rules by which the burials were made, their names and how common each is,
 * what is taken for what and how searchers slip, and weighs every burial by Bayes' rule. Nobody
 * finds more than it does, but for what it leaves out: that wear lies in patches, and what words
 * such as wife tell. What it misses can't be told apart by what is asked.
 */
public final class AllKnowing {
  private static final int FIRST_YEAR = 1715;
  private static final int LAST_YEAR = 1975;
  private static final int YOUNGEST = 1720;
  private static final int OLDEST = 1930;
  private static final int EARLIER = 5;
  private static final int LATER = 15;

  /** Of the second persons of a marker so many are women; of the others half. */
  private static final double WOMEN_SECOND = 0.8;

  /** Of two surnames cut on one marker so many are the same: .9 times .6 against .1. */
  private static final double SAME_SURNAME = 0.54 / 0.64;

  private static final double SLIP_IN_GIVEN = 0.25;
  private static final int KINDS_OF_SLIP = 4;
  private static final int ALPHABET = 26;

  /** One patch may follow another. */
  private static final int TWO_PATCHES = 10;

  private final InventedBurials burials;
  private final List<char[]> surnames = new ArrayList<>();
  private final double[] shares;
  private final Map<Character, List<Integer>> byFirst = new HashMap<>();
  private final Map<String, Double> men = shares(InventedBurials.MEN);
  private final Map<String, Double> women = shares(InventedBurials.WOMEN);
  private final Map<List<CutSign>, double[]> ofSurnames = new HashMap<>();

  public AllKnowing(InventedBurials burials) {
    this.burials = burials;
    this.shares = new double[burials.surnames().size()];
    for (int i = 0; i < shares.length; i++) {
      surnames.add(burials.surnames().get(i).toLowerCase(Locale.ROOT).toCharArray());
      shares[i] = burials.share(i);
      byFirst.computeIfAbsent(surnames.get(i)[0], key -> new ArrayList<>()).add(i);
    }
  }

  /**
   * How well it does.
   *
   * @param recall how often the wanted one is among the first ten
   * @param meanReciprocalRank mean of one by the place of the wanted one, 0 beyond the tenth
   * @param first how often it is the first
   * @param given the probability it gives the first, on average; near {@code first} if it reckons
   *     rightly
   */
  public record Found(double recall, double meanReciprocalRank, double first, double given) {}

  /** What one who searches may mean: names with how likely he types what he typed. */
  private record Meant(Asking asking, Map<String, Double> given, Map<String, Double> surnames) {}

  private static Map<String, Double> shares(String[] names) {
    Map<String, Double> shares = new LinkedHashMap<>();
    for (String name : names) {
      shares.merge(name.toLowerCase(Locale.ROOT), 1.0 / names.length, Double::sum);
    }
    return shares;
  }

  /**
   * Asks of all of the first burials.
   *
   * @param among so many burials
   * @param askings so many of {@link InventedBurials#asking}
   * @param most so many are looked at, 10 as a rule
   */
  public Found of(int among, int askings, boolean slip, int most) {
    List<Meant> meant = new ArrayList<>();
    for (int i = 0; i < askings; i++) {
      meant.add(meant(burials.asking(i, among, slip), slip));
    }
    double[] own = new double[askings];
    for (int i = 0; i < askings; i++) {
      own[i] = weight(new Seen(burials.burial(meant.get(i).asking().wanted())), meant.get(i), slip);
    }
    int[] above = new int[askings];
    int[] alike = new int[askings];
    double[] highest = own.clone();
    double[] sums = own.clone();
    for (int e = 0; e < among; e++) {
      Seen seen = new Seen(burials.burial(e));
      for (int i = 0; i < askings; i++) {
        boolean wanted = e == meant.get(i).asking().wanted();
        double weight = wanted ? 0 : weight(seen, meant.get(i), slip);
        sums[i] += weight;
        highest[i] = Math.max(highest[i], weight);
        above[i] += weight > own[i] * (1 + 1e-9) ? 1 : 0;
        alike[i] += wanted || Math.abs(weight - own[i]) <= own[i] * 1e-9 ? 1 : 0;
      }
    }
    double recall = 0;
    double reciprocal = 0;
    double first = 0;
    double given = 0;
    for (int i = 0; i < askings; i++) {
      first += above[i] == 0 ? 1.0 / alike[i] : 0;
      given += sums[i] == 0 ? 0 : highest[i] / sums[i];
      for (int place = above[i] + 1; place <= Math.min(most, above[i] + alike[i]); place++) {
        recall += 1.0 / alike[i];
        reciprocal += 1.0 / place / alike[i];
      }
    }
    return new Found(recall / askings, reciprocal / askings, first / askings, given / askings);
  }

  private Meant meant(Asking asking, boolean slip) {
    Map<String, Double> given = new LinkedHashMap<>();
    Map<String, Double> all = new LinkedHashMap<>();
    if (slip) {
      Set<String> names = new HashSet<>(men.keySet());
      names.addAll(women.keySet());
      for (String name : names) {
        put(given, name, slipped(name.toCharArray(), asking.given().toCharArray()));
      }
      for (char[] name : surnames) {
        put(all, new String(name), slipped(name, asking.surname().toCharArray()));
      }
    }
    return new Meant(asking, given, all);
  }

  private static void put(Map<String, Double> into, String name, double chance) {
    if (chance > 0) {
      into.put(name, chance);
    }
  }

  /** How likely a slip makes {@code typed} of {@code meant}. */
  static double slipped(char[] meant, char[] typed) {
    int more = typed.length - meant.length;
    if (Math.abs(more) > 1) {
      return 0;
    }
    int same = Arrays.mismatch(meant, typed);
    if (same >= 0 && more == 0) {
      boolean rest =
          Arrays.equals(meant, same + 1, meant.length, typed, same + 1, typed.length)
              || (same + 2 <= meant.length
                  && Arrays.equals(meant, same + 2, meant.length, typed, same + 2, typed.length));
      if (!rest) {
        return 0;
      }
    }
    double chance = 0;
    for (int at = 0; at < meant.length; at++) {
      if (more == 1) {
        boolean added =
            Arrays.equals(meant, 0, at, typed, 0, at)
                && Arrays.equals(meant, at, meant.length, typed, at + 1, typed.length);
        chance += added ? 1.0 / ALPHABET : 0;
      } else if (more == -1) {
        boolean dropped =
            Arrays.equals(meant, 0, at, typed, 0, at)
                && Arrays.equals(meant, at + 1, meant.length, typed, at, typed.length);
        chance += dropped ? 1 : 0;
      } else {
        boolean last = at + 1 == meant.length;
        boolean other =
            Arrays.equals(meant, 0, at, typed, 0, at)
                && Arrays.equals(meant, at + 1, meant.length, typed, at + 1, typed.length);
        chance += other ? (last ? 2.0 : 1.0) / ALPHABET : 0;
        boolean swapped =
            !last
                && Arrays.equals(meant, 0, at, typed, 0, at)
                && meant[at] == typed[at + 1]
                && meant[at + 1] == typed[at]
                && Arrays.equals(meant, at + 2, meant.length, typed, at + 2, typed.length);
        chance += swapped ? 1 : 0;
      }
    }
    return chance / meant.length / KINDS_OF_SLIP;
  }

  private double weight(Seen seen, Meant meant, boolean slip) {
    double sum = 0;
    int persons = seen.burial.persons().size();
    for (int p = 0; p < persons; p++) {
      Asking asking = meant.asking();
      double names;
      if (slip) {
        double surname = sum(seen, p, meant.surnames(), false);
        double given = sum(seen, p, meant.given(), true);
        names =
            (surname == 0 ? 0 : (1 - SLIP_IN_GIVEN) * surname * seen.given(p, asking.given()))
                + (given == 0 ? 0 : SLIP_IN_GIVEN * given * seen.surname(p, asking.surname()));
      } else {
        double surname = seen.surname(p, asking.surname());
        names = surname == 0 ? 0 : surname * seen.given(p, asking.given());
      }
      sum += names == 0 ? 0 : names * seen.died(p, asking.from(), asking.to());
    }
    return sum / persons;
  }

  private static double sum(Seen seen, int person, Map<String, Double> names, boolean given) {
    double sum = 0;
    for (Map.Entry<String, Double> each : names.entrySet()) {
      sum +=
          each.getValue()
              * (given ? seen.given(person, each.getKey()) : seen.surname(person, each.getKey()));
    }
    return sum;
  }

  /** How likely these signs are left of a word, but for what is the same for each word. */
  private double left(List<CutSign> signs, char[] word) {
    boolean gone = signs.stream().anyMatch(CutSign.Gone.class::isInstance);
    if (!gone) {
      if (signs.size() != word.length) {
        return 0;
      }
      double all = 1;
      for (int i = 0; i < word.length && all > 0; i++) {
        all *= left(signs.get(i), word[i]);
      }
      return all;
    }
    double[] ways = new double[word.length + 1];
    ways[0] = 1;
    for (CutSign sign : signs) {
      double[] next = new double[ways.length];
      for (int i = 0; i < ways.length; i++) {
        if (ways[i] > 0 && sign instanceof CutSign.Gone) {
          for (int k = 1; k <= TWO_PATCHES && i + k < ways.length; k++) {
            next[i + k] += ways[i];
          }
        } else if (ways[i] > 0 && i < word.length) {
          next[i + 1] += ways[i] * left(sign, word[i]);
        }
      }
      ways = next;
    }
    return ways[word.length];
  }

  private double left(CutSign sign, char letter) {
    if (sign instanceof CutSign.Read read) {
      double misread = burials.worn() * InventedBurials.MISREAD * taken(letter, read.letter());
      return read.letter() == letter ? 1 - burials.worn() + misread : misread;
    }
    if (sign instanceof CutSign.Open open) {
      return InventedBurials.LIKELIER_IS_TRUE
              * (open.likelier() == letter ? taken(letter, open.other()) : 0)
          + (1 - InventedBurials.LIKELIER_IS_TRUE)
              * (open.other() == letter ? taken(letter, open.likelier()) : 0);
    }
    return 1;
  }

  private static double taken(char letter, char other) {
    String others = InventedBurials.TAKEN_FOR.getOrDefault(letter, "e");
    return others.indexOf(other) < 0 ? 0 : 1.0 / others.length();
  }

  /** By surname how likely these signs are left of it; kept, since clear ones come again. */
  private double[] ofSurnames(List<CutSign> signs) {
    if (ofSurnames.size() > 2000) {
      ofSurnames.clear();
    }
    return ofSurnames.computeIfAbsent(
        signs,
        own -> {
          double[] each = new double[shares.length];
          for (Map.Entry<Character, List<Integer>> first : byFirst.entrySet()) {
            if (!(own.get(0) instanceof CutSign.Gone) && left(own.get(0), first.getKey()) == 0) {
              continue;
            }
            for (int i : first.getValue()) {
              each[i] = left(own, surnames.get(i));
            }
          }
          return each;
        });
  }

  /** One burial; what its words may have been is worked out as it is asked for. */
  private final class Seen {
    private final Burial burial;
    private final List<Map<String, Double>> givens = new ArrayList<>();
    private final Map<Integer, double[]> surnameOf = new HashMap<>();
    private double[][] years = new double[0][];

    Seen(Burial burial) {
      this.burial = burial;
      for (int p = 0; p < burial.persons().size(); p++) {
        givens.add(new HashMap<>());
      }
    }

    double given(int person, String name) {
      List<CutSign> signs = burial.words().get(burial.persons().get(person).first());
      Map<String, Double> known = givens.get(person);
      if (known.isEmpty()) {
        double ofWomen = person == 1 ? WOMEN_SECOND : 0.5;
        double all = 0;
        Map<String, Double> joint = new HashMap<>();
        for (boolean woman : new boolean[] {true, false}) {
          for (Map.Entry<String, Double> each : (woman ? women : men).entrySet()) {
            double own =
                (woman ? ofWomen : 1 - ofWomen)
                    * each.getValue()
                    * left(signs, each.getKey().toCharArray());
            joint.merge(each.getKey(), own, Double::sum);
            all += own;
          }
        }
        double sum = all;
        joint.forEach((each, own) -> known.put(each, sum == 0 ? 0 : own / sum));
      }
      return known.getOrDefault(name, 0.0);
    }

    double surname(int person, String name) {
      int word = burial.persons().get(person).surnameWord();
      char[] letters = name.toCharArray();
      if (left(burial.words().get(word), letters) == 0) {
        return 0;
      }
      double[] all = surnameOf.computeIfAbsent(word, this::posterior);
      for (int i : byFirst.getOrDefault(letters[0], List.of())) {
        if (Arrays.equals(surnames.get(i), letters)) {
          return all[i];
        }
      }
      return 0;
    }

    private double[] posterior(int word) {
      double[] all = ofSurnames(burial.words().get(word)).clone();
      for (int i = 0; i < all.length; i++) {
        all[i] *= shares[i];
      }
      burial.persons().stream()
          .mapToInt(Burial.Person::surnameWord)
          .distinct()
          .filter(other -> other != word)
          .forEach(
              other -> {
                double[] its = ofSurnames(burial.words().get(other));
                double any = 0;
                for (int i = 0; i < its.length; i++) {
                  any += shares[i] * its[i];
                }
                for (int i = 0; i < all.length; i++) {
                  all[i] *= SAME_SURNAME * its[i] + (1 - SAME_SURNAME) * any;
                }
              });
      double sum = Arrays.stream(all).sum();
      for (int i = 0; i < all.length; i++) {
        all[i] = sum == 0 ? 0 : all[i] / sum;
      }
      return all;
    }

    double died(int person, int from, int to) {
      if (years.length == 0) {
        years = years();
      }
      double sum = 0;
      for (int year = Math.max(FIRST_YEAR, from); year <= Math.min(LAST_YEAR, to); year++) {
        sum += years[person][year - FIRST_YEAR];
      }
      return sum;
    }

    /** Forwards and backwards: each dies five years before to fifteen after the one before. */
    private double[][] years() {
      int count = burial.persons().size();
      int span = LAST_YEAR - FIRST_YEAR + 1;
      double[][] seen = new double[count][span];
      double[][] forward = new double[count][span];
      for (int p = 0; p < count; p++) {
        // "who died" and the year follow the name.
        List<CutSign> signs = burial.words().get(burial.persons().get(p).last() + 3);
        for (int i = 0; i < span; i++) {
          seen[p][i] = left(signs, Integer.toString(FIRST_YEAR + i).toCharArray());
          double before = 0;
          if (p == 0) {
            before = FIRST_YEAR + i >= YOUNGEST && FIRST_YEAR + i <= OLDEST ? 1 : 0;
          } else {
            for (int j = Math.max(0, i - LATER); j <= Math.min(span - 1, i + EARLIER); j++) {
              before += forward[p - 1][j];
            }
          }
          forward[p][i] = before * seen[p][i];
        }
      }
      double[] backward = new double[span];
      Arrays.fill(backward, 1);
      for (int p = count - 1; p >= 0; p--) {
        double[] next = new double[span];
        double sum = 0;
        for (int i = 0; i < span; i++) {
          for (int j = Math.max(0, i - LATER); j <= Math.min(span - 1, i + EARLIER); j++) {
            next[j] += seen[p][i] * backward[i];
          }
          forward[p][i] *= backward[i];
          sum += forward[p][i];
        }
        for (int i = 0; i < span; i++) {
          forward[p][i] = sum == 0 ? 0 : forward[p][i] / sum;
        }
        backward = next;
      }
      return forward;
    }
  }
}
