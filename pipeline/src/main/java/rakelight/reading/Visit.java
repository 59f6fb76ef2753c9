package rakelight.reading;

import java.util.Comparator;
import java.util.List;

/**
 * A face that needs a visit in other light, and why.
 *
 * @param readable whether anything could be read; faces without come first
 * @param gain what its doubtful letters are worth together (see {@link Doubt}); 0 where nothing was
 *     read
 */
public record Visit(Proposal proposal, boolean readable, double gain) {
  /** A face whose doubts are worth less than this needs no visit: two even doubts in a name. */
  private static final double SMALLEST_GAIN = 2;

  /**
   * The faces to record first: those with nothing readable, then those whose doubts are worth most.
   */
  public static List<Visit> first(List<Proposal> proposals) {
    return proposals.stream()
        .map(
            proposal ->
                new Visit(
                    proposal,
                    proposal.readable(),
                    Doubt.of(proposal.lines()).stream().mapToDouble(Doubt::gain).sum()))
        .filter(visit -> !visit.readable() || visit.gain() >= SMALLEST_GAIN)
        .sorted(
            Comparator.comparing(Visit::readable)
                .thenComparing(Comparator.comparingDouble(Visit::gain).reversed()))
        .toList();
  }
}
