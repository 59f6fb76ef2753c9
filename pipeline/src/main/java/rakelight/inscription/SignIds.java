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
  private static final int APART = 3;
  private static final int NEVER = 1_000_000;

  private SignIds() {}

  /**
   * The reading with the ids of an earlier version where a sign goes on, and ids never used before
   * where it is new.
   *
   * @param lastUsed the largest id any version of this face has used
   */
  static Inscription carry(Inscription earlier, Inscription later, int lastUsed) {
    int[][] costs = costs(earlier.signs(), later.signs());
    Map<SignId, SignId> newIds = new HashMap<>();
    int i = 0;
    int j = 0;
    int next = Math.max(lastUsed, earlier.lastId());
    while (j < later.signs().size()) {
      Sign sign = later.signs().get(j);
      if (i < earlier.signs().size()
          && costs[i][j] == costs[i + 1][j + 1] + change(earlier.signs().get(i), sign)) {
        newIds.put(sign.id(), earlier.signs().get(i).id());
        i++;
        j++;
      } else if (i < earlier.signs().size() && costs[i][j] == costs[i + 1][j] + APART) {
        i++;
      } else {
        newIds.put(sign.id(), new SignId(++next));
        j++;
      }
    }
    return later.withIds(newIds);
  }

  private static int[][] costs(List<Sign> earlier, List<Sign> later) {
    int[][] costs = new int[earlier.size() + 1][later.size() + 1];
    for (int i = earlier.size(); i >= 0; i--) {
      for (int j = later.size(); j >= 0; j--) {
        if (i == earlier.size() || j == later.size()) {
          costs[i][j] = APART * (earlier.size() - i + later.size() - j);
        } else {
          costs[i][j] =
              Math.min(
                  costs[i + 1][j + 1] + change(earlier.get(i), later.get(j)),
                  Math.min(costs[i + 1][j], costs[i][j + 1]) + APART);
        }
      }
    }
    return costs;
  }

  private static int change(Sign before, Sign after) {
    if (before.withId(after.id()).equals(after)) {
      return SAME;
    }
    boolean bothInk = holdsOne(before) && holdsOne(after);
    boolean bothBreaks = before instanceof Break && after instanceof Break;
    return bothInk || bothBreaks ? CHANGED : NEVER;
  }

  /** Whether the sign stands for one carved letter, named or not. */
  private static boolean holdsOne(Sign sign) {
    return sign instanceof Letter
        || (sign instanceof Gap gap
            && gap.unit() == Gap.Unit.LETTERS
            && gap.extent().equals(new Extent.Exact(1)));
  }
}
