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
public record Found(
    List<Hit> hits, int answering, double elsewhere, Map<String, List<String>> widened) {
  public Found {
    hits = List.copyOf(hits);
    widened = java.util.Collections.unmodifiableMap(new TreeMap<>(widened));
  }
}
