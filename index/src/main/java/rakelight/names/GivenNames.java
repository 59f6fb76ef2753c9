package rakelight.names;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Given names that may mean the same person: nicknames and the carvers' abbreviations. Relations
 * are many to many (Nell is Ellen, Helen or Eleanor), so they serve to look further, never to
 * merge.
 */
public final class GivenNames {
  private static final GivenNames KNOWN =
      new GivenNames(
          "nicknames.tsv", "abbreviations.tsv", "given.tsv", "women.tsv", "given-shares.tsv");

  private static final double SHARES_ARE_OF = 100_000;

  private final Map<String, Set<String>> nicknames;
  private final Map<String, Set<String>> abbreviations;
  private final Map<String, Set<String>> latin = Pairs.of("latin.tsv");

  private final Set<String> others = new HashSet<>();
  private final Set<String> women = new HashSet<>();
  private final Set<String> either = new HashSet<>();
  private final Map<String, Double> shares = new HashMap<>();

  private GivenNames(
      String nicknameTable,
      String abbreviationTable,
      String otherTable,
      String womenTable,
      String shareTable) {
    for (String line : Pairs.lines(shareTable)) {
      String[] cells = line.split("\t", -1);
      shares.put(cells[0], Integer.parseInt(cells[1]) / SHARES_ARE_OF);
    }
    nicknames = Pairs.of(nicknameTable);
    abbreviations = Pairs.of(abbreviationTable);
    for (String line : Pairs.lines(otherTable)) {
      for (String name : line.split(",", -1)) {
        others.add(NameForms.fold(name));
      }
    }
    for (String line : Pairs.lines(womenTable)) {
      for (String name : line.split(",", -1)) {
        (line.startsWith(":") ? either : women).add(NameForms.fold(name));
      }
    }
  }

  public static GivenNames known() {
    return KNOWN;
  }

  /**
   * The folded names that stand to this folded name as nickname or full name, itself not included:
   * one step, either way.
   */
  public Set<String> nicknamesOf(String folded) {
    return nicknames.getOrDefault(folded, Set.of());
  }

  /** The folded names that this folded name abbreviates, or that abbreviate it. */
  public Set<String> abbreviationsOf(String folded) {
    return abbreviations.getOrDefault(folded, Set.of());
  }

  /** The folded Latin forms of this folded English name, or the English names of a Latin form. */
  public Set<String> latinOf(String folded) {
    return latin.getOrDefault(folded, Set.of());
  }

  /**
   * The folded names that two steps from name to name reach, such as Bill, William, Wm or Kit,
   * Catherine, Kittie; not those that one step reaches, nor the name itself.
   */
  public Set<String> inTwoSteps(String folded) {
    Set<String> near = new TreeSet<>(nicknamesOf(folded));
    near.addAll(abbreviationsOf(folded));
    near.addAll(latinOf(folded));
    Set<String> far = new TreeSet<>();
    for (String one : near) {
      far.addAll(nicknamesOf(one));
      far.addAll(abbreviationsOf(one));
      far.addAll(latinOf(one));
    }
    far.removeAll(near);
    far.remove(folded);
    return far;
  }

  /** Whether this folded word is known as a given name, in full or shortened. */
  public boolean isKnown(String folded) {
    return others.contains(folded)
        || nicknames.containsKey(folded)
        || abbreviations.containsKey(folded);
  }

  /** Whether a known given name was borne by women and hardly by men. */
  public boolean isWomans(String folded) {
    return women.contains(folded) && !either.contains(folded);
  }

  /** Whether a known given name was borne by men and hardly by women. */
  public boolean isMans(String folded) {
    return isKnown(folded) && !women.contains(folded) && !either.contains(folded);
  }

  /**
   * How common given names are, by folded name: the share of people who bear it, men and women
   * counted alike. Born in the United States from 1880 to 1920, as its Social Security
   * Administration counts them; other places and times differ, so it is for want of a better count.
   */
  public Map<String, Double> shares() {
    return Map.copyOf(shares);
  }

  /** All folded given names, in full or shortened. */
  public Set<String> all() {
    Set<String> all = new HashSet<>(others);
    all.addAll(nicknames.keySet());
    all.addAll(abbreviations.keySet());
    return all;
  }
}
