package rakelight.archive;

import java.util.List;

/** What a store sees to when two histories come together. */
public interface Joining {
  /** What was decided apart and isn't a setting that projections tell of. */
  default List<Apart> apart(Meeting meeting) {
    return List.of();
  }

  /**
   * What the program must decide now that they are together, such as another number for one of two
   * markers. It follows from the two histories alone, in a fixed order.
   *
   * @param joined with all decisions, inside the transaction that brought them together
   */
  default List<NewDecision> follows(Archive joined, Meeting meeting) {
    return List.of();
  }
}
