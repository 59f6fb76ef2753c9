package rakelight.index;

import java.util.List;

/**
 * An entry that answers, and why.
 *
 * @param probability that this entry is the one asked for, 0 to 1; those of all entries, with the
 *     chance that it is none of them, sum to one
 * @param why one line for each part of the query, in its order
 * @param letters the words that answered, letter by letter
 */
public record Hit(Entry entry, double probability, List<String> why, List<Letters> letters) {
  public Hit {
    why = List.copyOf(why);
    letters = List.copyOf(letters);
  }

  /** How a place of a word answers. */
  public enum Standing {
    /** Plainly read, and the letter asked for. */
    SURE,
    /** Doubtful, lost or supplied, and may be the letter asked for. */
    GUESSED,
    /** Plainly read as another letter than was asked for. */
    OTHER
  }

  /**
   * A word that answered.
   *
   * @param word its number among the entry's words; -1 for one that is lent and stands elsewhere
   * @param asked the word asked for
   * @param as the form of it that is there, such as a nickname
   * @param places for each place of the word as it is shown, how it answers
   */
  public record Letters(int word, String asked, String as, List<Standing> places) {
    public Letters {
      places = List.copyOf(places);
    }
  }
}
