package rakelight.inscription;

import java.text.Normalizer;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * One carved or supplied letter, figure or point: a single grapheme in Unicode's composed form
 * (NFC). Its marks are independent of each other.
 *
 * @param doubtful a supplied letter that may be another
 * @param damaged the stone is hurt here, yet the letter is certain
 * @param candidates letters the reader leaves open, the favoured one first and equal to {@code
 *     text}; empty when he doesn't
 */
public record Letter(
    SignId id,
    String text,
    Standing standing,
    boolean doubtful,
    boolean erased,
    boolean damaged,
    Set<LetterForm> forms,
    List<Candidate> candidates)
    implements Sign {

  /** Marks that the Leiden text uses under and over letters, so that no letter may carry them. */
  public static final String DOT_BELOW = "\u0323";

  public static final String LINE_BELOW = "\u0332";
  public static final String LINE_ABOVE = "\u0305";
  public static final String TIE = "\u0361";

  public Letter {
    requireOneLetter(text);
    forms = forms.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(forms));
    candidates = List.copyOf(candidates);
    if (doubtful && standing != Standing.SUPPLIED) {
      throw new IllegalArgumentException("only a supplied letter can be doubtful");
    }
    if (damaged && (standing == Standing.SUPPLIED || standing == Standing.SEEN_EARLIER)) {
      throw new IllegalArgumentException("a letter that isn't seen can't be damaged");
    }
    if (!candidates.isEmpty()) {
      requireCandidates(text, standing, forms, candidates);
    }
  }

  /** A letter with no mark. */
  public static Letter clear(SignId id, String text) {
    return of(id, text, Standing.CLEAR);
  }

  public static Letter of(SignId id, String text, Standing standing) {
    return new Letter(id, text, standing, false, false, false, Set.of(), List.of());
  }

  /** A letter of which the reader leaves open what it is, the favoured candidate first. */
  public static Letter open(SignId id, List<Candidate> candidates) {
    return new Letter(
        id, candidates.get(0).text(), Standing.UNCLEAR, false, false, false, Set.of(), candidates);
  }

  /** Whether it is a letter of an alphabet, not a figure, point or symbol. */
  public boolean isAlphabetic() {
    return Character.isAlphabetic(text.codePointAt(0));
  }

  @Override
  public Letter withId(SignId newId) {
    return new Letter(newId, text, standing, doubtful, erased, damaged, forms, candidates);
  }

  /** The same letter on another footing; candidates and doubt of the old one go. */
  public Letter withStanding(Standing newStanding) {
    return new Letter(id, text, newStanding, false, erased, damaged, forms, List.of());
  }

  /** The same letter, candidates and all, worked out instead of seen. */
  Letter supplied() {
    return new Letter(id, text, Standing.SUPPLIED, doubtful, erased, damaged, forms, candidates);
  }

  Letter withErased() {
    return new Letter(id, text, standing, doubtful, true, damaged, forms, candidates);
  }

  Letter withDoubt() {
    return new Letter(id, text, standing, true, erased, damaged, forms, candidates);
  }

  Letter withDamage() {
    return new Letter(id, text, standing, doubtful, erased, true, forms, candidates);
  }

  Letter withoutForms() {
    return new Letter(id, text, standing, doubtful, erased, damaged, Set.of(), candidates);
  }

  public Letter withForm(LetterForm form) {
    Set<LetterForm> more = EnumSet.of(form);
    more.addAll(forms);
    return new Letter(id, text, standing, doubtful, erased, damaged, more, candidates);
  }

  public static void requireOneLetter(String text) {
    if (text.isEmpty()) {
      throw new IllegalArgumentException("a letter can't be empty");
    }
    String decomposed = Normalizer.normalize(text, Normalizer.Form.NFD);
    boolean oneGrapheme =
        isBase(text.codePointAt(0))
            && text.codePoints().skip(1).allMatch(Letter::isCombining)
            && Normalizer.isNormalized(text, Normalizer.Form.NFC);
    boolean keepsOffOurMarks =
        !decomposed.contains(DOT_BELOW)
            && !decomposed.contains(LINE_BELOW)
            && !decomposed.contains(LINE_ABOVE)
            && !decomposed.contains(TIE);
    if (!oneGrapheme || !keepsOffOurMarks) {
      throw new IllegalArgumentException(
          "a letter is one grapheme in composed form without dot or line below, line above or tie,"
              + " got “"
              + text
              + "”");
    }
  }

  public static boolean isBase(int codePoint) {
    return switch (Character.getType(codePoint)) {
      case Character.UPPERCASE_LETTER,
          Character.LOWERCASE_LETTER,
          Character.TITLECASE_LETTER,
          Character.MODIFIER_LETTER,
          Character.OTHER_LETTER,
          Character.DECIMAL_DIGIT_NUMBER,
          Character.LETTER_NUMBER,
          Character.OTHER_NUMBER,
          Character.CONNECTOR_PUNCTUATION,
          Character.DASH_PUNCTUATION,
          Character.START_PUNCTUATION,
          Character.END_PUNCTUATION,
          Character.INITIAL_QUOTE_PUNCTUATION,
          Character.FINAL_QUOTE_PUNCTUATION,
          Character.OTHER_PUNCTUATION,
          Character.MATH_SYMBOL,
          Character.CURRENCY_SYMBOL,
          Character.MODIFIER_SYMBOL,
          Character.OTHER_SYMBOL ->
          true;
      default -> false;
    };
  }

  public static boolean isCombining(int codePoint) {
    return switch (Character.getType(codePoint)) {
      case Character.NON_SPACING_MARK, Character.ENCLOSING_MARK, Character.COMBINING_SPACING_MARK ->
          true;
      default -> false;
    };
  }

  private static void requireCandidates(
      String text, Standing standing, Set<LetterForm> forms, List<Candidate> candidates) {
    if (standing != Standing.UNCLEAR && standing != Standing.SUPPLIED) {
      throw new IllegalArgumentException("a letter with candidates is unclear or supplied");
    }
    if (forms.contains(LetterForm.LIGATURE) || forms.contains(LetterForm.LINE_ABOVE)) {
      throw new IllegalArgumentException("a letter with candidates carries no tie or line above");
    }
    if (candidates.size() < 2
        || candidates.stream().map(Candidate::text).distinct().count() < candidates.size()) {
      throw new IllegalArgumentException("a letter needs two candidates or more, all different");
    }
    if (candidates.stream().mapToInt(Candidate::percent).sum() != 100) {
      throw new IllegalArgumentException("the candidates of a letter must sum to 100 per cent");
    }
    Candidate first = candidates.get(0);
    if (!first.text().equals(text)
        || candidates.stream().anyMatch(other -> other.percent() > first.percent())) {
      throw new IllegalArgumentException("the favoured candidate must be the letter, and first");
    }
  }
}
