package rakelight.names;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;

/** Tables of this package: a word, a tab, its other forms parted by commas. */
final class Pairs {
  private Pairs() {}

  /** Each folded word with the folded words it is paired with, either way. */
  static Map<String, Set<String>> of(String table) {
    Map<String, Set<String>> pairs = new HashMap<>();
    for (String line : lines(table)) {
      String[] cells = line.split("\t", -1);
      String name = NameForms.fold(cells[0]);
      for (String form : cells[1].split(",", -1)) {
        String folded = NameForms.fold(form);
        pairs.computeIfAbsent(name, key -> new TreeSet<>()).add(folded);
        pairs.computeIfAbsent(folded, key -> new TreeSet<>()).add(name);
      }
    }
    return pairs;
  }

  static List<String> lines(String table) {
    try (InputStream in = Pairs.class.getResourceAsStream(table);
        BufferedReader lines =
            new BufferedReader(
                new InputStreamReader(Objects.requireNonNull(in, table), StandardCharsets.UTF_8))) {
      return lines.lines().filter(line -> !line.startsWith("#") && !line.isBlank()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
