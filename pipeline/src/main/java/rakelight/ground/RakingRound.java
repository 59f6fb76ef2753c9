package rakelight.ground;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * In which order to photograph faces on a day, each while the sun rakes it.
 *
 * <p>At every step, of the faces that can be done now, the one is taken whose last chance passes
 * first; of equal ones, the first in the order given, which is that of a walk. With one stretch of
 * light a face, and as long for each, no order serves more faces (earliest deadline first: M.
 * Pinedo, Scheduling, from memory); with several stretches it is a good one, not proved the best.
 */
public final class RakingRound {
  /**
   * @param what of the caller's own
   * @param raking when the sun rakes it, in order
   */
  public record Stop<T>(T what, List<SunDay.Raking> raking) {
    public Stop {
      raking = List.copyOf(raking);
    }

    private boolean canBeDone(LocalTime from, int minutes) {
      LocalTime last = from.plusMinutes(minutes - 1L);
      return !last.isBefore(from)
          && raking.stream()
              .anyMatch(light -> !light.from().isAfter(from) && !light.to().isBefore(last));
    }

    private LocalTime lastChance() {
      return raking.get(raking.size() - 1).to();
    }
  }

  /**
   * @param at when to begin with it
   */
  public record Visit<T>(Stop<T> stop, LocalTime at) {}

  private RakingRound() {}

  /**
   * Those that can be done between two times of a day, in the order to do them.
   *
   * @param stops in the order of a walk
   * @param minutes how long each takes, with the way there; 1 or more
   */
  public static <T> List<Visit<T>> of(
      List<Stop<T>> stops, LocalTime from, LocalTime to, int minutes) {
    if (minutes < 1) {
      throw new IllegalArgumentException("a face takes a minute at least, not " + minutes);
    }
    List<Stop<T>> left = new ArrayList<>(stops);
    left.removeIf(stop -> stop.raking().isEmpty());
    List<Visit<T>> visits = new ArrayList<>();
    long lastBeginning = to.toSecondOfDay() / 60 - minutes;
    for (long now = from.toSecondOfDay() / 60; now <= lastBeginning; ) {
      LocalTime at = LocalTime.ofSecondOfDay(now * 60);
      Optional<Stop<T>> next =
          left.stream()
              .filter(stop -> stop.canBeDone(at, minutes))
              .min(Comparator.comparing(Stop::lastChance));
      if (next.isPresent()) {
        visits.add(new Visit<>(next.get(), at));
        left.remove(next.get());
        now += minutes;
      } else {
        now++;
      }
    }
    return visits;
  }
}
