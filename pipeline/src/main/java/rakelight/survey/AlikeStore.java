package rakelight.survey;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.marker.EmblemNote;

/** What people say of carvings that look alike. An undo takes a saying back. */
public final class AlikeStore {
  /** Subject: the marker of the first carving. */
  static final String SAID = "carving.alike";

  private final Archive archive;

  /** Version 1 of the payload. */
  record Said(DecisionId one, DecisionId other, String said) {}

  public AlikeStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new AlikeProjection();
  }

  /**
   * Notes what somebody says of two.
   *
   * @throws ArchiveException if both are one
   */
  public void say(EmblemNote one, EmblemNote other, SaidOfCarvings.Alike said, String reader) {
    if (one.decision().equals(other.decision())) {
      throw new ArchiveException("Both are one carving; name two.");
    }
    archive
        .journal()
        .append(
            NewDecision.of(
                    reader,
                    SAID,
                    1,
                    one.marker().value(),
                    new Said(one.decision(), other.decision(), said.label()))
                .restingOn(List.of(one.decision(), other.decision())));
  }

  /** All that was said, in order. */
  public List<SaidOfCarvings> all() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .select(
                        "SELECT decision_id, one, other, said, reader, at FROM carving_alike ORDER"
                            + " BY counter")
                    .map(
                        (row, context) ->
                            new SaidOfCarvings(
                                DecisionId.of(row.getString("decision_id")),
                                DecisionId.of(row.getString("one")),
                                DecisionId.of(row.getString("other")),
                                SaidOfCarvings.Alike.labelled(row.getString("said")).orElseThrow(),
                                row.getString("reader"),
                                Instant.parse(row.getString("at"))))
                    .list());
  }

  /** The newest saying of two carvings. */
  public Optional<SaidOfCarvings> newest(DecisionId one, DecisionId other) {
    return all().stream().filter(said -> said.isOf(one, other)).reduce((a, b) -> b);
  }
}
