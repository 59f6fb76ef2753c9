package rakelight.search;

import java.util.ArrayList;
import java.util.List;
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

  private CarvedYears() {}

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
    if (!way.hasLetters()
        || way.text().matches("[^|]*[a-z&].*")
        || !way.text().matches("[^|]{4,10}(\\|.*)?")) {
      return;
    }
    double[] fits = new double[LAST - FIRST + 1];
    double sum = 0;
    for (int i = 0; i < fits.length; i++) {
      fits[i] = way.fit(Integer.toString(FIRST + i));
      sum += fits[i];
    }
    if (sum == 0) {
      return;
    }
    // Alternatives that are no figures, and years out of reach, keep their part.
    double figures = way.shareOfFigures() * (way.isOfKnownLength() ? 1 : OF_OPEN_LENGTH);
    for (int from = 0; from < fits.length; from++) {
      int to = from;
      while (fits[from] > 0 && to + 1 < fits.length && fits[to + 1] == fits[from]) {
        to++;
      }
      if (fits[from] > 0) {
        double weight = fits[from] * (to - from + 1) / sum * figures;
        years.add(new YearSpan(FIRST + from, FIRST + to, Math.min(1, weight), "", shown));
      }
      from = to;
    }
  }
}
