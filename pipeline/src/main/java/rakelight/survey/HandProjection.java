package rakelight.survey;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;

/** Writes the table that {@link HandStore} reads. */
final class HandProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(HandStore.SAID);
  }

  @Override
  public Set<String> tables() {
    return Set.of("lettering_hand");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM lettering_hand WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    HandStore.Said said = decision.payload(HandStore.Said.class);
    handle.execute(
        "INSERT INTO lettering_hand (decision_id, subject, one, other, said, reader, at, counter)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        said.one().toString(),
        said.other().toString(),
        said.said(),
        decision.reader(),
        decision.at().toString(),
        decision.counter());
  }
}
