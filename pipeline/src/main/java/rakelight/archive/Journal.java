package rakelight.archive;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;
import org.jdbi.v3.core.statement.Query;

/**
 * The decisions of an archive, in order. They are the truth; state tables follow from them.
 *
 * <p>A decision is written in the same transaction as the rows that {@link Projection}s derive from
 * it. Undo is one more decision: it names the one it undoes, and the rows of that subject are
 * replayed without it. An undo can be undone as well. To write decisions that rest on each other,
 * append them inside one {@link Ledger#write}. Thread-safe.
 */
public final class Journal {
  private static final String COLUMNS =
      "p.place AS counter, d.id, d.reader, d.at, d.kind, d.version, d.subject, d.payload,"
          + " (SELECT group_concat(r.rests_on, ' ') FROM decision_rests_on r"
          + " WHERE r.decision = d.id) AS rests_on";
  private static final String STANDING =
      "NOT EXISTS (SELECT 1 FROM decision_undone u WHERE u.decision = d.id)";

  /** The decisions about a thing, also by ids that it had in archives begun apart. */
  private static final String ABOUT =
      "d.subject IN (SELECT :subject UNION ALL SELECT id FROM same_thing WHERE now = :subject)";

  private final Ledger ledger;
  private final List<Projection> projections;
  private final Map<String, List<Projection>> byKind;
  private volatile SameThings.Known same = SameThings.Known.NONE;

  Journal(Ledger ledger, List<Projection> projections) {
    this.ledger = ledger;
    this.projections = List.copyOf(projections);
    Map<String, List<Projection>> kinds = new HashMap<>();
    for (Projection projection : projections) {
      for (String kind : projection.kinds()) {
        kinds.computeIfAbsent(kind, k -> new ArrayList<>()).add(projection);
      }
    }
    this.byKind = kinds;
  }

  /**
   * Writes one decision and what follows from it.
   *
   * @throws IllegalArgumentException if no projection knows the kind
   * @throws ArchiveException if it rests on a decision that doesn't exist or doesn't stand, or its
   *     subject is withdrawn
   */
  public Decision append(NewDecision decision) {
    if (!byKind.containsKey(decision.kind())) {
      throw new IllegalArgumentException("no store knows decisions of kind " + decision.kind());
    }
    return ledger.write(
        handle -> {
          for (DecisionId id : decision.restsOn()) {
            if (!stands(handle, required(handle, id).id())) {
              throw new ArchiveException(
                  "Decision " + id + " has been undone, so nothing new can rest on it.");
            }
          }
          requireNotWithdrawn(handle, decision.subject());
          Decision written = insert(handle, decision);
          apply(handle, written);
          return written;
        });
  }

  /** Writes several decisions in one transaction, in this order. */
  public List<Decision> appendAll(List<NewDecision> decisions) {
    return ledger.write(handle -> decisions.stream().map(this::append).toList());
  }

  /**
   * Undoes a decision, or an earlier undo.
   *
   * @param id the decision that shall no longer stand
   * @return the undo
   * @throws UndoRefusedException while later decisions that stand rest on it
   * @throws ArchiveException if there is no such decision, or it doesn't stand, or it is the first
   *     one, which describes the ground
   */
  public Decision undo(DecisionId id, String reader) {
    return ledger.write(
        handle -> {
          Decision target = required(handle, id);
          if (!stands(handle, id)) {
            throw new ArchiveException("Decision " + id + " has been undone already.");
          }
          if (target.counter() == 1) {
            throw new ArchiveException(
                "Decision " + id + " describes the ground and can't be undone, only changed.");
          }
          if (target.kind().equals(SameThings.JOINED)) {
            throw new ArchiveException(
                "Decision "
                    + id
                    + " made one of two archives and can't be undone. What isn't one marker after"
                    + " all: `marker split`; or go back to a backup made before the merge.");
          }
          List<Decision> resting = standingOn(handle, id);
          if (!resting.isEmpty()) {
            throw new UndoRefusedException(target, resting);
          }
          Decision undo = insert(handle, NewDecision.undoing(target, reader));
          requireRaisable(handle, target);
          settle(handle, id).forEach(subject -> requireFitting(handle, subject));
          return undo;
        });
  }

  /** Has the state tables follow from an undo of a decision; the subjects that changed. */
  private Set<UUID> settle(Handle handle, DecisionId undone) {
    SameThings.Known known = same(handle);
    Set<UUID> changed =
        new StandingDecisions(handle)
            .after(undone).stream().map(known::of).collect(Collectors.toCollection(TreeSet::new));
    handle.execute("PRAGMA defer_foreign_keys = ON");
    changed.forEach(subject -> replay(handle, subject));
    return changed;
  }

  /** Decisions with a counter above this one, oldest first. */
  public List<Decision> since(long counter) {
    return ledger.read(
        handle ->
            query(handle, "WHERE d.counter > :counter ORDER BY +p.place")
                .bind("counter", counter)
                .map(row(handle))
                .list());
  }

  /** The counter of the newest decision; 0 in an empty journal. */
  public long lastCounter() {
    return ledger.read(
        handle ->
            handle
                .createQuery("SELECT coalesce(max(counter), 0) FROM decision")
                .mapTo(Long.class)
                .one());
  }

  public Optional<Decision> find(DecisionId id) {
    return ledger.read(handle -> find(handle, id));
  }

  /**
   * The decision that a thing follows from, for what is decided about it to rest on.
   *
   * @param table the state table that has the thing, with columns {@code id} and {@code
   *     decision_id}; its name says what the thing is
   * @throws ArchiveException if there is no such thing
   */
  public DecisionId madeBy(String table, UUID id) {
    return ledger.read(
        handle ->
            handle
                .createQuery("SELECT decision_id FROM " + table + " WHERE id = :id")
                .bind("id", id.toString())
                .mapTo(String.class)
                .findOne()
                .map(DecisionId::of)
                .orElseThrow(
                    () -> new ArchiveException("There is no " + table + " " + id + " here.")));
  }

  /** Everything ever decided about a subject, undone or not, oldest first. */
  public List<Decision> bySubject(UUID subject) {
    return ledger.read(
        handle ->
            query(handle, "WHERE " + ABOUT + " ORDER BY p.place")
                .bind("subject", same(handle).of(subject).toString())
                .map(row(handle))
                .list());
  }

  /** What stands about a subject, without the undos themselves, oldest first. */
  public List<Decision> standing(UUID subject) {
    return ledger.read(handle -> standing(handle, subject));
  }

  /** What stands of some kinds, oldest first. */
  public List<Decision> standing(List<String> kinds) {
    return ledger.read(handle -> standing(handle, kinds));
  }

  /** What stands of one act, oldest first: its decisions share a batch. */
  public List<Decision> act(UUID batch) {
    return ledger.read(
        handle ->
            query(
                    handle,
                    "WHERE d.payload ->> 'batch' = :batch AND " + STANDING + " ORDER BY p.place")
                .bind("batch", batch.toString())
                .map(row(handle))
                .list());
  }

  /** Whether a decision exists and hasn't been undone. */
  public boolean stands(DecisionId id) {
    return ledger.read(handle -> find(handle, id).isPresent() && stands(handle, id));
  }

  /** The decisions that have been undone, each with its undo. */
  public Map<DecisionId, DecisionId> undone() {
    return ledger.read(
        handle -> {
          Map<DecisionId, DecisionId> undone = new LinkedHashMap<>();
          handle
              .createQuery("SELECT decision, by FROM decision_undone ORDER BY by, decision")
              .map(
                  (row, context) ->
                      undone.put(
                          DecisionId.of(row.getString("decision")),
                          DecisionId.of(row.getString("by"))))
              .list();
          return undone;
        });
  }

  /** Empties every state table and replays the whole journal into them, in one transaction. */
  public void rebuild() {
    ledger.write(
        handle -> {
          handle.execute("PRAGMA defer_foreign_keys = ON");
          DecisionOrder.count(handle);
          SameThings.all(handle);
          new StandingDecisions(handle).all();
          projections.stream()
              .flatMap(projection -> projection.tables().stream())
              .distinct()
              .sorted()
              .forEach(table -> handle.execute("DELETE FROM " + table));
          try (var standing =
              query(handle, "WHERE " + STANDING + " ORDER BY p.place").map(row(handle)).stream()) {
            standing
                .filter(decision -> !isLast(decision))
                .forEach(decision -> apply(handle, decision));
          }
          withdrawn(handle).forEach(decision -> apply(handle, decision));
          return 0;
        });
  }

  /**
   * Writes what the program decides because two histories met: with an id that follows from what it
   * says, so that it is the same decision wherever they meet.
   *
   * @param at when the last of what it follows from was decided
   * @return whether it isn't here already
   */
  boolean follow(NewDecision decision, Instant at) {
    return ledger.write(
        handle -> {
          String payload = Json.text(decision.payload());
          List<String> restsOn =
              decision.restsOn().stream().map(DecisionId::toString).distinct().sorted().toList();
          List<String> says = new ArrayList<>(restsOn);
          says.addAll(List.of(decision.kind(), decision.subject().toString(), payload));
          DecisionId id = new DecisionId(Meeting.id(says, "follows"));
          if (find(handle, id).isPresent()) {
            return false;
          }
          DecisionOrder.append(
              handle,
              new DecisionOrder.Row(
                  id.toString(),
                  DecisionOrder.nextRank(handle),
                  decision.reader(),
                  at.toString(),
                  decision.kind(),
                  decision.version(),
                  decision.subject().toString(),
                  payload,
                  restsOn));
          Chain.complete(handle);
          Decision written = required(handle, id);
          written.undoes().ifPresent(undone -> settle(handle, undone));
          apply(handle, written);
          return true;
        });
  }

  /** Settings of one thing that two histories made, each for itself. */
  List<Apart> settingsApart(Meeting meeting) {
    return settings().entrySet().stream()
        .flatMap(entry -> meeting.settings(List.copyOf(entry.getValue()), entry.getKey()).stream())
        .toList();
  }

  /** The kinds of decision that set something of which the newest holds. */
  Set<String> kindsThatSet(String what) {
    return settings().getOrDefault(what, Set.of());
  }

  private Map<String, Set<String>> settings() {
    Map<String, Set<String>> settings = new TreeMap<>();
    projections.forEach(
        projection ->
            projection
                .settings()
                .forEach(
                    (kind, what) ->
                        settings.computeIfAbsent(what, w -> new TreeSet<>()).add(kind)));
    return settings;
  }

  /** Gives decisions their places in the chain that earlier programs wrote without it. */
  void completeChain() {
    if (!ledger.read(Chain::isComplete)) {
      ledger.write(
          handle -> {
            Chain.complete(handle);
            return 0;
          });
    }
  }

  /** The same projections over another ledger. */
  Journal on(Ledger other) {
    return new Journal(other, projections);
  }

  /** The tables that {@link #rebuild} makes anew, sorted. */
  List<String> rebuiltTables() {
    return java.util.stream.Stream.concat(
            java.util.stream.Stream.of("decision_undone", "decision_place", "same_thing"),
            projections.stream().flatMap(projection -> projection.tables().stream()))
        .distinct()
        .sorted()
        .toList();
  }

  /** The kinds that some projection knows. */
  Set<String> kinds() {
    return Set.copyOf(byKind.keySet());
  }

  /** Refuses an undo of an undo where what it raises rests on something that doesn't stand. */
  private void requireRaisable(Handle handle, Decision target) {
    if (target.undoes().isPresent()) {
      DecisionId raised = target.undoes().get();
      List<DecisionId> fallen =
          required(handle, raised).restsOn().stream().filter(id -> !stands(handle, id)).toList();
      if (!fallen.isEmpty()) {
        throw new ArchiveException(
            "Decision "
                + raised
                + " can't be restored while what it rests on doesn't stand; restore first: "
                + fallen.stream().map(DecisionId::toString).collect(Collectors.joining(", ")));
      }
    }
  }

  private void requireFitting(Handle handle, UUID subject) {
    projections.stream()
        .flatMap(projection -> projection.misfit(handle, subject).stream())
        .findFirst()
        .ifPresent(
            why -> {
              throw new ArchiveException(why + " Nothing was changed; undo that first.");
            });
  }

  private void replay(Handle handle, UUID subject) {
    projections.forEach(projection -> projection.clear(handle, subject));
    List<Decision> standing = standing(handle, subject);
    standing.stream()
        .filter(decision -> !isLast(decision))
        .forEach(decision -> apply(handle, decision));
    standing.stream().filter(Journal::isLast).forEach(decision -> apply(handle, decision));
  }

  /** Whether it is taken into account after all else about its subject, whatever its place. */
  private static boolean isLast(Decision decision) {
    return Withdrawals.isWithdrawal(decision)
        && !decision.kind().equals(Withdrawals.What.READING.kind());
  }

  private List<Decision> withdrawn(Handle handle) {
    return standing(handle, List.copyOf(Withdrawals.KINDS)).stream()
        .filter(Journal::isLast)
        .toList();
  }

  private void apply(Handle handle, Decision decision) {
    for (Projection projection : byKind.getOrDefault(decision.kind(), List.of())) {
      projection.apply(handle, decision);
    }
  }

  private Decision insert(Handle handle, NewDecision decision) {
    DecisionId id = DecisionId.next();
    Instant at = Instant.now().truncatedTo(ChronoUnit.MILLIS);
    long counter =
        DecisionOrder.append(
            handle,
            new DecisionOrder.Row(
                id.toString(),
                DecisionOrder.nextRank(handle),
                decision.reader(),
                at.toString(),
                decision.kind(),
                decision.version(),
                decision.subject().toString(),
                Json.text(decision.payload()),
                decision.restsOn().stream().map(DecisionId::toString).distinct().toList()));
    Chain.complete(handle);
    return new Decision(
        id,
        counter,
        decision.reader(),
        at,
        decision.kind(),
        decision.version(),
        same(handle).of(decision.subject()),
        same(handle).in(decision.payload()),
        decision.restsOn());
  }

  private List<Decision> standing(Handle handle, UUID subject) {
    return query(
            handle,
            "WHERE " + ABOUT + " AND d.kind <> :undone AND " + STANDING + " ORDER BY p.place")
        .bind("subject", same(handle).of(subject).toString())
        .bind("undone", Decision.UNDONE)
        .map(row(handle))
        .list();
  }

  private List<Decision> standing(Handle handle, List<String> kinds) {
    return query(handle, "WHERE d.kind IN (<kinds>) AND " + STANDING + " ORDER BY p.place")
        .bindList("kinds", kinds)
        .map(row(handle))
        .list();
  }

  private List<Decision> standingOn(Handle handle, DecisionId id) {
    return query(
            handle,
            "JOIN decision_rests_on o ON o.decision = d.id WHERE o.rests_on = :id AND "
                + STANDING
                + " ORDER BY p.place")
        .bind("id", id.toString())
        .map(row(handle))
        .list();
  }

  private void requireNotWithdrawn(Handle handle, UUID subject) {
    int withdrawn =
        handle
            .createQuery(
                "SELECT count(*) FROM withdrawn WHERE subject = :subject AND kind <> :reading")
            .bind("subject", same(handle).of(subject).toString())
            .bind("reading", Withdrawals.What.READING.kind())
            .mapTo(Integer.class)
            .one();
    if (withdrawn > 0) {
      throw new ArchiveException("This was withdrawn from the archive: " + subject + ".");
    }
  }

  private static boolean stands(Handle handle, DecisionId id) {
    return handle
            .createQuery("SELECT count(*) FROM decision_undone WHERE decision = :id")
            .bind("id", id.toString())
            .mapTo(Integer.class)
            .one()
        == 0;
  }

  /** Rows as decisions, in terms of the things that stand for others. */
  private RowMapper<Decision> row(Handle handle) {
    SameThings.Known known = same(handle);
    return (row, context) -> {
      long counter = row.getLong("counter");
      try {
        return new Decision(
            DecisionId.of(row.getString("id")),
            counter,
            row.getString("reader"),
            Instant.parse(row.getString("at")),
            row.getString("kind"),
            row.getInt("version"),
            known.of(UUID.fromString(row.getString("subject"))),
            row.getString("kind").equals(SameThings.JOINED)
                ? Json.read(row.getString("payload"), JsonNode.class)
                : known.in(row.getString("payload")),
            ids(row.getString("rests_on")));
      } catch (DateTimeException | IllegalArgumentException e) {
        throw new ArchiveException(
            "Decision "
                + counter
                + " can't be read ("
                + e.getMessage()
                + "): the ledger is damaged. Restore it from a backup.",
            e);
      }
    };
  }

  private SameThings.Known same(Handle handle) {
    SameThings.Known known = same.upToDate(handle);
    same = known;
    return known;
  }

  /** The id that stands for a thing: its own, unless archives begun apart called it by several. */
  public UUID now(UUID id) {
    return ledger.read(handle -> same(handle).of(id));
  }

  private Decision required(Handle handle, DecisionId id) {
    return find(handle, id)
        .orElseThrow(() -> new ArchiveException("There is no decision " + id + " here."));
  }

  private Optional<Decision> find(Handle handle, DecisionId id) {
    return query(handle, "WHERE d.id = :id").bind("id", id.toString()).map(row(handle)).findOne();
  }

  private static Query query(Handle handle, String rest) {
    return handle.createQuery(
        "SELECT "
            + COLUMNS
            + " FROM decision d JOIN decision_place p ON p.counter = d.counter "
            + rest);
  }

  private static List<DecisionId> ids(@org.jspecify.annotations.Nullable String joined) {
    return joined == null
        ? List.of()
        : java.util.Arrays.stream(joined.split(" "))
            .map(DecisionId::of)
            .sorted(java.util.Comparator.comparing(DecisionId::toString))
            .toList();
  }
}
