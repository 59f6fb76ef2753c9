package rakelight.publish.paper;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import rakelight.names.NameForms;

/** Words with the pages they stand on, in the order of an alphabet that heeds no accents. */
final class PageIndex {
  private final Map<String, Set<String>> pages =
      new TreeMap<>(
          Comparator.comparing((String words) -> NameForms.fold(words.replace(',', ' ')))
              .thenComparing(Comparator.naturalOrder()));

  /** Pages come in the order in which they are added, each once. */
  void add(String words, String page) {
    if (!words.isBlank() && !page.isEmpty()) {
      pages.computeIfAbsent(words, w -> new LinkedHashSet<>()).add(page);
    }
  }

  boolean isEmpty() {
    return pages.isEmpty();
  }

  /** A line for each: the words and their pages. */
  List<String> lines() {
    return pages.entrySet().stream()
        .map(entry -> entry.getKey() + "  " + String.join(", ", entry.getValue()))
        .toList();
  }
}
