package rakelight.person;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toList;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import rakelight.person.Statement.Kind;

/**
 * Whether birth, death and age of each person on a face agree, and what a worn figure of theirs
 * must then be. Only looks where the stone gives full days of both and an age in years, or years,
 * months and days.
 */
public final class Agreement {
  private static final Pattern DAY = Pattern.compile("[0-9X]{4}-[0-9X]{2}-[0-9X]{2}");
  private static final Pattern AGE = Pattern.compile("P([0-9X]+)Y(?:(?:([0-9]+)M)?(?:([0-9]+)D)?)");

  /**
   * A finding about one person of a face.
   *
   * @param contradiction whether the stone contradicts itself; else a worn figure is narrowed down
   */
  public record Finding(int person, boolean contradiction, String words) {}

  private Agreement() {}

  public static List<Finding> of(List<Statement> statements) {
    Map<Integer, List<Statement>> persons =
        statements.stream().collect(groupingBy(Statement::person, LinkedHashMap::new, toList()));
    List<Finding> findings = new ArrayList<>();
    persons.forEach(
        (person, own) -> life(own).ifPresent(life -> judge(person, own, life, findings)));
    return findings;
  }

  private static void judge(
      int person, List<Statement> own, CarvedLife life, List<Finding> findings) {
    if (StoneArithmetic.solve(life).isEmpty()) {
      findings.add(
          new Finding(
              person,
              true,
              "birth "
                  + value(own, Kind.BIRTH)
                  + ", death "
                  + value(own, Kind.DEATH)
                  + " and age "
                  + value(own, Kind.AGE)
                  + " can't all be right"));
      return;
    }
    for (StoneArithmetic.Figure figure : StoneArithmetic.figures(life)) {
      if (!figure.impossible().isEmpty()) {
        String place =
            figure.number().name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + ", figure "
                + (figure.place() + 1);
        String left = figure.posterior().keySet().toString().replaceAll("[\\[\\]]", "");
        findings.add(
            new Finding(
                person,
                false,
                place
                    + (figure.isForced() ? " must be " : " can only be ")
                    + left
                    + " by "
                    + figure.by()));
      }
    }
  }

  private static Optional<CarvedLife> life(List<Statement> own) {
    String birth = value(own, Kind.BIRTH);
    String death = value(own, Kind.DEATH);
    Matcher age = AGE.matcher(value(own, Kind.AGE));
    boolean daysKnown = DAY.matcher(birth).matches() && DAY.matcher(death).matches();
    long lost = Stream.of(birth, death).flatMapToInt(String::chars).filter(c -> c == 'X').count();
    if (!daysKnown || !age.matches() || lost > 4) {
      return Optional.empty();
    }
    Optional<CarvedLife.MonthsAndDays> rest = Optional.empty();
    if (age.group(3) != null) {
      String months = age.group(2) == null ? "0" : age.group(2);
      rest = Optional.of(new CarvedLife.MonthsAndDays(Worn.of(months), Worn.of(age.group(3))));
    }
    return Optional.of(
        new CarvedLife(
            CarvedLife.WornDate.of(birth.replace('X', '?')),
            CarvedLife.WornDate.of(death.replace('X', '?')),
            Optional.of(new CarvedLife.WornAge(Worn.of(age.group(1).replace('X', '?')), rest)),
            Optional.empty()));
  }

  /** The value, or nothing where there is none or more than one. */
  private static String value(List<Statement> own, Kind kind) {
    List<String> values = own.stream().filter(s -> s.kind() == kind).map(Statement::value).toList();
    return values.size() == 1 ? values.get(0) : "";
  }
}
