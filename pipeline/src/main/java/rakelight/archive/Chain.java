package rakelight.archive;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;

/**
 * The chain of the journal: with each decision goes the SHA-256 of the digest before it and of the
 * decision's own row, so that a row that was changed, left out or put in later shows, also where
 * the triggers of the ledger were dropped for it. The text that is digested is, each ended by a
 * line feed: the digest before (nothing at the first), counter, id, reader, at, kind, version,
 * subject, payload as it stands in its column, the ids it rests on, sorted and parted by spaces,
 * and the rank, where it isn't the counter.
 */
final class Chain {
  private static final String ROWS =
      "SELECT d.counter, d.id, d.reader, d.at, d.kind, d.version, d.subject, d.payload, d.rank,"
          + " c.digest,"
          + " (SELECT group_concat(o.rests_on, ' ') FROM (SELECT rests_on FROM decision_rests_on"
          + " WHERE decision = d.id ORDER BY rests_on) o) AS rests_on"
          + " FROM decision d LEFT JOIN decision_chain c ON c.counter = d.counter";

  private static final RowMapper<Row> ROW =
      (row, context) ->
          new Row(
              row.getLong("counter"),
              Stream.of(
                      row.getString("counter"),
                      row.getString("id"),
                      row.getString("reader"),
                      row.getString("at"),
                      row.getString("kind"),
                      row.getString("version"),
                      row.getString("subject"),
                      row.getString("payload"),
                      Optional.ofNullable(row.getString("rests_on")).orElse(""),
                      row.getString("rank"))
                  .filter(Objects::nonNull)
                  .toList(),
              Optional.ofNullable(row.getString("digest")));

  private Chain() {}

  /** A decision as it stands, and its digest as it was written down. */
  private record Row(long counter, List<String> columns, Optional<String> digest) {
    String after(String before) {
      return Sha256.of(before + "\n" + String.join("\n", columns) + "\n").hex();
    }
  }

  /** Writes the digests of decisions that have none yet. */
  static void complete(Handle handle) {
    String before = "";
    long last = 0;
    Optional<Head> head = head(handle);
    if (head.isPresent()) {
      before = head.get().digest();
      last = head.get().counter();
    }
    for (Row row : rows(handle, last)) {
      before = row.after(before);
      handle.execute(
          "INSERT INTO decision_chain (counter, digest) VALUES (?, ?)", row.counter(), before);
    }
  }

  static boolean isComplete(Handle handle) {
    return handle
        .createQuery(
            "SELECT (SELECT coalesce(max(counter), 0) FROM decision)"
                + " <= (SELECT coalesce(max(counter), 0) FROM decision_chain)")
        .mapTo(Boolean.class)
        .one();
  }

  /** The newest link. */
  static Optional<Head> head(Handle handle) {
    return handle
        .createQuery("SELECT counter, digest FROM decision_chain ORDER BY counter DESC LIMIT 1")
        .map((row, context) -> new Head(row.getLong("counter"), row.getString("digest")))
        .findOne();
  }

  /** The link of a decision. */
  static Optional<Head> at(Handle handle, long counter) {
    return handle
        .createQuery("SELECT counter, digest FROM decision_chain WHERE counter = :counter")
        .bind("counter", counter)
        .map((row, context) -> new Head(row.getLong("counter"), row.getString("digest")))
        .findOne();
  }

  /** The counter of the first decision that isn't as it was written, or is gone. */
  static Optional<Long> firstBreak(Handle handle) {
    List<Long> written = new ArrayList<>();
    handle
        .createQuery("SELECT counter FROM decision_chain ORDER BY counter")
        .mapTo(Long.class)
        .forEach(written::add);
    String before = "";
    int at = 0;
    for (Row row : rows(handle, 0)) {
      if (at >= written.size() || written.get(at) != row.counter()) {
        return Optional.of(
            at < written.size() ? Math.min(written.get(at), row.counter()) : row.counter());
      }
      before = row.after(before);
      if (!before.equals(row.digest().orElse(""))) {
        return Optional.of(row.counter());
      }
      at++;
    }
    return at < written.size() ? Optional.of(written.get(at)) : Optional.empty();
  }

  private static List<Row> rows(Handle handle, long after) {
    return handle
        .createQuery(ROWS + " WHERE d.counter > :after ORDER BY d.counter")
        .bind("after", after)
        .map(ROW)
        .list();
  }

  /**
   * Where a chain ends.
   *
   * @param counter of the newest decision
   * @param digest that takes in all decisions up to it
   */
  record Head(long counter, String digest) {
    @Override
    public String toString() {
      return "decision " + counter + ", " + digest;
    }
  }
}
