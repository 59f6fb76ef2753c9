package rakelight.index;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * One way a word may be taken, as one term of the index holds it: known letters as themselves, one
 * sign for each place that isn't sure, and the weights behind a bar.
 *
 * <pre>
 * wren            clear
 * wr??            two letters lost
 * han*            letters lost, nobody knows how many
 * wr??%%          two to four letters lost
 * wr[n|eQKnJU     the third letter e or n, with their weights
 * {n|thABhYY      one place that is "th" or "h"
 * ~wren|TY        w is supplied: it is that letter with a weight below one
 * ^han*           the word may end in what is lost, and another begin
 * </pre>
 *
 * A weight is two capitals, a number to the base of 26; {@code ZZ} is one. A place parts its
 * alternatives' weights from those of the next by its number of them, written as a capital before
 * them.
 *
 * @param text the term
 */
public record Skeleton(String text) {
  static final char UNKNOWN = '?';
  static final char MAYBE = '%';
  static final char MANY = '*';
  static final char OPEN = '[';
  static final char TEXTS = '{';
  static final char UNSURE = '~';
  static final char TAIL = '|';
  static final char SIDE = '^';

  private static final int BASE = 26;
  private static final int ONE = BASE * BASE - 1;

  /** One place: a letter, one of several texts, or so many unknown letters. */
  sealed interface Slot {}

  /** A letter that was plainly read. */
  record Known(int letter) implements Slot {}

  /** One of these texts, code points each; the weights sum to one at most. */
  record OneOf(int[][] texts, double[] weights) implements Slot {
    OneOf {
      texts = texts.clone();
      weights = weights.clone();
    }
  }

  /** A letter nobody can name; {@code sure} if there is one for certain. */
  record Unknown(boolean sure) implements Slot {}

  /** Any number of letters. */
  record Many() implements Slot {}

  /**
   * The ways of a word's places. Where a run has no sure length a word may end and another begin in
   * it, so its two sides also stand by themselves.
   */
  static List<Skeleton> of(List<Cell> cells) {
    List<Skeleton> all = new ArrayList<>();
    addIfNew(all, written(cells));
    for (int i = 0; i < cells.size(); i++) {
      if (isLoose(cells.get(i))) {
        addSide(all, written(loosened(cells.subList(0, i + 1))));
        addSide(all, written(loosened(cells.subList(i, cells.size()))));
      }
    }
    return all;
  }

  private static void addSide(List<Skeleton> all, Skeleton side) {
    if (side.hasLetters()) {
      addIfNew(all, new Skeleton(SIDE + side.text()));
    }
  }

  private static void addIfNew(List<Skeleton> all, Skeleton skeleton) {
    if (!skeleton.text().isEmpty() && !all.contains(skeleton)) {
      all.add(skeleton);
    }
  }

  private static boolean isLoose(Cell cell) {
    return cell instanceof Cell.Unknown run && run.atMost() > run.atLeast();
  }

  private static List<Cell> loosened(List<Cell> side) {
    return side.stream()
        .map(cell -> isLoose(cell) ? new Cell.Unknown(0, Cell.MANY) : cell)
        .toList();
  }

  private static Skeleton written(List<Cell> cells) {
    StringBuilder head = new StringBuilder();
    StringBuilder tail = new StringBuilder();
    for (Cell cell : cells) {
      if (cell instanceof Cell.Unknown run) {
        head.append(String.valueOf(UNKNOWN).repeat(run.atLeast()));
        if (run.atMost() >= Cell.MANY) {
          head.append(head.isEmpty() || head.charAt(head.length() - 1) != MANY ? "*" : "");
        } else {
          head.append(String.valueOf(MAYBE).repeat(run.atMost() - run.atLeast()));
        }
      } else if (cell instanceof Cell.OneOf oneOf) {
        append(oneOf.texts(), head, tail);
      }
    }
    return new Skeleton(
        tail.isEmpty() ? head.toString() : head.append(TAIL).append(tail).toString());
  }

  private static void append(Map<String, Double> texts, StringBuilder head, StringBuilder tail) {
    Map.Entry<String, Double> first = texts.entrySet().iterator().next();
    if (texts.size() == 1) {
      int sure = level(first.getValue());
      for (int letter : first.getKey().codePoints().toArray()) {
        if (sure < ONE) {
          head.append(UNSURE);
          weight(tail, sure);
        }
        head.appendCodePoint(letter);
      }
      return;
    }
    boolean single =
        texts.keySet().stream().allMatch(text -> text.codePointCount(0, text.length()) == 1);
    head.append(single ? OPEN : TEXTS);
    tail.append((char) ('A' + Math.min(BASE, texts.size()) - 1));
    texts.entrySet().stream()
        .sorted(
            Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                .thenComparing(Map.Entry.comparingByKey()))
        .limit(BASE)
        .forEach(
            each -> {
              tail.append(each.getKey());
              weight(tail, level(each.getValue()));
            });
  }

  private static int level(double weight) {
    return (int) Math.max(1, Math.min(ONE, Math.round(weight * ONE)));
  }

  private static void weight(StringBuilder tail, int level) {
    tail.append((char) ('A' + level / BASE)).append((char) ('A' + level % BASE));
  }

  /** The places in order. */
  List<Slot> slots() {
    int bar = text.indexOf(TAIL);
    int end = bar < 0 ? text.length() : bar;
    int at = bar + 1;
    List<Slot> slots = new ArrayList<>(end);
    for (int i = isSide() ? 1 : 0; i < end; ) {
      int sign = text.codePointAt(i);
      i += Character.charCount(sign);
      switch (sign) {
        case UNKNOWN -> slots.add(new Unknown(true));
        case MAYBE -> slots.add(new Unknown(false));
        case MANY -> slots.add(new Many());
        case UNSURE -> {
          int letter = text.codePointAt(i);
          i += Character.charCount(letter);
          slots.add(new OneOf(new int[][] {{letter}}, new double[] {weightAt(at)}));
          at += 2;
        }
        case OPEN, TEXTS -> {
          int count = text.charAt(at++) - 'A' + 1;
          int[][] texts = new int[count][];
          double[] weights = new double[count];
          for (int j = 0; j < count; j++) {
            int from = at;
            while (!isCapital(text.charAt(at))) {
              at++;
            }
            texts[j] = text.substring(from, at).codePoints().toArray();
            weights[j] = weightAt(at);
            at += 2;
          }
          slots.add(new OneOf(texts, weights));
        }
        default -> slots.add(new Known(sign));
      }
    }
    return slots;
  }

  private double weightAt(int at) {
    return ((text.charAt(at) - 'A') * BASE + text.charAt(at + 1) - 'A') / (double) ONE;
  }

  private static boolean isCapital(char sign) {
    return sign >= 'A' && sign <= 'Z';
  }

  /** Whether it is one side of a word that may be two. */
  public boolean isSide() {
    return !text.isEmpty() && text.charAt(0) == SIDE;
  }

  /** Whether every letter was plainly read. */
  public boolean isClear() {
    return text.chars().allMatch(sign -> Character.isLetterOrDigit(sign) || sign == '&');
  }

  /** Whether at least one letter of it is known, if only as one of several. */
  public boolean hasLetters() {
    return text.chars()
        .anyMatch(sign -> sign != UNKNOWN && sign != MAYBE && sign != MANY && sign != SIDE);
  }

  /** Whether the folded word is one of those it may say. */
  public boolean matches(String word) {
    return LetterAlignment.fits(this, word);
  }

  /** How well the folded word fits, nothing misread: the product of its letters' weights. */
  public double fit(String word) {
    return word.isEmpty()
        ? 0
        : LetterAlignment.of(Places.of(this), word.codePoints().toArray(), Channel.NONE);
  }

  /**
   * How well each number of four figures fits, as {@link #fit} of its figures.
   *
   * @param first 1000 or more
   * @param last 9999 or less
   */
  public double[] fits(int first, int last) {
    Places places = Places.of(this);
    int[] figures = new int[4];
    double[] fits = new double[last - first + 1];
    for (int i = 0; i < fits.length; i++) {
      int rest = first + i;
      for (int at = figures.length - 1; at >= 0; at--) {
        figures[at] = '0' + rest % 10;
        rest /= 10;
      }
      fits[i] = Fixed.anyFit(places, figures);
    }
    return fits;
  }

  /** Whether the number of its letters is known. */
  public boolean isOfKnownLength() {
    return slots().stream()
        .noneMatch(
            slot -> slot instanceof Many || (slot instanceof Unknown unknown && !unknown.sure()));
  }

  /** How likely every place that is open between several letters is a figure. */
  public double shareOfFigures() {
    double share = 1;
    for (Slot slot : slots()) {
      if (slot instanceof OneOf oneOf) {
        double figures = 0;
        for (int j = 0; j < oneOf.texts().length; j++) {
          int[] text = oneOf.texts()[j];
          figures += text.length == 1 && Character.isDigit(text[0]) ? oneOf.weights()[j] : 0;
        }
        share *= figures;
      }
    }
    return share;
  }

  /**
   * The likeliest texts with their weights; none where letters are missing.
   *
   * @param most so many at most
   */
  public Map<String, Double> readings(int most) {
    Map<String, Double> best = new LinkedHashMap<>(Map.of("", 1.0));
    for (Slot slot : slots()) {
      Map<String, Double> longer = new TreeMap<>();
      for (Map.Entry<String, Double> each : best.entrySet()) {
        if (slot instanceof Known known) {
          longer.put(each.getKey() + Character.toString(known.letter()), each.getValue());
        } else if (slot instanceof OneOf oneOf) {
          for (int j = 0; j < oneOf.texts().length; j++) {
            String next = new String(oneOf.texts()[j], 0, oneOf.texts()[j].length);
            longer.merge(each.getKey() + next, each.getValue() * oneOf.weights()[j], Double::sum);
          }
        } else {
          return Map.of();
        }
      }
      best = likeliest(longer, most);
    }
    best.remove("");
    return best;
  }

  static Map<String, Double> likeliest(Map<String, Double> all, int most) {
    Map<String, Double> kept = new LinkedHashMap<>();
    new HashMap<>(all)
        .entrySet().stream()
            .sorted(
                Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                    .thenComparing(Map.Entry.comparingByKey()))
            .limit(most)
            .forEach(each -> kept.put(each.getKey(), each.getValue()));
    return kept;
  }
}
