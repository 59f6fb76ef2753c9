package rakelight.desk;

import java.util.List;
import java.util.Map;
import rakelight.index.Widening;
import rakelight.search.Coverage;
import rakelight.search.MatchedLines;

/**
 * What a search found, in words for a page.
 *
 * @param asked the query; empty before the first
 * @param refused why it can't be answered and how to say it; empty if it can
 * @param behind whether what was confirmed last may be missing
 * @param hits of this page
 * @param answering how many markers answer at all
 * @param elsewhere per cent that it is none of the ground's markers
 * @param faint those far below the likeliest
 * @param widened the other forms of each word
 * @param facets what the hits can be narrowed by
 * @param narrowed by what they are narrowed, each with the address without it
 * @param questions in which all the words are found
 * @param without widenings that are turned off
 * @param could of those that nobody has read the likeliest, by what a machine takes them to say;
 *     {@code words} are the number and how likely
 * @param form what stands in the fields, where they couldn't be understood
 * @param table the address of the hits as a table; empty where there are none
 */
public record SearchPage(
    String asked,
    String refused,
    boolean behind,
    Paged<Shown> hits,
    int answering,
    String elsewhere,
    List<Named> faint,
    Map<String, List<String>> widened,
    List<Facet> facets,
    List<Choice> narrowed,
    List<Named> questions,
    List<Widening> without,
    Coverage coverage,
    List<Named> could,
    Map<String, String> form,
    String table) {
  /** More numbers in a row nobody reads; a choice. */
  private static final int MOST_UNREAD = 100;

  /** Something with an address. */
  public record Named(String words, String address) {}

  /**
   * A hit.
   *
   * @param who is named on it
   * @param facts what else is known of it
   * @param percent how likely it is the one asked for
   * @param likely the same in words
   */
  public record Shown(
      String id,
      String number,
      String who,
      List<String> facts,
      String percent,
      String likely,
      List<String> why,
      List<ShownLines> faces,
      String picture) {}

  /**
   * A face of a hit.
   *
   * @param lines those with letters that answered; the first few where none did
   * @param whole whether these are all of its lines
   * @param drawings the letters that answered, on the photographs
   */
  public record ShownLines(
      String name,
      List<MatchedLines.Line> lines,
      boolean whole,
      List<Drawing> drawings,
      String citation) {}

  /** By what hits can be told apart. */
  public record Facet(String label, List<Choice> choices) {}

  /** One of a facet's values. */
  public record Choice(String words, int hits, String address) {}

  /** Whether anything was asked. */
  public boolean isAsked() {
    return !asked.isEmpty();
  }

  /** The first of those that could still answer, by number. */
  public String unread() {
    List<String> all = coverage.unread();
    String first = String.join(", ", all.subList(0, Math.min(MOST_UNREAD, all.size())));
    return all.size() > MOST_UNREAD ? first + " …" : first + ".";
  }

  /** What stood in a field of the form. */
  public String field(String name) {
    return form.getOrDefault(name, "");
  }

  /** Whether a widening is turned off. */
  public boolean isWithout(Widening widening) {
    return without.contains(widening);
  }

  /** What is said to somebody who doesn't see the page, when an answer comes. */
  public String announced() {
    if (!refused.isEmpty()) {
      return refused + ".";
    }
    return hits.rows().isEmpty()
        ? count()
        : count() + " The likeliest: marker " + hits.rows().get(0).number() + ".";
  }

  /** How many hits there are, in a line. */
  public String count() {
    if (!refused.isEmpty() || !isAsked() || (behind && hits.of() == 0)) {
      return "";
    }
    return switch (hits.of()) {
      case 0 -> "No marker answers.";
      case 1 -> "One marker answers.";
      default -> hits.of() + " markers answer.";
    };
  }
}
