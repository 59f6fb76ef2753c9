package rakelight.marker;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the table that {@link ConditionStore} reads. */
final class ConditionProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(ConditionStore.NOTED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("condition_note");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM condition_note WHERE marker_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(2);
    ConditionStore.Noted noted = decision.payload(ConditionStore.Noted.class);
    handle.execute(
        "INSERT INTO condition_note (decision_id, marker_id, seen_on, words, place, remark, reader,"
            + " at, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        noted.on().toString(),
        String.join(ConditionStore.BETWEEN_WORDS, noted.words()),
        Json.text(noted.where()),
        noted.remark(),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
