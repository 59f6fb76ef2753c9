package rakelight.index;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** One place of a word, as far as anybody knows what stands there. */
public sealed interface Cell {

  /**
   * One of these, each a letter or several, with weights that sum to one at most; what is missing
   * is none of them.
   *
   * @param texts folded or not; folding is the word's work
   */
  record OneOf(Map<String, Double> texts) implements Cell {
    public OneOf {
      if (texts.isEmpty()) {
        throw new IllegalArgumentException("a place needs at least one text");
      }
      texts = java.util.Collections.unmodifiableMap(new TreeMap<>(texts));
    }
  }

  /**
   * Letters nobody can name.
   *
   * @param atLeast 0 or more
   * @param atMost {@link #MANY} when nobody can say
   */
  record Unknown(int atLeast, int atMost) implements Cell {
    public Unknown {
      if (atLeast < 0 || atMost < atLeast) {
        throw new IllegalArgumentException("letters from " + atLeast + " to " + atMost);
      }
    }
  }

  /** More letters than any word has. */
  int MANY = 99;

  /** A letter that is sure. */
  static Cell sure(String text) {
    return new OneOf(Map.of(text, 1.0));
  }

  /** Letters that are sure. */
  static List<Cell> sureLetters(String text) {
    return text.codePoints().mapToObj(letter -> sure(Character.toString(letter))).toList();
  }
}
