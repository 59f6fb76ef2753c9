package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import rakelight.person.CarvedLife.WornAge;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.RomanNumeral;

/**
 * Finds an age at a place in the words of a reading. "In the 7th year of his age" is six years
 * completed; "aged 7" and "aetatis 7" are taken as completed; after "aetatis" carvers mixed the
 * two, so that six isn't ruled out.
 */
final class AgeWords {
  /**
   * An age found.
   *
   * @param end the word after it
   * @param value ISO 8601 duration, {@code P4XY} where a figure is lost
   * @param worn its figures, for an age of years, months and days
   */
  record Found(int end, String value, Optional<WornAge> worn) {
    Optional<Detail> detail() {
      return worn.map(Detail.Aged::new);
    }
  }

  private static final int MOST_MONTHS = 11;
  private static final int MOST_DAYS = 31;

  private final List<CarvedWord> words;

  AgeWords(List<CarvedWord> words) {
    this.words = words;
  }

  Optional<Found> at(int start) {
    CarvedWord word = words.get(start);
    if (word.is("in")) {
      return yearOf(start);
    }
    boolean annoAetatis =
        word.is("anno", "ano") && start + 1 < words.size() && isAetatis(words.get(start + 1));
    if (annoAetatis) {
      int at = start + 2;
      at += at < words.size() && words.get(at).is("suae", "sue") ? 1 : 0;
      String figures = at < words.size() ? figures(words.get(at)) : "";
      return figures.matches("[0-9]+") && !figures.equals("0")
          ? completed(at + 1, Integer.parseInt(figures) - 1)
          : Optional.empty();
    }
    if (word.is("aged", "ag'd", "agd") || isAetatis(word)) {
      int at = start + 1;
      while (at < words.size() && words.get(at).is("suae", "sue", "about", "the")) {
        at++;
      }
      Optional<Found> parts = parts(at);
      return isAetatis(word)
          ? parts.map(f -> new Found(f.end(), f.value(), f.worn().map(WornAge::running)))
          : parts;
    }
    return Optional.empty();
  }

  private static boolean isAetatis(CarvedWord word) {
    return word.is("ae", "aet", "aetat", "aetatis", "aetis", "et", "etatis") && word.isCapitalised()
        || word.is("aetatis", "aetat");
  }

  /** "in the 58th year of her age", "in his 52d year". */
  private Optional<Found> yearOf(int start) {
    int at = start + 1;
    while (at < words.size() && words.get(at).is("the", "ye", "his", "her")) {
      at++;
    }
    if (at == start + 1 || at + 1 >= words.size() || !words.get(at + 1).is("year", "yr")) {
      return Optional.empty();
    }
    String figures = figures(words.get(at));
    if (!figures.matches("[0-9]+") || figures.equals("0")) {
      return Optional.empty();
    }
    int end = at + 2;
    boolean ofHisAge =
        end + 2 < words.size()
            && words.get(end).is("of")
            && words.get(end + 1).is("his", "her")
            && words.get(end + 2).is("age");
    boolean ofAge =
        end + 1 < words.size() && words.get(end).is("of") && words.get(end + 1).is("age");
    return completed(ofHisAge ? end + 3 : ofAge ? end + 2 : end, Integer.parseInt(figures) - 1);
  }

  private static Optional<Found> completed(int end, int years) {
    return years <= 150
        ? Optional.of(
            new Found(
                end,
                Age.ofYears(years).toString(),
                Optional.of(WornAge.ofYears(Worn.of(Integer.toString(years))))))
        : Optional.empty();
  }

  private Optional<Found> parts(int from) {
    int[] counts = new int[Age.Unit.values().length];
    Age.Unit finest = Age.Unit.YEARS;
    int at = from;
    int end = from;
    String masked = "";
    List<Optional<Worn>> worn = new ArrayList<>(List.of(none(), none(), none(), none(), none()));
    while (at < words.size()) {
      if (end > from && words.get(at).is("&", "and")) {
        at++;
        continue;
      }
      String figures = figures(words.get(at));
      Optional<Age.Unit> unit = at + 1 < words.size() ? unit(words.get(at + 1)) : Optional.empty();
      boolean next = unit.isPresent() && (end == from || unit.get().compareTo(finest) > 0);
      if (figures.isEmpty() || (end > from && !next)) {
        break;
      }
      finest = unit.orElse(Age.Unit.YEARS);
      worn.set(finest.ordinal(), figuresOf(words.get(at), figures));
      if (figures.contains("X")) {
        masked = "P" + figures + "Y";
      } else {
        counts[finest.ordinal()] = Integer.parseInt(figures);
      }
      at += unit.isPresent() ? 2 : 1;
      end = at;
      if (unit.isEmpty() || !masked.isEmpty()) {
        break;
      }
    }
    if (end == from || counts[0] > 150) {
      return Optional.empty();
    }
    if (!masked.isEmpty()) {
      return finest == Age.Unit.YEARS
          ? Optional.of(new Found(end, masked, worn(worn)))
          : Optional.empty();
    }
    Age age = new Age(counts[0], counts[1], counts[2], counts[3], counts[4], finest);
    return Optional.of(new Found(end, age.toString(), worn(worn)));
  }

  private static Optional<Worn> none() {
    return Optional.empty();
  }

  private static Optional<Worn> figuresOf(CarvedWord word, String figures) {
    boolean inFigures = word.folded().matches("[0-9?].*");
    return inFigures ? word.worn(figures.length()) : Optional.of(Worn.of(figures));
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
    return switch (word.folded()) {
      case "years", "year", "yrs", "yr", "ys", "y" -> Optional.of(Age.Unit.YEARS);
      case "months", "month", "mos", "mo", "mths", "ms", "m" -> Optional.of(Age.Unit.MONTHS);
      case "weeks", "week", "wks", "wk", "w" -> Optional.of(Age.Unit.WEEKS);
      case "days", "day", "dys", "ds", "d" -> Optional.of(Age.Unit.DAYS);
      case "hours", "hour", "hrs", "h" -> Optional.of(Age.Unit.HOURS);
      default -> Optional.empty();
    };
  }

  /** Up to three figures, X where lost; empty when the word is no number. */
  private static String figures(CarvedWord word) {
    String plain = word.folded().replaceFirst("(st|d|nd|rd|th)$", "");
    if (plain.matches("[0-9?]{1,3}") && plain.matches(".*[0-9].*")) {
      return plain.replace('?', 'X');
    }
    OptionalInt numeral = word.isCapitalised() ? RomanNumeral.parse(plain) : OptionalInt.empty();
    return numeral.isPresent() ? Integer.toString(numeral.getAsInt()) : "";
  }
}
