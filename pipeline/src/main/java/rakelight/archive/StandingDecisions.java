package rakelight.archive;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * Which decisions stand. One doesn't while an undo of it stands, unless a decision that stands
 * rests on it; undos and what rests on something always have later places, so going from the last
 * decision to the first settles it for all. In the history of one laptop, where an undo is refused
 * while anything rests on its target, the second half of the sentence never counts.
 *
 * <p>The table {@code decision_undone} follows from it: the decisions that don't stand, each with
 * the first undo of it that does.
 */
final class StandingDecisions {
  private final Handle handle;

  StandingDecisions(Handle handle) {
    this.handle = handle;
  }

  /** A decision without what it says. */
  private record Entry(long place, String id, UUID subject, Optional<String> undoes) {}

  /** Works it out for every decision. */
  void all() {
    handle.execute("DELETE FROM decision_undone");
    Map<String, List<String>> resting = new HashMap<>();
    handle
        .createQuery("SELECT decision, rests_on FROM decision_rests_on")
        .map(
            (row, context) ->
                resting
                    .computeIfAbsent(row.getString("rests_on"), id -> new ArrayList<>(1))
                    .add(row.getString("decision")))
        .list();
    Set<String> fallen = new HashSet<>();
    // The undos of a decision that stand, the last one first.
    Map<String, List<String>> undos = new HashMap<>();
    for (Entry entry : entries("ORDER BY p.place DESC")) {
      List<String> undoing = undos.getOrDefault(entry.id(), List.of());
      boolean held =
          resting.getOrDefault(entry.id(), List.of()).stream().anyMatch(id -> !fallen.contains(id));
      if (!undoing.isEmpty() && !held) {
        fallen.add(entry.id());
        fell(entry.id(), undoing.get(undoing.size() - 1));
      } else {
        entry
            .undoes()
            .ifPresent(
                target -> undos.computeIfAbsent(target, id -> new ArrayList<>(1)).add(entry.id()));
      }
    }
  }

  /**
   * Works it out anew for a decision that was just undone, and for whatever that changes.
   *
   * @return the subjects of decisions that stand now and didn't, or the other way round
   */
  Set<UUID> after(DecisionId undone) {
    PriorityQueue<Entry> waiting =
        new PriorityQueue<>(Comparator.comparingLong(Entry::place).reversed());
    Set<UUID> changed = new HashSet<>();
    waiting.addAll(entries("WHERE d.id = :id", undone.toString()));
    while (!waiting.isEmpty()) {
      Entry entry = waiting.remove();
      if (settled(entry)) {
        changed.add(entry.subject());
        entry.undoes().ifPresent(target -> waiting.addAll(entries("WHERE d.id = :id", target)));
        waiting.addAll(
            entries(
                "WHERE d.id IN (SELECT rests_on FROM decision_rests_on WHERE decision = :id)",
                entry.id()));
      }
    }
    return changed;
  }

  /** Whether it came to stand, or to fall, only now. */
  private boolean settled(Entry entry) {
    Optional<String> undo =
        handle
            .createQuery(
                "SELECT d.id FROM decision d JOIN decision_place p ON p.counter = d.counter WHERE"
                    + " d.subject IN (SELECT :subject UNION SELECT now FROM same_thing WHERE id ="
                    + " :subject UNION SELECT id FROM same_thing WHERE now IN (SELECT :subject"
                    + " UNION SELECT now FROM same_thing WHERE id = :subject)) AND d.kind = :kind"
                    + " AND d.payload ->> 'undoes' = :id AND NOT EXISTS (SELECT 1 FROM"
                    + " decision_undone u WHERE u.decision = d.id) ORDER BY p.place")
            .bind("subject", entry.subject().toString())
            .bind("kind", Decision.UNDONE)
            .bind("id", entry.id())
            .mapTo(String.class)
            .findFirst();
    boolean held =
        undo.isPresent()
            && handle
                    .createQuery(
                        "SELECT count(*) FROM decision_rests_on r WHERE r.rests_on = :id AND NOT"
                            + " EXISTS (SELECT 1 FROM decision_undone u WHERE u.decision ="
                            + " r.decision)")
                    .bind("id", entry.id())
                    .mapTo(Integer.class)
                    .one()
                > 0;
    boolean stood =
        handle.execute("DELETE FROM decision_undone WHERE decision = ?", entry.id()) == 0;
    boolean stands = undo.isEmpty() || held;
    if (!stands) {
      fell(entry.id(), undo.get());
    }
    return stood != stands;
  }

  private void fell(String decision, String by) {
    handle.execute("INSERT INTO decision_undone (decision, by) VALUES (?, ?)", decision, by);
  }

  private List<Entry> entries(String which) {
    return entries(which, "");
  }

  private List<Entry> entries(String which, String id) {
    var query =
        handle.createQuery(
            "SELECT p.place, d.id, d.subject, CASE WHEN d.kind = :undone THEN d.payload ->>"
                + " 'undoes' END AS undoes FROM decision d JOIN decision_place p ON p.counter ="
                + " d.counter "
                + which);
    query.bind("undone", Decision.UNDONE);
    if (which.contains(":id")) {
      query.bind("id", id);
    }
    return query
        .map(
            (row, context) ->
                new Entry(
                    row.getLong("place"),
                    row.getString("id"),
                    UUID.fromString(row.getString("subject")),
                    Optional.ofNullable(row.getString("undoes"))))
        .list();
  }
}
