package rakelight.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Pattern;
import rakelight.index.Word;

/**
 * Years among the words of a reading: four figures from {@value #FIRST} to {@value #LAST}, also
 * where some are doubtful or missing.
 */
final class CarvedYears {
  private static final int FIRST = 1500;
  private static final int LAST = 2099;

  /** The weight of a span of years that missing figures leave open; a choice. */
  private static final double OPEN = 0.3;

  private CarvedYears() {}

  static List<YearSpan> of(List<Word> words) {
    List<YearSpan> years = new ArrayList<>();
    for (Word word : words) {
      for (Map.Entry<String, Double> reading : word.readings().entrySet()) {
        if (reading.getKey().matches("[0-9]{4}")) {
          int year = Integer.parseInt(reading.getKey());
          if (year >= FIRST && year <= LAST) {
            years.add(new YearSpan(year, year, Math.min(1, reading.getValue()), word.shown()));
          }
        }
      }
      for (Pattern pattern : word.patterns()) {
        open(pattern, word, years);
      }
    }
    return years;
  }

  /** {@code 18??} may be any year of its century. A first figure that is lost leaves no year. */
  private static void open(Pattern pattern, Word word, List<YearSpan> years) {
    int from = -1;
    int to = -1;
    for (int year = FIRST; year <= LAST; year++) {
      boolean fits = pattern.hasLetters() && pattern.matches(Integer.toString(year));
      if (fits && from < 0) {
        from = year;
      }
      to = fits ? year : to;
    }
    // An unclear figure may also be a letter: [3|8|z].
    boolean mayBeFigures = pattern.text().matches("[12]([0-9?{},*]|\\[[^\\]]*\\])+");
    if (from >= 0 && mayBeFigures) {
      YearSpan span = new YearSpan(from, to, OPEN, word.shown());
      if (!years.contains(span)) {
        years.add(span);
      }
    }
  }
}
