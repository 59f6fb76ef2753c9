package rakelight.reading;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rakelight.archive.Sha256;

/**
 * Words and phrases of inscriptions with how often they are met, from {@code lexicon.tsv}; the file
 * says where they come from.
 */
final class Lexicon {
  private static final String FILE = "/rakelight/reading/lexicon.tsv";

  private final List<Entry> entries = new ArrayList<>();
  private final Map<String, String> kindOfWord = new HashMap<>();

  /**
   * @param kind such as given, month, formula, verse, syllable, ending
   * @param weight how often it is met; only ratios matter
   */
  record Entry(String kind, double weight, String text) {}

  private final StringBuilder rows = new StringBuilder();

  private Lexicon() {}

  static Lexicon standard() {
    Lexicon lexicon = new Lexicon();
    try (InputStream in = Lexicon.class.getResourceAsStream(FILE)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks " + FILE);
      }
      BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      for (String row = reader.readLine(); row != null; row = reader.readLine()) {
        if (!row.startsWith("#") && !row.isBlank()) {
          lexicon.add(row);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read " + FILE, e);
    }
    return lexicon;
  }

  /** SHA-256, in hexadecimal, of all rows. */
  String digest() {
    return Sha256.of(rows.toString()).hex();
  }

  private void add(String row) {
    rows.append(row).append('\n');
    String[] cells = row.split("\t", -1);
    if (cells.length != 3) {
      throw new IllegalStateException(FILE + ": three cells are needed: " + row);
    }
    double weight = Double.parseDouble(cells[1]);
    for (String text : cells[2].split("\\|", -1)) {
      entries.add(new Entry(cells[0], weight, folded(text)));
      for (String word : folded(text).split(" ", -1)) {
        // The first row that knows a word says what it is: rows stand from names to verse.
        kindOfWord.putIfAbsent(word, cells[0]);
      }
    }
  }

  List<Entry> entries() {
    return entries;
  }

  /** The kind of a folded word, empty if it isn't known. */
  String kind(String word) {
    return kindOfWord.getOrDefault(word, "");
  }

  /** Capitals without points; long s, ligatures and raised letters as plain ones. */
  static String folded(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFKC)
        .replace('ſ', 's')
        .replace("Æ", "AE")
        .replace("æ", "ae")
        .toUpperCase(Locale.ROOT)
        .replaceAll("[.,;:'’!?\"]", "")
        .replaceAll("\\s+", " ")
        .strip();
  }
}
