package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import rakelight.inscription.Break;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.Standing;
import rakelight.names.NameForms;

/**
 * One word of a reading.
 *
 * @param shown as carved, {@code ?} for each letter nobody can name, {@code …} for a gap of unknown
 *     length or a blank
 * @param folded {@link NameForms#fold} of its letters; {@code ?} and {@code …} stay
 * @param options what it may say besides, folded, where the reader left letters open; the favoured
 *     form first
 * @param supplied whether a letter of it was worked out
 */
record CarvedWord(
    String shown,
    String folded,
    List<String> options,
    int line,
    List<SignId> signs,
    boolean supplied) {
  private static final int MOST_OPTIONS = 64;
  private static final int LONGEST_GAP = 40;

  /** The words of a reading; letters expanded count as carved, surplus ones are passed over. */
  static List<CarvedWord> of(Inscription inscription) {
    List<CarvedWord> words = new ArrayList<>();
    int line = 0;
    Building word = new Building();
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Break lineBegin) {
        line++;
        if (!lineBegin.joined()) {
          word.finish(words, line - 1);
        }
      } else if (sign instanceof Space) {
        word.finish(words, line);
      } else if (sign instanceof Letter letter) {
        add(inscription, letter, word, words, line);
      } else if (sign instanceof Gap gap) {
        word.add(gap);
      }
    }
    word.finish(words, line);
    return words;
  }

  private static void add(
      Inscription inscription, Letter letter, Building word, List<CarvedWord> words, int line) {
    for (Span span : inscription.spansOver(letter.id())) {
      if (span.kind() == Span.Kind.SURPLUS || span.kind() == Span.Kind.ABBREVIATION_MARK) {
        return;
      }
      boolean replaced =
          (span.kind() == Span.Kind.CORRECTION && !span.text().isEmpty())
              || span.kind() == Span.Kind.REGULARISED;
      if (replaced) {
        word.signs.add(letter.id());
        if (span.last().equals(letter.id())) {
          span.text().codePoints().forEach(c -> word.append(Character.toString(c)));
        }
        return;
      }
    }
    boolean dash = letter.text().equals("–") || letter.text().equals("—");
    if (dash || letter.text().equals("·")) {
      word.finish(words, line);
      word.add(letter);
      word.finish(words, line);
    } else {
      word.add(letter);
    }
  }

  boolean is(String... forms) {
    return List.of(forms).contains(folded);
  }

  boolean isCapitalised() {
    return !shown.isEmpty() && Character.isUpperCase(shown.codePointAt(0));
  }

  boolean isCapitalisedOrFigure() {
    return isCapitalised() || (!shown.isEmpty() && Character.isDigit(shown.codePointAt(0)));
  }

  boolean isInitial() {
    return folded.length() == 1 && Character.isLetter(folded.charAt(0)) && isCapitalised();
  }

  boolean endsWith(String sign) {
    return shown.endsWith(sign);
  }

  /** A word being put together. */
  private static final class Building {
    private final StringBuilder shown = new StringBuilder();
    private List<String> options = new ArrayList<>(List.of(""));
    private final List<SignId> signs = new ArrayList<>();
    private boolean supplied;

    void add(Letter letter) {
      signs.add(letter.id());
      supplied |= letter.standing() == Standing.SUPPLIED;
      shown.append(letter.text());
      List<String> texts =
          letter.candidates().isEmpty()
              ? List.of(letter.text())
              : letter.candidates().stream().map(Candidate::text).toList();
      List<String> next = new ArrayList<>();
      for (String before : options) {
        for (String text : texts) {
          if (next.size() < MOST_OPTIONS) {
            next.add(before + fold(text));
          }
        }
      }
      options = next;
    }

    void add(Gap gap) {
      signs.add(gap.id());
      boolean counted =
          gap.unit() == Gap.Unit.LETTERS
              && (gap.reason() == Gap.Reason.LOST || gap.reason() == Gap.Reason.ILLEGIBLE)
              && gap.extent() instanceof Extent.Exact exact
              && exact.count() <= LONGEST_GAP;
      append(
          counted && gap.extent() instanceof Extent.Exact exact ? "?".repeat(exact.count()) : "…");
    }

    void append(String text) {
      shown.append(text);
      options = new ArrayList<>(options.stream().map(before -> before + fold(text)).toList());
    }

    void finish(List<CarvedWord> words, int line) {
      if (!signs.isEmpty()) {
        words.add(
            new CarvedWord(
                shown.toString(),
                options.get(0),
                List.copyOf(options),
                line,
                List.copyOf(signs),
                supplied));
      }
      shown.setLength(0);
      options = new ArrayList<>(List.of(""));
      signs.clear();
      supplied = false;
    }

    private static String fold(String text) {
      if (text.startsWith("?") || text.equals("…") || text.equals("/") || text.equals("-")) {
        return text;
      }
      return text.equals("–") || text.equals("—") ? "-" : NameForms.fold(text);
    }
  }
}
