package rakelight.ground;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the table that {@link WalkStore} reads. */
final class WalkProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(WalkStore.PLANNED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("planned_walk");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(WalkStore.PLANNED, "the walk");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM planned_walk WHERE walk_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    handle.execute(
        "INSERT INTO planned_walk (decision_id, walk_id, plan, reader, at, counter) VALUES"
            + " (?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        Json.text(decision.payload(WalkStore.Plan.class)),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
