package rakelight.work;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.Conclusions;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.reading.ProposalStore;

/**
 * The stakes of every proposal that was ever the newest of a face: worked out once, which takes
 * some milliseconds, and kept beside the ledger, so that a desk that opens needn't read the
 * proposals of the whole ground. Not thread-safe.
 */
final class StakesKept {
  /**
   * Version of what makes them: another wherever {@link Stakes#of} would give something else for
   * the same proposal, as when the words of inscriptions change.
   */
  private static final Conclusions.Kind KIND = new Conclusions.Kind("stakes", 2);

  private final Archive archive;
  private final ProposalStore proposals;
  private final Map<String, Stakes> known = new HashMap<>();
  private final Map<String, String> made = new HashMap<>();
  private boolean read;

  StakesKept(Archive archive) {
    this.archive = archive;
    this.proposals = new ProposalStore(archive);
  }

  /**
   * What a face's newest proposal leaves open.
   *
   * @param key the proposal's
   */
  Stakes of(FaceId face, DerivationKey key) {
    if (!read) {
      archive
          .conclusions()
          .all(KIND)
          .forEach((of, json) -> known.put(of, Json.read(json, Stakes.class)));
      read = true;
    }
    Stakes there = known.get(key.toString());
    if (there != null) {
      return there;
    }
    Optional<Stakes> stakes = proposals.latest(face).map(Stakes::of);
    stakes.ifPresent(
        found -> {
          known.put(key.toString(), found);
          made.put(key.toString(), Json.text(found));
        });
    return stakes.orElse(Stakes.NONE);
  }

  /** Keeps what has been worked out since the last time. */
  void keep() {
    archive.conclusions().keep(KIND, made);
    made.clear();
  }
}
