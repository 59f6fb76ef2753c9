package rakelight.ground;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Somebody of a family who may have a footstone.
 *
 * @param called as people call him
 * @param given given names in their order, at least their initials; may be empty
 * @param surnames those borne, the one at death first, then that of birth
 * @param relations words of relation that a footstone may bear for him: MOTHER, FATHER, WIFE, BABY
 * @param ageYears at death, if known
 * @param deathYears years in which he may have died, with shares that sum to one; empty if unknown
 * @param birthYears the same of the birth
 * @param named where stones stand that name him, the family's monument or his own
 * @param lies whether the body is here, as far as stones say
 */
public record FamilyPerson(
    String called,
    List<String> given,
    List<String> surnames,
    Set<String> relations,
    Optional<Integer> ageYears,
    Map<Integer, Double> deathYears,
    Map<Integer, Double> birthYears,
    List<NamedAt> named,
    Lies lies) {
  /** Whether a body lies here. */
  public enum Lies {
    HERE_OR_UNKNOWN,
    ELSEWHERE,
    /** A blank left for the death: perhaps living. */
    NOT_DEAD
  }

  /**
   * A stone that names somebody.
   *
   * @param marker its number
   * @param at where it stands
   * @param errorMetres standard error of that, east and north each
   * @param faceDegrees which way the face looks that names him, clockwise from true north
   * @param own whether it names nobody else, so that he lies before or behind it
   * @param order how many that stone names before him
   */
  public record NamedAt(
      String marker,
      Spot at,
      double errorMetres,
      Optional<Double> faceDegrees,
      boolean own,
      int order) {}

  public FamilyPerson {
    given = List.copyOf(given);
    surnames = List.copyOf(surnames);
    relations = Set.copyOf(relations);
    deathYears = Map.copyOf(deathYears);
    birthYears = Map.copyOf(birthYears);
    named = List.copyOf(named);
    if (named.isEmpty()) {
      throw new IllegalArgumentException(called + " must be named on a stone");
    }
  }
}
