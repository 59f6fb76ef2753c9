package rakelight.person;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;

/**
 * The figures a stone gives of one life.
 *
 * @param weekday the day of the week of the death, where carved
 */
public record CarvedLife(
    Optional<WornDate> birth,
    Optional<WornDate> death,
    Optional<WornAge> age,
    Optional<DayOfWeek> weekday) {

  /** In which calendar a date is carved. */
  public enum Reckoning {
    /** As is usual today. */
    GREGORIAN,
    /** As the ground's calendar was in the carved year. */
    OF_THE_GROUND,
    /** Months are the Quakers' numbers. */
    QUAKER
  }

  /**
   * A date as carved, some figures perhaps lost.
   *
   * @param month empty where only a year is carved
   * @param day empty where no day is carved
   * @param doubleYear whether a second year follows, as in 1731/2: that is the one counted from
   *     January
   */
  public record WornDate(
      Worn year,
      Optional<Worn> month,
      Optional<Worn> day,
      boolean doubleYear,
      Reckoning reckoning,
      CalendarChange change) {

    /** A full Gregorian day from {@code YYYY-MM-DD} with {@code ?} for each lost figure. */
    public static WornDate of(String text) {
      String[] parts = text.split("-", -1);
      if (parts.length != 3) {
        throw new IllegalArgumentException("expected YYYY-MM-DD, got " + text);
      }
      return new WornDate(
          Worn.of(parts[0]),
          Optional.of(Worn.of(parts[1])),
          Optional.of(Worn.of(parts[2])),
          false,
          Reckoning.GREGORIAN,
          CalendarChange.BRITISH);
    }

    WornDate in(Reckoning other) {
      return new WornDate(year, month, day, doubleYear, other, change);
    }

    /** What it may be, with the weights. */
    Map<Filled, Double> readings() {
      Map<Filled, Double> readings = new TreeMap<>();
      Map<Integer, Double> none = Map.of(0, 1.0);
      year.values()
          .forEach(
              (y, yearWeight) ->
                  month
                      .map(Worn::values)
                      .orElse(none)
                      .forEach(
                          (m, monthWeight) ->
                              day.map(Worn::values)
                                  .orElse(none)
                                  .forEach(
                                      (d, dayWeight) ->
                                          put(
                                              readings,
                                              y,
                                              m,
                                              d,
                                              yearWeight * monthWeight * dayWeight))));
      return readings;
    }

    long open() {
      return (long) year.open() * month.map(Worn::open).orElse(1) * day.map(Worn::open).orElse(1);
    }

    private void put(Map<Filled, Double> readings, int y, int m, int d, double weight) {
      List<LocalDate[]> spans = month.isEmpty() ? wholeYear(y) : spans(y, m, d);
      for (LocalDate[] span : spans) {
        readings.put(new Filled(y, m, d, span[0], span[1]), weight / spans.size());
      }
    }

    private List<LocalDate[]> spans(int y, int m, int d) {
      if (m < 1 || m > 12 || (day.isPresent() && (d < 1 || d > 31))) {
        return List.of();
      }
      if (day.isEmpty()) {
        return wholeMonth(y, m);
      }
      List<LocalDate[]> spans = new ArrayList<>();
      for (LocalDate date : days(y, m, d)) {
        spans.add(new LocalDate[] {date, date});
      }
      return spans;
    }

    private List<LocalDate> days(int y, int m, int d) {
      return switch (reckoning) {
        case QUAKER -> MonthName.quakerDays(y, m, d);
        case OF_THE_GROUND ->
            doubleYear
                ? change.daysOfCountedYear(y + 1, m, d, CalendarChange.Style.IN_FORCE)
                : change.days(y, m, d, CalendarChange.Style.IN_FORCE);
        case GREGORIAN -> gregorian(y, m, d);
      };
    }

    private static List<LocalDate> gregorian(int y, int m, int d) {
      try {
        return List.of(LocalDate.of(y, m, d));
      } catch (DateTimeException noSuchDay) {
        return List.of();
      }
    }

    /** The year from January, longer by what the calendars may differ. */
    private List<LocalDate[]> wholeYear(int y) {
      LocalDate from = LocalDate.of(y, 1, 1);
      LocalDate to = LocalDate.of(doubleYear ? y + 1 : y, 12, 31);
      boolean modern = reckoning == Reckoning.GREGORIAN || change.isModern(y);
      return List.<LocalDate[]>of(
          new LocalDate[] {from, modern ? to : to.plusDays(MOST_BETWEEN_CALENDARS)});
    }

    private List<LocalDate[]> wholeMonth(int y, int m) {
      YearMonth whole = YearMonth.of(y, m);
      if (reckoning == Reckoning.GREGORIAN || change.isModern(y)) {
        return List.<LocalDate[]>of(new LocalDate[] {whole.atDay(1), whole.atEndOfMonth()});
      }
      return wholeYear(y);
    }

    /** Lady Day Old Style falls on 4 or 5 April: three months and the eleven days between. */
    private static final int MOST_BETWEEN_CALENDARS = 96;
  }

  /**
   * A date with every figure read one way.
   *
   * @param year as carved, the first of a double year
   * @param month as carved, 0 where none is
   * @param day as carved, 0 where none is
   * @param from the first day it may be, Gregorian
   * @param to the last one
   */
  public record Filled(int year, int month, int day, LocalDate from, LocalDate to)
      implements Comparable<Filled> {
    boolean isDay() {
      return from.equals(to);
    }

    @Override
    public int compareTo(Filled other) {
      int order = from.compareTo(other.from);
      order = order == 0 ? to.compareTo(other.to) : order;
      order = order == 0 ? Integer.compare(year, other.year) : order;
      order = order == 0 ? Integer.compare(month, other.month) : order;
      return order == 0 ? Integer.compare(day, other.day) : order;
    }
  }

  /**
   * An age in years, perhaps with months, perhaps with days.
   *
   * @param days only where there are months
   * @param maybeRunning whether the years may be those begun and not those completed, as carvers
   *     mixed them after {@code aetatis}: then one year less is as good
   */
  public record WornAge(
      Worn years, Optional<Worn> months, Optional<Worn> days, boolean maybeRunning) {
    public WornAge {
      if (days.isPresent() && months.isEmpty()) {
        throw new IllegalArgumentException("an age with days has months, if only 0");
      }
    }

    /** Years alone. */
    public static WornAge ofYears(Worn years) {
      return new WornAge(years, Optional.empty(), Optional.empty(), false);
    }

    WornAge running() {
      return new WornAge(years, months, days, true);
    }

    long open() {
      return (maybeRunning ? 2L : 1L)
          * years.open()
          * months.map(Worn::open).orElse(1)
          * days.map(Worn::open).orElse(1);
    }
  }
}
