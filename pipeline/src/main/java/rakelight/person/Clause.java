package rakelight.person;

import java.util.List;
import java.util.Optional;

/**
 * A stretch of words taken to be one thing a stone says.
 *
 * @param to the word after it
 * @param weight for it and against its words being something else, in natural logarithms of odds;
 *     choices, tuned on invented stones, and what was learned
 */
record Clause(Type type, int from, int to, double weight, Content content) {

  /** What a clause is. */
  enum Type {
    START,
    FORMULA,
    HEADING,
    PERSON,
    PRONOUN,
    KIN,
    EVENT,
    DATE,
    SPAN,
    AGE,
    MAIDEN,
    SERVICE,
    OCCUPATION,
    ORIGIN,
    CAUSE,
    ORDER,
    REMOVAL,
    MAKER,
    ERECTED,
    MOURNERS,
    VERSE,
    SCRIPTURE,
    DITTO,
    IGNORED,
    OTHER,
    END
  }

  /** What it says. */
  sealed interface Content {}

  /** Nothing besides its words. */
  record Words() implements Content {}

  /** Names. */
  record Names(NameWords.Found names) implements Content {}

  /** A kinship. */
  record Kin(KinWords.Found kin) implements Content {}

  /**
   * Something that came to pass.
   *
   * @param kinds birth, death, ...; several for {@code born and died}
   * @param dates of several persons or one; may be empty
   * @param cause from where to where the words of a cause stand
   * @param place where it was; may be empty
   */
  record Event(
      List<Statement.Kind> kinds,
      List<DateWords.Found> dates,
      int dateFrom,
      Optional<int[]> cause,
      String place)
      implements Content {}

  /** Years of a life; the second may never have been cut. */
  record Span(DateWords.Found birth, int deathFrom, Optional<DateWords.Found> death)
      implements Content {}

  /** An age. */
  record Aged(AgeWords.Found age) implements Content {}

  /** Service. */
  record Serving(Detail.Service service) implements Content {}

  /** Words from which a value is taken, without what leads to it. */
  record Valued(int from, int to) implements Content {}

  /** A value worked out. */
  record Text(String value) implements Content {}

  Clause(Type type, int from, int to, double weight) {
    this(type, from, to, weight, new Words());
  }

  Clause heavier(double by) {
    return new Clause(type, from, to, weight + by, content);
  }

  boolean is(Type... types) {
    return List.of(types).contains(type);
  }
}
