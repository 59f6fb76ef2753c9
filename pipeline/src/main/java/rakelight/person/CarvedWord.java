package rakelight.person;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
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
import rakelight.names.GivenNames;
import rakelight.names.NameForms;

/**
 * One word of a reading.
 *
 * @param shown as carved, {@code ?} for each letter nobody can name, {@code …} for a gap of unknown
 *     length or a blank
 * @param folded {@link NameForms#fold} of its letters; {@code ?} and {@code …} stay
 * @param options what it may say besides, folded, where the reader left letters open; the favoured
 *     form first
 * @param likely words of inscriptions that a doubtful word may be: {@code july} and {@code june}
 *     for {@code ju??}; see {@link WornWords}
 * @param letters for each sign of {@code folded} the letters it may be, with shares; empty for one
 *     that is lost
 * @param figures for each sign of {@code folded} the figures it may be, with weights; empty for a
 *     sign that can be none
 * @param supplied whether a letter of it was worked out
 * @param given whether it is a given name though it isn't known as one as it stands
 * @param odds that it is the word it is taken for, or that it is none of those of inscriptions
 */
record CarvedWord(
    String shown,
    String folded,
    List<String> options,
    List<String> likely,
    List<Map<Character, Double>> letters,
    List<Map<Integer, Double>> figures,
    int line,
    List<SignId> signs,
    boolean supplied,
    boolean given,
    double odds) {
  private static final int MOST_OPTIONS = 64;

  /** How far a figure is trusted that the reader marked as perhaps another; a choice, no source. */
  private static final double UNCLEAR = 0.8;

  /** A figure is told where so much speaks for it against others; a choice, no source. */
  private static final double FAVOURED = 0.75;

  private static final Pattern LIKE_A_YEAR = Pattern.compile("[12?][0-9?]{3}");

  private static final int LONGEST_GAP = 40;

  /** Signs that say something in a date or an age. */
  private static final Set<String> KEPT = Set.of("…", "/", "-", "½", "¼", "¾");

  /** The words of a reading; letters expanded count as carved, surplus ones are passed over. */
  static List<CarvedWord> of(Inscription inscription) {
    List<CarvedWord> words = new ArrayList<>();
    int line = 0;
    Building word = new Building();
    List<Sign> signs = inscription.signs();
    for (int i = 0; i < signs.size(); i++) {
      Sign sign = signs.get(i);
      if (sign instanceof Break lineBegin) {
        line++;
        if (word.goesOnWith(signs, i + 1)) {
          word.dropHyphen();
        } else if (!lineBegin.joined()) {
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
    boolean afterYear = letter.text().equals("-") && word.isYear();
    if (Character.isLetter(letter.text().codePointAt(0)) && word.endsWithComma()) {
      word.finish(words, line);
    }
    if (dash || afterYear || letter.text().equals("·")) {
      word.finish(words, line);
      word.add(letter);
      word.finish(words, line);
    } else {
      word.add(letter);
    }
  }

  /** The two put together, on the line of this one. */
  CarvedWord with(CarvedWord rest) {
    String whole = folded + rest.folded;
    List<Map<Character, Double>> bothLetters = new ArrayList<>(letters);
    bothLetters.addAll(rest.letters);
    List<Map<Integer, Double>> bothFigures = new ArrayList<>(figures);
    bothFigures.addAll(rest.figures);
    List<SignId> bothSigns = new ArrayList<>(signs);
    bothSigns.addAll(rest.signs);
    return new CarvedWord(
        shown + rest.shown,
        whole,
        List.of(whole),
        List.of(),
        List.copyOf(bothLetters),
        List.copyOf(bothFigures),
        line,
        List.copyOf(bothSigns),
        supplied || rest.supplied,
        false,
        Math.min(odds, rest.odds));
  }

  /** The same, taken for a word of inscriptions. */
  CarvedWord meaning(String word, double sure) {
    return new CarvedWord(
        shown,
        word,
        List.of(word),
        List.of(),
        letters,
        List.of(),
        line,
        signs,
        supplied,
        false,
        sure);
  }

  CarvedWord withLikely(List<String> words, double sure) {
    return new CarvedWord(
        shown, folded, options, words, letters, figures, line, signs, supplied, false, sure);
  }

  CarvedWord withFigures(List<Map<Integer, Double>> others) {
    return new CarvedWord(
        shown, folded, options, likely, letters, others, line, signs, supplied, given, odds);
  }

  /** The same, taken for a given name. */
  CarvedWord asGiven() {
    return new CarvedWord(
        shown, folded, options, likely, letters, figures, line, signs, supplied, true, odds);
  }

  /** Whether it is a gap of unknown length and nothing else. */
  boolean isGap() {
    for (int i = 0; i < folded.length(); i++) {
      if (folded.charAt(i) != '?' && folded.charAt(i) != '…') {
        return false;
      }
    }
    return !folded.isEmpty();
  }

  /** The number that its first signs are; empty when one of them can't be a figure. */
  Optional<Worn> worn(int count) {
    if (figures.size() < count
        || count == 0
        || figures.subList(0, count).stream().anyMatch(Map::isEmpty)) {
      return Optional.empty();
    }
    return Optional.of(new Worn(figures.subList(0, count)));
  }

  /** Whether it is one of these folded words, or may be one through its doubt. */
  boolean is(String... forms) {
    for (String form : forms) {
      if (form.equals(folded)) {
        return true;
      }
    }
    return !likely.isEmpty() && !Collections.disjoint(likely, List.of(forms));
  }

  /** Whether it is one of these folded words, or may be one through its doubt. */
  boolean in(Set<String> forms) {
    if (forms.contains(folded)) {
      return true;
    }
    return !likely.isEmpty() && !Collections.disjoint(likely, forms);
  }

  /** Itself, or what it may be through its doubt. */
  List<String> forms() {
    return likely.isEmpty() ? List.of(folded) : likely;
  }

  boolean isCapitalised() {
    int first = firstSign();
    return first >= 0 && Character.isUpperCase(first);
  }

  boolean isCapitalisedOrFigure() {
    int first = firstSign();
    return first >= 0 && (Character.isUpperCase(first) || Character.isDigit(first));
  }

  /** The first letter or figure; -1 where there is none. */
  private int firstSign() {
    for (int i = 0; i < shown.length(); i += Character.charCount(shown.codePointAt(i))) {
      if (Character.isLetterOrDigit(shown.codePointAt(i))) {
        return shown.codePointAt(i);
      }
    }
    return -1;
  }

  /** Whether it has two letters and more, all of them capitals. */
  boolean isAllCapitals() {
    int letters = 0;
    for (int i = 0; i < shown.length(); i++) {
      if (Character.isLowerCase(shown.charAt(i))) {
        return false;
      }
      letters += Character.isLetter(shown.charAt(i)) ? 1 : 0;
    }
    return letters > 1;
  }

  boolean hasFigure() {
    for (int i = 0; i < folded.length(); i++) {
      if (folded.charAt(i) >= '0' && folded.charAt(i) <= '9') {
        return true;
      }
    }
    return false;
  }

  /** Whether it is made of letters, gaps, dashes and apostrophes alone. */
  boolean isLetters() {
    boolean letters = false;
    for (int i = 0; i < folded.length(); i++) {
      char sign = folded.charAt(i);
      boolean letter = sign >= 'a' && sign <= 'z';
      letters |= letter || sign == '?' || sign == '…';
      if (!letter && sign != '?' && sign != '…' && sign != '-' && sign != '\'') {
        return false;
      }
    }
    return letters;
  }

  /** Whether a letter of it is lost or open. */
  boolean isDoubtful() {
    return folded.indexOf('?') >= 0 || folded.indexOf('…') >= 0;
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
    private final List<Map<Character, Double>> letters = new ArrayList<>();
    private final List<Map<Integer, Double>> figures = new ArrayList<>();
    private final List<SignId> signs = new ArrayList<>();
    private boolean supplied;

    void add(Letter letter) {
      signs.add(letter.id());
      supplied |= letter.standing() == Standing.SUPPLIED;
      shown.append(letter.text());
      String folded = fold(letter.text());
      if (letter.candidates().isEmpty()) {
        options.replaceAll(before -> before + folded);
      } else {
        List<String> next = new ArrayList<>();
        for (String before : options) {
          for (Candidate candidate : letter.candidates()) {
            if (next.size() < MOST_OPTIONS) {
              next.add(before + fold(candidate.text()));
            }
          }
        }
        options = next;
      }
      for (int i = 0; i < folded.length(); i++) {
        letters.add(i == 0 ? letters(letter, folded) : Map.of(folded.charAt(i), 1.0));
        figures.add(i == 0 ? figures(letter) : Map.of());
      }
    }

    private static Map<Character, Double> letters(Letter letter, String own) {
      if (letter.candidates().isEmpty()) {
        return Map.of(own.charAt(0), 1.0);
      }
      Map<Character, Double> letters = new HashMap<>();
      for (Candidate candidate : letter.candidates()) {
        String folded = fold(candidate.text());
        if (!folded.isEmpty()) {
          letters.merge(folded.charAt(0), candidate.percent() / 100.0, Double::sum);
        }
      }
      return letters.isEmpty() ? Map.of(own.charAt(0), 1.0) : letters;
    }

    /** Whether it is a year so far. */
    boolean isYear() {
      String folded = options.get(0);
      return folded.length() == 4 && LIKE_A_YEAR.matcher(folded).matches();
    }

    /** Whether it ends with a hyphen and what follows on the next line is the rest of it. */
    boolean goesOnWith(List<Sign> signs, int from) {
      boolean hyphen =
          shown.length() > 1
              && shown.charAt(shown.length() - 1) == '-'
              && Character.isLetter(shown.charAt(shown.length() - 2));
      if (!hyphen || from >= signs.size() || !(signs.get(from) instanceof Letter first)) {
        return false;
      }
      return Character.isLowerCase(first.text().codePointAt(0))
          || (isAllCapitals(shown) && goesOnInCapitals(signs, from));
    }

    /** {@code WATER- / FIELDING}, but not {@code MARY- / DIED}: both are words. */
    private boolean goesOnInCapitals(List<Sign> signs, int from) {
      StringBuilder rest = new StringBuilder();
      for (int i = from; i < signs.size() && signs.get(i) instanceof Letter letter; i++) {
        rest.append(letter.text());
      }
      String first = NameForms.fold(shown.toString());
      String second = NameForms.fold(rest.toString());
      return isAllCapitals(rest)
          && second.length() > 1
          && (GivenNames.known().isKnown(first + second) || !isWord(first) || !isWord(second));
    }

    private static boolean isWord(String folded) {
      return PersonWords.OF_INSCRIPTIONS.contains(folded) || GivenNames.known().isKnown(folded);
    }

    private static boolean isAllCapitals(CharSequence text) {
      return text.chars().noneMatch(Character::isLowerCase)
          && text.chars().anyMatch(Character::isUpperCase)
          && text.chars().noneMatch(Character::isDigit);
    }

    void dropHyphen() {
      shown.setLength(shown.length() - 1);
      options.replaceAll(option -> option.substring(0, option.length() - 1));
      letters.remove(letters.size() - 1);
      figures.remove(figures.size() - 1);
    }

    boolean endsWithComma() {
      return shown.length() > 1
          && shown.charAt(shown.length() - 1) == ','
          && Character.isLetter(shown.charAt(shown.length() - 2));
    }

    private static Map<Integer, Double> figures(Letter letter) {
      if (letter.candidates().isEmpty() && !isFigure(letter.text())) {
        return Map.of();
      }
      Map<Integer, Double> figures = new HashMap<>();
      for (Candidate candidate : letter.candidates()) {
        if (isFigure(candidate.text())) {
          figures.put(Integer.valueOf(candidate.text()), (double) candidate.percent());
        }
      }
      double whole = figures.values().stream().mapToDouble(Double::doubleValue).sum();
      figures.replaceAll((figure, weight) -> weight / whole);
      if (letter.candidates().isEmpty() && isFigure(letter.text())) {
        int read = Integer.parseInt(letter.text());
        boolean sure = letter.standing() != Standing.UNCLEAR;
        for (int figure = 0; figure <= 9; figure++) {
          double weight = figure == read ? (sure ? 1 : UNCLEAR) : sure ? 0 : (1 - UNCLEAR) / 9;
          if (weight > 0) {
            figures.put(figure, weight);
          }
        }
      }
      return figures;
    }

    private static boolean isFigure(String text) {
      return text.length() == 1 && text.charAt(0) >= '0' && text.charAt(0) <= '9';
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
      for (char sign : fold(text).toCharArray()) {
        letters.add(sign == '?' || sign == '…' ? Map.of() : Map.of(sign, 1.0));
        figures.addAll(
            sign == '?' || isFigure(String.valueOf(sign))
                ? Worn.of(String.valueOf(sign)).figures()
                : List.of(Map.of()));
      }
      options = new ArrayList<>(options.stream().map(before -> before + fold(text)).toList());
    }

    void finish(List<CarvedWord> words, int line) {
      if (!signs.isEmpty()) {
        words.add(
            new CarvedWord(
                shown.toString(),
                folded(),
                List.copyOf(options),
                List.of(),
                List.copyOf(letters),
                List.copyOf(figures),
                line,
                List.copyOf(signs),
                supplied,
                false,
                1));
      }
      shown.setLength(0);
      options = new ArrayList<>(List.of(""));
      letters.clear();
      figures.clear();
      signs.clear();
      supplied = false;
    }

    /** The favoured form, but for figures that may as well be another. */
    private String folded() {
      StringBuilder folded = new StringBuilder(options.get(0));
      for (int i = 0; i < Math.min(folded.length(), letters.size()); i++) {
        Map<Character, Double> read = letters.get(i);
        boolean open =
            read.size() > 1
                && read.keySet().stream().allMatch(Character::isDigit)
                && read.values().stream().noneMatch(share -> share >= FAVOURED);
        if (open) {
          folded.setCharAt(i, '?');
        }
      }
      return folded.toString();
    }

    private static String fold(String text) {
      if (text.startsWith("?") || KEPT.contains(text)) {
        return text;
      }
      return text.equals("–") || text.equals("—") ? "-" : NameForms.fold(text);
    }
  }
}
