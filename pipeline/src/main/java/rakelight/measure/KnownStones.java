package rakelight.measure;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.measure.KnownStone.Fact;
import rakelight.measure.KnownStone.Kind;
import rakelight.measure.KnownStone.Person;
import rakelight.measure.KnownStone.Role;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.edtf.Edtf;

/**
 * Reads files of inscriptions with what they truly say. UTF-8; lines that begin with {@code #}
 * before a stone are remarks.
 *
 * <pre>
 * stone K001
 * MARY wife of
 * JOHN HALLAM of Kelby
 * who died Feb. 9 1716/7 aged 32
 * Weep not for me
 * --
 * a = Mary|Hallam ; wife of b ; death 1717-02-20 ; age P32Y
 * b (kin) = John|Hallam ; origin Kelby
 * verse 4
 * </pre>
 *
 * <p>Above {@code --} stand the lines as carved, in Leiden signs; below it a line for each person:
 * a key, perhaps {@code (kin)} or {@code (mourner)}, the name as {@code given|surname|surname at
 * birth}, then facts. A fact is a kind ({@code birth}, {@code death}, {@code marriage}, {@code
 * burial}, {@code age}, {@code rank}, {@code unit}, {@code war}, {@code trade}, {@code origin},
 * {@code cause}) and a value, or {@code RELATION of KEY}; {@code living} says that somebody may be
 * living. Values that are right as well follow after {@code " / "}, {@code -} is no name at all. A
 * {@code ?} in front marks what may be said and needn't, {@code worn} what has letters gone or
 * misread. Of the stone as a whole: {@code verse 4-7}, {@code either 8}, {@code maker J. Pask},
 * {@code contradiction}, {@code calendar scottish}.
 */
public final class KnownStones {
  private static final Pattern PERSON =
      Pattern.compile("(\\w+)\\s*(?:\\((kin|mourner)\\)\\s*)?=\\s*(.*)");
  private static final Pattern KINSHIP = Pattern.compile("([a-z][a-z /-]*) of (\\w+)");
  private static final Set<Kind> DATES = Set.of(Kind.BIRTH, Kind.DEATH, Kind.MARRIAGE, Kind.BURIAL);
  private static final Set<Kind> OF_PERSONS =
      Set.of(
          Kind.BIRTH,
          Kind.DEATH,
          Kind.MARRIAGE,
          Kind.BURIAL,
          Kind.AGE,
          Kind.RANK,
          Kind.UNIT,
          Kind.WAR,
          Kind.TRADE,
          Kind.ORIGIN,
          Kind.CAUSE);

  private final Path file;
  private final List<KnownStone> stones = new ArrayList<>();
  private int at;

  private KnownStones(Path file) {
    this.file = file;
  }

  /**
   * Reads a file.
   *
   * @throws IOException naming file, line and fault if it can't be read
   */
  public static List<KnownStone> read(Path file) throws IOException {
    KnownStones reader = new KnownStones(file);
    reader.read(Files.readAllLines(file));
    if (reader.stones.isEmpty()) {
      throw new IOException(file + ": holds no stone; one begins with a line `stone` and its id");
    }
    return List.copyOf(reader.stones);
  }

  private void read(List<String> lines) throws IOException {
    while (at < lines.size()) {
      String line = lines.get(at).strip();
      if (!line.isEmpty() && !line.startsWith("#") && !line.startsWith("stone ")) {
        throw wrong("a line outside of a stone");
      }
      at++;
      if (line.startsWith("stone ")) {
        stones.add(stone(line.substring(6).strip(), lines));
      }
    }
  }

  private KnownStone stone(String id, List<String> lines) throws IOException {
    int top = at;
    List<String> carved = new ArrayList<>();
    while (at < lines.size() && !lines.get(at).equals("--")) {
      carved.add(lines.get(at));
      at++;
    }
    if (at == lines.size()) {
      throw wrong("stone " + id + ": no line -- between what is carved and what it says");
    }
    at++;
    Map<String, Person> persons = new LinkedHashMap<>();
    List<Fact> makers = new ArrayList<>();
    Set<Integer> verse = new TreeSet<>();
    Set<Integer> either = new TreeSet<>();
    boolean contradicts = false;
    CalendarChange calendar = CalendarChange.BRITISH;
    for (; at < lines.size() && !lines.get(at).startsWith("stone "); at++) {
      String line = lines.get(at).strip();
      Matcher person = PERSON.matcher(line);
      if (person.matches()) {
        Role role =
            person.group(2) == null
                ? Role.COMMEMORATED
                : Role.valueOf(person.group(2).toUpperCase(Locale.ROOT));
        if (persons.put(person.group(1), person(role, person.group(3))) != null) {
          throw wrong("two persons have the key " + person.group(1));
        }
      } else if (line.startsWith("verse ")) {
        verse.addAll(range(line.substring(6), carved.size()));
      } else if (line.startsWith("either ")) {
        either.addAll(range(line.substring(7), carved.size()));
      } else if (line.startsWith("maker ")) {
        makers.add(new Fact(Kind.MAKER, alternatives(line.substring(6)), "", false, false));
      } else if (line.equals("contradiction")) {
        contradicts = true;
      } else if (line.startsWith("calendar ")) {
        calendar = CalendarChange.parse(line.substring(9));
      } else if (!line.isEmpty()) {
        throw wrong("not understood: " + line);
      }
    }
    for (Person person : persons.values()) {
      for (Fact fact : person.facts()) {
        if (fact.kind() == Kind.KIN && !persons.containsKey(fact.of())) {
          throw new IOException(file + ": stone " + id + ": nobody has the key " + fact.of());
        }
      }
    }
    try {
      return new KnownStone(
          id,
          Leiden.parse(String.join("\n", carved)),
          calendar,
          persons,
          makers,
          verse,
          either,
          contradicts);
    } catch (LeidenException e) {
      throw new IOException(
          file + ": line " + (top + 1) + ": stone " + id + ": " + e.getMessage(), e);
    }
  }

  private Person person(Role role, String text) throws IOException {
    String[] parts = text.split(";");
    String[] name = parts[0].split("\\|", -1);
    if (name.length < 2 || name.length > 3) {
      throw wrong("a name is given|surname, or given|surname|surname at birth: " + parts[0]);
    }
    List<Fact> facts = new ArrayList<>();
    boolean mayLive = false;
    for (String part : Arrays.asList(parts).subList(1, parts.length)) {
      if (part.strip().equals("living")) {
        mayLive = true;
      } else {
        facts.add(fact(part.strip()));
      }
    }
    return new Person(
        role,
        alternatives(name[0]),
        alternatives(name[1]),
        name.length == 3 ? alternatives(name[2]) : List.of(),
        facts,
        mayLive);
  }

  private Fact fact(String text) throws IOException {
    boolean optional = text.startsWith("?");
    String rest = optional ? text.substring(1).strip() : text;
    boolean worn = rest.startsWith("worn ");
    rest = worn ? rest.substring(5).strip() : rest;
    int space = rest.indexOf(' ');
    String word = space < 0 ? rest : rest.substring(0, space);
    for (Kind kind : OF_PERSONS) {
      if (kind.name().toLowerCase(Locale.ROOT).equals(word) && space > 0) {
        List<String> values = alternatives(rest.substring(space));
        if (DATES.contains(kind)) {
          try {
            values.forEach(Edtf::parse);
          } catch (IllegalArgumentException e) {
            throw wrong("no date: " + rest);
          }
        }
        return new Fact(kind, values, "", optional, worn);
      }
    }
    Matcher kin = KINSHIP.matcher(rest);
    if (kin.matches()) {
      return new Fact(Kind.KIN, alternatives(kin.group(1)), kin.group(2), optional, worn);
    }
    throw wrong("no fact: " + text);
  }

  /** {@code -} stands for nothing, and nothing for no alternative at all. */
  private static List<String> alternatives(String text) {
    return Arrays.stream(text.split(" / "))
        .map(String::strip)
        .filter(one -> !one.isEmpty())
        .map(one -> one.equals("-") ? "" : one)
        .toList();
  }

  private List<Integer> range(String text, int lines) throws IOException {
    List<Integer> numbers = new ArrayList<>();
    for (String part : text.strip().split("[ ,]+")) {
      Matcher ends = Pattern.compile("(\\d{1,3})(?:-(\\d{1,3}))?").matcher(part);
      if (!ends.matches()) {
        throw wrong("lines are given as 4 or 4-7, not " + part);
      }
      int first = Integer.parseInt(ends.group(1));
      int last = ends.group(2) == null ? first : Integer.parseInt(ends.group(2));
      if (first < 1 || last < first || last > lines) {
        throw wrong("the stone has no lines " + part);
      }
      for (int line = first; line <= last; line++) {
        numbers.add(line);
      }
    }
    return numbers;
  }

  /** A fault of the line looked at. */
  private IOException wrong(String what) {
    return new IOException(file + ": line " + (at + 1) + ": " + what);
  }
}
