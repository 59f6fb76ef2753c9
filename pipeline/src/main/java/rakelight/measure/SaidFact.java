package rakelight.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.measure.KnownStone.Kind;
import rakelight.person.Detail;
import rakelight.person.Statement;

/**
 * One thing that statements say of one person.
 *
 * @param person the number on the face; 0 for what is said of nobody
 * @param value EDTF, an ISO 8601 duration, words; of kinship the relation
 * @param name of a name its parts; of kinship that of the other person
 * @param of of kinship the other's number on the face, 0 where none is said
 * @param statement where it is said
 */
record SaidFact(
    int person, Kind kind, String value, Optional<Detail.Name> name, int of, Statement statement) {

  /**
   * All that a statement says, once for each person; verse, what is worked out and not carved, and
   * what isn't measured says nothing.
   */
  static List<SaidFact> of(Statement statement) {
    List<SaidFact> said = new ArrayList<>();
    if (statement.kind() == Statement.Kind.MAKER) {
      said.add(new SaidFact(0, Kind.MAKER, statement.value(), Optional.empty(), 0, statement));
    } else if (statement.isFact() && !statement.isReckoned()) {
      statement.persons().forEach(person -> add(said, person, statement));
    }
    return said;
  }

  private static void add(List<SaidFact> said, int person, Statement statement) {
    switch (statement.kind()) {
      case NAME -> {
        Optional<Detail.Name> name = statement.detail(Detail.Name.class);
        said.add(new SaidFact(person, Kind.NAME, statement.value(), name, 0, statement));
        name.map(Detail.Name::birthSurname)
            .filter(maiden -> !maiden.isEmpty())
            .ifPresent(maiden -> words(said, person, Kind.MAIDEN, maiden, statement));
      }
      case BIRTH -> words(said, person, Kind.BIRTH, statement.value(), statement);
      case MARRIAGE -> words(said, person, Kind.MARRIAGE, statement.value(), statement);
      case DEATH -> words(said, person, Kind.DEATH, statement.value(), statement);
      case BURIAL -> words(said, person, Kind.BURIAL, statement.value(), statement);
      case AGE -> words(said, person, Kind.AGE, statement.value(), statement);
      case OCCUPATION -> words(said, person, Kind.TRADE, statement.value(), statement);
      case ORIGIN -> words(said, person, Kind.ORIGIN, statement.value(), statement);
      case CAUSE -> words(said, person, Kind.CAUSE, statement.value(), statement);
      case SERVICE ->
          statement
              .detail(Detail.Service.class)
              .ifPresent(
                  service -> {
                    words(said, person, Kind.RANK, service.rank(), statement);
                    words(said, person, Kind.UNIT, service.unit(), statement);
                    words(said, person, Kind.WAR, service.war(), statement);
                    words(said, person, Kind.TRADE, service.office(), statement);
                  });
      case KIN ->
          statement
              .detail(Detail.Kinship.class)
              .ifPresent(kinship -> kin(said, person, kinship, statement));
      case ORDER, REMOVAL, MAKER, VERSE, SCRIPTURE -> {}
    }
  }

  private static void kin(
      List<SaidFact> said, int person, Detail.Kinship kinship, Statement statement) {
    for (String name : kinship.names()) {
      String[] parts = name.split("\\|", -1);
      said.add(
          new SaidFact(
              person,
              Kind.KIN,
              kinship.relation(),
              Optional.of(
                  new Detail.Name(
                      parts[0], parts.length > 1 ? parts[1] : "", "", List.of(), List.of())),
              0,
              statement));
    }
    for (int other : kinship.persons()) {
      said.add(
          new SaidFact(person, Kind.KIN, kinship.relation(), Optional.empty(), other, statement));
    }
  }

  private static void words(
      List<SaidFact> said, int person, Kind kind, String value, Statement statement) {
    if (!value.isEmpty()) {
      said.add(new SaidFact(person, kind, value, Optional.empty(), 0, statement));
    }
  }
}
