package rakelight.publish;

import java.util.Map;
import java.util.Set;
import rakelight.inscription.SignId;
import rakelight.person.Evidence.FaceStatements;

/**
 * A face as an edition tells it.
 *
 * @param says its current reading and what that asserts, without what is withheld
 * @param withheld why, in words, for each gap of the reading that stands for something withheld
 */
public record ToldFace(FaceStatements says, Map<SignId, String> withheld) {
  public ToldFace {
    withheld = Map.copyOf(withheld);
  }

  /**
   * The same without surnames that were worked out from words which aren't told.
   *
   * @param words folded
   */
  ToldFace withoutSurnamesOf(Set<String> words) {
    return new ToldFace(
        new FaceStatements(
            says.marker(),
            says.face(),
            says.reading(),
            says.proposal(),
            says.inscription(),
            says.statements().stream()
                .map(statement -> statement.withoutSurnameOf(words))
                .toList()),
        withheld);
  }

  /** Whether something on it is withheld. */
  public boolean isTouched() {
    return !withheld.isEmpty();
  }
}
