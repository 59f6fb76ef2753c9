package rakelight.person;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import rakelight.person.CarvedLife.Reckoning;
import rakelight.person.CarvedLife.WornDate;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.FeastDay;
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
  private static final int MOST_BEFORE_AND = 6;
  private static final String ENDINGS = "(st|d|nd|rd|th|do|to|tio|mo|vo|no|ydd|fed|eg)$";
  private static final Pattern ENDING = Pattern.compile(ENDINGS);
  private static final Pattern ONE_OR_TWO = Pattern.compile("[0-9?]{1,2}");
  private static final Pattern YEAR = Pattern.compile("[12?][0-9?]{3}(/[0-9]{1,4})?");
  private static final Pattern SOME_FIGURES = Pattern.compile(".*[0-9].*[0-9?].*");
  private static final Pattern FOUR_FIGURES = Pattern.compile("[0-9]{4}");
  private static final Pattern TWO_FIGURES = Pattern.compile("[0-9]{2}");
  private static final Pattern IMPOSSIBLE = Pattern.compile("1[0-4].*|2[1-9].*|20[3-9].*");
  private static final Pattern NUMERAL = Pattern.compile("[ivxlcdmjↄ]{4,}");

  /** The first letters of a month, the others lost. */
  private static final Pattern BEGUN = Pattern.compile("[a-z]{2,}[?…]+");

  private static final Pattern MONTH_IN_ONE = Pattern.compile("[0-9]{1,2}(mo|month)");
  private static final Pattern IN_NUMBERS =
      Pattern.compile("([0-9]{1,2})[-/.:]([0-9]{1,2})[-/.:]([12][0-9]{3})");

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
    Detail detail(String place) {
      return new Detail.Dated(worn, weekday, place);
    }
  }

  /** A day of the month: two figures with X where lost, and its figures. */
  private record DayNumber(String text, Optional<Worn> worn) {}

  private final List<CarvedWord> words;
  private final CalendarChange change;
  private final Map<Integer, Optional<Found>> found = new HashMap<>();

  DateWords(List<CarvedWord> words, CalendarChange change) {
    this.words = words;
    this.change = change;
  }

  /** The date at a place; of days that share one month, the first. */
  Optional<Found> at(int start) {
    Optional<Found> known = found.get(start);
    if (known == null) {
      known = find(start);
      found.put(start, known);
    }
    return known;
  }

  private Optional<Found> find(int start) {
    int i = start;
    boolean about = false;
    boolean year = false;
    Optional<DayOfWeek> weekday = Optional.empty();
    while (i < words.size()) {
      Optional<DayOfWeek> named = weekday.isEmpty() ? weekday(i) : Optional.empty();
      if (named.isPresent() && feast(i, false).isEmpty()) {
        weekday = named;
        i += isNumberedDay(i) ? 2 : 1;
      } else if (i + 1 < words.size()
          && words.get(i).shown().equals("A.")
          && words.get(i + 1).is("d")) {
        i += 2;
      } else if (words.get(i).in(LEADING)) {
        about |= words.get(i).is("about", "abt", "circa", "ca");
        year |= words.get(i).is("year", "anno", "ano");
        i++;
      } else {
        break;
      }
    }
    if (i >= words.size()) {
      return Optional.empty();
    }
    Optional<Found> found = dayAndMonth(passFeast(i), about);
    found = found.isPresent() ? found : quaker(i, about);
    found = found.isPresent() ? found : feast(i, about);
    found = found.isPresent() ? found : inNumbers(i);
    found = found.isPresent() ? found : yearFirst(i, about);
    found = found.isPresent() || weekday.isPresent() ? found : yearAlone(i, about);
    Optional<DayOfWeek> day = weekday;
    return found.map(f -> new Found(f.end(), f.value(), f.hasYear(), f.worn(), day));
  }

  private static final Set<String> LEADING =
      PersonWords.words(
          "about abt circa ca on in the ye morning evening night anno ano ad dom domini year of our lord die upon "
              + "afternoon early noon salutis dni c feast festival");

  /**
   * {@code 4 & 6 March 1839}, {@code March 4 and 6, 1839}: days of one month, one after another.
   */
  List<Found> severalAt(int start) {
    for (int and = start + 1; and < Math.min(words.size() - 1, start + MOST_BEFORE_AND); and++) {
      boolean joined = words.get(and).is("&", "and");
      if (joined && day(words.get(and - 1)).isPresent() && day(words.get(and + 1)).isPresent()) {
        Optional<Found> second = at(and + 1);
        int first = and - 1;
        boolean monthFirst = first > start && month(words.get(first - 1)).isPresent();
        if (monthFirst) {
          Month month = month(words.get(first - 1)).orElseThrow();
          second =
              withYear(
                  and + 2,
                  month.getValue(),
                  day(words.get(and + 1)),
                  false,
                  Reckoning.OF_THE_GROUND);
        }
        if (second.isPresent() && second.get().value().matches("[0-9]{4}-[0-9]{2}-[0-9]{2}")) {
          Found f = second.get();
          String two = day(words.get(first)).orElseThrow().text();
          Optional<WornDate> worn =
              f.worn()
                  .map(
                      w ->
                          new WornDate(
                              w.year(),
                              w.month(),
                              words
                                  .get(first)
                                  .worn(
                                      words.get(first).folded().replaceFirst(ENDINGS, "").length()),
                              w.doubleYear(),
                              w.reckoning(),
                              w.change()));
          String value = f.value().substring(0, 8) + two;
          return List.of(new Found(f.end(), value, true, worn, Optional.empty()), f);
        }
      }
    }
    return List.of();
  }

  /** Behind a feast whose day is cut as well, {@code Good Friday April 14th 1911}. */
  private int passFeast(int i) {
    for (int length = Math.min(3, words.size() - i - 1); length >= 1; length--) {
      StringBuilder name = new StringBuilder();
      for (int k = i; k < i + length; k++) {
        name.append(k > i ? " " : "").append(words.get(k).folded());
      }
      if (FeastDay.parse(name.toString()).isPresent()) {
        return skip(i + length, "the");
      }
    }
    return i;
  }

  /** {@code Good Friday 1850}, {@code Xmas Day 1861}. */
  private Optional<Found> feast(int i, boolean about) {
    if (!words.get(i).isCapitalised() || words.get(i).hasFigure()) {
      return Optional.empty();
    }
    for (int length = Math.min(3, words.size() - i); length >= 1; length--) {
      StringBuilder name = new StringBuilder();
      for (int k = i; k < i + length; k++) {
        name.append(k > i ? " " : "").append(words.get(k).folded());
      }
      Optional<FeastDay> feast = FeastDay.parse(name.toString());
      if (feast.isEmpty()) {
        continue;
      }
      int yearAt = skip(i + length, YEAR_LEADS);
      List<String> years = yearAt < words.size() ? years(words.get(yearAt)) : List.of();
      if (years.size() != 1 || !FOUR_FIGURES.matcher(second(years.get(0))).matches()) {
        return Optional.empty();
      }
      List<EdtfDate> days =
          feast.get().days(Integer.parseInt(second(years.get(0))), change).stream()
              .map(Day::of)
              .map(EdtfDate::of)
              .toList();
      return days.isEmpty()
          ? Optional.empty()
          : Optional.of(
              new Found(yearAt + 1, print(days, about), true, Optional.empty(), Optional.empty()));
    }
    return Optional.empty();
  }

  /**
   * {@code 12-30-1861}, {@code 29.1.1950}, {@code 4/7/1863}: the order is told by a number over
   * twelve, here or in another such date of the face; else both orders are kept open.
   */
  private Optional<Found> inNumbers(int i) {
    if (!words.get(i).hasFigure()) {
      return Optional.empty();
    }
    String shown = words.get(i).shown().replaceAll("[,;.]+$", "");
    Matcher matcher = IN_NUMBERS.matcher(shown);
    int end = i + 1;
    if (i + 4 < words.size()
        && words.get(i + 1).shown().matches("[-–./]")
        && words.get(i + 3).shown().matches("[-–./]")) {
      matcher =
          IN_NUMBERS.matcher(
              shown + "/" + words.get(i + 2).folded() + "/" + words.get(i + 4).folded());
      end = i + 5;
    }
    if (!matcher.matches()
        && i + 2 < words.size()
        && words.get(i).folded().matches("[0-9]{1,2}")
        && words.get(i).line() == words.get(i + 2).line()) {
      String joined = shown + "/" + words.get(i + 1).folded() + "/" + words.get(i + 2).folded();
      matcher = IN_NUMBERS.matcher(joined);
      end = i + 3;
      boolean pointed = words.get(i).endsWith(".") || words.get(i).endsWith("/");
      if (!pointed) {
        return Optional.empty();
      }
    }
    if (!matcher.matches()) {
      return Optional.empty();
    }
    int first = Integer.parseInt(matcher.group(1));
    int second = Integer.parseInt(matcher.group(2));
    int year = Integer.parseInt(matcher.group(3));
    List<LocalDate> days = new ArrayList<>();
    boolean[] orders = ordersHere();
    if (!orders[1] || orders[0]) {
      addDay(days, year, second, first);
    }
    if (first != second && (!orders[0] || orders[1])) {
      addDay(days, year, first, second);
    }
    if (days.isEmpty()) {
      return Optional.empty();
    }
    String value = print(days.stream().map(Day::of).map(EdtfDate::of).toList(), false);
    Optional<WornDate> worn =
        days.size() == 1 && change.isModern(year)
            ? Optional.of(WornDate.of(value).in(Reckoning.OF_THE_GROUND))
            : Optional.empty();
    return Optional.of(new Found(end, value, true, worn, Optional.empty()));
  }

  /** Whether a date of the face can only have the day first, and whether one the month. */
  private boolean[] ordersHere() {
    boolean[] orders = new boolean[2];
    for (CarvedWord word : words) {
      Matcher matcher = IN_NUMBERS.matcher(word.shown().replaceAll("[,;.]+$", ""));
      if (matcher.matches()) {
        orders[0] |= Integer.parseInt(matcher.group(1)) > 12;
        orders[1] |= Integer.parseInt(matcher.group(2)) > 12;
      }
    }
    return orders;
  }

  private void addDay(List<LocalDate> days, int year, int month, int day) {
    if (month >= 1 && month <= 12) {
      days.addAll(change.days(year, month, day, CalendarChange.Style.IN_FORCE));
    }
  }

  /** {@code 1850 May 3d}, {@code 1803, Augt. 12}. */
  private Optional<Found> yearFirst(int i, boolean about) {
    List<String> years = years(words.get(i));
    if (years.isEmpty() || i + 2 >= words.size() || !words.get(i + 1).isCapitalised()) {
      return Optional.empty();
    }
    Optional<Month> month = month(words.get(i + 1));
    int dayAt = skip(i + 2, "the", "ye");
    Optional<DayNumber> day = dayAt < words.size() ? day(words.get(dayAt)) : Optional.empty();
    boolean ownYear = dayAt + 1 < words.size() && !years(words.get(dayAt + 1)).isEmpty();
    if (month.isEmpty() || day.isEmpty() || ownYear) {
      return Optional.empty();
    }
    String value = value(years, month.get().getValue(), day.get().text(), about);
    Optional<WornDate> worn =
        about
            ? Optional.empty()
            : worn(i, Optional.of(Worn.of(two(month.get().getValue()))), day.get().worn());
    return Optional.of(new Found(dayAt + 1, value, true, worn, Optional.empty()));
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

  /** The month a word is, perhaps through its doubt; empty where it may be several. */
  private static Optional<Month> month(CarvedWord word) {
    List<Month> months = months(word);
    return months.size() == 1 ? Optional.of(months.get(0)) : Optional.empty();
  }

  private static List<Month> months(CarvedWord word) {
    if (!word.isDoubtful() && word.options().size() == 1 && word.likely().isEmpty()) {
      return MonthName.parse(word.folded()).map(List::of).orElse(List.of());
    }
    TreeSet<Month> months = new TreeSet<>();
    MonthName.parse(word.folded()).ifPresent(months::add);
    if (months.isEmpty()) {
      word.likely().forEach(form -> MonthName.parse(form).ifPresent(months::add));
    }
    if (months.isEmpty() && BEGUN.matcher(word.folded()).matches()) {
      String begun = word.folded().replaceAll("[?…]+$", "");
      for (Month month : Month.values()) {
        if (month.name().toLowerCase(Locale.ROOT).startsWith(begun)) {
          months.add(month);
        }
      }
    }
    return List.copyOf(months);
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
    List<Month> months = months(words.get(at));
    Optional<DayNumber> day = Optional.empty();
    if (!months.isEmpty()) {
      at = skip(at + 1, "the", "ye", "day");
      if (at < words.size()) {
        day = day(words.get(at));
        if (day.isEmpty()) {
          Optional<NumberWords.Found> number = dayInWords(at);
          day = number.flatMap(DateWords::day);
          at = number.map(n -> n.end() - 1).orElse(at);
        }
      }
      at += day.isEmpty() ? 0 : 1;
      at = day.isPresent() ? skip(at, "day") : at;
    } else {
      Optional<Found> roman = roman(i, about);
      if (roman.isPresent()) {
        return roman;
      }
      day = day(words.get(at));
      int after = at + 1;
      if (day.isEmpty()) {
        Optional<NumberWords.Found> number = dayInWords(at);
        day = number.flatMap(DateWords::day);
        after = number.map(NumberWords.Found::end).orElse(after);
      }
      at = skip(after, "of", "day", "de", "die", "dayes", "ye", "the");
      if (day.isEmpty() || at >= words.size()) {
        return Optional.empty();
      }
      int same = skip(at, "same", "said");
      if (same > at && same < words.size() && words.get(same).is("month")) {
        return Optional.of(
            new Found(
                same + 1, "--inst-" + day.get().text(), false, Optional.empty(), Optional.empty()));
      }
      if (words.get(at).is("inst", "instant", "ult", "ultimo")) {
        String which = words.get(at).folded().startsWith("inst") ? "--inst-" : "--ult-";
        return Optional.of(
            new Found(at + 1, which + day.get().text(), false, Optional.empty(), Optional.empty()));
      }
      months = months(words.get(at));
      if (months.isEmpty()) {
        return Optional.empty();
      }
      at++;
    }
    return months.size() == 1
        ? withYear(at, months.get(0).getValue(), day, about, Reckoning.OF_THE_GROUND)
        : ofOneMonth(at, months, day);
  }

  /** {@code third}, {@code twenty first}: not {@code May one ...}. */
  private Optional<NumberWords.Found> dayInWords(int at) {
    boolean inWords = !words.get(at).hasFigure() && words.get(at).folded().length() > 2;
    return inWords
        ? NumberWords.at(words, at).filter(NumberWords.Found::ordinal)
        : Optional.empty();
  }

  private static Optional<DayNumber> day(NumberWords.Found number) {
    return number.isKnown() && number.value() >= 1 && number.value() <= 31
        ? Optional.of(new DayNumber(two(number.value()), Optional.of(Worn.of(two(number.value())))))
        : Optional.empty();
  }

  /** A date whose month, half lost, may be several: all are kept. */
  private Optional<Found> ofOneMonth(int at, List<Month> months, Optional<DayNumber> day) {
    int yearAt = skip(at, YEAR_LEADS);
    List<String> years = yearAt < words.size() ? years(words.get(yearAt)) : List.of();
    List<EdtfDate> dates = new ArrayList<>();
    for (String year : years) {
      for (Month month : months) {
        dates.addAll(dates(year, month.getValue(), day.map(DayNumber::text).orElse("")));
      }
    }
    return dates.isEmpty() || day.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Found(yearAt + 1, print(dates, false), true, Optional.empty(), Optional.empty()));
  }

  /** Day, month and what follows, a year where there is one. */
  private Optional<Found> withYear(
      int at, int month, Optional<DayNumber> day, boolean about, Reckoning reckoning) {
    int yearAt = skip(at, YEAR_LEADS);
    List<String> years = yearAt < words.size() ? years(yearAt) : List.of();
    if (yearAt < words.size() && day.isPresent()) {
      years = possible(years, words.get(yearAt));
    }
    int yearEnd = yearAt + yearWords(yearAt);
    boolean old = yearEnd < words.size() && words.get(yearEnd).is("os");
    if (old && day.isPresent() && reckoning != Reckoning.QUAKER) {
      String value = oldStyle(years, month, day.get().text());
      if (!value.isEmpty()) {
        return Optional.of(new Found(yearEnd + 1, value, true, Optional.empty(), Optional.empty()));
      }
    }
    yearEnd += yearEnd < words.size() && words.get(yearEnd).is("ns") ? 1 : 0;
    int same = skip(at, "in", "of", "the", "same", "said");
    boolean sameYear =
        years.isEmpty()
            && same < words.size()
            && same > at
            && words.get(same).is("year")
            && words.get(same - 1).is("same", "said");
    if (sameYear) {
      for (int k = at - 1; k >= 0 && years.isEmpty(); k--) {
        years = years(words.get(k));
      }
      yearEnd = same + 1;
      yearAt = same;
    }
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
        sameYear || about || (day.isPresent() && day.get().worn().isEmpty())
            ? Optional.empty()
            : worn(yearAt, Optional.of(Worn.of(two(month))), day.flatMap(DayNumber::worn))
                .map(date -> date.in(reckoning));
    String value =
        reckoning == Reckoning.QUAKER
            ? quakerValue(years, month, day.map(DayNumber::text).orElse(""), about)
            : value(years, month, day.map(DayNumber::text).orElse(""), about);
    return Optional.of(new Found(yearEnd, value, true, worn, Optional.empty()));
  }

  /** Carved as Old Style, which holds whatever the ground's calendar. */
  private String oldStyle(List<String> years, int month, String day) {
    List<EdtfDate> dates = new ArrayList<>();
    for (String year : years) {
      if (FOUR_FIGURES.matcher(second(year)).matches() && TWO_FIGURES.matcher(day).matches()) {
        int y = Integer.parseInt(second(year));
        List<LocalDate> days =
            year.contains("/")
                ? change.daysOfCountedYear(
                    y, month, Integer.parseInt(day), CalendarChange.Style.OLD)
                : change.days(y, month, Integer.parseInt(day), CalendarChange.Style.OLD);
        days.stream().map(Day::of).map(EdtfDate::of).forEach(dates::add);
      }
    }
    return dates.isEmpty() ? "" : print(dates, false);
  }

  /** The years that begin at a word; a double year may be cut with a dash, {@code 1716-7}. */
  private List<String> years(int i) {
    Optional<NumberWords.Found> inWords = NumberWords.yearInWords(words, i);
    if (inWords.isPresent()) {
      return List.of(inWords.get().figures());
    }
    List<String> years = years(words.get(i));
    if (yearWords(i) == 3) {
      return years.stream().map(year -> year + "/" + words.get(i + 2).folded()).toList();
    }
    return years;
  }

  private int yearWords(int i) {
    boolean dashed =
        i + 2 < words.size()
            && words.get(i + 1).folded().equals("-")
            && words.get(i).folded().matches("1[67][0-9]{2}")
            && words.get(i + 2).folded().matches("[0-9]{1,2}")
            && !change.isModern(Integer.parseInt(words.get(i).folded()))
            && (Integer.parseInt(words.get(i).folded()) + 1)
                    % (words.get(i + 2).folded().length() == 1 ? 10 : 100)
                == Integer.parseInt(words.get(i + 2).folded());
    int inWords = NumberWords.yearInWords(words, i).map(n -> n.end() - i).orElse(1);
    return dashed ? 3 : inWords;
  }

  private static final Set<String> YEAR_LEADS =
      PersonWords.words("ad anno ano in the ye year domini dom of our lord dni salutis and");

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
    if (day.isEmpty() && dayAt < words.size() && !monthFirst) {
      day = dayInWords(dayAt).filter(n -> n.end() == dayAt + 1).flatMap(DateWords::day);
    }
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

  /** The number of a month that is carved as one, such as {@code 3d Mo.}, {@code Sixth Month}. */
  private Optional<Integer> numberedMonth(int i) {
    String word = words.get(i).folded();
    boolean inOne = words.get(i).hasFigure() && MONTH_IN_ONE.matcher(word).matches();
    boolean unitFollows = i + 1 < words.size() && words.get(i + 1).is("mo", "month", "mon", "moth");
    int month = 0;
    if (inOne) {
      month = Integer.parseInt(word.replaceAll("[a-z]", ""));
    } else if (unitFollows) {
      Optional<NumberWords.Found> number = NumberWords.at(words, i);
      month =
          number
              .filter(n -> n.end() == i + 1 && n.isKnown())
              .map(NumberWords.Found::value)
              .orElse(0);
    }
    return month >= 1 && month <= QUAKER_MONTHS ? Optional.of(month) : Optional.empty();
  }

  private int monthWords(int i) {
    return MONTH_IN_ONE.matcher(words.get(i).folded()).matches() ? 1 : 2;
  }

  /** {@code IV Non. Oct.}, then the year. */
  private Optional<Found> roman(int i, boolean about) {
    if (!mayBeRoman(i)) {
      return Optional.empty();
    }
    for (int length = Math.min(4, words.size() - i); length >= 2; length--) {
      StringBuilder text = new StringBuilder();
      for (int k = i; k < i + length; k++) {
        text.append(k > i ? " " : "").append(words.get(k).folded());
      }
      Optional<RomanDate> date = RomanDate.parse(text.toString());
      int yearAt = skip(i + length, "ad", "anno", "domini", "dom", "dni");
      if (date.isPresent() && yearAt < words.size()) {
        List<String> years = years(words.get(yearAt));
        if (years.size() == 1 && FOUR_FIGURES.matcher(years.get(0)).matches()) {
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

  /** Whether Kalends, Nones or Ides stand in the words ahead. */
  private boolean mayBeRoman(int i) {
    for (int k = i; k < Math.min(words.size(), i + 4); k++) {
      String folded = words.get(k).folded();
      if (folded.startsWith("kal")
          || folded.startsWith("cal")
          || folded.startsWith("non")
          || folded.startsWith("id")) {
        return true;
      }
    }
    return false;
  }

  /** The figures of a date whose year is the word at this place. */
  private Optional<WornDate> worn(int yearAt, Optional<Worn> month, Optional<Worn> day) {
    CarvedWord word = words.get(yearAt);
    List<String> years = years(word);
    Optional<Worn> year = word.worn(4);
    if (year.isEmpty() && years.size() == 1 && FOUR_FIGURES.matcher(years.get(0)).matches()) {
      year = Optional.of(Worn.of(years.get(0)));
    }
    return year.map(
        y ->
            new WornDate(
                y, month, day, word.folded().contains("/"), Reckoning.OF_THE_GROUND, change));
  }

  /** With the year found elsewhere for a date that had none. */
  Optional<String> withYear(String monthAndDay, String year) {
    if (!FOUR_FIGURES.matcher(year).matches()) {
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

  private int skip(int from, Set<String> fillers) {
    int at = from;
    while (at < words.size() && at - from < LONGEST_DATE_WORDS && words.get(at).in(fillers)) {
      at++;
    }
    return at;
  }

  /** The day of the month that the word is, if it is one. */
  private static Optional<DayNumber> day(CarvedWord word) {
    String folded = word.folded();
    int length = folded.length();
    if (length == 0 || length > 9 || !NumberWords.mayBeginNumber(folded.charAt(0))) {
      return Optional.empty();
    }
    String plain = ENDING.matcher(folded).replaceFirst("");
    if (ONE_OR_TWO.matcher(plain).matches()) {
      String two = plain.length() == 1 ? "0" + plain : plain;
      two = two.replace('?', 'X');
      boolean possible = two.contains("X") || (!two.equals("00") && two.compareTo("31") <= 0);
      return possible && (two.charAt(0) <= '3' || two.charAt(0) == 'X')
          ? Optional.of(new DayNumber(two, word.worn(plain.length())))
          : Optional.empty();
    }
    OptionalInt numeral = RomanNumeral.parse(plain);
    boolean mayBeNumeral = word.isCapitalised() || plain.length() > 1;
    boolean isDay = numeral.isPresent() && numeral.getAsInt() <= 31 && mayBeNumeral;
    return isDay
        ? Optional.of(
            new DayNumber(two(numeral.getAsInt()), Optional.of(Worn.of(two(numeral.getAsInt())))))
        : Optional.empty();
  }

  /** Years the word may be: {@code 18X3}, or {@code 1731/2}; empty when it is none. */
  private static List<String> years(CarvedWord word) {
    if (word.options().size() == 1
        && !word.hasFigure()
        && !NUMERAL.matcher(word.folded()).matches()) {
      return List.of();
    }
    TreeSet<String> years = new TreeSet<>();
    for (String option : word.options()) {
      if (YEAR.matcher(option).matches() && SOME_FIGURES.matcher(option).matches()) {
        years.add(option.replace('?', 'X'));
      }
    }
    if (years.isEmpty() && NUMERAL.matcher(word.folded()).matches()) {
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
      if (FOUR_FIGURES.matcher(counted).matches() && TWO_FIGURES.matcher(day).matches()) {
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
    List<EdtfDate> old = oldDates(year, month, day);
    if (!old.isEmpty()) {
      return old;
    }
    String counted = second(year);
    boolean known = FOUR_FIGURES.matcher(counted).matches();
    boolean modern =
        known ? change.isModern(Integer.parseInt(counted)) : change.isModern(earliest(counted));
    if (modern || !known || !TWO_FIGURES.matcher(day).matches()) {
      try {
        return List.of(date(counted + "-" + two(month) + (day.isEmpty() ? "" : "-" + day)));
      } catch (IllegalArgumentException noSuchDay) {
        return List.of(date(counted + "-" + two(month)));
      }
    }
    int y = Integer.parseInt(counted);
    int d = Integer.parseInt(day);
    List<LocalDate> days =
        year.contains("/")
            ? change.daysOfCountedYear(y, month, d, CalendarChange.Style.IN_FORCE)
            : change.days(y, month, d, CalendarChange.Style.IN_FORCE);
    return days.isEmpty()
        ? List.of(date(counted + "-" + two(month)))
        : days.stream().map(Day::of).map(EdtfDate::of).toList();
  }

  /**
   * A day with a lost figure that may be of before the calendar changed: each it may be is turned
   * by itself, since month and year may be others. Where they are too many, its months, or its
   * year.
   */
  private List<EdtfDate> oldDates(String year, int month, String day) {
    boolean lost = (year + day).contains("X");
    if (!lost || !year.matches("[0-9X]{4}") || !day.matches("[0-9X]{2}")) {
      return List.of();
    }
    Pattern years = Pattern.compile(year.replace('X', '.'));
    Pattern days = Pattern.compile(day.replace('X', '.'));
    List<Integer> candidates =
        IntStream.rangeClosed(EARLIEST, LATEST)
            .filter(y -> years.matcher(Integer.toString(y)).matches())
            .boxed()
            .toList();
    boolean old = candidates.stream().anyMatch(y -> y >= COMMON && !change.isModern(y));
    old |= candidates.stream().noneMatch(change::isModern);
    List<EdtfDate> dates = new ArrayList<>();
    for (int y : old ? candidates : List.<Integer>of()) {
      if (change.isModern(y)) {
        monthOrDay(y, month, day).ifPresent(dates::add);
        continue;
      }
      for (int d = 1; d <= 31; d++) {
        if (days.matcher(two(d)).matches()) {
          change.days(y, month, d, CalendarChange.Style.IN_FORCE).stream()
              .map(Day::of)
              .map(EdtfDate::of)
              .forEach(dates::add);
        }
      }
    }
    if (!old || dates.size() <= MOST_MEMBERS) {
      return old ? dates : List.of();
    }
    // January to March may count to the year before, and the last days of a month to the next.
    return month > 3 && month < 12
        ? List.of(date(year + "-" + two(month)), date(year + "-" + two(month + 1)))
        : List.of(date(year));
  }

  private static Optional<EdtfDate> monthOrDay(int year, int month, String day) {
    try {
      return Optional.of(date(year + "-" + two(month) + "-" + day));
    } catch (IllegalArgumentException noSuchDay) {
      return Optional.empty();
    }
  }

  /** Inscriptions are of no other years. */
  private static final int EARLIEST = 1500;

  /** Those before are rare; where a year may also be a later one they are left out of account. */
  private static final int COMMON = 1700;

  private static final int LATEST = 2029;

  /**
   * Without years that no stone has, such as 1111 beside 1711; where all are such a figure is
   * misread: {@code 4831} may be 1831, {@code 1337} any year of a century that ends so.
   */
  private static List<String> possible(List<String> years, CarvedWord word) {
    List<String> possible = years.stream().filter(DateWords::isPossible).toList();
    if (!possible.isEmpty()) {
      return possible;
    }
    String carved = years.isEmpty() ? word.folded() : years.get(0);
    return carved.matches("[03-9][5-9][0-9]{2}")
        ? List.of("X" + carved.substring(1))
        : carved.matches("1[0-4][0-9]{2}") ? List.of("1X" + carved.substring(2)) : years;
  }

  private static boolean isPossible(String year) {
    return !IMPOSSIBLE.matcher(year).matches();
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
    return FOUR_FIGURES.matcher(first).matches()
        ? Integer.toString(Integer.parseInt(first) + 1)
        : first;
  }

  private static EdtfDate date(String text) {
    if (Edtf.parse(text) instanceof EdtfDate date) {
      return date;
    }
    throw new IllegalArgumentException("not a single date: " + text);
  }

  private static String print(List<EdtfDate> dates, boolean about) {
    if (dates.size() == 1 && !about) {
      return dates.get(0).toString();
    }
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
