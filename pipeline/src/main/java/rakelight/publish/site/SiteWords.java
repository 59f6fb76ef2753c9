package rakelight.publish.site;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.names.NameForms;
import rakelight.person.Mention;
import rakelight.person.Person;
import rakelight.person.Statement.Kind;

/** Counts, kinds and lives in the words of the site's pages. */
final class SiteWords {
  private SiteWords() {}

  /** A number with its noun: 1 letter, 2 letters. */
  static String counted(int count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }

  static String kind(Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** When somebody was born and died and how old he became, as far as stones tell. */
  static String life(Person person) {
    return Stream.of(
            part("born", person.inWords(Kind.BIRTH)),
            part("married", person.inWords(Kind.MARRIAGE)),
            part("died", person.inWords(Kind.DEATH)),
            part("buried", person.inWords(Kind.BURIAL)),
            part("aged", person.inWords(Kind.AGE)))
        .filter(words -> !words.isEmpty())
        .collect(Collectors.joining(", "));
  }

  private static String part(String word, List<String> values) {
    return values.isEmpty() ? "" : word + " " + String.join(" or ", values);
  }

  /** Years of birth and death; empty where nobody knows either. */
  static String years(Person person) {
    String born = year(person, Kind.BIRTH);
    String died = year(person, Kind.DEATH);
    if (born.isEmpty() || died.isEmpty()) {
      return born.isEmpty() ? (died.isEmpty() ? "" : "died " + died) : "born " + born;
    }
    return born + "–" + died;
  }

  private static String year(Person person, Kind kind) {
    return person.values(kind).stream()
        .filter(value -> value.matches("[0-9]{4}.*") && !value.contains("/"))
        .map(value -> (person.isWorkedOut(kind) ? "about " : "") + value.substring(0, 4))
        .findFirst()
        .orElse("");
  }

  static String as(Mention mention) {
    return mention.isKinOnly() ? "named as kin" : mention.role().label();
  }

  static String surname(Person person) {
    return person.fullest().map(mention -> mention.name().surname()).orElse("");
  }

  static String given(Person person) {
    return person.fullest().map(mention -> mention.name().given()).orElse("");
  }

  /** Surname first, as lists have it. */
  static String surnameFirst(Person person) {
    String surname = surname(person);
    String given = given(person);
    return surname.isEmpty() || given.isEmpty() ? person.called() : surname + ", " + given;
  }

  /** The letter under which somebody is listed; a dash for those without surname. */
  static String letter(Person person) {
    String folded = NameForms.fold(surname(person));
    return Optional.of(folded)
        .filter(name -> !name.isEmpty())
        .map(name -> name.substring(0, 1).toUpperCase(Locale.ROOT))
        .filter(letter -> letter.matches("[A-Z]"))
        .orElse("–");
  }
}
