package rakelight.archive;

import java.util.List;
import java.util.Set;
import java.util.UUID;

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
        .filter(this::waits)
        .map(Kept::apart)
        .toList();
  }

  private boolean waits(Kept kept) {
    Journal journal = archive.journal();
    if (!journal.stands(kept.apart().one()) || !journal.stands(kept.apart().other())) {
      return false;
    }
    Set<String> kinds = journal.kindsThatSet(kept.apart().what());
    return journal.standing(kept.apart().subject()).stream()
        .noneMatch(
            decision -> kinds.contains(decision.kind()) && decision.counter() > kept.counter());
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
