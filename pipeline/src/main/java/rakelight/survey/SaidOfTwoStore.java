package rakelight.survey;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import rakelight.archive.Archive;
import rakelight.archive.DecisionId;
import rakelight.archive.NewDecision;

/** What people say of two things of one sort. An undo takes a saying back. */
final class SaidOfTwoStore<T, W> {
  private final Archive archive;
  private final Table<T, W> table;

  /**
   * Where sayings of one sort are kept.
   *
   * @param kind of their decisions
   * @param subject the column of the decision's subject
   * @param thing a thing by what names it
   * @param word what was said by its label
   */
  record Table<T, W>(
      String kind,
      String name,
      String subject,
      Function<String, T> thing,
      Function<String, Optional<W>> word) {}

  /** Version 1 of the payload. */
  record Said(String one, String other, String said) {}

  SaidOfTwoStore(Archive archive, Table<T, W> table) {
    this.archive = archive;
    this.table = table;
  }

  /**
   * @param restingOn the decisions that made the two
   */
  void say(UUID subject, T one, T other, String label, String reader, List<DecisionId> restingOn) {
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    table.kind(),
                    1,
                    subject,
                    new Said(one.toString(), other.toString(), label))
                .restingOn(restingOn));
  }

  /** All that was said, in order. */
  List<SaidOfTwo<T, W>> all() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT decision_id, one, other, said, reader, at FROM "
                            + table.name()
                            + " ORDER BY counter")
                    .map(
                        (row, context) ->
                            new SaidOfTwo<>(
                                DecisionId.of(row.getString("decision_id")),
                                table.thing().apply(row.getString("one")),
                                table.thing().apply(row.getString("other")),
                                table.word().apply(row.getString("said")).orElseThrow(),
                                row.getString("reader"),
                                Instant.parse(row.getString("at"))))
                    .list());
  }

  /** The newest saying of two. */
  Optional<SaidOfTwo<T, W>> newest(T one, T other) {
    return all().stream().filter(said -> said.isOf(one, other)).reduce((a, b) -> b);
  }
}
