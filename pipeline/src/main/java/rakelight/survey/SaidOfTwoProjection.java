package rakelight.survey;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;

/** Writes a table that {@link SaidOfTwoStore} reads. */
record SaidOfTwoProjection(SaidOfTwoStore.Table<?, ?> table) implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(table.kind());
  }

  @Override
  public Set<String> tables() {
    return Set.of(table.name());
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute(
        "DELETE FROM " + table.name() + " WHERE " + table.subject() + " = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    SaidOfTwoStore.Said said = decision.payload(SaidOfTwoStore.Said.class);
    handle.execute(
        "INSERT INTO "
            + table.name()
            + " (decision_id, "
            + table.subject()
            + ", one, other, said, reader, at, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        said.one(),
        said.other(),
        said.said(),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
