package rakelight.marker;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the table that {@link EmblemStore} reads. */
final class EmblemProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(EmblemStore.SEEN);
  }

  @Override
  public Set<String> tables() {
    return Set.of("emblem");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM emblem WHERE marker_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    handle.execute(
        "INSERT INTO emblem (decision_id, marker_id, seen, reader, at, counter) VALUES"
            + " (?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        Json.text(decision.payload(EmblemStore.Seen.class)),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
