package rakelight.desk;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.person.Mention;
import rakelight.person.Opinion;
import rakelight.person.Person;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;

/** Persons and what is said of them, in words for a page. */
final class Lives {
  private Lives() {}

  /** When somebody was born and died and how old he became, as far as stones tell. */
  static String of(Person person) {
    return joined(
        part("born", person.inWords(Kind.BIRTH)),
        part("died", person.inWords(Kind.DEATH)),
        part("aged", person.inWords(Kind.AGE)),
        person.fromForm().map(Opinion::note).orElse(""));
  }

  /** The same of one mention. */
  static String of(Mention mention) {
    return of(new Person(mention.id().personId(), List.of(mention), Optional.empty(), List.of()));
  }

  private static String joined(String... parts) {
    return Stream.of(parts).filter(words -> !words.isEmpty()).collect(Collectors.joining(", "));
  }

  private static String part(String word, List<String> values) {
    return values.isEmpty() ? "" : word + " " + String.join(" or ", values);
  }

  /** Where somebody is spoken of and as what. */
  static String places(Person person) {
    return person.mentions().stream()
        .map(mention -> mention.label() + " " + as(mention))
        .collect(Collectors.joining("; "));
  }

  static String as(Mention mention) {
    return mention.isKinOnly() ? "named as kin" : mention.role().label();
  }

  /** A kind of statement as people say it. */
  static String words(Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** A statement in a line. */
  static String words(Statement statement) {
    return words(statement.kind())
        + ": "
        + statement.valueInWords()
        + statement.standingInWords(" (", ")");
  }

  /**
   * By what the address of a statement names it on its face: its kind and its first sign, which
   * stays the same from one version of a reading to the next.
   */
  static String place(Statement statement) {
    return statement.kind().name().toLowerCase(Locale.ROOT)
        + "-"
        + statement.signs().get(0).number()
        + (statement.isReckoned() ? "-worked-out" : "");
  }
}
