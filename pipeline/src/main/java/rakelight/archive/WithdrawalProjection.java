package rakelight.archive;

import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * Writes the table that {@link Withdrawals} reads, and clears what the other projections have of
 * the thing. So whatever is withdrawn is in no state table, and no query need leave it out. An undo
 * replays the thing's decisions, which brings it back.
 */
final class WithdrawalProjection implements Projection {
  private final List<Projection> others;

  WithdrawalProjection(List<Projection> others) {
    this.others = List.copyOf(others);
  }

  @Override
  public Set<String> kinds() {
    return Withdrawals.KINDS;
  }

  @Override
  public Set<String> tables() {
    return Set.of("withdrawn");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM withdrawn WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    // Of a face whose reading alone is withdrawn, the store of readings clears just that.
    if (!decision.kind().equals(Withdrawals.What.READING.kind())) {
      others.forEach(projection -> projection.clear(handle, decision.subject()));
    }
    Withdrawals.Said said = decision.payload(Withdrawals.Said.class);
    handle.execute(
        "INSERT INTO withdrawn (decision_id, subject, kind, counter, sha256, extension, size_bytes,"
            + " sealed) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        decision.kind(),
        decision.counter(),
        said.original().map(original -> original.sha256().hex()).orElse(null),
        said.original().map(Withdrawals.Original::extension).orElse(null),
        said.original().map(Withdrawals.Original::sizeBytes).orElse(null),
        said.original().map(Withdrawals.Original::sealed).orElse(null));
  }
}
