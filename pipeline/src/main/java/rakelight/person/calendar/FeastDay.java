package rakelight.person.calendar;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Days called by their feast: fixed ones by month and day, moveable ones by days from Easter.
 * Easter is the Julian one while the ground's calendar is Julian and the Gregorian one after.
 *
 * <p>Sources: the Book of Common Prayer's tables for the feasts; the reckoning of Easter after J.
 * Meeus, Astronomical Algorithms (1991), both from memory and checked against published Easter days
 * in the tests.
 *
 * @param fromEaster days after Easter, below 0 before it; ignored for a fixed feast
 * @param month 1 to 12 for a fixed feast, 0 for a moveable one
 */
public record FeastDay(int fromEaster, int month, int day) {
  private static final Map<String, FeastDay> NAMED =
      Map.ofEntries(
          Map.entry("good friday", moveable(-2)),
          Map.entry("easter", moveable(0)),
          Map.entry("easter day", moveable(0)),
          Map.entry("easter sunday", moveable(0)),
          Map.entry("easter eve", moveable(-1)),
          Map.entry("easter monday", moveable(1)),
          Map.entry("easter tuesday", moveable(2)),
          Map.entry("palm sunday", moveable(-7)),
          Map.entry("maundy thursday", moveable(-3)),
          Map.entry("ash wednesday", moveable(-46)),
          Map.entry("shrove tuesday", moveable(-47)),
          Map.entry("low sunday", moveable(7)),
          Map.entry("ascension day", moveable(39)),
          Map.entry("holy thursday", moveable(39)),
          Map.entry("whit sunday", moveable(49)),
          Map.entry("whitsunday", moveable(49)),
          Map.entry("whit monday", moveable(50)),
          Map.entry("whit tuesday", moveable(51)),
          Map.entry("trinity sunday", moveable(56)),
          Map.entry("corpus christi", moveable(60)),
          Map.entry("christmas", fixed(12, 25)),
          Map.entry("christmas day", fixed(12, 25)),
          Map.entry("xmas", fixed(12, 25)),
          Map.entry("xmas day", fixed(12, 25)),
          Map.entry("christmas eve", fixed(12, 24)),
          Map.entry("xmas eve", fixed(12, 24)),
          Map.entry("boxing day", fixed(12, 26)),
          Map.entry("st stephens day", fixed(12, 26)),
          Map.entry("holy innocents day", fixed(12, 28)),
          Map.entry("new years eve", fixed(12, 31)),
          Map.entry("new years day", fixed(1, 1)),
          Map.entry("twelfth day", fixed(1, 6)),
          Map.entry("epiphany", fixed(1, 6)),
          Map.entry("candlemas", fixed(2, 2)),
          Map.entry("candlemas day", fixed(2, 2)),
          Map.entry("st valentines day", fixed(2, 14)),
          Map.entry("st davids day", fixed(3, 1)),
          Map.entry("st patricks day", fixed(3, 17)),
          Map.entry("lady day", fixed(3, 25)),
          Map.entry("st georges day", fixed(4, 23)),
          Map.entry("st marks day", fixed(4, 25)),
          Map.entry("may day", fixed(5, 1)),
          Map.entry("midsummer day", fixed(6, 24)),
          Map.entry("st johns day", fixed(6, 24)),
          Map.entry("st peters day", fixed(6, 29)),
          Map.entry("st swithins day", fixed(7, 15)),
          Map.entry("st james day", fixed(7, 25)),
          Map.entry("lammas day", fixed(8, 1)),
          Map.entry("lammas", fixed(8, 1)),
          Map.entry("michaelmas", fixed(9, 29)),
          Map.entry("michaelmas day", fixed(9, 29)),
          Map.entry("st lukes day", fixed(10, 18)),
          Map.entry("hallowmas", fixed(11, 1)),
          Map.entry("all saints day", fixed(11, 1)),
          Map.entry("all souls day", fixed(11, 2)),
          Map.entry("martinmas", fixed(11, 11)),
          Map.entry("armistice day", fixed(11, 11)),
          Map.entry("st andrews day", fixed(11, 30)),
          Map.entry("st thomas day", fixed(12, 21)));

  private static FeastDay moveable(int fromEaster) {
    return new FeastDay(fromEaster, 0, 0);
  }

  private static FeastDay fixed(int month, int day) {
    return new FeastDay(0, month, day);
  }

  /** The feast of that name, in words without points and apostrophes; empty where there is none. */
  public static Optional<FeastDay> parse(String name) {
    return Optional.ofNullable(NAMED.get(name.toLowerCase(Locale.ROOT)));
  }

  /** The days it may be in a carved year: two where the year may begin on Lady Day. */
  public List<LocalDate> days(int year, CalendarChange change) {
    if (month > 0) {
      return change.days(year, month, day, CalendarChange.Style.IN_FORCE);
    }
    List<LocalDate> days = new ArrayList<>(List.of(ofCountedYear(year, change)));
    int ladyDay = 325;
    LocalDate next = ofCountedYear(year + 1, change);
    LocalDate carved = days.get(0);
    boolean early =
        asCarved(carved, year, change) < ladyDay && year + 1 < change.firstYearFromJanuary();
    if (early
        || asCarved(next, year + 1, change) < ladyDay && year + 1 < change.firstYearFromJanuary()) {
      days.add(next);
    }
    return days;
  }

  /** Month and day in the calendar in force, as one number. */
  private static int asCarved(LocalDate day, int year, CalendarChange change) {
    LocalDate carved = isJulian(year, change) ? day.minusDays(julianLag(year)) : day;
    return carved.getMonthValue() * 100 + carved.getDayOfMonth();
  }

  private static boolean isJulian(int year, CalendarChange change) {
    // Every moveable feast lies before September, in which the British calendar changed.
    return LocalDate.of(year, 6, 30).isBefore(change.firstGregorianDay());
  }

  private static int julianLag(int year) {
    return year / 100 - year / 400 - 2;
  }

  private LocalDate ofCountedYear(int year, CalendarChange change) {
    LocalDate easter = isJulian(year, change) ? julianEaster(year) : gregorianEaster(year);
    return easter.plusDays(fromEaster);
  }

  /** Easter by the Gregorian reckoning. */
  static LocalDate gregorianEaster(int year) {
    int a = year % 19;
    int b = year / 100;
    int c = year % 100;
    int d = b / 4;
    int e = b % 4;
    int f = (b + 8) / 25;
    int g = (b - f + 1) / 3;
    int h = (19 * a + b - d - g + 15) % 30;
    int i = c / 4;
    int k = c % 4;
    int l = (32 + 2 * e + 2 * i - h - k) % 7;
    int m = (a + 11 * h + 22 * l) / 451;
    int n = h + l - 7 * m + 114;
    return LocalDate.of(year, n / 31, n % 31 + 1);
  }

  /** Easter by the Julian reckoning, as a Gregorian day. */
  static LocalDate julianEaster(int year) {
    int d = (19 * (year % 19) + 15) % 30;
    int e = (2 * (year % 4) + 4 * (year % 7) - d + 34) % 7;
    int n = d + e + 114;
    return LocalDate.of(year, n / 31, n % 31 + 1).plusDays(julianLag(year));
  }
}
