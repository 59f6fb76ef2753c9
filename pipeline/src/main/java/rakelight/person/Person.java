package rakelight.person;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.Age;

/**
 * Somebody commemorated, as concluded from statements: the mentions that people have confirmed to
 * be of one person, or a single mention. The evidence stays with the mentions.
 *
 * @param id the same as long as the first of the mentions stands
 * @param mentions those named for themselves first; empty for somebody known from the form of a
 *     marker alone
 * @param fromForm what tells of somebody whom no letters name
 * @param died evidence of death that people recorded beside what the stones say
 */
public record Person(
    UUID id, List<Mention> mentions, Optional<Opinion> fromForm, List<Opinion> died) {
  public Person {
    mentions = List.copyOf(mentions);
    died = List.copyOf(died);
  }

  /** The fullest name that a stone gives. */
  public String called() {
    return fullest().map(Mention::called).orElse("(unnamed)");
  }

  /** The mention with the fullest name. */
  public Optional<Mention> fullest() {
    Optional<Mention> best = Optional.empty();
    for (Mention mention : mentions) {
      if (best.isEmpty() || fullness(mention) > fullness(best.get())) {
        best = Optional.of(mention);
      }
    }
    return best;
  }

  private static int fullness(Mention mention) {
    return mention.name().given().length()
        + 2 * Math.min(2, mention.name().given().length())
        + mention.name().surname().length()
        + (mention.name().surname().length() > 1 ? 10 : 0)
        + (mention.isKinOnly() ? 0 : 20);
  }

  /** What the stones give of this kind, each value once; reckoned where figures are lost. */
  public List<String> values(Kind kind) {
    LinkedHashSet<String> values = new LinkedHashSet<>();
    mentions.forEach(m -> m.fullest(kind).map(Statement::value).forEach(values::add));
    values.remove("");
    return new ArrayList<>(values);
  }

  /** Its ages as people say them. */
  public List<String> agesInWords() {
    return values(Kind.AGE).stream().map(Age::inWords).toList();
  }

  /** Whether no letters name the person. */
  public boolean isUnnamed() {
    return mentions.stream().noneMatch(m -> !m.name().given().isEmpty());
  }

  /** Whether a stone is about the person, and doesn't only name him as another's kin. */
  public boolean isCommemorated() {
    return mentions.isEmpty() || mentions.stream().anyMatch(m -> !m.isKinOnly());
  }
}
