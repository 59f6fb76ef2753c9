package rakelight.marker;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.Condition.Concern;

/** Notes of markers' condition. They are added to, never changed; an undo takes one back. */
public final class ConditionStore {
  /** Subject: the marker. */
  static final String NOTED = "condition.noted";

  private static final int LONGEST_REMARK = 1000;

  /** What a sound marker isn't, beside whatever wears its letters away. */
  private static final Set<Condition> UNSOUND =
      EnumSet.of(
          Condition.LEANING,
          Condition.LOOSE,
          Condition.BROKEN,
          Condition.FALLEN,
          Condition.UNDERMINED,
          Condition.SUNKEN,
          Condition.PART_MISSING);

  static final String BETWEEN_WORDS = ", ";

  private static final RowMapper<ConditionNote> ROW =
      (row, context) ->
          new ConditionNote(
              MarkerId.of(row.getString("marker_id")),
              LocalDate.parse(row.getString("seen_on")),
              Arrays.stream(row.getString("words").split(BETWEEN_WORDS, -1))
                  .map(label -> Condition.of(label).orElseThrow())
                  .toList(),
              Json.read(row.getString("place"), ConditionNote.Where.class),
              row.getString("remark"),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  /** A year, a month or a day. */
  private static final Pattern WHEN = Pattern.compile("[12]\\d{3}(-\\d{2}(-\\d{2})?)?");

  /** Version 2 of the payload; version 1 has no {@code where}. */
  record Noted(LocalDate on, List<String> words, ConditionNote.Where where, String remark) {
    Noted {
      where = where == null ? ConditionNote.Where.WHOLE : where;
    }
  }

  public ConditionStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new ConditionProjection();
  }

  /** Notes what was seen of a whole marker; see the other. */
  public void note(
      MarkerId marker, LocalDate on, Collection<Condition> words, String remark, String reader) {
    note(marker, on, words, ConditionNote.Where.WHOLE, remark, reader);
  }

  /**
   * Notes what was seen of a marker.
   *
   * @param on the day it was seen
   * @param remark anything worth saying in one's own words; may be empty
   * @throws ArchiveException if there is no word, the words don't go together, a part isn't one of
   *     the terms, a day lies in the future where the ground is, or the remark is too long
   */
  public void note(
      MarkerId marker,
      LocalDate on,
      Collection<Condition> words,
      ConditionNote.Where where,
      String remark,
      String reader) {
    if (words.isEmpty()) {
      throw new ArchiveException("Say in a word or more what its condition is.");
    }
    EnumSet<Condition> ordered = EnumSet.copyOf(words);
    if (ordered.contains(Condition.SOUND)) {
      ordered.stream()
          .filter(word -> UNSOUND.contains(word) || word.concerns().contains(Concern.FADING))
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
    Terms terms = new DescriptionStore(archive).terms();
    ConditionNote.Where placed =
        new ConditionNote.Where(
            where.parts().stream().map(part -> terms.named(Term.Quality.PART, part)).toList(),
            where.areas(),
            where.happened().map(when -> checked(when, on)));
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    NOTED,
                    2,
                    marker.value(),
                    new Noted(
                        on,
                        ordered.stream().map(Condition::label).toList(),
                        placed,
                        remark.strip()))
                .restingOn(List.of(new MarkerStore(archive).madeBy(marker))));
  }

  private static String checked(String when, LocalDate seen) {
    String written = when.strip();
    if (!WHEN.matcher(written).matches()
        || written.compareTo(seen.toString().substring(0, written.length())) > 0) {
      throw new ArchiveException(
          "“"
              + written
              + "” can't be when it happened; give a year, month or day up to "
              + seen
              + ", such as 2024-05.");
    }
    return written;
  }

  /** What was noted of a marker, the newest observation first. */
  public List<ConditionNote> ofMarker(MarkerId marker) {
    return notes("WHERE marker_id = ?", marker.toString());
  }

  /** What was seen of a marker on the newest day. */
  public Optional<ConditionNote> newest(MarkerId marker) {
    return ConditionNote.byDay(ofMarker(marker)).stream().findFirst();
  }

  /** What was seen of every marker that has a note on its newest day. */
  public Map<MarkerId, ConditionNote> newest() {
    Map<MarkerId, ConditionNote> newest = new LinkedHashMap<>();
    all().forEach((marker, notes) -> newest.put(marker, ConditionNote.byDay(notes).get(0)));
    return newest;
  }

  /** All notes, those of a marker the newest first. */
  public Map<MarkerId, List<ConditionNote>> all() {
    Map<MarkerId, List<ConditionNote>> all = new LinkedHashMap<>();
    notes("")
        .forEach(note -> all.computeIfAbsent(note.marker(), id -> new ArrayList<>()).add(note));
    return all;
  }

  private List<ConditionNote> notes(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT marker_id, seen_on, words, place, remark, reader, at, decision_id FROM"
                            + " (SELECT coalesce(n.now, c.marker_id) AS marker_id, c.seen_on,"
                            + " c.words, c.place, c.remark, c.reader, c.at, c.decision_id, c.counter FROM"
                            + " condition_note c LEFT JOIN marker_now n ON n.id = c.marker_id) "
                            + where
                            + " ORDER BY seen_on DESC, counter DESC",
                        values)
                    .map(ROW)
                    .list());
  }
}
