package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import rakelight.archive.MarkerId;
import rakelight.names.SoundCodes;
import rakelight.person.edtf.Day;
import rakelight.photo.Position;

/**
 * Which pairs to look at: all of them up to {@value #MOST}. Of more, those whose names may agree
 * (the first letters are the same or one is lost, and so with given names, or one is a short form
 * of the other) and who have besides one of these in common: the sound of the surname, or of one
 * that the letters left allow; the marker; a place within some steps; the day of death.
 */
final class LinkageCandidates {
  private static final int MOST = 200_000;
  private static final long SEED = 1969;
  private static final double METRES_PER_DEGREE = 111_195;
  private static final double CELL_METRES = 25;

  private final List<Traits> traits;
  private final Map<MarkerId, Position> places;
  private final NameShares surnames;
  private final int[] ones;
  private final int[] others;
  private final Comparability comparable;
  private final Map<List<String>, Boolean> givenMayAgree = new HashMap<>();
  private final long all;

  /** Whether a pair may be compared at all. */
  interface Comparability {
    boolean test(int i, int j);
  }

  /** Takes a pair by the places of its two in the list. */
  interface Taker {
    void take(int i, int j);
  }

  private record Cell(long north, long east) {}

  LinkageCandidates(
      List<Traits> traits,
      Map<MarkerId, Position> places,
      NameShares surnames,
      int[] ones,
      int[] others,
      Comparability comparable) {
    this.traits = traits;
    this.places = places;
    this.surnames = surnames;
    this.ones = ones;
    this.others = others;
    this.comparable = comparable;
    boolean same = Arrays.equals(ones, others);
    this.all = (long) ones.length * others.length / (same ? 2 : 1);
  }

  /** How many pairs there are, about. */
  long all() {
    return all;
  }

  /** How many there are to find partners for. */
  int size() {
    return ones.length;
  }

  /** The pairs to score. */
  void scored(Taker taker) {
    if (all <= MOST) {
      every(taker);
      return;
    }
    double southernmost =
        places.values().stream().mapToDouble(Position::latitudeDegrees).min().orElse(0);
    double metresEast = METRES_PER_DEGREE * Math.cos(Math.toRadians(southernmost));
    Map<Object, List<Integer>> blocks = new HashMap<>();
    for (int j : others) {
      keys(j, metresEast, 0)
          .forEach(key -> blocks.computeIfAbsent(key, k -> new ArrayList<>()).add(j));
    }
    int[] seenWith = new int[traits.size()];
    Arrays.fill(seenWith, -1);
    for (int i : ones) {
      for (Object key : keys(i, metresEast, 1)) {
        for (int j : blocks.getOrDefault(key, List.of())) {
          if (seenWith[j] != i && comparable.test(i, j)) {
            seenWith[j] = i;
            if (mayAgree(traits.get(i), traits.get(j))) {
              taker.take(i, j);
            }
          }
        }
      }
    }
  }

  /** The pairs to count over: all of them, or some drawn from all. */
  void sample(Taker taker) {
    if (all <= MOST) {
      every(taker);
      return;
    }
    Random random = new Random(SEED);
    for (int drawn = 0; drawn < MOST; drawn++) {
      int i = ones[random.nextInt(ones.length)];
      int j = others[random.nextInt(others.length)];
      if (comparable.test(i, j)) {
        taker.take(i, j);
      }
    }
  }

  private void every(Taker taker) {
    for (int i : ones) {
      for (int j : others) {
        if (comparable.test(i, j)) {
          taker.take(i, j);
        }
      }
    }
  }

  /**
   * What somebody is looked for by.
   *
   * @param around how many cells to each side of his own to look in
   */
  private Set<Object> keys(int i, double metresEast, int around) {
    Traits own = traits.get(i);
    Set<Object> keys = new HashSet<>();
    NamePattern surname = own.surname();
    if (surname.isWhole()) {
      keys.add(sound(surname.letters()));
    } else if (surname.saysSomething() && !surname.isInitial()) {
      surnames.namesBehind(surname).forEach(name -> keys.add(sound(name)));
    }
    own.died()
        .filter(days -> days[0].equals(days[1]))
        .map(days -> days[0])
        .ifPresent((Day day) -> keys.add(day));
    for (MarkerId marker : own.markers()) {
      keys.add(marker);
      Position place = places.get(marker);
      if (place != null) {
        long north = (long) Math.floor(place.latitudeDegrees() * METRES_PER_DEGREE / CELL_METRES);
        long east = (long) Math.floor(place.longitudeDegrees() * metresEast / CELL_METRES);
        for (int y = -around; y <= around; y++) {
          for (int x = -around; x <= around; x++) {
            keys.add(new Cell(north + y, east + x));
          }
        }
      }
    }
    return keys;
  }

  private static String sound(String surname) {
    String sound = SoundCodes.soundex(surname);
    return sound.isEmpty() ? surname : sound;
  }

  private boolean mayAgree(Traits a, Traits b) {
    return mayAgree(a.surname(), b.surname(), false)
        && (a.given().isEmpty()
            || b.given().isEmpty()
            || mayAgree(a.given().get(0), b.given().get(0), true));
  }

  private boolean mayAgree(NamePattern one, NamePattern other, boolean given) {
    if (!one.saysSomething() || !other.saysSomething()) {
      return true;
    }
    if (!one.isWhole() || !other.isWhole()) {
      return one.fits(other);
    }
    return one.letters().charAt(0) == other.letters().charAt(0)
        || (given
            && givenMayAgree.computeIfAbsent(
                List.of(one.letters(), other.letters()),
                two -> Linkage.givenOutcome(two.get(0), two.get(1)) < 3));
  }
}
