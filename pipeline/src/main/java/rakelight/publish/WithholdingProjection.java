package rakelight.publish;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Projection;
import rakelight.person.MentionId;

/** Writes the tables that {@link WithholdingStore} reads. */
final class WithholdingProjection implements Projection {
  @Override
  public Set<String> kinds() {
    Set<String> kinds = new HashSet<>(WithholdingStore.KINDS);
    kinds.add(WithholdingStore.TOLD_AFTER);
    return kinds;
  }

  @Override
  public Set<String> tables() {
    return Set.of("withholding", "burials_told_after");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(WithholdingStore.TOLD_AFTER, "after how long burials are told");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM withholding WHERE subject = ?", subject.toString());
    handle.execute("DELETE FROM burials_told_after WHERE archive_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    if (decision.version() != 1) {
      throw new ArchiveException(
          "A withholding of version "
              + decision.version()
              + " was written by a newer program. Use that version.");
    }
    if (decision.kind().equals(WithholdingStore.TOLD_AFTER)) {
      handle.execute(
          "DELETE FROM burials_told_after WHERE archive_id = ?", decision.subject().toString());
      decision
          .payload(WithholdingStore.ToldAfter.class)
          .years()
          .ifPresent(
              years ->
                  handle.execute(
                      "INSERT INTO burials_told_after (archive_id, years) VALUES (?, ?)",
                      decision.subject().toString(),
                      years));
      return;
    }
    WithholdingStore.Said said = decision.payload(WithholdingStore.Said.class);
    handle.execute(
        "INSERT INTO withholding (decision_id, subject, kind, sign, place, cause, reason, asked_by,"
            + " asked_on, reader, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        decision.subject().toString(),
        decision.kind(),
        said.mention().map(MentionId::sign).orElse(null),
        said.mention().map(MentionId::place).orElse(null),
        said.cause(),
        said.reason(),
        said.askedBy().orElse(null),
        said.on().toString(),
        decision.reader(),
        decision.counter());
  }
}
