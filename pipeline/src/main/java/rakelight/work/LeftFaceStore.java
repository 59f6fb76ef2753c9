package rakelight.work;

import java.time.Instant;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.photo.PhotoStore;

/** Faces put aside, for another reader or for a visit in other light. */
public final class LeftFaceStore {
  private static final String LEFT = "face.left";

  private final Archive archive;

  LeftFaceStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new FacesStore();
  }

  /** Version 1. */
  private record Left(String why, String note) {}

  /** Every face that is put aside, the one put aside first coming first. */
  Map<FaceId, LeftFace> all() {
    return archive
        .ledger()
        .read(
            handle -> {
              Map<FaceId, LeftFace> all = new LinkedHashMap<>();
              handle
                  .createQuery(
                      "SELECT face_id, reason, note, reader, at, decision_id FROM face_left"
                          + " ORDER BY at, face_id")
                  .map(
                      (row, context) ->
                          new LeftFace(
                              FaceId.of(row.getString("face_id")),
                              why(row.getString("reason")),
                              row.getString("note"),
                              row.getString("reader"),
                              Instant.parse(row.getString("at")),
                              DecisionId.of(row.getString("decision_id"))))
                  .list()
                  .forEach(left -> all.put(left.face(), left));
              return all;
            });
  }

  Optional<LeftFace> find(FaceId face) {
    return Optional.ofNullable(all().get(face));
  }

  /** Puts a face aside; a second time changes why. */
  void leave(FaceId face, LeftFace.Why why, String note, String reader) {
    archive
        .journal()
        .append(
            NewDecision.of(reader, LEFT, 1, face.value(), new Left(why.label(), note))
                .restingOn(List.of(new PhotoStore(archive).madeBy(face))));
  }

  /** Takes every decision back by which the face is put aside. */
  void comeBack(FaceId face, String reader) {
    List<Decision> left =
        archive.journal().standing(face.value()).stream()
            .filter(decision -> decision.kind().equals(LEFT))
            .toList();
    archive
        .ledger()
        .write(
            handle -> {
              left.forEach(decision -> archive.journal().undo(decision.id(), reader));
              return left;
            });
  }

  private static LeftFace.Why why(String label) {
    return Arrays.stream(LeftFace.Why.values())
        .filter(why -> why.label().equals(label))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no reason to leave a face: " + label));
  }

  /** Writes the table of faces put aside. */
  private static final class FacesStore implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(LEFT);
    }

    @Override
    public Set<String> tables() {
      return Set.of("face_left");
    }

    @Override
    public Map<String, String> settings() {
      return Map.of(LEFT, "why the face is left");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      handle.execute("DELETE FROM face_left WHERE face_id = ?", subject.toString());
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      Left left = decision.payload(Left.class);
      handle.execute(
          "INSERT OR REPLACE INTO face_left (face_id, reason, note, reader, at, decision_id)"
              + " VALUES (?, ?, ?, ?, ?, ?)",
          decision.subject().toString(),
          left.why(),
          left.note(),
          decision.reader(),
          decision.at().toString(),
          decision.id().toString());
    }
  }
}
