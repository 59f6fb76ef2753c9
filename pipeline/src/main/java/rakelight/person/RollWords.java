package rakelight.person;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** When words of stones mean one thing though they are spelt otherwise. */
enum RollWords {
  UNIT,
  RANK,
  PLAIN;

  /** Ranks as stones shorten them; common practice, no source. */
  private static final Map<String, String> RANKS =
      Map.ofEntries(
          Map.entry("pvt", "private"),
          Map.entry("pte", "private"),
          Map.entry("priv", "private"),
          Map.entry("corp", "corporal"),
          Map.entry("corpl", "corporal"),
          Map.entry("cpl", "corporal"),
          Map.entry("sgt", "sergeant"),
          Map.entry("sergt", "sergeant"),
          Map.entry("serg", "sergeant"),
          Map.entry("serjt", "sergeant"),
          Map.entry("sjt", "sergeant"),
          Map.entry("serjeant", "sergeant"),
          Map.entry("lt", "lieutenant"),
          Map.entry("lieut", "lieutenant"),
          Map.entry("leut", "lieutenant"),
          Map.entry("capt", "captain"),
          Map.entry("capn", "captain"),
          Map.entry("maj", "major"),
          Map.entry("col", "colonel"),
          Map.entry("coll", "colonel"),
          Map.entry("gen", "general"),
          Map.entry("genl", "general"),
          Map.entry("brig", "brigadier"),
          Map.entry("ens", "ensign"),
          Map.entry("adjt", "adjutant"),
          Map.entry("surg", "surgeon"),
          Map.entry("qm", "quartermaster"),
          Map.entry("comr", "commander"),
          Map.entry("cmdr", "commander"),
          Map.entry("com", "commander"),
          Map.entry("adml", "admiral"),
          Map.entry("mid", "midshipman"),
          Map.entry("bdr", "bombardier"),
          Map.entry("bombr", "bombardier"),
          Map.entry("gnr", "gunner"),
          Map.entry("dvr", "driver"),
          Map.entry("tpr", "trooper"),
          Map.entry("rfn", "rifleman"),
          Map.entry("drmr", "drummer"),
          Map.entry("mus", "musician"),
          Map.entry("musn", "musician"),
          Map.entry("2nd", "second"),
          Map.entry("2d", "second"),
          Map.entry("1st", "first"),
          Map.entry("colour", "color"));

  /** The same for whatever means the same. */
  static String key(RollWords kind, String carved) {
    return switch (kind) {
      case UNIT -> {
        UnitName unit = UnitName.of(carved);
        yield unit.company() + "|" + unit.regiment();
      }
      case RANK -> plain(carved, RANKS);
      case PLAIN -> plain(carved, Map.of());
    };
  }

  private static String plain(String carved, Map<String, String> whole) {
    return Arrays.stream(
            carved.toLowerCase(Locale.ROOT).replace('’', '\'').split("[^\\p{L}\\p{N}?…']+", -1))
        .filter(word -> !word.isEmpty() && !word.equals("the") && !word.equals("a"))
        .map(word -> whole.getOrDefault(word, word))
        .collect(Collectors.joining(" "));
  }
}
