package rakelight.survey;

import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;

/** Writes the table that {@link AlikeStore} reads. */
final class AlikeProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(AlikeStore.SAID);
  }

  @Override
  public Set<String> tables() {
    return Set.of("carving_alike");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM carving_alike WHERE marker_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    AlikeStore.Said said = decision.payload(AlikeStore.Said.class);
    handle.execute(
        "INSERT INTO carving_alike (decision_id, marker_id, one, other, said, reader, at, counter)"
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
