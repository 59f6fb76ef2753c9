package rakelight.person;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.inscription.SignId;
import rakelight.names.NameForms;
import rakelight.person.calendar.Age;

/**
 * What a reading asserts, and the signs it is read from.
 *
 * @param persons those of the face it is about, counted from 1 in the order they are named; empty
 *     when it is about nobody on it
 * @param firstLine from 1
 * @param text the words as carved, lines parted by {@code " / "}; {@code ?} where no letter is
 *     named
 * @param value EDTF for birth, marriage, death and burial; an ISO 8601 duration for an age; {@code
 *     given|surname} for a name; otherwise words
 * @param detail the parts of the value, where it has any
 * @param supplied why part of the value was worked out and not read; empty when all of it was read
 * @param odds how likely it is that the stone says so, above 0 to 1: by the grammar, not by the
 *     letters
 * @param signs in order of reading; never empty
 */
public record Statement(
    List<Integer> persons,
    Kind kind,
    int firstLine,
    int lastLine,
    String text,
    String value,
    Optional<Detail> detail,
    Optional<String> supplied,
    double odds,
    List<SignId> signs) {
  /** Less likely ones are proposals, not facts; a choice, no source. */
  public static final double FACT = 0.5;

  private static final String RECKONED = "reckoned from ";

  /** What is asserted. */
  public enum Kind {
    NAME,
    BIRTH,
    MARRIAGE,
    DEATH,
    BURIAL,
    AGE,
    KIN,
    SERVICE,
    OCCUPATION,
    ORIGIN,
    /** What somebody died of or how: {@code drowned}, {@code lost at sea}. */
    CAUSE,
    /** Which burial in the grave it was. */
    ORDER,
    /** That bodies or stones were moved. */
    REMOVAL,
    /** Who cut or sold the stone. */
    MAKER,
    /** A surname cut for all who are named on the stone. */
    FAMILY,
    /** Who set up the stone or mourns: not buried here, and perhaps living. */
    MOURNER,
    /** Verse or words of comfort: nothing a person could be known by. */
    VERSE,
    /** Verse with the place in scripture it is taken from. */
    SCRIPTURE
  }

  public Statement {
    persons = List.copyOf(persons);
    signs = List.copyOf(signs);
    if (signs.isEmpty()) {
      throw new IllegalArgumentException("a statement rests on a sign");
    }
    if (!(odds > 0 && odds <= 1)) {
      throw new IllegalArgumentException("odds are above 0, to 1; got " + odds);
    }
  }

  /** The first person it is about; 0 when it is about nobody on the face. */
  public int person() {
    return persons.isEmpty() ? 0 : persons.get(0);
  }

  /** The value as people say it: ages, names and dates that may be one of several in words. */
  public String valueInWords() {
    return switch (kind) {
      case AGE -> Age.inWords(value);
      case NAME -> value.replace('|', ' ').strip();
      case BIRTH, MARRIAGE, DEATH, BURIAL -> dateInWords(value);
      default -> value;
    };
  }

  /** An EDTF date, one of several as {@code 1790 or 1791} or {@code between 1790 and 1795}. */
  static String dateInWords(String edtf) {
    if (!edtf.startsWith("[") || !edtf.endsWith("]")) {
      return edtf;
    }
    String list = edtf.substring(1, edtf.length() - 1);
    boolean oneRun = list.contains("..") && !list.contains(",");
    return oneRun && !list.startsWith("..") && !list.endsWith("..")
        ? "between " + list.replace("..", " and ")
        : list.contains("..") ? edtf : list.replace(",", " or ");
  }

  /**
   * What is said beside a value that isn't carved as it is told, between two signs; empty for one
   * that is.
   */
  public String standingInWords(String before, String after) {
    return supplied.map(reason -> before + "worked out, not carved: " + reason + after).orElse("");
  }

  /** Its parts, if they are of this type. */
  public <T extends Detail> Optional<T> detail(Class<T> type) {
    return detail.filter(type::isInstance).map(type::cast);
  }

  boolean isDate() {
    return kind == Kind.BIRTH || kind == Kind.MARRIAGE || kind == Kind.DEATH || kind == Kind.BURIAL;
  }

  /** Whether it says something of a person, and isn't verse, a maker's or a mourner's name. */
  public boolean isFact() {
    return switch (kind) {
      case VERSE, SCRIPTURE, MAKER, MOURNER, FAMILY -> false;
      default -> true;
    };
  }

  /** Whether it isn't read but reckoned, and stands beside the one that was read. */
  public boolean isReckoned() {
    return supplied.filter(reason -> reason.startsWith(RECKONED)).isPresent();
  }

  /** The birth that this death and an age of the same person leave. */
  Statement reckonedBirth(Statement age, String birth) {
    List<SignId> both =
        Stream.concat(signs.stream(), age.signs().stream()).distinct().sorted().toList();
    Statement first = age.firstLine() < firstLine ? age : this;
    Statement second = first == this ? age : this;
    return new Statement(
        persons,
        Kind.BIRTH,
        first.firstLine(),
        Math.max(lastLine, age.lastLine()),
        first.text() + " / " + second.text(),
        birth,
        Optional.empty(),
        Optional.of(RECKONED + "death and age"),
        odds * age.odds(),
        both);
  }

  /** The same with the value that other figures leave for it. */
  Statement reckonedAs(String newValue, String by) {
    return new Statement(
        persons,
        kind,
        firstLine,
        lastLine,
        text,
        newValue,
        Optional.empty(),
        Optional.of(RECKONED + by),
        odds,
        signs);
  }

  /**
   * The same name without a surname that isn't carved in it and that is one of these words.
   *
   * @param words folded
   */
  public Statement withoutSurnameOf(Set<String> words) {
    Optional<Detail.Name> name = detail(Detail.Name.class);
    if (supplied.isEmpty()
        || name.filter(n -> words.contains(NameForms.fold(n.surname()))).isEmpty()) {
      return this;
    }
    return withValue(
        name.get().given() + "|", name.map(n -> n.withSurname("")), supplied.orElseThrow());
  }

  Statement withKind(Kind newKind) {
    return new Statement(
        persons, newKind, firstLine, lastLine, text, value, detail, supplied, odds, signs);
  }

  Statement withOdds(double other) {
    return new Statement(
        persons, kind, firstLine, lastLine, text, value, detail, supplied, other, signs);
  }

  Statement withPersons(List<Integer> others) {
    return new Statement(
        others, kind, firstLine, lastLine, text, value, detail, supplied, odds, signs);
  }

  Statement withValue(String newValue, Optional<Detail> newDetail, String reason) {
    return new Statement(
        persons,
        kind,
        firstLine,
        lastLine,
        text,
        newValue,
        newDetail,
        Optional.of(reason),
        odds,
        signs);
  }
}
