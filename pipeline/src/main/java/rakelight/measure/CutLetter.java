package rakelight.measure;

import java.util.ArrayList;
import java.util.List;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.Space;

/**
 * A letter or space that was cut, for the fair measure: what nobody is asked for may be read
 * rightly or passed over at no cost, but not read as something else.
 *
 * @param text one letter, case and typeface folded away, or a space
 * @param asked whether the truth holds that it can be read; if not, marks of it remain
 */
record CutLetter(String text, boolean asked) {

  /**
   * The letters of a line of which marks remain.
   *
   * @param seen what can be seen of it, with its gaps
   * @param cut all that was cut; empty if not known
   * @return empty if {@code cut} isn't known or doesn't fit what is seen
   */
  static List<CutLetter> of(Inscription seen, String cut) {
    List<CutLetter> letters = new ArrayList<>();
    int at = 0;
    for (Sign sign : seen.signs()) {
      int from = at;
      if (sign instanceof Space) {
        while (at < cut.length() && cut.charAt(at) == ' ') {
          at++;
        }
        add(letters, " ", true);
      } else if (sign instanceof Letter letter) {
        at += letter.text().length();
        if (at > cut.length() || !cut.substring(from, at).equalsIgnoreCase(letter.text())) {
          return List.of();
        }
        add(letters, letter.text(), true);
      } else if (sign instanceof Gap gap) {
        if (!(gap.extent() instanceof Extent.Exact exact)) {
          return List.of();
        }
        at =
            cut.offsetByCodePoints(
                at, Math.min(exact.count(), cut.codePointCount(at, cut.length())));
        if (gap.reason() == Gap.Reason.ILLEGIBLE) {
          cut.substring(from, at)
              .codePoints()
              .forEach(c -> add(letters, Character.toString(c), false));
        }
      }
    }
    return at == cut.length() ? withSpaces(letters) : List.of();
  }

  private static void add(List<CutLetter> letters, String text, boolean asked) {
    if (text.isBlank()) {
      if (!letters.isEmpty() && !letters.get(letters.size() - 1).text().equals(" ")) {
        letters.add(new CutLetter(" ", asked));
      }
    } else {
      Tally.foldedLetters(text).forEach(letter -> letters.add(new CutLetter(letter, asked)));
    }
  }

  /** A space is asked for if it parts two words of each of which a letter is. */
  private static List<CutLetter> withSpaces(List<CutLetter> letters) {
    List<CutLetter> spaced = new ArrayList<>();
    boolean before = false;
    for (int i = 0; i < letters.size(); i++) {
      CutLetter letter = letters.get(i);
      if (letter.text().equals(" ")) {
        int end = i + 1;
        boolean after = false;
        while (end < letters.size() && !letters.get(end).text().equals(" ")) {
          after |= letters.get(end++).asked();
        }
        spaced.add(new CutLetter(" ", before && after));
      } else {
        before |= letter.asked();
        spaced.add(letter);
      }
    }
    return List.copyOf(spaced);
  }

  /** Errors of what was read against these letters; what nobody is asked for has no length. */
  static ErrorRate errors(List<CutLetter> cut, String read) {
    List<String> got = Tally.foldedLetters(read);
    int[] cost = new int[got.size() + 1];
    for (int j = 0; j < cost.length; j++) {
      cost[j] = j;
    }
    for (CutLetter letter : cut) {
      int diagonal = cost[0];
      int missed = letter.asked() ? 1 : 0;
      cost[0] += missed;
      for (int j = 1; j < cost.length; j++) {
        int pair = diagonal + (got.get(j - 1).equals(letter.text()) ? 0 : 1);
        diagonal = cost[j];
        cost[j] = Math.min(pair, Math.min(cost[j] + missed, cost[j - 1] + 1));
      }
    }
    int asked = (int) cut.stream().filter(CutLetter::asked).count();
    return new ErrorRate(cost[got.size()], 0, 0, asked);
  }
}
