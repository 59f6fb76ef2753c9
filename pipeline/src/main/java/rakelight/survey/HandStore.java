package rakelight.survey;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.photo.PhotoStore;

/** What people say of who lettered two faces. An undo takes a saying back. */
public final class HandStore {
  /** Subject: the first face. */
  static final String SAID = "lettering.hand";

  private final Archive archive;
  private final PhotoStore faces;

  /** Version 1 of the payload. */
  record Said(FaceId one, FaceId other, String said) {}

  public HandStore(Archive archive) {
    this.archive = archive;
    this.faces = new PhotoStore(archive);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new HandProjection();
  }

  /**
   * Notes what somebody says of two.
   *
   * @throws ArchiveException if both are one
   */
  public void say(FaceId one, FaceId other, SaidOfHands.Hands said, String reader) {
    if (one.equals(other)) {
      throw new ArchiveException("Both are one face; name two.");
    }
    archive
        .journal()
        .append(
            NewDecision.of(reader, SAID, 1, one.value(), new Said(one, other, said.label()))
                .restingOn(List.of(faces.madeBy(one), faces.madeBy(other))));
  }

  /** All that was said, in order. */
  public List<SaidOfHands> all() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT decision_id, one, other, said, reader, at FROM lettering_hand ORDER"
                            + " BY counter")
                    .map(
                        (row, context) ->
                            new SaidOfHands(
                                DecisionId.of(row.getString("decision_id")),
                                FaceId.of(row.getString("one")),
                                FaceId.of(row.getString("other")),
                                SaidOfHands.Hands.labelled(row.getString("said")).orElseThrow(),
                                row.getString("reader"),
                                Instant.parse(row.getString("at"))))
                    .list());
  }

  /** The newest saying of two faces. */
  public Optional<SaidOfHands> newest(FaceId one, FaceId other) {
    return all().stream().filter(said -> said.isOf(one, other)).reduce((a, b) -> b);
  }
}
