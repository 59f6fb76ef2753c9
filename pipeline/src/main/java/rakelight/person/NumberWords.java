package rakelight.person;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import rakelight.person.calendar.RomanNumeral;

/** Numbers at a place in the words of a reading: figures, numerals and words, with halves. */
final class NumberWords {
  /**
   * A number found.
   *
   * @param end the word after it
   * @param figures as in figures, X where one is lost
   * @param worn its figures
   * @param half whether a half follows
   * @param ordinal whether it is carved as one: {@code 3d}, {@code third}
   */
  record Found(int end, String figures, Optional<Worn> worn, boolean half, boolean ordinal) {
    boolean isKnown() {
      return figures.indexOf('X') < 0;
    }

    int value() {
      return Integer.parseInt(figures);
    }
  }

  private static final Map<String, Integer> SMALL =
      Map.ofEntries(
          Map.entry("one", 1),
          Map.entry("two", 2),
          Map.entry("three", 3),
          Map.entry("four", 4),
          Map.entry("five", 5),
          Map.entry("six", 6),
          Map.entry("seven", 7),
          Map.entry("eight", 8),
          Map.entry("nine", 9),
          Map.entry("ten", 10),
          Map.entry("eleven", 11),
          Map.entry("twelve", 12),
          Map.entry("thirteen", 13),
          Map.entry("fourteen", 14),
          Map.entry("fifteen", 15),
          Map.entry("sixteen", 16),
          Map.entry("seventeen", 17),
          Map.entry("eighteen", 18),
          Map.entry("nineteen", 19),
          Map.entry("foure", 4),
          Map.entry("fower", 4),
          Map.entry("fyve", 5),
          Map.entry("sixe", 6),
          Map.entry("seaven", 7),
          Map.entry("eleaven", 11));

  private static final Map<String, Integer> TENS =
      Map.of(
          "twenty", 20, "thirty", 30, "forty", 40, "fourty", 40, "fifty", 50, "sixty", 60,
          "seventy", 70, "eighty", 80, "ninety", 90);

  private static final Map<String, Integer> ORDINALS =
      Map.ofEntries(
          Map.entry("first", 1),
          Map.entry("second", 2),
          Map.entry("third", 3),
          Map.entry("fourth", 4),
          Map.entry("fifth", 5),
          Map.entry("sixth", 6),
          Map.entry("seventh", 7),
          Map.entry("eighth", 8),
          Map.entry("ninth", 9),
          Map.entry("tenth", 10),
          Map.entry("eleventh", 11),
          Map.entry("twelfth", 12),
          Map.entry("thirteenth", 13),
          Map.entry("fourteenth", 14),
          Map.entry("fifteenth", 15),
          Map.entry("sixteenth", 16),
          Map.entry("seventeenth", 17),
          Map.entry("eighteenth", 18),
          Map.entry("nineteenth", 19),
          Map.entry("twentieth", 20),
          Map.entry("thirtieth", 30),
          Map.entry("fortieth", 40),
          Map.entry("fiftieth", 50),
          Map.entry("sixtieth", 60),
          Map.entry("seventieth", 70),
          Map.entry("eightieth", 80),
          Map.entry("ninetieth", 90),
          Map.entry("hundredth", 100),
          Map.entry("primo", 1),
          Map.entry("secundo", 2),
          Map.entry("tertio", 3),
          Map.entry("quarto", 4),
          Map.entry("quinto", 5),
          Map.entry("sexto", 6),
          Map.entry("septimo", 7),
          Map.entry("octavo", 8),
          Map.entry("nono", 9),
          Map.entry("decimo", 10),
          Map.entry("undecimo", 11),
          Map.entry("duodecimo", 12),
          Map.entry("vicesimo", 20),
          Map.entry("tricesimo", 30));

  private static final int HUNDRED = 100;
  private static final int SCORE = 20;
  private static final Pattern ENDING = Pattern.compile("(st|d|nd|rd|th|do|to|tio|vo|no)$");

  /** Small letters that are a word or its beginning sooner than a number. */
  private static final Set<String> NO_NUMERALS =
      Set.of("di", "mi", "mid", "dim", "ill", "cc", "ij");

  private static final Pattern FIGURES = Pattern.compile("[0-9?]{1,3}");

  private NumberWords() {}

  /** The number that begins at a word; up to three figures. */
  static Optional<Found> at(List<CarvedWord> words, int i) {
    if (i >= words.size()) {
      return Optional.empty();
    }
    Optional<Found> figures = figures(words.get(i), i);
    return figures.isPresent() ? withFraction(words, figures.get()) : inWords(words, i);
  }

  /** {@code one thousand eight hundred and thirty four}, {@code eighteen hundred and four}. */
  static Optional<Found> yearInWords(List<CarvedWord> words, int i) {
    if (i + 1 >= words.size() || !SMALL.containsKey(words.get(i).folded())) {
      return Optional.empty();
    }
    int at = i;
    int year = 0;
    if (words.get(at).is("one") && words.get(at + 1).is("thousand")) {
      year = 10 * HUNDRED;
      at = skipAnd(words, at + 2);
    }
    Integer hundreds = at + 1 < words.size() ? SMALL.get(words.get(at).folded()) : null;
    if (hundreds == null || !words.get(at + 1).is("hundred")) {
      return Optional.empty();
    }
    year += hundreds * HUNDRED;
    Optional<Found> rest =
        skipAnd(words, at + 2) < words.size()
            ? inWords(words, skipAnd(words, at + 2)).filter(n -> n.value() < HUNDRED)
            : Optional.empty();
    int end = rest.map(Found::end).orElse(at + 2);
    year += rest.map(Found::value).orElse(0);
    return year >= 15 * HUNDRED && year < 21 * HUNDRED
        ? Optional.of(of(end, year, false, false))
        : Optional.empty();
  }

  private static int skipAnd(List<CarvedWord> words, int i) {
    return i < words.size() && words.get(i).is("and", "&") ? i + 1 : i;
  }

  /** {@code 2 & ½}, {@code 2 1/2}. */
  private static Optional<Found> withFraction(List<CarvedWord> words, Found found) {
    int at = found.end();
    boolean joined = at + 1 < words.size() && words.get(at).is("&", "and");
    int fraction = joined ? at + 1 : at;
    boolean half = fraction < words.size() && words.get(fraction).is("½", "1/2");
    return Optional.of(
        half
            ? new Found(fraction + 1, found.figures(), found.worn(), true, found.ordinal())
            : found);
  }

  private static Optional<Found> figures(CarvedWord word, int i) {
    String folded = word.folded();
    if (folded.isEmpty() || folded.length() > 12 || !mayBeginNumber(folded.charAt(0))) {
      return Optional.empty();
    }
    String plain = ENDING.matcher(folded).replaceFirst("");
    boolean ordinal = plain.length() < word.folded().length();
    boolean half = plain.endsWith("½");
    String number = half ? plain.substring(0, plain.length() - 1) : plain;
    if (FIGURES.matcher(number).matches() && (word.hasFigure() || ordinal)) {
      return Optional.of(
          new Found(i + 1, number.replace('?', 'X'), word.worn(number.length()), half, ordinal));
    }
    if (half && number.isEmpty()) {
      return Optional.of(new Found(i + 1, "0", Optional.of(Worn.of("0")), true, false));
    }
    boolean mayBeNumeral =
        word.isCapitalised() || (plain.length() > 1 && !NO_NUMERALS.contains(plain));
    OptionalInt numeral = mayBeNumeral ? RomanNumeral.parse(plain) : OptionalInt.empty();
    return numeral.isPresent() && numeral.getAsInt() < 1000
        ? Optional.of(of(i + 1, numeral.getAsInt(), false, ordinal))
        : Optional.empty();
  }

  /** Whether a number in figures or a numeral may begin so. */
  static boolean mayBeginNumber(char first) {
    return first < 'a' || first > 'z' || "ivxlcdmj".indexOf(first) >= 0;
  }

  private static Found of(int end, int value, boolean half, boolean ordinal) {
    String figures = Integer.toString(value);
    return new Found(end, figures, Optional.of(Worn.of(figures)), half, ordinal);
  }

  /** {@code seventy four}, {@code sixty-first}, {@code three score and ten}. */
  private static Optional<Found> inWords(List<CarvedWord> words, int i) {
    String word = words.get(i).folded();
    int dash = word.indexOf('-');
    if (dash > 0) {
      Integer tens = TENS.get(word.substring(0, dash));
      Integer one = SMALL.get(word.substring(dash + 1));
      Integer nth = ORDINALS.get(word.substring(dash + 1));
      if (tens != null && one != null) {
        return Optional.of(of(i + 1, tens + one, false, false));
      }
      return tens != null && nth != null
          ? Optional.of(of(i + 1, tens + nth, false, true))
          : Optional.empty();
    }
    Integer nth = ORDINALS.get(word);
    if (nth != null) {
      return Optional.of(of(i + 1, nth, false, true));
    }
    Integer tens = TENS.get(word);
    if (tens != null) {
      String next = i + 1 < words.size() ? words.get(i + 1).folded() : "";
      boolean dashNext = next.equals("-") && i + 2 < words.size();
      int unitAt = dashNext ? i + 2 : i + 1;
      String unit = dashNext ? words.get(i + 2).folded() : next;
      Integer one = SMALL.get(unit);
      Integer unitNth = ORDINALS.get(unit);
      if (one != null && one < 10) {
        return Optional.of(of(unitAt + 1, tens + one, false, false));
      }
      if (unitNth != null && unitNth < 10) {
        return Optional.of(of(unitAt + 1, tens + unitNth, false, true));
      }
      return Optional.of(of(i + 1, tens, false, false));
    }
    Integer small = SMALL.get(word);
    if (small == null) {
      return Optional.empty();
    }
    if (i + 1 < words.size() && words.get(i + 1).is("score")) {
      int at = i + 2;
      at += at < words.size() && words.get(at).is("years") ? 1 : 0;
      at += at < words.size() && words.get(at).is("and", "&") ? 1 : 0;
      Integer more = at < words.size() ? SMALL.get(words.get(at).folded()) : null;
      return Optional.of(
          more == null
              ? of(i + 2, small * SCORE, false, false)
              : of(at + 1, small * SCORE + more, false, false));
    }
    if (i + 1 < words.size() && words.get(i + 1).is("hundred")) {
      return Optional.of(of(i + 2, small * HUNDRED, false, false));
    }
    return Optional.of(of(i + 1, small, false, false));
  }
}
