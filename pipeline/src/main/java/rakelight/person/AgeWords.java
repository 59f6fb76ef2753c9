package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.person.CarvedLife.WornAge;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.MonthName;

/**
 * Finds an age at a place in the words of a reading. "In the 7th year of his age" is six years
 * completed; "aged 7" and "aetatis 7" are taken as completed; after "aetatis" carvers mixed the
 * two, so that six isn't ruled out. A half is six months of a year.
 */
final class AgeWords {
  /**
   * An age found.
   *
   * @param end the word after it
   * @param value ISO 8601 duration, {@code P4XY} where a figure is lost
   * @param worn its figures, for an age of years, months and days
   * @param said whether a word says that it is an age, and not only the unit
   */
  record Found(int end, String value, Optional<WornAge> worn, boolean said) {
    Optional<Detail> detail() {
      return worn.map(Detail.Aged::new);
    }
  }

  /** A figure of a worn year is told where so much speaks for it; a choice, no source. */
  private static final double MOSTLY = 0.75;

  private static final int MOST_MONTHS = 11;
  private static final int MOST_DAYS = 31;
  private static final int MOST_CARVED = 150;
  private static final int HALF_A_YEAR = 6;

  private static final Set<String> BEFORE_A_WHILE =
      PersonWords.words(
          "for upwards of was only survived after nearly served during per within these those some");

  private final List<CarvedWord> words;
  private final Map<Integer, Optional<Found>> found = new HashMap<>();

  AgeWords(List<CarvedWord> words) {
    this.words = words;
  }

  Optional<Found> at(int start) {
    Optional<Found> known = found.get(start);
    if (known == null) {
      known = find(start);
      found.put(start, known);
    }
    return known;
  }

  private Optional<Found> find(int start) {
    CarvedWord word = words.get(start);
    int running = afterIn(start);
    if (running > start) {
      Optional<Found> found = yearOf(running, words.get(start).is("in"));
      if (found.isPresent()) {
        return found;
      }
    }
    if (word.is("anno", "ano", "an") && isAetatis(start + 1)) {
      int at = skip(start + 2, "suae", "sue");
      Optional<NumberWords.Found> number = NumberWords.at(words, at);
      return number
          .filter(n -> n.isKnown() && n.value() > 0)
          .flatMap(n -> completed(n.end(), n.value() - 1));
    }
    if (start > 0 && words.get(start - 1).is("per")) {
      return Optional.empty();
    }
    if (word.is("vixit") || (word.is("annos", "annum", "annorum"))) {
      return latin(start);
    }
    int at = afterAged(start);
    if (word.is("lived") && isOfAWhile(at)) {
      return Optional.empty();
    }
    if (at > start) {
      Optional<Found> ordinal = yearOf(at, false);
      if (ordinal.isPresent()) {
        return ordinal;
      }
      Optional<Found> parts = parts(at);
      return isAetatis(start) ? parts.map(f -> said(f, f.worn().map(WornAge::running))) : parts;
    }
    if (word.is("wanting")) {
      return wanting(start);
    }
    return unsaid(start);
  }

  /** {@code lived fifty years a servant}: no age. */
  private boolean isOfAWhile(int at) {
    Optional<NumberWords.Found> number = NumberWords.at(words, at);
    int end = number.map(NumberWords.Found::end).orElse(at) + 1;
    return number.isPresent()
        && end < words.size()
        && words
            .get(end)
            .is("a", "an", "in", "with", "as", "at", "here", "under", "the", "together");
  }

  private static Found said(Found f, Optional<WornAge> worn) {
    return new Found(f.end(), f.value(), worn, true);
  }

  /** After {@code aged about}, {@code at the age of}, {@code lived}; the start where none is. */
  private int afterAged(int start) {
    int at = start;
    if (isAetatis(start) || words.get(start).is("aged", "age", "agd", "agedd", "adged", "ags")) {
      at = start + 1;
      boolean ofAge = at < words.size() && words.get(start).is("age") && words.get(at).is("of");
      at += ofAge || (at < words.size() && words.get(at).is("was")) ? 1 : 0;
    } else if (words.get(start).is("a") && words.get(start).shown().equals("A.")) {
      at = start + 1;
    } else if (words.get(start).is("at", "attained", "attaining", "having", "reached", "the")) {
      int age = skip(start + 1, "the", "attained", "reached", "great", "advanced", "ripe", "good");
      age = skip(age, "old", "early", "venerable", "tender", "extraordinary", "and");
      age = skip(age, "the", "great", "ripe");
      if (age + 1 >= words.size() || !words.get(age).is("age") || !words.get(age + 1).is("of")) {
        return start;
      }
      at = age + 2;
    } else if (words.get(start).is("yn") && NumberWords.at(words, start + 1).isPresent()) {
      at = start + 1;
    } else if (words.get(start).is("lived") && start + 1 < words.size()) {
      at = skip(start + 1, "only", "but", "to", "be");
    }
    if (at == start) {
      return start;
    }
    int before;
    do {
      before = at;
      at =
          skip(at, "suae", "sue", "about", "abt", "the", "near", "nearly", "only", "above", "over");
      at = skip(at, "upwards", "upward", "of", "almost", "some", "just", "circa", "ye", "fully");
      at = skip(at, "-", "", "=");
    } while (at > before);
    return at;
  }

  private int skip(int from, String... fillers) {
    int at = from;
    while (at < words.size() && words.get(at).is(fillers)) {
      at++;
    }
    return at;
  }

  private boolean isAetatis(int i) {
    if (i >= words.size()) {
      return false;
    }
    CarvedWord word = words.get(i);
    boolean plain =
        word.is("aet", "aetat", "aetatis", "aetis", "etatis", "aetas", "etat", "aett", "aeta")
            || word.folded().equals("ae")
            || (word.isDoubtful() && word.folded().startsWith("aetat"));
    boolean short2 = word.folded().equals("et") && word.isCapitalised() && word.endsWith(".");
    return plain || short2;
  }

  /** {@code in the}, {@code in her}, {@code her}; the start where none is. */
  private int afterIn(int start) {
    if (words.get(start).is("in")) {
      int at = skip(start + 1, "the", "ye", "his", "her");
      return at > start + 1 ? at : start;
    }
    return start;
  }

  /** The {@code 58th year of her age}; {@code 52d year} where {@code in his} goes before. */
  private Optional<Found> yearOf(int at, boolean in) {
    Optional<NumberWords.Found> number = NumberWords.at(words, at);
    if (number.isEmpty() || (number.get().isKnown() && number.get().value() == 0)) {
      return Optional.empty();
    }
    int year = number.get().end();
    if (year >= words.size() || !words.get(year).is("year", "yr", "yeare")) {
      return Optional.empty();
    }
    int end = year + 1;
    boolean ofHisAge =
        end + 2 < words.size()
            && words.get(end).is("of")
            && words.get(end + 1).is("his", "her", "hir", "their")
            && words.get(end + 2).is("age");
    boolean ofAge =
        end + 1 < words.size() && words.get(end).is("of") && words.get(end + 1).is("age");
    // "In the 30th year of his ministry" is no age.
    boolean ofAnother =
        !ofHisAge
            && !ofAge
            && end + 2 < words.size()
            && words.get(end).is("of")
            && words.get(end + 1).is("his", "her", "hir", "their", "the")
            && !words.get(end + 2).isDoubtful();
    if (ofAnother || !in && !ofHisAge && !number.get().ordinal()) {
      return Optional.empty();
    }
    if (!in && !ofHisAge && !ofAge) {
      return Optional.empty();
    }
    int to = ofHisAge ? end + 3 : ofAge ? end + 2 : end;
    return number.get().isKnown()
        ? completed(to, number.get().value() - 1)
        : wornYear(to, number.get(), words.get(number.get().end() - 1).folded());
  }

  /**
   * {@code the 2?th year}: of the years it may be by its figures and ending, those completed; a
   * figure that most of them share is told.
   */
  private static Optional<Found> wornYear(int to, NumberWords.Found number, String carved) {
    double[][] weights = new double[2][10];
    String ending = carved.replaceAll("^[^a-z]*", "");
    number
        .worn()
        .map(Worn::values)
        .orElse(Map.of())
        .forEach(
            (year, weight) -> {
              if (year > 0 && year <= 100 && mayEnd(year, ending)) {
                weights[0][(year - 1) / 10] += weight;
                weights[1][(year - 1) % 10] += weight;
              }
            });
    String value = mostly(weights[0]) + mostly(weights[1]);
    return value.equals("XX")
        ? Optional.empty()
        : Optional.of(
            new Found(to, "P" + value.replaceAll("^0", "") + "Y", Optional.empty(), true));
  }

  private static boolean mayEnd(int number, String ending) {
    boolean teens = number / 10 == 1;
    return switch (ending) {
      case "st" -> number % 10 == 1 && !teens;
      case "nd" -> number % 10 == 2 && !teens;
      case "rd" -> number % 10 == 3 && !teens;
      case "d" -> (number % 10 == 2 || number % 10 == 3) && !teens;
      case "th" -> number % 10 == 0 || number % 10 > 3 || teens;
      default -> true;
    };
  }

  /** The figure that has most of the weight, or X. */
  private static String mostly(double[] weights) {
    double all = Arrays.stream(weights).sum();
    for (int figure = 0; figure < weights.length; figure++) {
      if (all > 0 && weights[figure] >= MOSTLY * all) {
        return Integer.toString(figure);
      }
    }
    return "X";
  }

  private static Optional<Found> completed(int end, int years) {
    return years <= MOST_CARVED
        ? Optional.of(
            new Found(
                end,
                Age.ofYears(years).toString(),
                Optional.of(WornAge.ofYears(Worn.of(Integer.toString(years)))),
                true))
        : Optional.empty();
  }

  /** {@code vixit annos LX menses II}, {@code annos natus 40}. */
  private Optional<Found> latin(int start) {
    int at = skip(start, "vixit", "annos", "annum", "annorum", "natus", "nata");
    Optional<NumberWords.Found> years = NumberWords.at(words, at);
    return years
        .filter(n -> n.isKnown() && n.value() <= MOST_CARVED)
        .flatMap(n -> completed(skip(n.end(), "natus", "nata"), n.value()));
  }

  /** {@code wanting 3 days of 70 years}: a year less is completed. */
  private Optional<Found> wanting(int start) {
    for (int at = start + 1; at < Math.min(words.size(), start + 6); at++) {
      boolean of = words.get(at).is("of");
      Optional<NumberWords.Found> years = of ? NumberWords.at(words, at + 1) : Optional.empty();
      if (years.isPresent() && years.get().isKnown() && years.get().value() > 0) {
        int end = skip(years.get().end(), "years", "yrs", "of", "age");
        return completed(end, years.get().value() - 1);
      }
    }
    return Optional.empty();
  }

  /**
   * {@code 71 years}, {@code 3 yrs. 2 mos.}, {@code 21 years old}: a number with its unit alone.
   */
  private Optional<Found> unsaid(int start) {
    Optional<NumberWords.Found> number = NumberWords.at(words, start);
    boolean lasted = start > 0 && words.get(start - 1).in(BEFORE_A_WHILE);
    if (number.isEmpty()
        || lasted
        || isTradeBefore(start)
        || number.get().ordinal()
        || number.get().end() >= words.size()
        || unit(words.get(number.get().end())).isEmpty()
        || words.get(number.get().end()).folded().length() < 2) {
      return Optional.empty();
    }
    Optional<Found> parts = parts(start).filter(f -> !isTradeOf(f.end()));
    if (parts.filter(f -> f.end() < words.size() && words.get(f.end()).is("after")).isPresent()) {
      return Optional.empty();
    }
    return parts.map(
        f -> {
          int end = f.end();
          boolean old = end < words.size() && words.get(end).is("old");
          boolean ofAge =
              end + 1 < words.size() && words.get(end).is("of") && words.get(end + 1).is("age");
          return new Found(
              old ? end + 1 : ofAge ? end + 2 : end, f.value(), f.worn(), old || ofAge);
        });
  }

  /** {@code Parish Clerk 44 years}. */
  private boolean isTradeBefore(int at) {
    return at > 0
        && words.get(at).line() == words.get(at - 1).line()
        && !words.get(at - 1).endsWith(",")
        && (PersonWords.OCCUPATIONS.contains(words.get(at - 1).folded())
            || PersonWords.OFFICES.contains(words.get(at - 1).folded()));
  }

  /** Whether the years were those of a trade or service: {@code 20 years sexton here}. */
  private boolean isTradeOf(int at) {
    int i = skip(at, "a", "the", "master", "faithful", "respected");
    boolean goesOn =
        at < words.size()
            && words.get(at).line() == words.get(at - 1).line()
            && words.get(at).is("in", "at", "faithful", "as", "with", "of", "to", "a", "the")
            && !(at + 1 < words.size() && words.get(at + 1).is("age"));
    return goesOn
        || i < words.size()
            && (PersonWords.OCCUPATIONS.contains(words.get(i).folded())
                || PersonWords.OFFICES.contains(words.get(i).folded()));
  }

  private Optional<Found> parts(int from) {
    int[] counts = new int[Age.Unit.values().length];
    Age.Unit finest = Age.Unit.YEARS;
    int at = from;
    int end = from;
    String[] figures = new String[counts.length];
    boolean masked = false;
    List<Optional<Worn>> worn = new ArrayList<>(List.of(none(), none(), none(), none(), none()));
    while (at < words.size()) {
      if (end > from && words.get(at).is("&", "and", "with")) {
        at++;
        continue;
      }
      Optional<NumberWords.Found> number = number(at, end > from);
      if (number.isEmpty()) {
        break;
      }
      NumberWords.Found n = number.get();
      Optional<Age.Unit> unit =
          n.end() < words.size() ? unit(words.get(n.end())) : Optional.empty();
      boolean next = unit.isPresent() && (end == from || unit.get().compareTo(finest) > 0);
      if ((end > from && !next) || (n.ordinal() && unit.isEmpty())) {
        break;
      }
      if (unit.isEmpty() && isDate(n.end())) {
        break;
      }
      finest = unit.orElse(Age.Unit.YEARS);
      counts[finest.ordinal()] = n.isKnown() ? n.value() : 0;
      worn.set(finest.ordinal(), n.worn());
      figures[finest.ordinal()] = n.figures();
      masked |= !n.isKnown();
      at = n.end() + (unit.isPresent() ? 1 : 0);
      end = at;
      boolean half = n.half();
      if (unit.isPresent() && isHalfAt(at)) {
        end = at + 3;
        at = end;
        half = true;
      }
      if (half) {
        half(finest, counts, worn);
        finest = finest == Age.Unit.YEARS ? Age.Unit.MONTHS : finest;
        finest = counts[Age.Unit.DAYS.ordinal()] > 0 ? Age.Unit.DAYS : finest;
        at += unit.isEmpty() && at < words.size() && unit(words.get(at)).isPresent() ? 1 : 0;
        end = at;
        break;
      }
      if (unit.isEmpty()) {
        break;
      }
    }
    boolean tooMuch = false;
    for (int count : counts) {
      tooMuch |= count > 999;
    }
    if (end == from || counts[0] > MOST_CARVED || tooMuch) {
      return Optional.empty();
    }
    int endOf = end;
    if (masked) {
      return masked(figures).map(value -> new Found(endOf, value, worn(worn), true));
    }
    Age age = new Age(counts[0], counts[1], counts[2], counts[3], counts[4], finest);
    return Optional.of(new Found(end, age.toString(), worn(worn), true));
  }

  /** Years, months and days with X for a figure that is lost; of other units nothing is told. */
  private static Optional<String> masked(String[] figures) {
    StringBuilder value = new StringBuilder("P");
    for (Age.Unit unit : Age.Unit.values()) {
      String said = figures[unit.ordinal()];
      boolean told = unit == Age.Unit.YEARS || unit == Age.Unit.MONTHS || unit == Age.Unit.DAYS;
      if (said != null && !told) {
        return Optional.empty();
      }
      value.append(said == null ? "" : said + unit.name().charAt(0));
    }
    return Optional.of(value.toString());
  }

  private Optional<NumberWords.Found> number(int at, boolean goesOn) {
    Optional<NumberWords.Found> number = NumberWords.at(words, at);
    boolean article =
        number.isEmpty()
            && words.get(at).is("a", "an")
            && at + 1 < words.size()
            && unit(words.get(at + 1)).isPresent()
            && !(goesOn && at + 2 < words.size() && words.get(at + 2).is("half"));
    boolean lost =
        number.isEmpty()
            && words.get(at).folded().matches("[?]{1,2}")
            && at + 1 < words.size()
            && unit(words.get(at + 1)).isPresent();
    if (lost) {
      String figures = words.get(at).folded();
      Worn worn = Worn.of(figures);
      return Optional.of(
          new NumberWords.Found(
              at + 1, figures.replace('?', 'X'), Optional.of(worn), false, false));
    }
    return article
        ? Optional.of(new NumberWords.Found(at + 1, "1", Optional.of(Worn.of("1")), false, false))
        : number;
  }

  /** {@code and a half}. */
  private boolean isHalfAt(int at) {
    return at + 2 < words.size()
        && words.get(at).is("&", "and")
        && words.get(at + 1).is("a", "one")
        && words.get(at + 2).is("half");
  }

  private static void half(Age.Unit unit, int[] counts, List<Optional<Worn>> worn) {
    Age.Unit finer =
        switch (unit) {
          case YEARS -> Age.Unit.MONTHS;
          case MONTHS, WEEKS -> Age.Unit.DAYS;
          default -> unit;
        };
    int more =
        switch (unit) {
          case YEARS -> HALF_A_YEAR;
          case MONTHS -> 15;
          case WEEKS -> 3;
          default -> 0;
        };
    counts[finer.ordinal()] += more;
    worn.set(finer.ordinal(), Optional.of(Worn.of(Integer.toString(counts[finer.ordinal()]))));
  }

  /** Whether a month follows, so that the number is a day and not an age. */
  private boolean isDate(int at) {
    return at < words.size()
        && MonthName.parse(words.get(at).folded()).isPresent()
        && words.get(at).isCapitalised()
        && at + 1 < words.size()
        && words.get(at + 1).folded().matches("[0-9?]{4}.*");
  }

  private static Optional<Worn> none() {
    return Optional.empty();
  }

  /** An age of 18 months or 40 days isn't one of years, months and days. */
  private static boolean fits(Optional<Worn> part, int most) {
    return part.stream().allMatch(p -> p.values().keySet().stream().anyMatch(v -> v <= most));
  }

  /** Years, or years, months and days; weeks and hours aren't reckoned with. */
  private static Optional<WornAge> worn(List<Optional<Worn>> parts) {
    boolean whole =
        parts.get(Age.Unit.WEEKS.ordinal()).isEmpty()
            && parts.get(Age.Unit.HOURS.ordinal()).isEmpty();
    Optional<Worn> nought = Optional.of(Worn.of("0"));
    Optional<Worn> months = parts.get(Age.Unit.MONTHS.ordinal());
    Optional<Worn> days = parts.get(Age.Unit.DAYS.ordinal());
    Optional<Worn> years = parts.get(Age.Unit.YEARS.ordinal());
    boolean reckonable = fits(months, MOST_MONTHS) && fits(days, MOST_DAYS);
    if (!whole || !reckonable || (years.isEmpty() && months.isEmpty() && days.isEmpty())) {
      return Optional.empty();
    }
    return Optional.of(
        new WornAge(
            years.or(() -> nought).get(),
            months.isEmpty() && days.isPresent() ? nought : months,
            days,
            false));
  }

  private static Optional<Age.Unit> unit(CarvedWord word) {
    for (String form : word.forms()) {
      Optional<Age.Unit> unit =
          switch (form) {
            case "years",
                "year",
                "yrs",
                "yr",
                "ys",
                "y",
                "yeares",
                "yeers",
                "yeare",
                "mlwydd",
                "oed" ->
                Optional.of(Age.Unit.YEARS);
            case "months",
                "month",
                "mos",
                "mo",
                "mths",
                "mth",
                "ms",
                "m",
                "mons",
                "monthes",
                "mon" ->
                Optional.of(Age.Unit.MONTHS);
            case "weeks", "week", "wks", "wk", "w", "ws" -> Optional.of(Age.Unit.WEEKS);
            case "days", "day", "dys", "ds", "d", "dayes" -> Optional.of(Age.Unit.DAYS);
            case "hours", "hour", "hrs", "hr", "h" -> Optional.of(Age.Unit.HOURS);
            default -> Optional.empty();
          };
      if (unit.isPresent()) {
        return unit;
      }
    }
    return word.folded().matches("m[…?]+") ? Optional.of(Age.Unit.MONTHS) : Optional.empty();
  }
}
