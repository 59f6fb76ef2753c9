package rakelight.person;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The figures a stone gives of one life.
 *
 * @param weekday the day of the week of the death, where carved
 */
public record CarvedLife(
    WornDate birth, WornDate death, Optional<WornAge> age, Optional<DayOfWeek> weekday) {

  /** A full date, Gregorian. */
  public record WornDate(Worn year, Worn month, Worn day) {
    /** From {@code YYYY-MM-DD} with {@code ?} for each lost figure. */
    public static WornDate of(String text) {
      String[] parts = text.split("-", -1);
      if (parts.length != 3) {
        throw new IllegalArgumentException("expected YYYY-MM-DD, got " + text);
      }
      return new WornDate(Worn.of(parts[0]), Worn.of(parts[1]), Worn.of(parts[2]));
    }

    /** The days it may be, with their weights. */
    Map<LocalDate, Double> days() {
      Map<LocalDate, Double> days = new TreeMap<>();
      year.values()
          .forEach(
              (y, yearWeight) ->
                  month
                      .values()
                      .forEach(
                          (m, monthWeight) ->
                              day.values()
                                  .forEach(
                                      (d, dayWeight) ->
                                          put(
                                              days,
                                              y,
                                              m,
                                              d,
                                              yearWeight * monthWeight * dayWeight))));
      return days;
    }

    private static void put(Map<LocalDate, Double> days, int y, int m, int d, double weight) {
      if (m < 1 || m > 12 || d < 1 || d > 31) {
        return;
      }
      try {
        days.put(LocalDate.of(y, m, d), weight);
      } catch (DateTimeException noSuchDay) {
        // The calendar rules this reading out.
      }
    }
  }

  /** Years alone, or years, months and days. */
  public record WornAge(Worn years, Optional<MonthsAndDays> rest) {}

  /** What follows the years of an age. */
  public record MonthsAndDays(Worn months, Worn days) {}
}
