package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Two readings of one face laid beside each other, letter by letter. A letter is what it is said to
 * be, whatever its standing; one that can't be named is illegible, lost, left unfinished or blank.
 *
 * @param pairs in reading order
 */
public record Comparison(List<Pair> pairs) {
  /** What stands for a letter that only the other reading has. */
  public static final String NOTHING = "nothing";

  /**
   * A place of one reading.
   *
   * @param line from 1
   * @param at from 1, counted as {@link DraftEditing} counts places
   * @param ink the letter, or a gap of one
   * @param wordBegins whether a word begins here
   */
  public record Said(int line, int at, Sign ink, boolean wordBegins) {
    /** The letter, or in one word why there is none. */
    public String says() {
      return Comparison.says(ink);
    }
  }

  /** What the two say of one place; at least one of them has it. */
  public record Pair(Optional<Said> first, Optional<Said> second) {
    /** What the first says, {@link #NOTHING} if it has no letter there. */
    public String firstSays() {
      return first.map(Said::says).orElse(NOTHING);
    }

    public String secondSays() {
      return second.map(Said::says).orElse(NOTHING);
    }

    /** Whether they differ about the letter, or about where a word begins. */
    public boolean differs() {
      return !firstSays().equals(secondSays())
          || first.filter(Said::wordBegins).isPresent()
              != second.filter(Said::wordBegins).isPresent();
    }
  }

  /** A letter, or in one word why there is none. */
  static String says(Sign ink) {
    return ink instanceof Letter letter
        ? letter.text()
        : ((Gap) ink).reason().name().toLowerCase(Locale.ROOT);
  }

  public Comparison {
    pairs = List.copyOf(pairs);
  }

  public static Comparison of(Inscription first, Inscription second) {
    List<Said> a = said(first);
    List<Said> b = said(second);
    List<Pair> pairs = new ArrayList<>();
    for (Pairing.Pair pair :
        Pairing.of(a.size(), b.size(), (i, j) -> a.get(i).says().equals(b.get(j).says()) ? 0 : 2)) {
      pairs.add(
          new Pair(
              pair.earlier() < 0 ? Optional.empty() : Optional.of(a.get(pair.earlier())),
              pair.later() < 0 ? Optional.empty() : Optional.of(b.get(pair.later()))));
    }
    return new Comparison(pairs);
  }

  /** The places about which they differ. */
  public List<Pair> differences() {
    return pairs.stream().filter(Pair::differs).toList();
  }

  private static List<Said> said(Inscription inscription) {
    List<Said> said = new ArrayList<>();
    int line = 0;
    int at = 0;
    boolean begins = true;
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Break lineBegins) {
        line++;
        at = 0;
        begins = !lineBegins.joined();
      } else if (sign instanceof Space) {
        begins = true;
      } else {
        for (int i = 0; i < OpenLine.letters(sign); i++) {
          said.add(new Said(line, ++at, OpenLine.one(sign), begins));
          begins = false;
        }
      }
    }
    return said;
  }
}
