package rakelight.index;

import java.util.List;

/**
 * An entry that answers, and why.
 *
 * @param score higher is surer; comparable within one search only
 * @param why one line for each part of the query, in its order
 */
public record Hit(Entry entry, double score, List<String> why) {
  public Hit {
    why = List.copyOf(why);
  }
}
