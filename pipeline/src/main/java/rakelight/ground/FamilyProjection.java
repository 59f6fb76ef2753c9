package rakelight.ground;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Projection;

/** Writes the table that {@link FamilyStore} reads. */
final class FamilyProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(FamilyStore.TOGETHER, FamilyStore.APART, FamilyStore.CALLED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("family_said");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(FamilyStore.CALLED, "what its family is called");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM family_said WHERE marker_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    FamilyStore.write(handle, decision);
  }
}
