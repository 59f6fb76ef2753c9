package rakelight.archive;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/** Writes the table of what was decided apart, which {@link DecidedApartStore} reads. */
final class ApartProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(Apart.JOINED, Apart.LEFT_SO);
  }

  @Override
  public Set<String> tables() {
    return Set.of("decided_apart");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM decided_apart WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    if (decision.kind().equals(Apart.LEFT_SO)) {
      Apart.LeftSo left = decision.payload(Apart.LeftSo.class);
      handle.execute(
          "UPDATE decided_apart SET left_so = 1 WHERE one = ? AND other = ?",
          left.one().toString(),
          left.other().toString());
      return;
    }
    for (Apart apart : decision.payload(Apart.Asked.class).apart()) {
      handle.execute(
          "INSERT OR IGNORE INTO decided_apart (decision_id, subject, about, what, one, other,"
              + " words, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
          decision.id().toString(),
          decision.subject().toString(),
          apart.subject().toString(),
          apart.what(),
          apart.one().toString(),
          apart.other().toString(),
          Json.text(apart.words()),
          decision.counter());
    }
  }
}
