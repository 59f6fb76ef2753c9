package rakelight.marker;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the tables that {@link DescriptionStore} reads. */
final class DescriptionProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(DescriptionStore.DESCRIBED, DescriptionStore.TERM);
  }

  @Override
  public Set<String> tables() {
    return Set.of("marker_description", "term");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(DescriptionStore.DESCRIBED, "what the marker is");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM marker_description WHERE marker_id = ?", subject.toString());
    handle.execute("DELETE FROM term WHERE id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    if (decision.kind().equals(DescriptionStore.TERM)) {
      DescriptionStore.Added added = decision.payload(DescriptionStore.Added.class);
      handle.execute(
          "INSERT INTO term (id, list, term, meaning, source, counter) VALUES (?, ?, ?, ?, ?, ?)",
          decision.subject().toString(),
          added.list().name(),
          added.term(),
          added.meaning(),
          added.source(),
          decision.counter());
      return;
    }
    handle.execute(
        "INSERT INTO marker_description (decision_id, marker_id, description, reader, at, counter)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        Json.text(decision.payload(DescriptionStore.Said.class).description()),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
