package rakelight.person;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.inscription.Reading;
import rakelight.marker.MarkerStore;
import rakelight.person.Opinion.Kind;

/** What people decided about persons: who is one with whom, who is dead, who has no name. */
public final class PersonStore {
  private static final RowMapper<Opinion> ROW =
      (row, context) ->
          new Opinion(
              kind(row.getString("kind")),
              mention(row, "one"),
              mention(row, "other"),
              Optional.ofNullable(row.getString("marker_now")).map(MarkerId::of),
              row.getString("note"),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;
  private final Evidence evidence;

  /** Version 1 of the payload of all its kinds. */
  record Said(
      Optional<MentionId> one, Optional<MentionId> other, Optional<MarkerId> marker, String note) {}

  public PersonStore(Archive archive) {
    this.archive = archive;
    this.evidence = new Evidence(archive);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new PersonProjection();
  }

  /** Every opinion that stands, the oldest first. */
  public List<Opinion> opinions() {
    return opinions("");
  }

  /** The opinions about who is named on these faces or told of by the form of a marker. */
  List<Opinion> about(Set<FaceId> faces, MarkerId marker) {
    String these = faces.stream().map(face -> "'" + face + "'").collect(Collectors.joining(", "));
    return opinions(
        "WHERE one_face IN ("
            + these
            + ") OR other_face IN ("
            + these
            + ") OR marker_now = '"
            + marker
            + "'");
  }

  private List<Opinion> opinions(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT decision_id, kind, one_face, one_sign, one_place, other_face,"
                            + " other_sign, other_place, marker_now, note, reader, at FROM (SELECT p.*,"
                            + " coalesce(n.now, p.marker) AS marker_now FROM person_opinion p LEFT"
                            + " JOIN marker_now n ON n.id = p.marker) "
                            + where
                            + " ORDER BY counter",
                        values)
                    .map(ROW)
                    .list());
  }

  /**
   * Confirms that two mentions are of one person; what stands already is given back.
   *
   * @throws ArchiveException if they are one mention, somebody said that they are two persons, or a
   *     face of theirs has been read anew since
   */
  public Opinion same(Mention one, Mention other, String note, String reader) {
    return judge(Kind.SAME, Kind.DIFFERENT, one, other, note, reader);
  }

  /**
   * Says that two mentions are of two persons, so that they aren't proposed again.
   *
   * @throws ArchiveException if they are one mention, somebody said that they are one person, or a
   *     face of theirs has been read anew since
   */
  public Opinion different(Mention one, Mention other, String note, String reader) {
    return judge(Kind.DIFFERENT, Kind.SAME, one, other, note, reader);
  }

  /**
   * Records evidence that somebody is dead.
   *
   * @param note what tells it, such as a register
   * @throws ArchiveException if the note is blank, or the face has been read anew since
   */
  public Opinion died(Mention mention, String note, String reader) {
    if (note.isBlank()) {
      throw new ArchiveException("Say what tells of the death, such as a register (--note).");
    }
    return archive
        .ledger()
        .write(
            handle -> {
              evidence.requireCurrent(mention);
              return append(
                  Kind.DIED,
                  new Said(
                      Optional.of(mention.id()), Optional.empty(), Optional.empty(), note.strip()),
                  rests(mention),
                  reader);
            });
  }

  /**
   * Records somebody whom the form of a marker tells of and no letters name.
   *
   * @param number of the marker
   * @throws ArchiveException if there is no such marker, or the note is blank
   */
  public Opinion unnamed(String number, String note, String reader) {
    if (note.isBlank()) {
      throw new ArchiveException(
          "Say what tells of the person, such as a double stone with one side bare (--note).");
    }
    MarkerStore markers = new MarkerStore(archive);
    MarkerId marker = markers.named(number).id();
    return append(
        Kind.UNNAMED,
        new Said(Optional.empty(), Optional.empty(), Optional.of(marker), note.strip()),
        List.of(markers.madeBy(marker)),
        reader);
  }

  private Opinion judge(
      Kind kind, Kind against, Mention one, Mention other, String note, String reader) {
    if (one.id().equals(other.id())) {
      throw new ArchiveException(one.label() + " is named twice. Give two mentions.");
    }
    return archive
        .ledger()
        .write(
            handle -> {
              evidence.requireCurrent(one);
              evidence.requireCurrent(other);
              Set<MentionId> both = Set.of(one.id(), other.id());
              for (Opinion opinion :
                  opinions(
                      "WHERE one_face IN (?, ?)",
                      one.id().face().toString(),
                      other.id().face().toString())) {
                boolean aboutBoth = both.equals(pair(opinion));
                if (aboutBoth && opinion.kind() == against) {
                  throw new ArchiveException(
                      opinion.reader()
                          + " has said the opposite of "
                          + one.label()
                          + " and "
                          + other.label()
                          + ". Undo that first: undo ARCHIVE "
                          + opinion.decision());
                }
                if (aboutBoth && opinion.kind() == kind) {
                  return opinion;
                }
              }
              List<DecisionId> rests = new ArrayList<>(rests(one));
              rests.addAll(rests(other));
              return append(
                  kind,
                  new Said(
                      Optional.of(one.id()),
                      Optional.of(other.id()),
                      Optional.empty(),
                      note.strip()),
                  rests.stream().distinct().toList(),
                  reader);
            });
  }

  /** The two mentions of an opinion that is about two. */
  static Set<MentionId> pair(Opinion opinion) {
    return opinion.one().isPresent()
            && opinion.other().isPresent()
            && !opinion.one().equals(opinion.other())
        ? Set.of(opinion.one().get(), opinion.other().get())
        : Set.of();
  }

  private static List<DecisionId> rests(Mention mention) {
    return mention.source().reading().map(Reading::decision).stream().toList();
  }

  private Opinion append(Kind kind, Said said, List<DecisionId> rests, String reader) {
    UUID subject =
        said.one()
            .map(mention -> mention.face().value())
            .or(() -> said.marker().map(MarkerId::value))
            .orElseThrow();
    return archive
        .ledger()
        .write(
            handle -> {
              DecisionId decision =
                  archive
                      .journal()
                      .append(
                          NewDecision.of(reader, kind.decisionKind(), 1, subject, said)
                              .restingOn(rests))
                      .id();
              return opinions("WHERE decision_id = ?", decision.toString()).get(0);
            });
  }

  private static Kind kind(String decisionKind) {
    return Arrays.stream(Kind.values())
        .filter(kind -> kind.decisionKind().equals(decisionKind))
        .findFirst()
        .orElseThrow(() -> new ArchiveException("No such decision about persons: " + decisionKind));
  }

  private static Optional<MentionId> mention(ResultSet row, String which) throws SQLException {
    String face = row.getString(which + "_face");
    return face == null
        ? Optional.empty()
        : Optional.of(
            new MentionId(
                FaceId.of(face), row.getInt(which + "_sign"), row.getInt(which + "_place")));
  }
}
