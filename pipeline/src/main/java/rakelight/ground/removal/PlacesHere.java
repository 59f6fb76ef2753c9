package rakelight.ground.removal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import rakelight.marker.Marker;

/**
 * Markers by row and number, however both are written: {@code R3-14}, {@code 3/014} and row 3,
 * number 14 are one place. The words row, plot, grave and number may stand before figures or not.
 */
final class PlacesHere {
  private static final Pattern PARTS = Pattern.compile("\\p{L}+|[0-9]+");
  private static final Set<String> WORDS = Set.of("row", "r", "plot", "grave", "no", "number");

  private final Map<List<String>, Set<Marker>> exact = new HashMap<>();
  private final Map<List<String>, Set<Marker>> bare = new HashMap<>();
  private final Set<List<String>> rows = new HashSet<>();

  PlacesHere(List<Marker> markers) {
    for (Marker marker : markers) {
      Stream.concat(Stream.of(marker.number()), marker.earlierNumbers().stream())
          .map(PlacesHere::parts)
          .forEach(
              parts -> {
                exact.computeIfAbsent(parts, p -> new LinkedHashSet<>()).add(marker);
                bare.computeIfAbsent(bare(parts), p -> new LinkedHashSet<>()).add(marker);
                for (int i = 1; i < parts.size(); i++) {
                  rows.add(bare(parts.subList(0, i)));
                }
              });
    }
  }

  /** The markers that may be meant; as it is written first, else without words before figures. */
  Set<Marker> at(String row, String number) {
    List<String> parts = parts(row + " " + number);
    Set<Marker> asWritten = exact.getOrDefault(parts, Set.of());
    return asWritten.isEmpty() ? bare.getOrDefault(bare(parts), Set.of()) : asWritten;
  }

  /** Whether any marker stands in that row. */
  boolean hasRow(String row) {
    return rows.contains(bare(parts(row)));
  }

  private static List<String> parts(String number) {
    return PARTS
        .matcher(number.toLowerCase(Locale.ROOT))
        .results()
        .map(part -> part.group().replaceFirst("^0+(?=[0-9])", ""))
        .toList();
  }

  private static List<String> bare(List<String> parts) {
    List<String> bare = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      boolean beforeFigures = i + 1 < parts.size() && parts.get(i + 1).matches("[0-9]+");
      if (!(beforeFigures && WORDS.contains(parts.get(i)))) {
        bare.add(parts.get(i));
      }
    }
    return bare;
  }
}
