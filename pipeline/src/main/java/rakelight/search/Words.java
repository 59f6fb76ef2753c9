package rakelight.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.index.Cell;
import rakelight.index.Confusables;
import rakelight.index.Word;
import rakelight.inscription.Break;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.Standing;

/**
 * The words of a reading for the index. A word that was cut one way and meant another, such as an
 * abbreviation, is there both ways.
 *
 * @param words in reading order
 * @param signs for each word, the positions of its first and last sign in the reading
 */
record Words(List<Word> words, List<int[]> signs) {
  // How far letters that the stone doesn't plainly show are trusted. Choices, not measured: a name
  // of
  // six supplied letters scores .83 of a clear one, of six doubtful ones .53.
  private static final double UNCLEAR = 0.8;
  private static final double SUPPLIED = 0.97;
  private static final double DOUBTFUL = 0.9;

  /** How a word is taken. */
  private enum Way {
    CUT,
    MEANT
  }

  static Words of(Inscription inscription) {
    List<Word> words = new ArrayList<>();
    List<int[]> places = new ArrayList<>();
    int start = 0;
    List<Sign> signs = inscription.signs();
    for (int i = 0; i <= signs.size(); i++) {
      if (i == signs.size() || parts(signs, i)) {
        add(inscription, start, i, words, places);
        start = i + 1;
      }
    }
    return new Words(words, places);
  }

  /** Whether a word ends before this sign, which belongs to none. */
  private static boolean parts(List<Sign> signs, int at) {
    Sign sign = signs.get(at);
    if (sign instanceof Break line) {
      return !line.joined();
    }
    if (sign instanceof Letter letter) {
      int codePoint = letter.text().codePointAt(0);
      return !Character.isLetterOrDigit(codePoint)
          && codePoint != '&'
          && codePoint != '\''
          && codePoint != '’';
    }
    return sign instanceof Space
        || (sign instanceof Gap gap
            && (gap.reason() == Gap.Reason.BLANK || gap.reason() == Gap.Reason.OMITTED));
  }

  private static void add(
      Inscription inscription, int from, int to, List<Word> words, List<int[]> places) {
    List<Sign> signs = inscription.signs().subList(from, to);
    if (signs.stream().noneMatch(sign -> sign instanceof Letter || sign instanceof Gap)) {
      return;
    }
    StringBuilder shown = new StringBuilder();
    signs.forEach(sign -> shown.append(shown(sign)));
    Word word =
        Word.of(
            shown.toString(),
            List.of(
                cells(inscription, from, to, Way.CUT), cells(inscription, from, to, Way.MEANT)));
    if (!word.isEmpty()) {
      words.add(word);
      places.add(new int[] {from, to - 1});
    }
  }

  /** A sign as a hit shows it: letters left open in round brackets, lost ones in square. */
  static String shown(Sign sign) {
    if (sign instanceof Letter letter) {
      return letter.candidates().isEmpty()
          ? letter.text()
          : "("
              + String.join(" or ", letter.candidates().stream().map(Candidate::text).toList())
              + ")";
    }
    if (sign instanceof Gap gap) {
      boolean lost = gap.reason() == Gap.Reason.LOST;
      if (gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact exact) {
        return lost ? "[" + ".".repeat(exact.count()) + "]" : "+".repeat(exact.count());
      }
      return lost ? "[- - -]" : "(+++)";
    }
    return "";
  }

  private static List<Cell> cells(Inscription inscription, int from, int to, Way way) {
    List<Cell> cells = new ArrayList<>();
    for (int i = from; i < to; i++) {
      Sign sign = inscription.signs().get(i);
      List<Span> spans = inscription.spansOver(sign.id());
      Optional<Span> replaced =
          spans.stream()
              .filter(span -> isReplaced(span))
              .filter(span -> way == Way.MEANT)
              .findFirst();
      if (replaced.isPresent()) {
        if (replaced.get().first().equals(sign.id())) {
          cells.addAll(Cell.sureLetters(replaced.get().text()));
        }
      } else if (spans.stream().noneMatch(span -> isLeftOut(span, way))) {
        boolean uncut = spans.stream().anyMatch(Span::isUncut);
        cell(sign, uncut).ifPresent(cells::add);
      }
    }
    return cells;
  }

  private static boolean isReplaced(Span span) {
    return span.kind() == Span.Kind.REGULARISED
        || span.kind() == Span.Kind.NUMBER
        || (span.kind() == Span.Kind.CORRECTION && !span.text().isEmpty());
  }

  private static boolean isLeftOut(Span span, Way way) {
    return switch (span.kind()) {
      case EXPANSION, OMITTED -> way == Way.CUT;
      case SURPLUS, ABBREVIATION_MARK -> way == Way.MEANT;
      default -> false;
    };
  }

  private static Optional<Cell> cell(Sign sign, boolean uncut) {
    if (sign instanceof Letter letter) {
      return Optional.of(new Cell.OneOf(texts(letter, uncut)));
    }
    if (!(sign instanceof Gap gap)) {
      return Optional.empty();
    }
    if (gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact exact) {
      return Optional.of(new Cell.Unknown(exact.count(), exact.count()));
    }
    if (gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Range range) {
      return Optional.of(new Cell.Unknown(range.atLeast(), range.atMost()));
    }
    return Optional.of(new Cell.Unknown(0, Cell.MANY));
  }

  private static Map<String, Double> texts(Letter letter, boolean uncut) {
    if (!letter.candidates().isEmpty()) {
      Map<String, Double> texts = new TreeMap<>();
      letter
          .candidates()
          .forEach(candidate -> texts.put(candidate.text(), candidate.percent() / 100.0));
      return texts;
    }
    if (letter.standing() == Standing.UNCLEAR) {
      Map<String, Double> texts = new TreeMap<>(Map.of(letter.text(), UNCLEAR));
      Confusables.of(letter.text())
          .forEach((other, share) -> texts.put(other, (1 - UNCLEAR) * share));
      return texts;
    }
    if (letter.doubtful()) {
      return Map.of(letter.text(), DOUBTFUL);
    }
    boolean notSeen =
        letter.standing() == Standing.SEEN_EARLIER
            || (letter.standing() == Standing.SUPPLIED && !uncut);
    return Map.of(letter.text(), notSeen ? SUPPLIED : 1.0);
  }
}
