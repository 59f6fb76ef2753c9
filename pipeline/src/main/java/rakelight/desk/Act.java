package rakelight.desk;

import java.util.Map;
import java.util.Optional;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.work.NamedReader;
import rakelight.work.Undoing;

/**
 * Something decided, as pages tell it.
 *
 * @param undoable its id where this reader may take it back, else empty
 * @param back the page to go back to when it is taken back
 */
public record Act(
    String at, String reader, String words, boolean undone, String undoable, String back) {
  static Act of(
      Decision decision,
      String words,
      Map<DecisionId, DecisionId> undone,
      NamedReader by,
      String back) {
    boolean isBack = undone.containsKey(decision.id());
    boolean theirs = !isBack && Undoing.isTheirs(decision, by);
    return new Act(
        decision.at().toString().substring(0, 16).replace('T', ' '),
        decision.reader(),
        words,
        isBack,
        theirs ? decision.id().toString() : "",
        back);
  }

  /** Whether an address is one of the pages that acts are taken back on. */
  static Optional<String> page(String address) {
    return Optional.of(address)
        .filter(
            one ->
                one.matches(
                    "/(beside|persons|pairs|sought|statements|questions|sources|walk|alike|plan|links|families|markers)"
                        + "(/[A-Za-z0-9.\\-]+)*"));
  }
}
