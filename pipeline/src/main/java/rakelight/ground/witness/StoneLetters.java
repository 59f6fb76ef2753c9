package rakelight.ground.witness;

import java.util.List;
import java.util.Locale;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import rakelight.inscription.Break;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.Space;
import rakelight.names.NameForms;

/**
 * The letters of a reading as plain text, to be laid beside those of a list: a line's end is a
 * space, unless a word goes on; a gap of whatever length is {@code …}.
 */
final class StoneLetters {
  static final char GAP = '…';
  private static final Pattern YEAR =
      Pattern.compile("(?<![0-9])1[5-9][0-9]{2}(?![0-9])|(?<![0-9])20[0-9]{2}(?![0-9])");
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{M}'’" + GAP + "]+");

  private StoneLetters() {}

  static String of(Inscription inscription) {
    StringBuilder text = new StringBuilder();
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Letter letter) {
        text.append(letter.text());
      } else if (sign instanceof Gap) {
        text.append(GAP);
      } else if (sign instanceof Space || (sign instanceof Break end && !end.joined())) {
        text.append(' ');
      }
    }
    return plain(text.toString());
  }

  /** With single spaces. */
  static String plain(String text) {
    return text.replaceAll("\\s*[/|\\n]\\s*", " ").replaceAll("\\s+", " ").strip();
  }

  static List<String> years(String text) {
    return YEAR.matcher(text).results().map(MatchResult::group).toList();
  }

  /** Its words, folded; one with a gap keeps it. */
  static List<String> words(String text) {
    return WORD.matcher(text)
        .results()
        .map(
            word ->
                word.group().indexOf(GAP) >= 0
                    ? word.group().toLowerCase(Locale.ROOT)
                    : NameForms.fold(word.group()))
        .filter(word -> !word.isEmpty())
        .toList();
  }
}
