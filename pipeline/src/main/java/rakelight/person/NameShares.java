package rakelight.person;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;

/**
 * How common names are on a ground. Counts are few, so a table is mixed in that counts as some
 * names more; a name that neither knows has a least share.
 */
final class NameShares {
  /** How many names share a letter at one place, about; a choice, no source. */
  private static final double SHARING_A_LETTER = 0.1;

  private final Map<String, Integer> counts = new HashMap<>();
  private final Map<String, Double> shares = new HashMap<>();
  private final Map<NamePattern, Double> fitting = new HashMap<>();
  private final double held;
  private final double least;
  private int all;

  /**
   * @param words of the ground, of which the whole ones are counted
   * @param table how common names are elsewhere; may be empty
   * @param held how many names the table counts as
   * @param least the share of a name that the table doesn't know
   */
  NameShares(Collection<NamePattern> words, Map<String, Double> table, double held, double least) {
    this.held = held;
    this.least = least;
    for (NamePattern word : words) {
      if (word.isWhole()) {
        counts.merge(word.letters(), 1, Integer::sum);
        all++;
      }
    }
    table.keySet().forEach(name -> shares.put(name, 0.0));
    counts.keySet().forEach(name -> shares.put(name, 0.0));
    shares.replaceAll(
        (name, none) -> share(counts.getOrDefault(name, 0), table.getOrDefault(name, least)));
  }

  /** One of those counted is the bearer himself; how many others bear it is asked. */
  private double share(int count, double elsewhere) {
    return (Math.max(0, count - 1) + held * elsewhere) / (all + held);
  }

  /** The share of people whose name can be behind these letters. */
  double of(NamePattern word) {
    if (word.isWhole()) {
      return shares.getOrDefault(word.letters(), share(0, least));
    }
    return fitting.computeIfAbsent(
        word,
        pattern -> {
          long known = pattern.letters().codePoints().filter(Character::isLetter).count();
          double sum = share(0, Math.max(least, Math.pow(SHARING_A_LETTER, known)));
          for (Map.Entry<String, Double> name : shares.entrySet()) {
            if (pattern.fits(NamePattern.of(name.getKey()))) {
              sum += name.getValue();
            }
          }
          return Math.min(1, sum);
        });
  }

  /** The whole names counted on the ground that can be behind these letters. */
  Collection<String> namesBehind(NamePattern word) {
    return counts.keySet().stream()
        .filter(name -> word.fits(NamePattern.of(name)))
        .sorted()
        .toList();
  }
}
