package rakelight.search;

import java.util.HashMap;
import java.util.Map;

/**
 * Letters that worn cutting makes look alike. Where a reader says that a letter could be another
 * and doesn't say which, these are looked for too (common practice, no source).
 */
final class Confusables {
  private static final String[] GROUPS = {
    "CG", "CO", "OQ", "OD", "GO", "0O", "06", "09", "08", "IL", "I1", "L1", "17", "14", "38", "56",
    "58", "68", "23", "27", "89", "49", "EF", "EB", "PR", "BR", "PB", "UV", "UN", "VY", "MN", "HN",
    "HM", "KR", "TI", "TF", "AR", "SB", "S5", "S8", "Z2", "B8", "ce", "oe", "co", "ao", "il", "li",
    "l1", "tf", "un", "nm", "rn", "hb", "hk", "gq", "gy", "vy", "fs", "sf"
  };
  private static final Map<String, Map<String, Boolean>> ALIKE = alike();

  private Confusables() {}

  /** The letters that this one may be taken for, itself not included. */
  static Iterable<String> of(String letter) {
    return ALIKE.getOrDefault(letter, Map.of()).keySet();
  }

  static int count(String letter) {
    return ALIKE.getOrDefault(letter, Map.of()).size();
  }

  private static Map<String, Map<String, Boolean>> alike() {
    Map<String, Map<String, Boolean>> alike = new HashMap<>();
    for (String group : GROUPS) {
      String one = group.substring(0, 1);
      String other = group.substring(1);
      alike.computeIfAbsent(one, key -> new java.util.TreeMap<>()).put(other, true);
      alike.computeIfAbsent(other, key -> new java.util.TreeMap<>()).put(one, true);
    }
    return alike;
  }
}
