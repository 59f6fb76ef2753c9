package rakelight.archive;

import java.util.List;
import java.util.stream.Collectors;

/** An undo that is refused because later decisions that stand rest on the one to be undone. */
public final class UndoRefusedException extends ArchiveException {
  private final transient List<Decision> restingOnIt;

  UndoRefusedException(Decision decision, List<Decision> restingOnIt) {
    super(
        "Decision "
            + decision.id()
            + " ("
            + decision.kind()
            + ") can't be undone while these rest on it; undo them first, the last one first: "
            + restingOnIt.stream()
                .map(d -> d.id() + " (" + d.kind() + " by " + d.reader() + ")")
                .collect(Collectors.joining(", ")));
    this.restingOnIt = List.copyOf(restingOnIt);
  }

  /** The standing decisions that rest on it, oldest first. */
  public List<Decision> restingOnIt() {
    return restingOnIt;
  }
}
