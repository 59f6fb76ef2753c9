package rakelight.ground;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.ground.FootstoneModel.Answer;
import rakelight.inscription.SignId;
import rakelight.marker.Marker;
import rakelight.names.NameForms;
import rakelight.person.Detail;
import rakelight.person.Mention;
import rakelight.person.Person;
import rakelight.person.Statement;

/**
 * A family by what its stones say and how they stand: a proposal, but for what people said.
 *
 * @param name as people call it, else its commonest surname
 * @param isNamed whether people gave the name
 * @param stones that name somebody, by number
 * @param footstones that bear initials or a word of relation, in the order of {@link #plot}
 * @param persons named on the stones, in the order of {@link #plot}
 * @param reasons why these stones are taken for one family's
 * @param plot what was asked of {@link FootstoneModel}, and
 * @param answer what it says; empty where there is no footstone
 */
public record FamilyGroup(
    String name,
    boolean isNamed,
    List<Marker> stones,
    List<Marker> footstones,
    List<Person> persons,
    List<String> reasons,
    FamilyPlot plot,
    Optional<Answer> answer) {
  public FamilyGroup {
    stones = List.copyOf(stones);
    footstones = List.copyOf(footstones);
    persons = List.copyOf(persons);
    reasons = List.copyOf(reasons);
  }

  /**
   * Kinship that a stone states: somebody is wife, son, ... of somebody.
   *
   * @param relation wife, husband, son, daughter, ..., in one form
   * @param name of whose kin it is, {@code given|surname}
   * @param to that person, where one of the family alone has the name
   * @param words as carved
   * @param mention by whose mention it is told, and
   * @param statement what tells it, with the letters it rests on
   */
  public record Tie(
      Person who,
      String relation,
      String name,
      Optional<Person> to,
      String words,
      Mention mention,
      Statement statement) {
    /** The letters it rests on. */
    public List<SignId> signs() {
      return statement.signs();
    }
  }

  /** The tree as the stones tell it: each statement of kinship, in the order of the persons. */
  public List<Tie> ties() {
    List<Tie> ties = new ArrayList<>();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        for (Statement statement : mention.isKinOnly() ? List.<Statement>of() : mention.about()) {
          statement
              .detail(Detail.Kinship.class)
              .filter(kin -> statement.persons().contains(mention.number()))
              .ifPresent(
                  kin ->
                      names(kin, mention)
                          .forEach(
                              name ->
                                  ties.add(
                                      new Tie(
                                          person,
                                          kin.relation(),
                                          name,
                                          bearer(name, mention),
                                          statement.text(),
                                          mention,
                                          statement))));
        }
      }
    }
    return ties;
  }

  /** Those a kinship names, and those of the face whom it points to. */
  private List<String> names(Detail.Kinship kin, Mention by) {
    List<String> names = new ArrayList<>(kin.names());
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        String name = mention.name().given() + "|" + mention.name().surname();
        if (!mention.isKinOnly()
            && mention.source().face().id().equals(by.source().face().id())
            && kin.persons().contains(mention.number())
            && !names.contains(name)) {
          names.add(name);
        }
      }
    }
    return names;
  }

  /** The one of the family who has a name; on the same face first, none where two have it. */
  private Optional<Person> bearer(String name, Mention by) {
    String[] parts = name.split("\\|", -1);
    String given = NameForms.fold(parts[0]);
    String surname = parts.length > 1 ? NameForms.fold(parts[1]) : "";
    List<Person> bearers = new ArrayList<>();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        String own = NameForms.fold(mention.name().surname());
        boolean has =
            (isInitials(parts[0])
                    ? initials(mention.name().given()).equals(initials(parts[0]))
                    : NameForms.fold(mention.name().given()).equals(given))
                && (surname.isEmpty() || own.isEmpty() || own.equals(surname));
        if (has && !given.isEmpty() && !mention.id().equals(by.id()) && !bearers.contains(person)) {
          bearers.add(person);
        }
      }
    }
    if (bearers.size() > 1) {
      bearers.removeIf(
          person ->
              person.mentions().stream()
                  .noneMatch(m -> m.source().face().id().equals(by.source().face().id())));
    }
    return bearers.size() == 1 ? Optional.of(bearers.get(0)) : Optional.empty();
  }

  /** The first letters of given names, such as {@code MA} of Mary Ann. */
  static String initials(String given) {
    StringBuilder initials = new StringBuilder();
    for (String name : given.strip().split("[\\s.]+")) {
      initials.append(name.isEmpty() ? "" : name.substring(0, 1));
    }
    return initials.toString().toUpperCase(Locale.ROOT);
  }

  /** Whether nothing but the first letters is cut. */
  static boolean isInitials(String given) {
    return given.strip().matches("(\\p{L}[\\s.]*)+") && !given.strip().matches(".*\\p{L}{2}.*");
  }

  /** Whether a marker is one of its stones or footstones. */
  public boolean holds(Marker marker) {
    return stones.contains(marker) || footstones.contains(marker);
  }
}
