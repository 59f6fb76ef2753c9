package rakelight.marker;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;

/** Emblems seen on markers. They are added to, never changed; an undo takes one back. */
public final class EmblemStore {
  /** Subject: the marker. */
  static final String SEEN = "emblem.seen";

  private static final int LONGEST_WORDS = 1000;

  /** What may be noted of an emblem's details, and what to look at. What they mean isn't agreed. */
  public static final Map<String, String> DETAILS =
      Map.of(
          "slack-hand", "of clasped hands, which is slack: left, right, neither",
          "lace-cuff", "of clasped hands, which cuff is lace: left, right, both, neither",
          "stretched-finger", "a finger that is stretched: which, or none",
          "wings", "of a skull, face or hourglass: with or without",
          "flame", "of a torch: up, down, out",
          "letters", "letters cut on or beside it");

  private final Archive archive;

  /** Version 1 of the payload. */
  record Seen(
      String face,
      String name,
      boolean known,
      Optional<EmblemNote.Outline> outline,
      Map<String, String> details,
      String remark) {}

  private static final RowMapper<EmblemNote> ROW =
      (row, context) -> {
        Seen seen = Json.read(row.getString("seen"), Seen.class);
        return new EmblemNote(
            DecisionId.of(row.getString("decision_id")),
            MarkerId.of(row.getString("marker_id")),
            seen.face(),
            seen.name(),
            seen.known(),
            seen.outline(),
            seen.details(),
            seen.remark(),
            row.getString("reader"),
            Instant.parse(row.getString("at")));
      };

  public EmblemStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new EmblemProjection();
  }

  /**
   * Notes an emblem.
   *
   * @param name of the glossary; any other words describe one it doesn't know
   * @param details by {@link #DETAILS}
   * @throws ArchiveException if there are no words, or a detail isn't one of those
   */
  public void note(
      MarkerId marker,
      String face,
      String name,
      Optional<EmblemNote.Outline> outline,
      Map<String, String> details,
      String remark,
      String reader) {
    String words = name.strip();
    if (words.isEmpty() || words.length() > LONGEST_WORDS || remark.length() > LONGEST_WORDS) {
      throw new ArchiveException(
          "Name the emblem or say what you see, in " + LONGEST_WORDS + " signs at most.");
    }
    details.keySet().stream()
        .filter(detail -> !DETAILS.containsKey(detail))
        .findFirst()
        .ifPresent(
            detail -> {
              throw new ArchiveException(
                  "No detail is called "
                      + detail
                      + "; there are "
                      + String.join(", ", new TreeMap<>(DETAILS).keySet())
                      + ".");
            });
    Optional<GlossaryEmblem> known = GlossaryEmblem.named(words);
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    SEEN,
                    1,
                    marker.value(),
                    new Seen(
                        face,
                        known.map(GlossaryEmblem::name).orElse(words),
                        known.isPresent(),
                        outline,
                        details,
                        remark.strip()))
                .restingOn(List.of(new MarkerStore(archive).madeBy(marker))));
  }

  /** What was seen on a marker, in order of the notes. */
  public List<EmblemNote> ofMarker(MarkerId marker) {
    return select("WHERE marker_id = ?", marker.toString());
  }

  /** All that were seen, in order of the notes. */
  public List<EmblemNote> all() {
    return select("");
  }

  private List<EmblemNote> select(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT marker_id, seen, reader, at, decision_id FROM (SELECT"
                            + " coalesce(n.now, e.marker_id) AS marker_id, e.seen, e.reader, e.at,"
                            + " e.decision_id, e.counter FROM emblem e LEFT JOIN marker_now n ON"
                            + " n.id = e.marker_id) "
                            + where
                            + " ORDER BY counter",
                        values)
                    .map(ROW)
                    .list());
  }
}
