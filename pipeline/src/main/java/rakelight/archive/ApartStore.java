package rakelight.archive;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;

/**
 * What was decided on two laptops, neither knowing of the other, and waits for somebody to decide
 * anew: by any later decision that sets the same thing, by undoing one of the two, or by saying
 * that it may stay as it is.
 */
public final class ApartStore {
  private final Archive archive;

  public ApartStore(Archive archive) {
    this.archive = archive;
  }

  private record Kept(Apart apart, long counter) {}

  /** What waits, in the order in which the histories came together. */
  public List<Apart> waiting() {
    Set<DecisionId> takenBack = takenBack();
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT * FROM decided_apart WHERE left_so = 0 ORDER BY counter, what,"
                            + " about, one")
                    .map(
                        (row, context) ->
                            new Kept(
                                new Apart(
                                    row.getString("what"),
                                    UUID.fromString(row.getString("about")),
                                    DecisionId.of(row.getString("one")),
                                    DecisionId.of(row.getString("other")),
                                    List.of(Json.read(row.getString("words"), String[].class))),
                                row.getLong("counter")))
                    .list())
        .stream()
        .filter(kept -> waits(kept, takenBack))
        .map(Kept::apart)
        .toList();
  }

  private boolean waits(Kept kept, Set<DecisionId> takenBack) {
    Journal journal = archive.journal();
    if (takenBack.contains(kept.apart().one()) || takenBack.contains(kept.apart().other())) {
      return false;
    }
    Set<String> kinds = journal.kindsThatSet(kept.apart().what());
    return journal.standing(kept.apart().subject()).stream()
        .noneMatch(
            decision -> kinds.contains(decision.kind()) && decision.counter() > kept.counter());
  }

  /** What people took back; where the program had to, it is still to be decided. */
  private Set<DecisionId> takenBack() {
    Journal journal = archive.journal();
    return journal.undone().entrySet().stream()
        .filter(
            undone ->
                journal
                    .find(undone.getValue())
                    .filter(undo -> undo.reader().equals(Decision.PROGRAM))
                    .isEmpty())
        .map(Map.Entry::getKey)
        .collect(Collectors.toSet());
  }

  /** Says that it may stay as it is. */
  public void leave(Apart apart, String note, String reader) {
    archive
        .ledger()
        .write(
            handle ->
                archive
                    .journal()
                    .append(
                        NewDecision.of(
                                reader,
                                Apart.LEFT_SO,
                                1,
                                archive.id(),
                                new Apart.LeftSo(apart.one(), apart.other(), note.strip()))
                            .restingOn(List.of(apart.one(), apart.other()))));
  }
}
