package rakelight.person;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Statement.Kind;

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
  private static final String WORKED_OUT = " (worked out, not carved)";

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

  /** The markers that name him for himself, by number. */
  public List<Marker> markers() {
    return mentions.stream()
        .filter(mention -> !mention.isKinOnly())
        .map(mention -> mention.source().marker())
        .distinct()
        .sorted(MarkerStore.BY_NUMBER)
        .toList();
  }

  /** What the stones give of this kind, each value once; reckoned where figures are lost. */
  public List<String> values(Kind kind) {
    LinkedHashSet<String> values = new LinkedHashSet<>();
    mentions.forEach(m -> m.fullest(kind).map(Statement::value).forEach(values::add));
    values.remove("");
    return new ArrayList<>(values);
  }

  /** The same as people say it; what is worked out and carved on none of the stones says so. */
  public List<String> inWords(Kind kind) {
    Set<String> carved = new HashSet<>();
    Map<String, String> words = new LinkedHashMap<>();
    for (Mention mention : mentions) {
      mention
          .fullest(kind)
          .filter(s -> !s.value().isEmpty())
          .forEach(
              s -> {
                words.put(s.value(), s.valueInWords());
                if (!s.isReckoned()) {
                  carved.add(s.value());
                }
              });
    }
    return words.entrySet().stream()
        .map(e -> e.getValue() + (carved.contains(e.getKey()) ? "" : WORKED_OUT))
        .toList();
  }

  /** Whether no stone bears what is told of this kind: it is worked out from other figures. */
  public boolean isWorkedOut(Kind kind) {
    List<Statement> own = mentions.stream().flatMap(m -> m.fullest(kind)).toList();
    return !own.isEmpty() && own.stream().allMatch(Statement::isReckoned);
  }

  /** Whether no letters name the person. */
  public boolean isUnnamed() {
    return mentions.stream().noneMatch(m -> !m.name().given().isEmpty());
  }

  /** Whether a stone is about the person, and doesn't only name him as another's kin. */
  public boolean isCommemorated() {
    return mentions.isEmpty() || mentions.stream().anyMatch(m -> !m.isKinOnly());
  }

  /** Whether each of these words begins one of a name that a stone gives, however it is spelt. */
  public boolean isCalled(String words) {
    return mentions.stream()
        .anyMatch(m -> FoldedWords.begin(m.called() + " " + m.name().birthSurname(), words));
  }

  /**
   * Whether the birth or the death may lie in these years; not of somebody of whom no stone tells a
   * year.
   */
  public boolean mayTouch(int first, int last) {
    return mentions.stream()
        .flatMap(m -> Stream.concat(m.born().stream(), m.died().stream()))
        .anyMatch(span -> span[0].year() <= last && span[1].year() >= first);
  }
}
