package rakelight.person;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.time.DayOfWeek;
import java.util.List;
import java.util.Optional;

/** The parts of what a statement says, for those kinds that have parts. */
@JsonAutoDetect(isGetterVisibility = JsonAutoDetect.Visibility.NONE)
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
@JsonSubTypes({
  @JsonSubTypes.Type(value = Detail.Name.class, name = "name"),
  @JsonSubTypes.Type(value = Detail.Dated.class, name = "dated"),
  @JsonSubTypes.Type(value = Detail.Aged.class, name = "aged"),
  @JsonSubTypes.Type(value = Detail.Kinship.class, name = "kinship"),
  @JsonSubTypes.Type(value = Detail.Service.class, name = "service")
})
public sealed interface Detail {

  /**
   * A name.
   *
   * @param given as carved, with capitals at the beginning of its words; may be empty
   * @param surname the one borne at death, as carved or lent; may be empty
   * @param birthSurname where carved ("née"); may be empty
   * @param titles such as Mr, Capt, before the name
   * @param suffixes such as Esq, Junr, after it
   */
  record Name(
      String given, String surname, String birthSurname, List<String> titles, List<String> suffixes)
      implements Detail {
    public Name {
      titles = List.copyOf(titles);
      suffixes = List.copyOf(suffixes);
    }

    Name withSurname(String other) {
      return new Name(given, other, birthSurname, titles, suffixes);
    }

    /** Whether nothing of the name is known. */
    public boolean isUnnamed() {
      return given.isEmpty();
    }
  }

  /**
   * A date, figure by figure.
   *
   * @param worn the figures of the one date carved; empty where they can't be told one by one
   * @param weekday the day of the week where carved
   * @param place where it came to pass, as carved; may be empty
   */
  record Dated(Optional<CarvedLife.WornDate> worn, Optional<DayOfWeek> weekday, String place)
      implements Detail {}

  /** An age, figure by figure. */
  record Aged(CarvedLife.WornAge worn) implements Detail {}

  /**
   * Kinship: the person of the statement is {@code relation} of those named.
   *
   * @param relation wife, husband, widow, relict, consort, daughter, son, child, ...
   * @param names those named in its words, {@code given|surname}
   * @param persons those meant who are named elsewhere on the face, by their numbers
   */
  record Kinship(String relation, List<String> names, List<Integer> persons) implements Detail {
    public Kinship {
      names = List.copyOf(names);
      persons = List.copyOf(persons);
    }

    /** Whether the relation is by marriage. */
    public boolean isMarriage() {
      return PersonWords.SPOUSES.contains(relation);
    }

    /** Whether the person outlived those named. */
    public boolean isSurvivor() {
      return PersonWords.SURVIVORS.contains(relation);
    }

    /** Whether the person is a child of those named. */
    public boolean isChild() {
      return PersonWords.CHILDREN.contains(relation);
    }

    /** Whether those named are children of the person. */
    public boolean isParent() {
      return PersonWords.PARENTS.contains(relation);
    }
  }

  /** Service under arms or an office; each part as carved and empty where there is none. */
  record Service(String rank, String unit, String war, String office) implements Detail {}
}
