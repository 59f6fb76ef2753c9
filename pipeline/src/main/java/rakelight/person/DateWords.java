package rakelight.person;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import rakelight.person.CarvedLife.Reckoning;
import rakelight.person.CarvedLife.WornDate;
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
  private static final int QUAKER_MONTHS = 12;

  /**
   * A date found.
   *
   * @param end the word after it
   * @param value the date; {@code --MM-DD} when no year follows; {@code --inst-DD} or {@code
   *     --ult-DD} for a day of the month named before, or the one before that
   * @param worn its figures, for a date that was carved with a year in figures
   */
  record Found(
      int end,
      String value,
      boolean hasYear,
      Optional<WornDate> worn,
      Optional<DayOfWeek> weekday) {
    Detail detail() {
      return new Detail.Dated(worn, weekday);
    }
  }

  /** A day of the month: two figures with X where lost, and its figures. */
  private record DayNumber(String text, Optional<Worn> worn) {}

  private final List<CarvedWord> words;
  private final CalendarChange change;

  DateWords(List<CarvedWord> words, CalendarChange change) {
    this.words = words;
    this.change = change;
  }

  Optional<Found> at(int start) {
    int i = start;
    boolean about = false;
    Optional<DayOfWeek> weekday = Optional.empty();
    while (i < words.size()) {
      Optional<DayOfWeek> named = weekday.isEmpty() ? weekday(i) : Optional.empty();
      if (named.isPresent()) {
        weekday = named;
        i += isNumberedDay(i) ? 2 : 1;
      } else if (words
          .get(i)
          .is("about", "abt", "circa", "on", "in", "the", "ye", "morning", "evening", "night")) {
        about |= words.get(i).is("about", "abt", "circa");
        i++;
      } else {
        break;
      }
    }
    if (i >= words.size()) {
      return Optional.empty();
    }
    Optional<Found> found = dayAndMonth(i, about);
    found = found.isPresent() ? found : quaker(i, about);
    found = found.isPresent() || weekday.isPresent() ? found : yearAlone(i, about);
    Optional<DayOfWeek> day = weekday;
    return found.map(f -> new Found(f.end(), f.value(), f.hasYear(), f.worn(), day));
  }

  /** {@code Friday}, {@code Fri.}, and the Quakers' {@code First Day}. */
  private Optional<DayOfWeek> weekday(int i) {
    String word = words.get(i).folded();
    if (isNumberedDay(i)) {
      return switch (word) {
        case "first", "1st" -> Optional.of(DayOfWeek.SUNDAY);
        case "second", "2nd", "2d" -> Optional.of(DayOfWeek.MONDAY);
        case "third", "3rd", "3d" -> Optional.of(DayOfWeek.TUESDAY);
        case "fourth", "4th" -> Optional.of(DayOfWeek.WEDNESDAY);
        case "fifth", "5th" -> Optional.of(DayOfWeek.THURSDAY);
        case "sixth", "6th" -> Optional.of(DayOfWeek.FRIDAY);
        case "seventh", "7th" -> Optional.of(DayOfWeek.SATURDAY);
        default -> Optional.empty();
      };
    }
    for (DayOfWeek day : DayOfWeek.values()) {
      String name = day.name().toLowerCase(Locale.ROOT);
      boolean shortened =
          words.get(i).isCapitalised()
              && word.length() >= 3
              && (name.startsWith(word) && word.length() < name.length() - 2);
      if (word.equals(name) || (shortened && !word.equals("sun") && !word.equals("sat"))) {
        return Optional.of(day);
      }
    }
    return word.equals("sabbath") || word.equals("lordsday")
        ? Optional.of(DayOfWeek.SUNDAY)
        : Optional.empty();
  }

  /** {@code First Day}, with no month after it that would make it a day of that. */
  private boolean isNumberedDay(int i) {
    return i + 1 < words.size()
        && words.get(i + 1).is("day")
        && words.get(i + 1).isCapitalised()
        && !(i + 2 < words.size() && words.get(i + 2).is("of"));
  }

  /** A year by itself: four figures, some perhaps lost, or a numeral of four signs and more. */
  private Optional<Found> yearAlone(int i, boolean about) {
    List<String> years = years(words.get(i));
    if (years.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Found(
            i + 1,
            yearValue(years, about),
            true,
            about ? Optional.empty() : worn(i, Optional.empty(), Optional.empty()),
            Optional.empty()));
  }

  private Optional<Found> dayAndMonth(int i, boolean about) {
    int at = i;
    Optional<Month> month = MonthName.parse(words.get(at).folded());
    Optional<DayNumber> day = Optional.empty();
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
      if (words.get(at).is("inst", "instant", "ult", "ultimo")) {
        String which = words.get(at).folded().startsWith("inst") ? "--inst-" : "--ult-";
        return Optional.of(
            new Found(at + 1, which + day.get().text(), false, Optional.empty(), Optional.empty()));
      }
      month = MonthName.parse(words.get(at).folded());
      if (month.isEmpty()) {
        return Optional.empty();
      }
      at++;
    }
    return withYear(at, month.get().getValue(), day, about, Reckoning.OF_THE_GROUND);
  }

  /** Day, month and what follows, a year where there is one. */
  private Optional<Found> withYear(
      int at, int month, Optional<DayNumber> day, boolean about, Reckoning reckoning) {
    int yearAt = skip(at, "ad", "anno", "in", "the", "year", "domini");
    List<String> years = yearAt < words.size() ? years(words.get(yearAt)) : List.of();
    if (years.isEmpty()) {
      return day.isEmpty() || reckoning == Reckoning.QUAKER
          ? Optional.empty()
          : Optional.of(
              new Found(
                  at,
                  "--" + two(month) + "-" + day.get().text(),
                  false,
                  Optional.empty(),
                  Optional.empty()));
    }
    Optional<WornDate> worn =
        about || (day.isPresent() && day.get().worn().isEmpty())
            ? Optional.empty()
            : worn(yearAt, Optional.of(Worn.of(two(month))), day.flatMap(DayNumber::worn))
                .map(date -> date.in(reckoning));
    String value =
        reckoning == Reckoning.QUAKER
            ? quakerValue(years, month, day.map(DayNumber::text).orElse(""), about)
            : value(years, month, day.map(DayNumber::text).orElse(""), about);
    return Optional.of(new Found(yearAt + 1, value, true, worn, Optional.empty()));
  }

  /** {@code 12th of 1st Mo. 1740}, {@code 12 1mo 1676}, {@code 5th month 3d 1745}. */
  private Optional<Found> quaker(int i, boolean about) {
    boolean monthFirst = numberedMonth(i).isPresent();
    int monthAt = monthFirst ? i : skip(i + 1, "of", "day", "the", "ye");
    Optional<Integer> month = monthAt < words.size() ? numberedMonth(monthAt) : Optional.empty();
    if (month.isEmpty()) {
      return Optional.empty();
    }
    int at = monthAt + monthWords(monthAt);
    int dayAt = monthFirst ? skip(at, "the", "ye") : i;
    Optional<DayNumber> day =
        dayAt < words.size() && !isYear(words.get(dayAt))
            ? day(words.get(dayAt))
            : Optional.empty();
    if (monthFirst) {
      at = day.isPresent() ? skip(dayAt + 1, "day") : at;
    } else if (day.isEmpty()) {
      return Optional.empty();
    }
    return withYear(at, month.get(), day, about, Reckoning.QUAKER);
  }

  private static boolean isYear(CarvedWord word) {
    return !years(word).isEmpty();
  }

  /** The number of a month that is carved as one, such as {@code 3d Mo.} or {@code 1mo}. */
  private Optional<Integer> numberedMonth(int i) {
    String word = words.get(i).folded();
    String number = word.replaceFirst("(st|d|nd|rd|th)?(mo|month)?$", "");
    boolean inOne = word.matches("[0-9]{1,2}(mo|month)");
    boolean inTwo =
        word.matches("[0-9]{1,2}(st|d|nd|rd|th)?")
            && i + 1 < words.size()
            && words.get(i + 1).is("mo", "month");
    if (!(inOne || inTwo)) {
      return Optional.empty();
    }
    int month = Integer.parseInt(number);
    return month >= 1 && month <= QUAKER_MONTHS ? Optional.of(month) : Optional.empty();
  }

  private int monthWords(int i) {
    return words.get(i).folded().matches("[0-9]{1,2}(mo|month)") ? 1 : 2;
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
                new Found(
                    yearAt + 1,
                    value(years, day.getMonthValue(), two, about),
                    true,
                    about
                        ? Optional.empty()
                        : worn(
                            yearAt,
                            Optional.of(Worn.of(two(day.getMonthValue()))),
                            Optional.of(Worn.of(two))),
                    Optional.empty()));
          } catch (DateTimeException e) {
            return Optional.empty();
          }
        }
      }
    }
    return Optional.empty();
  }

  /** The figures of a date whose year is the word at this place. */
  private Optional<WornDate> worn(int yearAt, Optional<Worn> month, Optional<Worn> day) {
    CarvedWord word = words.get(yearAt);
    List<String> years = years(word);
    Optional<Worn> year = word.worn(4);
    if (year.isEmpty() && years.size() == 1 && years.get(0).matches("[0-9]{4}")) {
      year = Optional.of(Worn.of(years.get(0)));
    }
    return year.map(
        y ->
            new WornDate(
                y, month, day, word.folded().contains("/"), Reckoning.OF_THE_GROUND, change));
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

  /** The day of the month that the word is, if it is one. */
  private static Optional<DayNumber> day(CarvedWord word) {
    String plain = word.folded().replaceFirst("(st|d|nd|rd|th)$", "");
    if (plain.matches("[0-9?]{1,2}")) {
      String two = plain.length() == 1 ? "0" + plain : plain;
      two = two.replace('?', 'X');
      boolean possible = two.contains("X") || (!two.equals("00") && two.compareTo("31") <= 0);
      return possible && two.matches("[0-3X].")
          ? Optional.of(new DayNumber(two, word.worn(plain.length())))
          : Optional.empty();
    }
    OptionalInt numeral = RomanNumeral.parse(plain);
    boolean isDay = numeral.isPresent() && numeral.getAsInt() <= 31 && word.isCapitalised();
    return isDay
        ? Optional.of(
            new DayNumber(two(numeral.getAsInt()), Optional.of(Worn.of(two(numeral.getAsInt())))))
        : Optional.empty();
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

  /** Where a figure is lost, the month can't be told from the number: its days are left open. */
  private String quakerValue(List<String> years, int month, String day, boolean about) {
    List<EdtfDate> dates = new ArrayList<>();
    for (String year : years) {
      String counted = second(year);
      if (counted.matches("[0-9]{4}") && day.matches("[0-9]{2}")) {
        MonthName.quakerDays(Integer.parseInt(year.substring(0, 4)), month, Integer.parseInt(day))
            .stream()
            .map(Day::of)
            .map(EdtfDate::of)
            .forEach(dates::add);
      } else {
        dates.add(date(counted));
      }
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
