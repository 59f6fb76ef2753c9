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
    return isRing(handle, subject)
        ? Optional.of("It would be part of a marker that is part of it.")
        : givenAgain(handle, subject);
  }

  private static boolean isRing(Handle handle, UUID subject) {
    return handle
        .createQuery(
            "WITH RECURSIVE step (now) AS (SELECT into_id FROM marker_merged WHERE marker_id = :id"
                + " UNION SELECT m.into_id FROM step s JOIN marker_merged m ON m.marker_id ="
                + " s.now) SELECT count(*) > 0 FROM step WHERE now = :id")
        .bind("id", subject.toString())
        .mapTo(Boolean.class)
        .one();
  }

  private static Optional<String> givenAgain(Handle handle, UUID subject) {
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
      boolean isNew =
          handle.execute(
                  "INSERT OR IGNORE INTO marker (id, number, decision_id) VALUES (?, ?, ?)",
                  id,
                  number,
                  decision.id().toString())
              > 0;
      boolean isCalledSo =
          handle
              .createQuery("SELECT count(*) > 0 FROM marker WHERE id = :id AND number = :number")
              .bind("id", id)
              .bind("number", number)
              .mapTo(Boolean.class)
              .one();
      if (isNew || isCalledSo) {
        return;
      }
      // The same marker in another archive: what it was called there is one more number of it.
    }
    handle.execute(
        "INSERT INTO marker_earlier_number (marker_id, place, number)"
            + " SELECT id, (SELECT count(*) FROM marker_earlier_number WHERE marker_id ="
            + " marker.id) + 1, number FROM marker WHERE id = ?",
        id);
    handle.execute("UPDATE marker SET number = ? WHERE id = ?", number, id);
  }
}
