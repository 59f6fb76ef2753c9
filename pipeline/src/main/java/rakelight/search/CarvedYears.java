package rakelight.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Skeleton;
import rakelight.index.Word;

/**
 * Years among the words of a reading: four figures from {@value #FIRST} to {@value #LAST}, also
 * where some are doubtful or missing. {@code 18[.]5} is ten years of a hundred, each a tenth.
 */
final class CarvedYears {
  private static final int FIRST = 1500;
  private static final int LAST = 2099;

  /** Where nobody knows how many figures are lost it may have been no year. A choice. */
  private static final double OF_OPEN_LENGTH = 0.5;

  /**
   * Four figures that are no year may be one with a figure misread, or no year at all. A choice.
   */
  private static final double OF_NO_YEAR = 0.5;

  /** In a head of so many signs none is a letter. */
  private static final Pattern NO_LETTERS = Pattern.compile("[^|a-z&]{4,10}(\\|.*)?");

  /** Two of them known at least. */
  private static final Pattern FOUR_FIGURES =
      Pattern.compile("(?=[^|]*[0-9][^|]*[0-9])[0-9?\\[]{4}(\\|.*)?");

  /** Later years aren't taken for others misread. */
  private static final int LAST_MISREAD = 2040;

  private static final int FIRST_OF_FOUR_FIGURES = 1000;
  private static final int LAST_OF_FOUR_FIGURES = 9999;

  private CarvedYears() {}

  /** Whether a span is of years, not of a number that was perhaps read for one. */
  static boolean isYear(YearSpan span) {
    return span.to() >= FIRST && span.from() <= LAST;
  }

  static List<YearSpan> of(List<Word> words) {
    List<YearSpan> years = new ArrayList<>();
    for (Word word : words) {
      for (Skeleton way : word.ways()) {
        add(way, word.shown(), years);
      }
    }
    return years;
  }

  private static void add(Skeleton way, String shown, List<YearSpan> years) {
    if (!way.hasLetters() || !NO_LETTERS.matcher(way.text()).matches()) {
      return;
    }
    if (!add(way, shown, FIRST, LAST, way.isOfKnownLength() ? 1 : OF_OPEN_LENGTH, years)
        && FOUR_FIGURES.matcher(way.text()).matches()) {
      add(way, shown, FIRST_OF_FOUR_FIGURES, LAST_OF_FOUR_FIGURES, OF_NO_YEAR, years);
    }
  }

  private static boolean add(
      Skeleton way, String shown, int first, int last, double share, List<YearSpan> years) {
    double[] fits = way.fits(first, last);
    for (int i = 0; i < fits.length; i++) {
      fits[i] = isYearButForAFigure(first + i) ? fits[i] : 0;
    }
    double sum = Arrays.stream(fits).sum();
    if (sum == 0) {
      return false;
    }
    // Alternatives that are no figures, and years out of reach, keep their part.
    double figures = way.shareOfFigures() * share;
    for (int from = 0; from < fits.length; from++) {
      int to = from;
      while (fits[from] > 0 && to + 1 < fits.length && fits[to + 1] == fits[from]) {
        to++;
      }
      if (fits[from] > 0) {
        double weight = fits[from] * (to - from + 1) / sum * figures;
        years.add(new YearSpan(first + from, first + to, Math.min(1, weight), "", shown));
      }
      from = to;
    }
    return true;
  }

  private static boolean isYearButForAFigure(int number) {
    for (int place = 1; place <= FIRST_OF_FOUR_FIGURES; place *= 10) {
      int without = number - number / place % 10 * place;
      for (int figure = 0; figure < 10; figure++) {
        int year = without + figure * place;
        if (year >= FIRST && year <= LAST_MISREAD) {
          return true;
        }
      }
    }
    return false;
  }
}
