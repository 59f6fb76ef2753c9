package rakelight.person.edtf;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/**
 * A year, a year with month, season or part of the year, or a full date; figures may be unspecified
 * ({@code X}) and each part qualified.
 */
public record EdtfDate(EdtfYear year, Optional<Part> month, Optional<Part> day) implements Edtf {
  private static final int FIRST_SEASON = 21;
  private static final int LAST_SEASON = 41;

  /**
   * Month, season or day.
   *
   * @param digits two signs, figures or {@code X}
   */
  public record Part(String digits, Qualifier qualifier) {
    public Part {
      if (!digits.matches("[0-9X]{2}")) {
        throw new IllegalArgumentException("two figures or X expected, found " + digits);
      }
    }

    boolean isMasked() {
      return digits.contains("X");
    }

    boolean matches(int value) {
      return (digits.charAt(0) == 'X' || digits.charAt(0) - '0' == value / 10)
          && (digits.charAt(1) == 'X' || digits.charAt(1) - '0' == value % 10);
    }
  }

  public EdtfDate {
    if (day.isPresent() && month.isEmpty()) {
      throw new IllegalArgumentException("a day needs a month");
    }
    if (month.isPresent() && !year.isFourFigures()) {
      throw new IllegalArgumentException("only a four-figure year takes a month");
    }
    if (isSeason(month)) {
      if (day.isPresent()) {
        throw new IllegalArgumentException("a season has no days");
      }
    } else if (firstDay(year, month, day).isEmpty()) {
      throw new IllegalArgumentException("there is no such month or day");
    }
  }

  /** A year alone. */
  public static EdtfDate ofYear(int year) {
    return new EdtfDate(EdtfYear.of(year), Optional.empty(), Optional.empty());
  }

  /** A full date, certain. */
  public static EdtfDate of(Day day) {
    return new EdtfDate(
        EdtfYear.of(day.year()), Optional.of(two(day.month())), Optional.of(two(day.day())));
  }

  private static Part two(int value) {
    return new Part("" + (char) ('0' + value / 10) + (char) ('0' + value % 10), Qualifier.NONE);
  }

  /** The same date with every part qualified so, besides what it had. */
  public EdtfDate qualified(Qualifier qualifier) {
    return new EdtfDate(
        year.withQualifier(year.qualifier().and(qualifier)),
        month.map(part -> new Part(part.digits(), part.qualifier().and(qualifier))),
        day.map(part -> new Part(part.digits(), part.qualifier().and(qualifier))));
  }

  /** Whether every figure is known and nothing is qualified: one certain day, month or year. */
  public boolean isPlain() {
    return !isMasked() && qualifiers().stream().allMatch(q -> q == Qualifier.NONE);
  }

  @Override
  public Optional<Day> earliest() {
    return isSeason(month) ? Optional.of(season().first()) : firstDay(year, month, day);
  }

  @Override
  public Optional<Day> latest() {
    return isSeason(month) ? Optional.of(season().last()) : lastDay(year, month, day);
  }

  @Override
  public boolean admits(Day candidate) {
    if (isSeason(month)) {
      return mayTouch(candidate, candidate);
    }
    return year.admits(candidate.year())
        && month.map(part -> part.matches(candidate.month())).orElse(true)
        && day.map(part -> part.matches(candidate.day())).orElse(true);
  }

  @Override
  public int level() {
    boolean qualifiedAlike = qualifiers().stream().distinct().count() == 1;
    if (!qualifiedAlike || (isSeason(month) && season().number() > 24)) {
      return 2;
    }
    int masks = maskLevel();
    boolean beyondPlain = isSeason(month) || qualifiers().get(0) != Qualifier.NONE;
    return Math.max(masks, Math.max(year.level(), beyondPlain ? 1 : 0));
  }

  /** Whether every figure is known, it is no season, and all its parts are as sure. */
  public boolean isSimple() {
    return !isMasked() && !isSeason(month) && qualifiers().stream().distinct().count() == 1;
  }

  /** How sure it is, where all its parts are as sure. */
  public Qualifier qualifier() {
    return qualifiers().get(0);
  }

  boolean isMasked() {
    return maskLevel() > 0;
  }

  /** What the parts are: 1 year, 2 month, 3 season, 4 day. */
  int precision() {
    if (day.isPresent()) {
      return 4;
    }
    return month.isEmpty() ? 1 : isSeason(month) ? 3 : 2;
  }

  /** Level 1 leaves whole parts unspecified from the right, or the last figures of a lone year. */
  private int maskLevel() {
    boolean monthWhole = month.map(part -> part.digits().equals("XX")).orElse(true);
    boolean dayWhole = day.map(part -> part.digits().equals("XX")).orElse(true);
    boolean monthMasked = month.map(Part::isMasked).orElse(false);
    boolean dayMasked = day.map(Part::isMasked).orElse(false);
    if (!year.isMasked() && !monthMasked && !dayMasked) {
      return 0;
    }
    if (year.isMasked()) {
      return month.isEmpty() && year.isMaskedAtEndOnly() ? 1 : 2;
    }
    boolean fromTheRight = (!monthMasked || monthWhole) && (!dayMasked || dayWhole);
    return fromTheRight && (!monthMasked || day.isEmpty() || dayMasked) ? 1 : 2;
  }

  private List<Qualifier> qualifiers() {
    List<Qualifier> qualifiers = new ArrayList<>();
    qualifiers.add(year.qualifier());
    month.ifPresent(part -> qualifiers.add(part.qualifier()));
    day.ifPresent(part -> qualifiers.add(part.qualifier()));
    return qualifiers;
  }

  /**
   * The normal form: one qualifier after the longest run of parts from the left that share it, the
   * others before their part.
   */
  @Override
  public String toString() {
    List<String> texts = new ArrayList<>();
    texts.add(year.digitsText());
    month.ifPresent(part -> texts.add(part.digits()));
    day.ifPresent(part -> texts.add(part.digits()));
    List<Qualifier> qualifiers = qualifiers();
    Qualifier shared = qualifiers.get(0);
    int run = 1;
    while (run < qualifiers.size() && qualifiers.get(run) == shared) {
      run++;
    }
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < texts.size(); i++) {
      text.append(i > 0 ? "-" : "");
      text.append(i >= run ? qualifiers.get(i).sign() : "");
      text.append(texts.get(i));
      text.append(i == run - 1 ? shared.sign() : "");
    }
    return text.toString();
  }

  private Season season() {
    return new Season(year, Integer.parseInt(month.orElseThrow().digits()));
  }

  private static boolean isSeason(Optional<Part> month) {
    return month
        .filter(part -> !part.isMasked())
        .map(part -> Integer.parseInt(part.digits()))
        .filter(number -> number >= FIRST_SEASON && number <= LAST_SEASON)
        .isPresent();
  }

  private static Optional<Day> firstDay(EdtfYear year, Optional<Part> month, Optional<Part> day) {
    if (month.isEmpty()) {
      return Optional.of(Day.firstOf(year.earliest(), 1));
    }
    return year.candidates()
        .boxed()
        .flatMap(
            y ->
                matching(1, 12, month)
                    .boxed()
                    .flatMap(
                        m ->
                            matching(1, Day.lengthOfMonth(y, m), day)
                                .mapToObj(d -> new Day(y, m, d))))
        .findFirst();
  }

  private static Optional<Day> lastDay(EdtfYear year, Optional<Part> month, Optional<Part> day) {
    if (month.isEmpty()) {
      return Optional.of(Day.lastOf(year.latest(), 12));
    }
    return year.candidatesDescending()
        .boxed()
        .flatMap(
            y ->
                descending(1, 12, month)
                    .boxed()
                    .flatMap(
                        m ->
                            descending(1, Day.lengthOfMonth(y, m), day)
                                .mapToObj(d -> new Day(y, m, d))))
        .findFirst();
  }

  private static IntStream matching(int from, int to, Optional<Part> part) {
    IntPredicate matches = value -> part.map(p -> p.matches(value)).orElse(true);
    return IntStream.rangeClosed(from, to).filter(matches);
  }

  private static IntStream descending(int from, int to, Optional<Part> part) {
    return matching(from, to, part).map(value -> -value).sorted().map(value -> -value);
  }

  /** Three months, or a quarter, third or half of the year. */
  private record Season(EdtfYear year, int number) {
    Day first() {
      return Day.firstOf(year.earliest(), firstMonth());
    }

    Day last() {
      int lastMonth = firstMonth() + months() - 1;
      return lastMonth > 12
          ? Day.lastOf(year.latest() + 1, lastMonth - 12)
          : Day.lastOf(year.latest(), lastMonth);
    }

    private int firstMonth() {
      return switch (number) {
        case 21, 25, 31 -> 3;
        case 22, 26, 32 -> 6;
        case 23, 27, 29 -> 9;
        case 24, 28, 30 -> 12;
        case 33, 34, 35, 36 -> 3 * (number - 33) + 1;
        case 37, 38, 39 -> 4 * (number - 37) + 1;
        default -> 6 * (number - 40) + 1;
      };
    }

    private int months() {
      return number <= 36 ? 3 : number <= 39 ? 4 : 6;
    }
  }
}
