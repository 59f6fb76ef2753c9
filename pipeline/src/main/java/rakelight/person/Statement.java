package rakelight.person;

import java.util.List;
import java.util.Optional;
import rakelight.inscription.SignId;

/**
 * What a reading asserts, and the signs it is read from.
 *
 * @param person counts the persons of the face from 1, in the order they are named; 0 when the
 *     statement is about nobody on it
 * @param firstLine from 1
 * @param text the words as carved, lines parted by {@code " / "}; {@code ?} where no letter is
 *     named
 * @param value EDTF for birth, marriage, death and burial; an ISO 8601 duration for an age; {@code
 *     given|surname} for a name; otherwise words
 * @param supplied why part of the value was worked out and not read; empty when all of it was read
 * @param signs in order of reading; never empty
 */
public record Statement(
    int person,
    Kind kind,
    int firstLine,
    int lastLine,
    String text,
    String value,
    Optional<String> supplied,
    List<SignId> signs) {

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
    ORIGIN,
    MAKER
  }

  public Statement {
    signs = List.copyOf(signs);
    if (signs.isEmpty()) {
      throw new IllegalArgumentException("a statement rests on a sign");
    }
  }

  boolean isDate() {
    return kind == Kind.BIRTH || kind == Kind.MARRIAGE || kind == Kind.DEATH || kind == Kind.BURIAL;
  }

  Statement withKind(Kind newKind) {
    return new Statement(person, newKind, firstLine, lastLine, text, value, supplied, signs);
  }

  Statement withValue(String newValue, String reason) {
    return new Statement(
        person, kind, firstLine, lastLine, text, newValue, Optional.of(reason), signs);
  }
}
