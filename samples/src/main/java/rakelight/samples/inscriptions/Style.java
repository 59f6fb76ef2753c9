package rakelight.samples.inscriptions;

import java.time.LocalDate;
import java.util.Random;

/**
 * What was usual at a time and in a country.
 *
 * <p>Each has the first and the last year in which somebody of it died.
 */
enum Style {
  EARLY(1682, 1760),
  GEORGIAN(1753, 1836),
  VICTORIAN(1837, 1910),
  MODERN(1911, 1988),
  NEW_ENGLAND(1700, 1825),
  AMERICAN(1826, 1940),
  IRISH(1765, 1920),
  SCOTTISH(1690, 1905),
  WELSH(1780, 1930),
  LATIN(1684, 1850);

  private static final int BRITISH_JANUARY = 1752;
  private static final int SCOTTISH_JANUARY = 1600;

  private final int first;
  private final int last;

  Style(int first, int last) {
    this.first = first;
    this.last = last;
  }

  /** A day on which somebody dies. */
  LocalDate someDay(Random random) {
    return LocalDate.of(first, 1, 1).plusDays(random.nextInt((last - first) * 365));
  }

  /** Whether a day isn't too late for it. */
  boolean reaches(LocalDate day) {
    return day.getYear() <= last;
  }

  /** The first year that began on 1 January. */
  int firstYearFromJanuary() {
    return this == SCOTTISH ? SCOTTISH_JANUARY : BRITISH_JANUARY;
  }

  boolean american() {
    return this == NEW_ENGLAND || this == AMERICAN;
  }

  /** Whether raised letters, long forms and ye are in use. */
  boolean old() {
    return this == EARLY || this == NEW_ENGLAND;
  }
}
