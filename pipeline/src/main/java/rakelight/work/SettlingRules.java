package rakelight.work;

import java.util.Optional;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Settling;

/** What a third reader may take from the two readings that he settles between. */
public final class SettlingRules {
  private SettlingRules() {}

  /**
   * What one of the two readings has at a place of the draft.
   *
   * @param line from 1
   * @param at from 1
   * @param first whether it is the first reading's, else the second's
   */
  public static Faces.Change choose(int line, int at, boolean first) {
    return work -> {
      Optional<Settling.At> place = Optional.of(new Settling.At(line, at));
      int number =
          Settling.pairs(two(work), work.draft()).stream()
              .filter(pair -> pair.at().equals(place))
              .map(Settling.Pair::number)
              .findFirst()
              .orElseThrow(
                  () ->
                      new DraftEditing.RefusedException(
                          "neither reading has anything at letter " + at + " of line " + line));
      return choose(number, first).of(work);
    };
  }

  /**
   * The same for a pair of the two readings, also where the draft has nothing of it.
   *
   * @param number as {@link Settling.Pair} counts them
   */
  public static Faces.Change choose(int number, boolean first) {
    return work -> Settling.choose(two(work), work.draft(), number, first);
  }

  private static FaceReadings.Two two(Work work)
      throws LeidenException, DraftEditing.RefusedException {
    return work.settling()
        .orElseThrow(
            () -> new DraftEditing.RefusedException("there are no two readings to settle here"));
  }
}
