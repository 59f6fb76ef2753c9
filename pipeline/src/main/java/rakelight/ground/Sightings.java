package rakelight.ground;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Where a marker stands by the places that its photographs give: the mean weighted by inverse
 * variance, without one that the rest don't bear out.
 *
 * <p>A receiver's errors hang together for minutes and hours, so photographs of one day count only
 * in part as independent; who photographs stands a step or three before the stone. If the places
 * scatter more than they should, the error grows with the scatter (R. T. Birge, Phys. Rev. 40
 * (1932), 207-227; from memory).
 */
final class Sightings {
  /**
   * The part of a receiver's variance that all its places of one day share; a choice, no source.
   */
  private static final double SHARED = 0.5;

  /** From the photographer to the stone, each way; common practice, no source. */
  private static final double STEPS_METRES = 1.5;

  /** A receiver that doesn't say; common practice, no source: 3 to 10 m among trees. */
  private static final double UNSTATED_METRES = 5;

  /**
   * A circle that holds 68 per cent of places has 1.51 times the standard error of each direction;
   * that a camera means such a circle is common practice, no source.
   */
  private static final double CIRCLE = Math.sqrt(-2 * Math.log(1 - 0.683));

  /** So many standard errors from the mean of the rest, and it is left out. */
  private static final double OUTLIER = 3;

  /** One photograph's place. */
  record Sighting(Spot spot, double errorMetres, LocalDate day) {
    /**
     * @param accuracyMetres as the camera says; 0 where it doesn't
     */
    static Sighting of(Spot spot, double accuracyMetres, LocalDate day) {
      double each = accuracyMetres > 0 ? accuracyMetres / CIRCLE : UNSTATED_METRES;
      return new Sighting(spot, each, day);
    }
  }

  /** What they come to. */
  record Mean(Spot spot, double errorMetres, int used, int days, int leftOut) {
    String words() {
      return used
          + (used == 1 ? " photograph" : " photographs")
          + (days > 1 ? " on " + days + " days" : "")
          + (leftOut > 0 ? ", one left out that is far from the others" : "");
    }
  }

  private Sightings() {}

  static Mean mean(List<Sighting> all) {
    if (all.size() < 3) {
      return plain(all, 0);
    }
    int worst = -1;
    double most = OUTLIER;
    for (int i = 0; i < all.size(); i++) {
      List<Sighting> rest = new ArrayList<>(all);
      Sighting one = rest.remove(i);
      Mean others = plain(rest, 0);
      double off =
          one.spot().metresTo(others.spot())
              / Math.hypot(one.errorMetres(), others.errorMetres())
              / Math.sqrt(2);
      if (off > most) {
        most = off;
        worst = i;
      }
    }
    if (worst < 0) {
      return plain(all, 0);
    }
    List<Sighting> rest = new ArrayList<>(all);
    rest.remove(worst);
    return plain(rest, 1);
  }

  private static Mean plain(List<Sighting> all, int leftOut) {
    Map<LocalDate, List<Sighting>> days = new TreeMap<>();
    all.forEach(one -> days.computeIfAbsent(one.day(), day -> new ArrayList<>()).add(one));
    List<Sighting> ofDays = new ArrayList<>();
    days.forEach((day, own) -> ofDays.add(ofDay(day, own)));
    Spot mean = weighted(ofDays);
    double variance = 1 / weight(ofDays);
    double chi = 0;
    for (Sighting one : all) {
      chi += square(one.spot().metresTo(mean) / one.errorMetres());
    }
    int free = 2 * (all.size() - 1);
    double scatter = free == 0 ? 1 : Math.max(1, chi / free);
    double error = Math.sqrt(variance * scatter + square(STEPS_METRES));
    return new Mean(mean, error, all.size(), days.size(), leftOut);
  }

  private static Sighting ofDay(LocalDate day, List<Sighting> own) {
    double typical = own.size() / weight(own);
    double variance = SHARED * typical + (1 - SHARED) / weight(own);
    return new Sighting(weighted(own), Math.sqrt(variance), day);
  }

  private static double weight(List<Sighting> all) {
    return all.stream().mapToDouble(one -> 1 / square(one.errorMetres())).sum();
  }

  private static Spot weighted(List<Sighting> all) {
    double east = 0;
    double north = 0;
    for (Sighting one : all) {
      east += one.spot().eastMetres() / square(one.errorMetres());
      north += one.spot().northMetres() / square(one.errorMetres());
    }
    double weight = weight(all);
    return new Spot(east / weight, north / weight);
  }

  private static double square(double x) {
    return x * x;
  }
}
