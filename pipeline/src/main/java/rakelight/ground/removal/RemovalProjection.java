package rakelight.ground.removal;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the tables that {@link RemovalStore} reads. */
final class RemovalProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(RemovalStore.LISTED, RemovalStore.IS, RemovalStore.IS_NOT);
  }

  @Override
  public Set<String> tables() {
    return Set.of("removal_register", "removal", "removal_opinion");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(RemovalStore.LISTED, "the graves it lists");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    for (String table : tables()) {
      handle.execute("DELETE FROM " + table + " WHERE source = ?", subject.toString());
    }
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    String source = decision.subject().toString();
    if (decision.kind().equals(RemovalStore.LISTED)) {
      RemovalStore.Listed listed = decision.payload(RemovalStore.Listed.class);
      handle.execute(
          "INSERT OR IGNORE INTO removal_register (source, decision_id, file, columns, stated) VALUES (?, ?,"
              + " ?, ?, ?)",
          source,
          decision.id().toString(),
          listed.file(),
          Json.text(new TreeMap<>(listed.columns())),
          Json.text(listed.stated()));
      for (Removal row : listed.rows()) {
        handle.execute(
            "INSERT OR IGNORE INTO removal (decision_id, source, row, document) VALUES (?, ?, ?, ?)",
            decision.id().toString(),
            source,
            row.number(),
            Json.text(row));
      }
      return;
    }
    RemovalStore.Judged judged = decision.payload(RemovalStore.Judged.class);
    handle.execute(
        "INSERT INTO removal_opinion (decision_id, source, row, found, face, sign, place, note,"
            + " reader, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.id().toString(),
        source,
        judged.row(),
        decision.kind().equals(RemovalStore.IS) ? 1 : 0,
        judged.mention().face().toString(),
        judged.mention().sign(),
        judged.mention().place(),
        judged.note(),
        decision.reader(),
        decision.counter());
  }
}
