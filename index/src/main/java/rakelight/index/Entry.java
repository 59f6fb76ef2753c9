package rakelight.index;

import java.util.List;

/**
 * What the index holds of one face: only what people confirmed.
 *
 * @param id of the face; one entry for each
 * @param marker number of the marker
 * @param face name of the face
 * @param text the reading as a hit shows it, with its doubt marks
 * @param words in reading order, words that run over a line end in one
 * @param names of persons, as spans of words
 * @param years that it tells of
 * @param initials where it bears initials alone, as a footstone does: folded, without points
 * @param links of its marker, in words
 */
public record Entry(
    String id,
    String marker,
    String face,
    String text,
    List<Word> words,
    List<NameSpan> names,
    List<YearSpan> years,
    List<String> initials,
    List<String> links) {

  /**
   * Words that are one person's name.
   *
   * @param first number of the first word, from 0
   * @param last number of the last one
   */
  public record NameSpan(int first, int last) {
    public NameSpan {
      if (first < 0 || last < first) {
        throw new IllegalArgumentException("words " + first + " to " + last);
      }
    }
  }

  /**
   * A year, or the years it may be.
   *
   * @param from first year
   * @param to last year; equal to {@code from} when it is sure
   * @param weight how sure it is, above 0 and at most 1
   * @param shown as carved
   */
  public record YearSpan(int from, int to, double weight, String shown) {
    public YearSpan {
      if (to < from || weight <= 0 || weight > 1) {
        throw new IllegalArgumentException(
            "years " + from + " to " + to + " with weight " + weight);
      }
    }
  }

  public Entry {
    words = List.copyOf(words);
    names = List.copyOf(names);
    years = List.copyOf(years);
    initials = List.copyOf(initials);
    links = List.copyOf(links);
    for (NameSpan name : names) {
      if (name.last() >= words.size()) {
        throw new IllegalArgumentException("a name beyond the words of " + id);
      }
    }
  }
}
