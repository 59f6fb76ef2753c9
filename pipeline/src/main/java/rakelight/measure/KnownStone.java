package rakelight.measure;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import rakelight.inscription.Inscription;
import rakelight.person.calendar.CalendarChange;

/**
 * An inscription and what it truly says. {@link KnownStones} reads it from a file.
 *
 * @param persons everybody it speaks of, by the key they have in the file, in its order
 * @param makers those who signed the stone
 * @param verse lines of verse, scripture or comfort, from 1
 * @param either lines that may be taken for such or not
 * @param contradicts whether what it says can't all be right
 */
public record KnownStone(
    String id,
    Inscription inscription,
    CalendarChange calendar,
    Map<String, Person> persons,
    List<Fact> makers,
    Set<Integer> verse,
    Set<Integer> either,
    boolean contradicts) {

  /** What is counted; each has a precision and a recall of its own. */
  public enum Kind {
    NAME,
    /** The name borne at birth. */
    MAIDEN,
    BIRTH,
    MARRIAGE,
    DEATH,
    BURIAL,
    AGE,
    KIN,
    RANK,
    UNIT,
    WAR,
    /** Trade, profession or office. */
    TRADE,
    ORIGIN,
    CAUSE,
    MAKER,
    /** A line of verse, scripture or comfort. */
    VERSE,
    /** That the stone contradicts itself. */
    CONTRADICTION
  }

  /** Why somebody stands on the stone. */
  public enum Role {
    COMMEMORATED,
    /** Named only as somebody's kin. */
    KIN,
    /** Named only as mourning or as having set up the stone. */
    MOURNER
  }

  /**
   * Somebody the stone speaks of.
   *
   * @param given what may count as the given name; empty when none is carved
   * @param surname the same of the surname, carved or lent
   * @param maiden the same of the surname at birth
   * @param mayLive whether somebody may be living, by the stone alone
   */
  public record Person(
      Role role,
      List<String> given,
      List<String> surname,
      List<String> maiden,
      List<Fact> facts,
      boolean mayLive) {
    public Person {
      given = List.copyOf(given);
      surname = List.copyOf(surname);
      maiden = List.copyOf(maiden);
      facts = List.copyOf(facts);
    }
  }

  /**
   * Something known of a person, or the maker's name.
   *
   * @param values any of them is right: EDTF, ISO 8601 durations, words; of kinship the relation
   * @param of the key of the person to whom kinship is, else empty
   * @param optional whether it may be said and needn't
   * @param worn whether letters of it are gone or misread: then what leaves the truth possible is
   *     right, too
   */
  public record Fact(Kind kind, List<String> values, String of, boolean optional, boolean worn) {
    public Fact {
      values = List.copyOf(values);
    }
  }

  public KnownStone {
    persons = Collections.unmodifiableMap(new LinkedHashMap<>(persons));
    makers = List.copyOf(makers);
    verse = Set.copyOf(verse);
    either = Set.copyOf(either);
  }
}
