package rakelight.survey;

import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Projection;
import rakelight.marker.EmblemNote;

/**
 * What people say of carvings that look alike, each named by the decision that noted it as an
 * emblem. An undo takes a saying back.
 */
public final class AlikeStore {
  /** Subject: the marker of the first carving. */
  private static final SaidOfTwoStore.Table<DecisionId, SaidOfCarvings> TABLE =
      new SaidOfTwoStore.Table<>(
          "carving.alike", "carving_alike", "marker_id", DecisionId::of, SaidOfCarvings::labelled);

  private final SaidOfTwoStore<DecisionId, SaidOfCarvings> said;

  public AlikeStore(Archive archive) {
    this.said = new SaidOfTwoStore<>(archive, TABLE);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new SaidOfTwoProjection(TABLE);
  }

  /**
   * Notes what somebody says of two.
   *
   * @throws ArchiveException if both are one
   */
  public void say(EmblemNote one, EmblemNote other, SaidOfCarvings word, String reader) {
    if (one.decision().equals(other.decision())) {
      throw new ArchiveException("Both are one carving; name two.");
    }
    said.say(
        one.marker().value(),
        one.decision(),
        other.decision(),
        word.label(),
        reader,
        List.of(one.decision(), other.decision()));
  }

  /** All that was said, in order. */
  public List<SaidOfTwo<DecisionId, SaidOfCarvings>> all() {
    return said.all();
  }

  /** The newest saying of two carvings. */
  public Optional<SaidOfTwo<DecisionId, SaidOfCarvings>> newest(DecisionId one, DecisionId other) {
    return said.newest(one, other);
  }
}
