package rakelight.publish;

import java.util.Map;
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

  /** Whether something on it is withheld. */
  public boolean isTouched() {
    return !withheld.isEmpty();
  }
}
