package rakelight.marker;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;

/** Writes the tables that {@link MarkerStore} reads. */
final class MarkerProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(MarkerStore.CREATED, MarkerStore.RENUMBERED, MarkerStore.MERGED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("marker", "marker_earlier_number", "marker_merged");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(MarkerStore.RENUMBERED, "the marker's number");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM marker_merged WHERE marker_id = ?", subject.toString());
    handle.execute("DELETE FROM marker_earlier_number WHERE marker_id = ?", subject.toString());
    handle.execute("DELETE FROM marker WHERE id = ?", subject.toString());
  }

  @Override
  public Optional<String> misfit(Handle handle, UUID subject) {
    return handle
        .createQuery(
            "SELECT m.number FROM marker m JOIN marker o ON o.number = m.number AND o.id <> m.id"
                + " WHERE m.id = :id")
        .bind("id", subject.toString())
        .mapTo(String.class)
        .findFirst()
        .map(number -> "The number " + number + " was given again meanwhile.");
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    String id = decision.subject().toString();
    if (decision.kind().equals(MarkerStore.MERGED)) {
      handle.execute(
          "INSERT OR REPLACE INTO marker_merged (marker_id, into_id, decision_id) VALUES (?, ?, ?)",
          id,
          decision.payload(MarkerStore.Merged.class).into().toString(),
          decision.id().toString());
      return;
    }
    String number = decision.payload(MarkerStore.Numbered.class).number();
    if (decision.kind().equals(MarkerStore.CREATED)) {
      handle.execute(
          "INSERT INTO marker (id, number, decision_id) VALUES (?, ?, ?)",
          id,
          number,
          decision.id().toString());
      return;
    }
    handle.execute(
        "INSERT INTO marker_earlier_number (marker_id, place, number)"
            + " SELECT id, (SELECT count(*) FROM marker_earlier_number WHERE marker_id ="
            + " marker.id) + 1, number FROM marker WHERE id = ?",
        id);
    handle.execute("UPDATE marker SET number = ? WHERE id = ?", number, id);
  }
}
