package rakelight.reading;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;

/**
 * What a machine takes a face to say. Never a fact: only people confirm. A reader may draw lines on
 * it, which a machine then reads: that makes another proposal, equal to this one but for them.
 *
 * @param key of the derivation: everything the proposal follows from
 * @param face empty for a photograph that hasn't been put on a face
 * @param views the photographs that were read for it; the first, on which most letters were seen,
 *     leads
 * @param lines in reading order; none where nothing could be read
 * @param models the line finder, then the recognisers
 * @param at when it was made
 * @param mends the proposal on which a reader drew a line to make this one
 * @param unsure where a line may be besides, in reading order, for whoever reads the face; none in
 *     proposals kept before they were looked for
 */
public record Proposal(
    ProposalId id,
    DerivationKey key,
    Optional<FaceId> face,
    List<FaceView> views,
    List<ProposedLine> lines,
    List<ModelUsed> models,
    Instant at,
    Optional<ProposalId> mends,
    List<UnsureLine> unsure) {
  public Proposal {
    unsure = unsure == null ? List.of() : List.copyOf(unsure); // Kept before they were looked for.
    mends = mends == null ? Optional.empty() : mends; // Kept before lines could be drawn.
    views = List.copyOf(views);
    lines = List.copyOf(lines);
    models = List.copyOf(models);
  }

  /** A proposal that a machine made alone. */
  public Proposal(
      ProposalId id,
      DerivationKey key,
      Optional<FaceId> face,
      List<FaceView> views,
      List<ProposedLine> lines,
      List<ModelUsed> models,
      Instant at) {
    this(id, key, face, views, lines, models, at, Optional.empty(), List.of());
  }

  /**
   * The lines as if one stood wherever one may be: those of the proposal, then those, by their
   * numbers. For showing them only.
   */
  public Proposal asIfThere() {
    List<ProposedLine> all = new ArrayList<>(lines);
    unsure.forEach(one -> all.add(one.line()));
    return new Proposal(id, key, face, views, all, models, at, mends, List.of());
  }

  /** The photographs that were read for it, the leading one first. */
  public List<PhotographId> photographs() {
    return views.stream().map(FaceView::photograph).toList();
  }

  /** Whether any line is worth a look; a face with none needs a visit in other light. */
  public boolean readable() {
    return lines.stream().map(ProposedLine::lattice).anyMatch(LineLattice::readable);
  }

  /** The view of one of its photographs. */
  public FaceView view(PhotographId photograph) {
    return views.stream()
        .filter(view -> view.photograph().equals(photograph))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("Not read for this face: " + photograph));
  }
}
