package rakelight.archive;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/**
 * The order of decisions. A decision's rank is one more than the highest rank in its archive when
 * it was made, so whoever knew of another decision has the higher one, without any clock (L.
 * Lamport, Time, Clocks, and the Ordering of Events in a Distributed System, 1978). They are in
 * order of rank, those of one rank in order of id: that is the same in every copy of the archive.
 * The place in it, from 1, is what projections are told.
 */
final class DecisionOrder {
  private static final String RANK = "coalesce(rank, counter)";

  private DecisionOrder() {}

  /**
   * A decision as it stands in its columns.
   *
   * @param restsOn ids, each once
   */
  record Row(
      String id,
      long rank,
      String reader,
      String at,
      String kind,
      int version,
      String subject,
      String payload,
      List<String> restsOn) {
    Row {
      restsOn = List.copyOf(restsOn);
    }
  }

  /** All rows, in order. */
  static List<Row> rows(Handle handle) {
    return handle
        .createQuery(
            "SELECT d.id, coalesce(d.rank, d.counter) AS rank, d.reader, d.at, d.kind, d.version,"
                + " d.subject, d.payload, (SELECT group_concat(o.rests_on, ' ') FROM (SELECT"
                + " rests_on FROM decision_rests_on WHERE decision = d.id ORDER BY rests_on) o) AS"
                + " rests_on FROM decision_place p JOIN decision d ON d.counter = p.counter ORDER"
                + " BY p.place")
        .map(
            (row, context) ->
                new Row(
                    row.getString("id"),
                    row.getLong("rank"),
                    row.getString("reader"),
                    row.getString("at"),
                    row.getString("kind"),
                    row.getInt("version"),
                    row.getString("subject"),
                    row.getString("payload"),
                    Optional.ofNullable(row.getString("rests_on"))
                        .map(ids -> List.of(ids.split(" ")))
                        .orElse(List.of())))
        .list();
  }

  /** The rank of every decision. */
  static Map<DecisionId, Long> ranks(Handle handle) {
    Map<DecisionId, Long> ranks = new HashMap<>();
    handle
        .createQuery("SELECT id, " + RANK + " AS rank FROM decision")
        .map((row, context) -> ranks.put(DecisionId.of(row.getString("id")), row.getLong("rank")))
        .list();
    return ranks;
  }

  /** The rank of a decision that is made now. */
  static long nextRank(Handle handle) {
    return handle
        .createQuery(
            "SELECT " + RANK + " + 1 FROM decision ORDER BY " + RANK + " DESC, id DESC LIMIT 1")
        .mapTo(Long.class)
        .findOne()
        .orElse(1L);
  }

  /**
   * Adds a row of the journal, at the last place.
   *
   * @return its counter
   */
  static long append(Handle handle, Row row) {
    long counter =
        handle
            .createQuery("SELECT coalesce(max(counter), 0) + 1 FROM decision")
            .mapTo(Long.class)
            .one();
    handle.execute(
        "INSERT INTO decision (counter, id, reader, at, kind, version, subject, payload, rank)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        counter,
        row.id(),
        row.reader(),
        row.at(),
        row.kind(),
        row.version(),
        row.subject(),
        row.payload(),
        row.rank() == counter ? Optional.empty() : Optional.of(row.rank()));
    handle.execute("INSERT INTO decision_place (counter, place) VALUES (?, ?)", counter, counter);
    for (String restsOn : row.restsOn()) {
      handle.execute(
          "INSERT INTO decision_rests_on (decision, rests_on) VALUES (?, ?)", row.id(), restsOn);
    }
    return counter;
  }

  /** Counts all places anew, after rows came in that were made elsewhere. */
  static void count(Handle handle) {
    handle.execute("DELETE FROM decision_place");
    handle.execute(
        "INSERT INTO decision_place (counter, place) SELECT counter, row_number() OVER (ORDER BY "
            + RANK
            + ", id) FROM decision");
  }
}
