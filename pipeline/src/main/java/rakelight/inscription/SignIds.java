package rakelight.inscription;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Carries ids of signs from a version of a reading to the next. The two are aligned by least edits,
 * and a sign that only changed its letter or standing is the same carved sign.
 */
final class SignIds {
  private static final int SAME = 0;
  private static final int CHANGED = 2;

  private SignIds() {}

  /**
   * The reading with the ids of an earlier version where a sign goes on, and ids never used before
   * where it is new.
   *
   * @param lastUsed the largest id any version of this face has used
   */
  static Inscription carry(Inscription earlier, Inscription later, int lastUsed) {
    List<Sign> before = earlier.signs();
    List<Sign> after = later.signs();
    Map<SignId, SignId> newIds = new HashMap<>();
    int next = Math.max(lastUsed, earlier.lastId());
    for (Pairing.Pair pair :
        Pairing.of(before.size(), after.size(), (i, j) -> change(before.get(i), after.get(j)))) {
      if (pair.later() >= 0) {
        newIds.put(
            after.get(pair.later()).id(),
            pair.earlier() >= 0 ? before.get(pair.earlier()).id() : new SignId(++next));
      }
    }
    return later.withIds(newIds);
  }

  private static int change(Sign before, Sign after) {
    if (before.withId(after.id()).equals(after)) {
      return SAME;
    }
    boolean bothInk = holdsOne(before) && holdsOne(after);
    boolean bothBreaks = before instanceof Break && after instanceof Break;
    return bothInk || bothBreaks ? CHANGED : Pairing.NEVER;
  }

  /** Whether the sign stands for one carved letter, named or not. */
  private static boolean holdsOne(Sign sign) {
    return sign instanceof Letter
        || (sign instanceof Gap gap
            && gap.unit() == Gap.Unit.LETTERS
            && gap.extent().equals(new Extent.Exact(1)));
  }
}
