package rakelight.search;

import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import rakelight.index.Entry;
import rakelight.index.Word;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;

/** By what the hits of a search can be told apart. */
public final class Facets {
  private Facets() {}

  /**
   * The decades that a marker tells of, by their first year; those of deaths where it tells of any.
   * A year with a lost figure belongs to each decade it may lie in, unless that is more than one
   * century.
   */
  public static Set<Integer> decades(Entry entry) {
    boolean died = entry.years().stream().anyMatch(span -> span.event().equals("died"));
    return entry.years().stream()
        .filter(span -> CarvedYears.isYear(span) && !span.event().equals(EntryMaking.MADE))
        .filter(span -> !died || span.event().equals("died"))
        .filter(span -> span.to() - span.from() < 100)
        .flatMap(span -> IntStream.rangeClosed(span.from() / 10, span.to() / 10).boxed())
        .map(decade -> 10 * decade)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * Surnames of those named on a marker, as they are cut or lent to them, with a capital; those
   * with a lost or open letter are left out, since nobody knows which they are.
   */
  public static Set<String> surnames(Entry entry) {
    Set<String> surnames = new TreeSet<>();
    for (Entry.Name name : entry.names()) {
      name.lent().forEach(word -> add(surnames, word));
      Word last = entry.words().get(name.last());
      boolean given = GivenNames.known().isKnown(NameForms.fold(last.shown()));
      if (name.first() < name.last() && (name.lent().isEmpty() || !given)) {
        add(surnames, last);
      }
    }
    return surnames;
  }

  private static void add(Set<String> surnames, Word word) {
    Map<String, Double> readings = word.readings();
    String folded = NameForms.fold(word.shown());
    if (readings.keySet().equals(Set.of(folded)) && folded.codePointCount(0, folded.length()) > 1) {
      surnames.add(folded.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + folded.substring(1));
    }
  }
}
