package rakelight.samples.inscriptions;

import static rakelight.samples.inscriptions.InventedStone.any;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.temporal.JulianFields;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;

/**
 * Days as they are cut, and what they are in EDTF. To 2 September 1752 a day is cut by the Julian
 * calendar, its year counted from Lady Day or, in Scotland, from January (Calendar (New Style) Act
 * 1750, 24 Geo. II c. 23); a date between may be cut with both years.
 */
final class CarvedDay {
  private static final LocalDate FIRST_GREGORIAN = LocalDate.of(1752, 9, 14);
  private static final String[] MONTHS =
      ("January February March April May June July August September October November December")
          .split(" ");
  private static final String[] GEORGIAN_MONTHS =
      "Jany Feby March April May June July Augt Septr Octr Novr Decr".split(" ");
  private static final String[] SHORT_MONTHS =
      "Jan Feb Mar Apr May June July Aug Sept Oct Nov Dec".split(" ");
  private static final String[] LATIN_MONTHS =
      ("Januarii Februarii Martii Aprilis Maii Junii Julii Augusti Septembris Octobris Novembris"
              + " Decembris")
          .split(" ");

  private final Style style;
  private final Random random;
  private final int year;
  private final int month;
  private final int day;
  private final boolean julian;
  private final boolean eitherYear;

  /** A day of the proleptic Gregorian calendar, to be cut in this style. */
  CarvedDay(LocalDate date, Style style, Random random) {
    this.style = style;
    this.random = random;
    julian = date.isBefore(FIRST_GREGORIAN);
    int[] parts =
        julian
            ? julianOf(date)
            : new int[] {date.getYear(), date.getMonthValue(), date.getDayOfMonth()};
    year = parts[0];
    month = parts[1];
    day = parts[2];
    eitherYear =
        julian && year < style.firstYearFromJanuary() && (month < 3 || (month == 3 && day < 25));
  }

  /** The year alone. */
  Function<Wear, String> putYear(InventedStone stone, String kind) {
    int stretch = stone.tell(Integer.toString(year));
    return wear -> {
      String left = wear.left(stretch);
      String plain = kind + " " + year;
      if (!wear.touches(stretch)) {
        return plain;
      }
      return (left.equals("????") ? "?" : "")
          + "worn "
          + plain
          + (left.matches("\\d{4}") ? " / " + left : "");
    };
  }

  /** Day, month and year. */
  Function<Wear, String> put(InventedStone stone, String kind) {
    if (style == Style.LATIN) {
      return putLatin(stone, kind);
    }
    if (style == Style.MODERN && random.nextInt(12) == 0) {
      return putFigures(stone, kind);
    }
    String word = monthWord();
    int dayStretch;
    int monthStretch;
    boolean dayFirst = style.american() ? random.nextInt(6) == 0 : random.nextInt(3) > 0;
    if (dayFirst) {
      boolean of = random.nextInt(4) == 0;
      if (of) {
        stone.put(style.old() ? "y^e " : "the ");
      }
      dayStretch = stone.tell(Integer.toString(day));
      if (of || random.nextBoolean()) {
        stone.put(raised(ending(day)));
      }
      stone.put(of ? any(random, " of ", " day of ") : " ");
      monthStretch = stone.tell(word);
      stone.put(" ");
    } else {
      monthStretch = stone.tell(word);
      stone.put(style.old() && random.nextBoolean() ? " y^e " : " ");
      dayStretch = stone.tell(Integer.toString(day));
      if (style.american() && !style.old()) {
        stone.put(", ");
      } else {
        stone.put(raised(ending(day))).put(any(random, " ", " ", ", "));
      }
    }
    return value(stone, kind, dayStretch, monthStretch);
  }

  private Function<Wear, String> value(
      InventedStone stone, String kind, int dayStretch, int monthStretch) {
    boolean both = eitherYear && random.nextInt(3) > 0;
    boolean legal = eitherYear && !both;
    int cutYear = eitherYear ? year - 1 : year;
    int yearStretch = stone.tell(Integer.toString(cutYear));
    if (both) {
      stone.put("/" + year % 10);
    }
    return wear -> {
      String truth =
          legal ? either(cutYear, month, day) : text(date(both ? year : cutYear, month, day));
      boolean worn =
          wear.touches(dayStretch) || wear.touches(monthStretch) || wear.touches(yearStretch);
      if (!worn) {
        return kind + " " + truth;
      }
      String dayLeft = wear.left(dayStretch);
      String yearLeft = wear.left(yearStretch);
      String also = "";
      if (dayLeft.matches("\\d+") && yearLeft.matches("\\d{4}")) {
        int leftYear = Integer.parseInt(yearLeft) + (both ? 1 : 0);
        int leftDay = Integer.parseInt(dayLeft);
        also = legal ? either(leftYear, month, leftDay) : text(date(leftYear, month, leftDay));
      }
      return (yearLeft.equals("????") ? "?" : "")
          + "worn "
          + kind
          + " "
          + truth
          + (also.isEmpty() || also.equals(truth) ? "" : " / " + also);
    };
  }

  private Function<Wear, String> putFigures(InventedStone stone, String kind) {
    String point = any(random, ".", "/", "-");
    int dayStretch = stone.tell(Integer.toString(day));
    stone.put(point);
    int monthStretch = stone.tell(Integer.toString(month));
    stone.put(point);
    return value(stone, kind, dayStretch, monthStretch);
  }

  private Function<Wear, String> putLatin(InventedStone stone, String kind) {
    boolean die = random.nextBoolean();
    int dayStretch = stone.tell(Integer.toString(day));
    stone.put(die ? " die " : " ");
    int monthStretch = stone.tell(LATIN_MONTHS[month - 1]);
    stone.put(any(random, " ", " Anno Dom. ", " A.D. "));
    if (random.nextInt(3) > 0) {
      return value(stone, kind, dayStretch, monthStretch);
    }
    // A Roman year is cut by the year from January; nothing of it is worked out from what is left.
    int yearStretch = stone.tell(roman(year));
    String truth = eitherYear ? either(year, month, day) : text(date(year, month, day));
    return wear -> {
      boolean worn =
          wear.touches(dayStretch) || wear.touches(monthStretch) || wear.touches(yearStretch);
      boolean yearGone = wear.touches(yearStretch);
      return (yearGone ? "?" : "") + (worn ? "worn " : "") + kind + " " + truth;
    };
  }

  private String monthWord() {
    return switch (style) {
      case EARLY, NEW_ENGLAND ->
          random.nextBoolean() ? MONTHS[month - 1] : raisedMonth(GEORGIAN_MONTHS[month - 1]);
      case AMERICAN -> random.nextInt(4) == 0 ? MONTHS[month - 1] : dotted(SHORT_MONTHS[month - 1]);
      case MODERN -> random.nextInt(3) > 0 ? MONTHS[month - 1] : dotted(SHORT_MONTHS[month - 1]);
      default -> random.nextInt(3) > 0 ? MONTHS[month - 1] : dotted(GEORGIAN_MONTHS[month - 1]);
    };
  }

  private static String raisedMonth(String word) {
    int last = word.length() - 1;
    return word.matches("Jany|Feby|Augt|Septr|Octr|Novr|Decr")
        ? word.substring(0, last) + "^" + word.charAt(last)
        : word;
  }

  private static String dotted(String word) {
    return word.length() <= 3 && !word.equals("May") || word.matches(".*(r|by|ny|gt)|Sept")
        ? word + "."
        : word;
  }

  private String raised(String ending) {
    if (!style.old()) {
      return ending;
    }
    StringBuilder out = new StringBuilder();
    for (char letter : ending.toCharArray()) {
      out.append('^').append(letter);
    }
    return out.toString();
  }

  static String ending(int number) {
    if (number % 100 / 10 == 1) {
      return "th";
    }
    return switch (number % 10) {
      case 1 -> "st";
      case 2 -> "nd";
      case 3 -> "rd";
      default -> "th";
    };
  }

  /** The day, or nothing where there is none such. */
  private Optional<LocalDate> date(int ofYear, int ofMonth, int ofDay) {
    try {
      return Optional.of(
          julian ? gregorianOf(ofYear, ofMonth, ofDay) : LocalDate.of(ofYear, ofMonth, ofDay));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private String either(int cutYear, int ofMonth, int ofDay) {
    String first = text(date(cutYear, ofMonth, ofDay));
    String second = text(date(cutYear + 1, ofMonth, ofDay));
    return first.isEmpty() || second.isEmpty() ? "" : "[" + first + "," + second + "]";
  }

  private static String text(Optional<LocalDate> date) {
    return date.map(LocalDate::toString).orElse("");
  }

  /** Year, month and day by the Julian calendar (E. G. Richards, Mapping Time, 1998, ch. 25). */
  private static int[] julianOf(LocalDate date) {
    long number = date.getLong(JulianFields.JULIAN_DAY) + 1401;
    long e = 4 * number + 3;
    long h = 5 * (e % 1461 / 4) + 2;
    int day = (int) (h % 153 / 5 + 1);
    int month = (int) ((h / 153 + 2) % 12 + 1);
    return new int[] {(int) (e / 1461 - 4716 + (14 - month) / 12), month, day};
  }

  private static LocalDate gregorianOf(int year, int month, int day) {
    if (day < 1 || day > LocalDate.of(2000, month, 1).lengthOfMonth()) {
      throw new DateTimeException("no such day");
    }
    // From the first day of the month, by how far the calendars are apart there.
    LocalDate guess = LocalDate.of(year, month, 1).plusDays(day - 1L);
    for (int apart = 9; apart <= 13; apart++) {
      LocalDate at = guess.plusDays(apart);
      int[] back = julianOf(at);
      if (back[0] == year && back[1] == month && back[2] == day) {
        return at;
      }
    }
    throw new DateTimeException("no such day");
  }

  private static String roman(int number) {
    String[] signs = "M CM D CD C XC L XL X IX V IV I".split(" ");
    int[] values = {1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1};
    StringBuilder out = new StringBuilder();
    int rest = number;
    for (int i = 0; i < values.length; i++) {
      for (; rest >= values[i]; rest -= values[i]) {
        out.append(signs[i]);
      }
    }
    return out.toString();
  }
}
