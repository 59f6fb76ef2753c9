package rakelight.inscription;

import java.util.List;
import java.util.Optional;
import rakelight.archive.ProposalId;

/**
 * A reading that its reader hasn't signed: kept after every step, so that nothing is lost.
 *
 * @param lines from the top
 * @param proposal the one the lines began from
 */
public record Draft(List<Line> lines, Optional<ProposalId> proposal) {

  /**
   * One line.
   *
   * @param text in Leiden signs
   * @param settled whether the reader has decided about it
   */
  public record Line(String text, boolean settled) {}

  public Draft {
    lines = List.copyOf(lines);
  }
}
