package rakelight.marker;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.Condition.Concern;

/** Notes of markers' condition. They are added to, never changed; an undo takes one back. */
public final class ConditionStore {
  /** Subject: the marker. */
  static final String NOTED = "condition.noted";

  private static final int LONGEST_REMARK = 1000;
  static final String BETWEEN_WORDS = ", ";

  private static final RowMapper<ConditionNote> ROW =
      (row, context) ->
          new ConditionNote(
              MarkerId.of(row.getString("marker_id")),
              LocalDate.parse(row.getString("seen_on")),
              Arrays.stream(row.getString("words").split(BETWEEN_WORDS, -1))
                  .map(label -> Condition.of(label).orElseThrow())
                  .toList(),
              row.getString("remark"),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  /** Version 1 of the payload. */
  record Noted(LocalDate on, List<String> words, String remark) {}

  public ConditionStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new ConditionProjection();
  }

  /**
   * Notes what was seen of a marker.
   *
   * @param on the day it was seen
   * @param remark anything worth saying in one's own words; may be empty
   * @throws ArchiveException if there is no word, the words don't go together, the day lies in the
   *     future where the ground is, or the remark is too long
   */
  public void note(
      MarkerId marker, LocalDate on, Collection<Condition> words, String remark, String reader) {
    if (words.isEmpty()) {
      throw new ArchiveException("Say in a word or more what its condition is.");
    }
    EnumSet<Condition> ordered = EnumSet.copyOf(words);
    if (ordered.contains(Condition.SOUND)) {
      ordered.stream()
          .filter(word -> word.concern() != Concern.NONE || word == Condition.SUNKEN)
          .findFirst()
          .ifPresent(
              word -> {
                throw new ArchiveException(
                    "A marker that is " + word.label() + " isn't sound; leave one of them out.");
              });
    }
    if (on.isAfter(LocalDate.now(archive.ground().zone()))) {
      throw new ArchiveException(on + " is still to come; give the day it was seen.");
    }
    if (remark.strip().length() > LONGEST_REMARK) {
      throw new ArchiveException("A remark has " + LONGEST_REMARK + " signs at most.");
    }
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    NOTED,
                    1,
                    marker.value(),
                    new Noted(on, ordered.stream().map(Condition::label).toList(), remark.strip()))
                .restingOn(List.of(new MarkerStore(archive).madeBy(marker))));
  }

  /** What was noted of a marker, the newest observation first. */
  public List<ConditionNote> ofMarker(MarkerId marker) {
    return notes("WHERE marker_id = ?", marker.toString());
  }

  /** The newest observation of a marker. */
  public Optional<ConditionNote> newest(MarkerId marker) {
    return ofMarker(marker).stream().findFirst();
  }

  /** The newest observation of every marker that has one. */
  public Map<MarkerId, ConditionNote> newest() {
    Map<MarkerId, ConditionNote> newest = new LinkedHashMap<>();
    notes("").forEach(note -> newest.putIfAbsent(note.marker(), note));
    return newest;
  }

  private List<ConditionNote> notes(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT marker_id, seen_on, words, remark, reader, at, decision_id FROM"
                            + " (SELECT coalesce(n.now, c.marker_id) AS marker_id, c.seen_on,"
                            + " c.words, c.remark, c.reader, c.at, c.decision_id, c.counter FROM"
                            + " condition_note c LEFT JOIN marker_now n ON n.id = c.marker_id) "
                            + where
                            + " ORDER BY seen_on DESC, counter DESC",
                        values)
                    .map(ROW)
                    .list());
  }
}
