package rakelight.ground;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What {@link FootstoneModel} is asked: whose of these persons are these footstones?
 *
 * @param frontDegrees which way the monument's front looks; rows run across that
 * @param confirmed footstones that people said are somebody's
 * @param refused pairs that people said don't belong together
 */
public record FamilyPlot(
    List<FamilyPerson> persons,
    List<Footstone> stones,
    Optional<Double> frontDegrees,
    Set<Tie> confirmed,
    Set<Tie> refused) {
  /** A footstone and a person, by their places in the lists. */
  public record Tie(int stone, int person) {}

  public FamilyPlot {
    persons = List.copyOf(persons);
    stones = List.copyOf(stones);
    confirmed = Set.copyOf(confirmed);
    refused = Set.copyOf(refused);
    for (Tie tie : confirmed) {
      if (refused.contains(tie)
          || confirmed.stream()
              .anyMatch(
                  other ->
                      !other.equals(tie)
                          && (other.stone() == tie.stone() || other.person() == tie.person()))) {
        throw new IllegalArgumentException(
            "footstone "
                + stones.get(tie.stone()).number()
                + " is confirmed beside what can't hold with it");
      }
    }
  }
}
