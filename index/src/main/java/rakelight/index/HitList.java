package rakelight.index;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a search found.
 *
 * @param hits the likeliest first
 * @param answering how many entries answer at all
 * @param elsewhere the probability that whoever is asked for is none of them
 * @param widened what the words were widened to, by word asked
 */
public record HitList(
    List<Hit> hits, int answering, double elsewhere, Map<String, List<String>> widened) {
  /** Hits below this share of the likeliest are faint. A choice. */
  private static final double FAINT = 0.002;

  public HitList {
    hits = List.copyOf(hits);
    widened = java.util.Collections.unmodifiableMap(new TreeMap<>(widened));
  }

  /** Whether a hit is so far below the likeliest that a line for all such will do. */
  public boolean isFaint(Hit hit) {
    return hit.probability() < FAINT * hits.get(0).probability();
  }
}
