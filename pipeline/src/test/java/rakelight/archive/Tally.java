package rakelight.archive;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/** A small store for tests: per subject the last word said and how many words there were. */
final class Tally implements Projection {
  static final String SAID = "word.said";

  static void makeTable(Archive archive) {
    archive
        .ledger()
        .write(
            handle ->
                handle.execute(
                    "CREATE TABLE IF NOT EXISTS tally"
                        + " (subject TEXT PRIMARY KEY, last TEXT, words INTEGER) STRICT"));
  }

  static NewDecision said(UUID subject, String word) {
    return NewDecision.of("Ada", SAID, 1, subject, Map.of("word", word));
  }

  static Map<String, String> rows(Archive archive) {
    Map<String, String> rows = new TreeMap<>();
    archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT subject, last, words FROM tally")
                    .map(
                        (row, context) ->
                            rows.put(
                                row.getString("subject"),
                                row.getString("last") + " " + row.getInt("words")))
                    .list());
    return rows;
  }

  @Override
  public Set<String> kinds() {
    return Set.of(SAID);
  }

  @Override
  public Set<String> tables() {
    return Set.of("tally");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM tally WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    handle.execute(
        "INSERT INTO tally VALUES (?, ?, 1)"
            + " ON CONFLICT (subject) DO UPDATE SET last = excluded.last, words = words + 1",
        decision.subject().toString(),
        decision.payload().path("word").asText());
  }
}
