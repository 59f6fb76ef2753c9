package rakelight.names;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
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

  private final Map<String, Set<String>> nicknames = new HashMap<>();
  private final Map<String, Set<String>> abbreviations = new HashMap<>();

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
    for (String line : lines(shareTable)) {
      String[] cells = line.split("\t", -1);
      shares.put(cells[0], Integer.parseInt(cells[1]) / SHARES_ARE_OF);
    }
    lines(nicknameTable).forEach(line -> pair(line, nicknames));
    lines(abbreviationTable).forEach(line -> pair(line, abbreviations));
    for (String line : lines(otherTable)) {
      for (String name : line.split(",", -1)) {
        others.add(NameForms.fold(name));
      }
    }
    for (String line : lines(womenTable)) {
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

  private static void pair(String line, Map<String, Set<String>> into) {
    String[] cells = line.split("\t", -1);
    String name = NameForms.fold(cells[0]);
    for (String form : cells[1].split(",", -1)) {
      String folded = NameForms.fold(form);
      into.computeIfAbsent(name, key -> new TreeSet<>()).add(folded);
      into.computeIfAbsent(folded, key -> new TreeSet<>()).add(name);
    }
  }

  private static List<String> lines(String table) {
    try (InputStream in = GivenNames.class.getResourceAsStream(table);
        BufferedReader lines =
            new BufferedReader(
                new InputStreamReader(Objects.requireNonNull(in, table), StandardCharsets.UTF_8))) {
      return lines.lines().filter(line -> !line.startsWith("#") && !line.isBlank()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
