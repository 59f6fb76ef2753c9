package rakelight.person;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;
import rakelight.person.calendar.RomanDate;
import rakelight.person.calendar.RomanNumeral;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;
import rakelight.person.edtf.EdtfDate;
import rakelight.person.edtf.EdtfInterval;
import rakelight.person.edtf.EdtfSet;
import rakelight.person.edtf.Qualifier;

/** Finds a date at a place in the words of a reading. */
final class DateWords {
  private static final int MOST_MEMBERS = 24;
  private static final int LONGEST_DATE_WORDS = 8;

  /**
   * A date found.
   *
   * @param end the word after it
   * @param value the date, or {@code --MM-DD} when no year follows
   */
  record Found(int end, String value, boolean hasYear) {}

  private final List<CarvedWord> words;
  private final CalendarChange change;

  DateWords(List<CarvedWord> words, CalendarChange change) {
    this.words = words;
    this.change = change;
  }

  Optional<Found> at(int start) {
    int i = start;
    boolean about = false;
    while (i < words.size() && words.get(i).is("about", "abt", "circa", "on", "in", "the", "ye")) {
      about |= words.get(i).is("about", "abt", "circa");
      i++;
    }
    if (i >= words.size()) {
      return Optional.empty();
    }
    Optional<Found> found = dayAndMonth(i, about);
    return found.isPresent() ? found : yearAlone(i, about);
  }

  /** A year by itself: four figures, some perhaps lost, or a numeral of four signs and more. */
  private Optional<Found> yearAlone(int i, boolean about) {
    if (i >= words.size()) {
      return Optional.empty();
    }
    List<String> years = years(words.get(i));
    if (years.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Found(i + 1, yearValue(years, about), true));
  }

  private Optional<Found> dayAndMonth(int i, boolean about) {
    int at = i;
    Optional<Month> month = MonthName.parse(words.get(at).folded());
    String day = "";
    if (month.isPresent()) {
      at = skip(at + 1, "the", "ye");
      if (at < words.size()) {
        day = day(words.get(at));
      }
      at += day.isEmpty() ? 0 : 1;
    } else {
      Optional<Found> roman = roman(i, about);
      if (roman.isPresent()) {
        return roman;
      }
      day = day(words.get(at));
      at = skip(at + 1, "of", "day", "de");
      if (day.isEmpty() || at >= words.size()) {
        return Optional.empty();
      }
      month = MonthName.parse(words.get(at).folded());
      if (month.isEmpty()) {
        return Optional.empty();
      }
      at++;
    }
    int yearAt = skip(at, "ad", "anno", "in", "the", "year", "domini");
    List<String> years = yearAt < words.size() ? years(words.get(yearAt)) : List.of();
    if (years.isEmpty()) {
      return day.isEmpty()
          ? Optional.empty()
          : Optional.of(new Found(at, "--" + two(month.get().getValue()) + "-" + day, false));
    }
    return Optional.of(
        new Found(yearAt + 1, value(years, month.get().getValue(), day, about), true));
  }

  /** {@code IV Non. Oct.}, then the year. */
  private Optional<Found> roman(int i, boolean about) {
    for (int length = Math.min(4, words.size() - i); length >= 2; length--) {
      StringBuilder text = new StringBuilder();
      for (int k = i; k < i + length; k++) {
        text.append(k > i ? " " : "").append(words.get(k).folded());
      }
      Optional<RomanDate> date = RomanDate.parse(text.toString());
      int yearAt = skip(i + length, "ad", "anno", "domini");
      if (date.isPresent() && yearAt < words.size()) {
        List<String> years = years(words.get(yearAt));
        if (years.size() == 1 && years.get(0).matches("[0-9]{4}")) {
          try {
            MonthDay day = date.get().in(Integer.parseInt(years.get(0)));
            String two = two(day.getDayOfMonth());
            return Optional.of(
                new Found(yearAt + 1, value(years, day.getMonthValue(), two, about), true));
          } catch (DateTimeException e) {
            return Optional.empty();
          }
        }
      }
    }
    return Optional.empty();
  }

  /** With the year found elsewhere for a date that had none. */
  Optional<String> withYear(String monthAndDay, String year) {
    if (!year.matches("[0-9]{4}")) {
      return Optional.empty();
    }
    String value =
        value(
            List.of(year),
            Integer.parseInt(monthAndDay.substring(2, 4)),
            monthAndDay.substring(5),
            false);
    return value.isEmpty() ? Optional.empty() : Optional.of(value);
  }

  private int skip(int from, String... fillers) {
    int at = from;
    while (at < words.size() && at - from < LONGEST_DATE_WORDS && words.get(at).is(fillers)) {
      at++;
    }
    return at;
  }

  /** Two figures with X where lost; empty when the word is no day of the month. */
  private static String day(CarvedWord word) {
    String plain = word.folded().replaceFirst("(st|d|nd|rd|th)$", "");
    if (plain.matches("[0-9?]{1,2}")) {
      String two = plain.length() == 1 ? "0" + plain : plain;
      two = two.replace('?', 'X');
      boolean possible = two.contains("X") || (!two.equals("00") && two.compareTo("31") <= 0);
      return possible && two.matches("[0-3X].") ? two : "";
    }
    OptionalInt numeral = RomanNumeral.parse(plain);
    boolean isDay = numeral.isPresent() && numeral.getAsInt() <= 31 && word.isCapitalised();
    return isDay ? two(numeral.getAsInt()) : "";
  }

  /** Years the word may be: {@code 18X3}, or {@code 1731/2}; empty when it is none. */
  private static List<String> years(CarvedWord word) {
    TreeSet<String> years = new TreeSet<>();
    for (String option : word.options()) {
      if (option.matches("[12?][0-9?]{3}(/[0-9]{1,4})?") && option.matches(".*[0-9].*[0-9?].*")) {
        years.add(option.replace('?', 'X'));
      }
    }
    if (years.isEmpty() && word.folded().matches("[ivxlcdmjↄ]{4,}")) {
      RomanNumeral.parse(word.folded()).stream()
          .filter(year -> year >= 1500 && year <= 2099)
          .forEach(year -> years.add(Integer.toString(year)));
    }
    return List.copyOf(years);
  }

  private static String yearValue(List<String> years, boolean about) {
    List<EdtfDate> dates = new ArrayList<>();
    for (String year : years) {
      dates.add(date(second(year)));
    }
    return print(dates, about);
  }

  private String value(List<String> years, int month, String day, boolean about) {
    List<EdtfDate> dates = new ArrayList<>();
    for (String year : years) {
      dates.addAll(dates(year, month, day));
    }
    return dates.isEmpty() ? "" : print(dates, about);
  }

  private List<EdtfDate> dates(String year, int month, String day) {
    String counted = second(year);
    boolean known = counted.matches("[0-9]{4}");
    boolean modern =
        known ? change.isModern(Integer.parseInt(counted)) : change.isModern(earliest(counted));
    if (modern || !known || !day.matches("[0-9]{2}")) {
      try {
        return List.of(date(counted + "-" + two(month) + (day.isEmpty() ? "" : "-" + day)));
      } catch (IllegalArgumentException e) {
        return List.of();
      }
    }
    int y = Integer.parseInt(counted);
    int d = Integer.parseInt(day);
    List<LocalDate> days =
        year.contains("/")
            ? change.daysOfCountedYear(y, month, d, CalendarChange.Style.IN_FORCE)
            : change.days(y, month, d, CalendarChange.Style.IN_FORCE);
    return days.stream().map(Day::of).map(EdtfDate::of).toList();
  }

  private static int earliest(String masked) {
    return Integer.parseInt(masked.replace('X', '0'));
  }

  /** The year that counts from January: the second of a double year. */
  private static String second(String year) {
    int slash = year.indexOf('/');
    if (slash < 0) {
      return year;
    }
    String first = year.substring(0, slash);
    return first.matches("[0-9]{4}") ? Integer.toString(Integer.parseInt(first) + 1) : first;
  }

  private static EdtfDate date(String text) {
    if (Edtf.parse(text) instanceof EdtfDate date) {
      return date;
    }
    throw new IllegalArgumentException("not a single date: " + text);
  }

  private static String print(List<EdtfDate> dates, boolean about) {
    List<EdtfDate> qualified =
        dates.stream()
            .map(date -> about ? date.qualified(Qualifier.APPROXIMATE) : date)
            .sorted(Edtf.ORDER)
            .distinct()
            .toList();
    if (qualified.size() == 1) {
      return qualified.get(0).toString();
    }
    if (qualified.size() <= MOST_MEMBERS) {
      return EdtfSet.oneOf(qualified).toString();
    }
    return EdtfInterval.between(qualified.get(0), qualified.get(qualified.size() - 1)).toString();
  }

  private static String two(int value) {
    return "" + (char) ('0' + value / 10) + (char) ('0' + value % 10);
  }
}
