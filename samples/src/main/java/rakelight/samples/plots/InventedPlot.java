package rakelight.samples.plots;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A family's plot as people find it, and the truth about it. Metres east and north of a corner.
 *
 * @param monument where the family's monument stands, as measured
 */
public record InventedPlot(Measured monument, List<Named> persons, List<Stone> stones) {
  /** Somebody of the family by what is told of him: mother, father, wife, husband, infant. */
  public enum Role {
    MOTHER,
    FATHER,
    WIFE,
    HUSBAND,
    INFANT
  }

  /**
   * A place as measured.
   *
   * @param errorMetres as whoever measured states it
   */
  public record Measured(double eastMetres, double northMetres, double errorMetres) {}

  /**
   * Somebody whom the monument names, in the order in which it does.
   *
   * @param given all given names
   * @param birthSurname of a wife, if the stone tells it
   * @param ageYears at death, if told
   * @param deathYear if told
   * @param faceDegrees which way the face looks that names the person
   * @param lostElsewhere whether the stone says that the body is elsewhere
   * @param ownStone where a headstone of the person's own stands
   */
  public record Named(
      String given,
      String surname,
      Optional<String> birthSurname,
      boolean woman,
      Optional<Integer> ageYears,
      Optional<Integer> deathYear,
      List<Role> roles,
      double faceDegrees,
      boolean lostElsewhere,
      Optional<Measured> ownStone) {
    public Named {
      roles = List.copyOf(roles);
    }
  }

  /**
   * A footstone.
   *
   * @param letters as read, each with what it may be, shares summing to one; empty for one that is
   *     gone
   * @param year as read, figure by figure, if it bears one; {@code ?} for one that is gone
   * @param person whose it is in truth, by place in {@link InventedPlot#persons}; -1 for a stranger
   */
  public record Stone(
      List<Map<Character, Double>> letters,
      Measured at,
      Optional<Double> widthMetres,
      Optional<String> year,
      int person) {
    public Stone {
      letters = letters.stream().map(Map::copyOf).toList();
    }
  }

  public InventedPlot {
    persons = List.copyOf(persons);
    stones = List.copyOf(stones);
  }
}
