package rakelight.person;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the tables that {@link SourceStore} reads. */
final class SourceProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(
        SourceStore.RECORDED,
        SourceStore.SCANNED,
        SourceStore.LISTED,
        SourceStore.FOUND,
        SourceStore.NOT_FOUND);
  }

  @Override
  public Set<String> tables() {
    return Set.of("source", "source_scan", "sought", "sought_opinion");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(SourceStore.LISTED, "the persons it lists");
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
    switch (decision.kind()) {
      case SourceStore.RECORDED -> record(handle, decision, source);
      case SourceStore.SCANNED -> {
        Source.Scan scan = decision.payload(Source.Scan.class);
        handle.execute(
            "INSERT INTO source_scan (decision_id, source, sha256, extension, original_name,"
                + " size_bytes, counter) VALUES (?, ?, ?, ?, ?, ?, ?)",
            decision.id().toString(),
            source,
            scan.sha256().hex(),
            scan.extension(),
            scan.originalName(),
            scan.sizeBytes(),
            decision.counter());
      }
      case SourceStore.LISTED -> {
        for (Sought.Row row : decision.payload(SourceStore.Listed.class).rows()) {
          handle.execute(
              "INSERT OR IGNORE INTO sought (decision_id, source, row, document) VALUES (?, ?, ?, ?)",
              decision.id().toString(),
              source,
              row.number(),
              Json.text(row));
        }
      }
      default -> {
        SourceStore.Judged judged = decision.payload(SourceStore.Judged.class);
        handle.execute(
            "INSERT INTO sought_opinion (decision_id, source, row, found, face, sign, place, note,"
                + " reader, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            decision.id().toString(),
            source,
            judged.row(),
            decision.kind().equals(SourceStore.FOUND) ? 1 : 0,
            judged.mention().face().toString(),
            judged.mention().sign(),
            judged.mention().place(),
            judged.note(),
            decision.reader(),
            decision.counter());
      }
    }
  }

  private static void record(Handle handle, Decision decision, String source) {
    SourceStore.Recorded recorded = decision.payload(SourceStore.Recorded.class);
    handle.execute(
        "INSERT INTO source (source, decision_id, kind, title, repository, reference, consulted,"
            + " note, reader, counter) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        source,
        decision.id().toString(),
        recorded.kind().label(),
        recorded.title(),
        recorded.repository(),
        recorded.reference(),
        recorded.consulted().map(Object::toString).orElse(null),
        recorded.note(),
        decision.reader(),
        decision.counter());
  }
}
