package rakelight.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What the index holds of one marker: all its faces together, only what people confirmed.
 *
 * @param id of the marker; one entry for each
 * @param marker its number
 * @param faces that are read
 * @param words in reading order, face after face; words that run over a line end in one
 * @param names of persons, as spans of words, and words lent to them
 * @param years that it tells of
 * @param ages that it tells of
 * @param initials where a face bears initials alone, as a footstone does: folded, without points
 * @param facts what is known of the marker besides, by field: what each field holds, in words
 */
public record Entry(
    String id,
    String marker,
    List<Face> faces,
    List<Word> words,
    List<Name> names,
    List<YearSpan> years,
    List<AgeSpan> ages,
    List<String> initials,
    Map<String, List<String>> facts) {

  /**
   * One face.
   *
   * @param text the reading as a hit shows it, with its doubt marks
   * @param words how many of the entry's words stand on it
   */
  public record Face(String id, String name, String text, int words) {}

  /**
   * The words of one person's name.
   *
   * @param first number of the first word, from 0
   * @param last number of the last one
   * @param lent words that aren't cut at that place and are part of it nevertheless, such as the
   *     surname of a husband or of a heading
   */
  public record Name(int first, int last, List<Word> lent) {
    public Name {
      if (first < 0 || last < first) {
        throw new IllegalArgumentException("words " + first + " to " + last);
      }
      lent = List.copyOf(lent);
    }
  }

  /**
   * A year, or the years it may be, each as likely.
   *
   * @param from first year
   * @param to last year; equal to {@code from} when it is sure
   * @param weight how sure it is, above 0 and at most 1
   * @param event died, born, married or buried; made, of the marker itself; empty where nobody
   *     knows
   * @param shown as carved
   */
  public record YearSpan(int from, int to, double weight, String event, String shown) {
    public YearSpan {
      if (to < from || weight <= 0 || weight > 1) {
        throw new IllegalArgumentException(
            "years " + from + " to " + to + " with weight " + weight);
      }
    }
  }

  /** An age in whole years, or the ages it may be. */
  public record AgeSpan(int from, int to, String shown) {
    public AgeSpan {
      if (from < 0 || to < from) {
        throw new IllegalArgumentException("ages " + from + " to " + to);
      }
    }
  }

  public Entry {
    faces = List.copyOf(faces);
    words = List.copyOf(words);
    names = List.copyOf(names);
    years = List.copyOf(years);
    ages = List.copyOf(ages);
    initials = List.copyOf(initials);
    Map<String, List<String>> copied = new TreeMap<>();
    facts.forEach((field, texts) -> copied.put(field, List.copyOf(texts)));
    facts = java.util.Collections.unmodifiableMap(copied);
    for (Name name : names) {
      if (name.last() >= words.size()) {
        throw new IllegalArgumentException("a name beyond the words of " + id);
      }
    }
    if (faces.stream().mapToInt(Face::words).sum() != words.size()) {
      throw new IllegalArgumentException("words beyond the faces of " + id);
    }
  }

  /** The face on which a word stands. */
  public Face faceOf(int word) {
    int end = 0;
    for (Face face : faces) {
      end += face.words();
      if (word < end) {
        return face;
      }
    }
    throw new IndexOutOfBoundsException(word);
  }

  /** What is known of the marker in one field. */
  public List<String> fact(String field) {
    return facts.getOrDefault(field, List.of());
  }

  /** The texts of all faces, in their order. */
  public List<String> texts() {
    List<String> texts = new ArrayList<>();
    faces.forEach(face -> texts.add(face.text()));
    return texts;
  }
}
