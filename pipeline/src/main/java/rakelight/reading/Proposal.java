package rakelight.reading;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.finding.Polygon;

/**
 * What a machine takes a face to say. Never a fact: only people confirm.
 *
 * @param key of the derivation: everything the proposal follows from
 * @param face empty for a photograph that hasn't been put on a face
 * @param photographs all that were read for it, the one with most letters seen first
 * @param outlines of the inscribed face on each of the photographs, four corners in its upright
 *     full-size pixels
 * @param lines in reading order; none where nothing could be read
 * @param models the line finder, then the recognisers
 * @param at when it was made
 */
public record Proposal(
    ProposalId id,
    DerivationKey key,
    Optional<FaceId> face,
    List<PhotographId> photographs,
    List<Polygon> outlines,
    List<ProposedLine> lines,
    List<ModelUsed> models,
    Instant at) {
  public Proposal {
    photographs = List.copyOf(photographs);
    outlines = List.copyOf(outlines);
    lines = List.copyOf(lines);
    models = List.copyOf(models);
  }
}
