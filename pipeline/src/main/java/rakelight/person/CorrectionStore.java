package rakelight.person;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.inscription.Reading;

/**
 * What people said of how words are to be taken. Who may say what has its rules in {@code work};
 * nobody else writes here.
 */
public final class CorrectionStore {
  /** Subject: the face. Rests on the reading whose words are meant. */
  static final String CORRECTED = "parse.corrected";

  private static final RowMapper<Correction> ROW =
      (row, context) ->
          new Correction(
              FaceId.of(row.getString("face_id")),
              Json.read(row.getString("said"), Correction.Said.class),
              row.getString("reader"),
              Instant.parse(row.getString("at")),
              DecisionId.of(row.getString("decision_id")));

  private final Archive archive;

  public CorrectionStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new CorrectionProjection();
  }

  /** All that stand, face by face, the oldest first, whether they still fit or not. */
  public Map<FaceId, List<Correction>> all() {
    Map<FaceId, List<Correction>> all = new LinkedHashMap<>();
    corrections("ORDER BY counter")
        .forEach(one -> all.computeIfAbsent(one.face(), face -> new ArrayList<>()).add(one));
    return all;
  }

  /** Those of one face that stand, the oldest first, whether they still fit or not. */
  public List<Correction> of(FaceId face) {
    return corrections("WHERE face_id = ? ORDER BY counter", face.toString());
  }

  /**
   * Keeps what somebody said.
   *
   * @param reading whose words are meant
   */
  public Correction keep(Reading reading, Correction.Said said, String reader) {
    return archive
        .ledger()
        .write(
            handle -> {
              DecisionId decision =
                  archive
                      .journal()
                      .append(
                          NewDecision.of(reader, CORRECTED, 1, reading.face().value(), said)
                              .restingOn(List.of(reading.decision())))
                      .id();
              return corrections("WHERE decision_id = ?", decision.toString()).get(0);
            });
  }

  private List<Correction> corrections(String where, Object... values) {
    return archive
        .ledger()
        .read(
            handle ->
                handle.select("SELECT * FROM parse_correction " + where, values).map(ROW).list());
  }

  /** Writes the table. */
  private static final class CorrectionProjection implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(CORRECTED);
    }

    @Override
    public Set<String> tables() {
      return Set.of("parse_correction");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      handle.execute("DELETE FROM parse_correction WHERE face_id = ?", subject.toString());
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      decision.requireVersion(1);
      handle.execute(
          "INSERT INTO parse_correction (decision_id, face_id, said, reader, at, counter)"
              + " VALUES (?, ?, ?, ?, ?, ?)",
          decision.id().toString(),
          decision.subject().toString(),
          Json.text(decision.payload(Correction.Said.class)),
          decision.reader(),
          decision.at().toString(),
          decision.counter());
    }
  }
}
