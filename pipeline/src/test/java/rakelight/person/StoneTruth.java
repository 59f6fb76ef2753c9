package rakelight.person;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

/**
 * Stones with what they assert, read from a text, and the score of the statements made of them: how
 * much of what is known is right, who doesn't exist and what is said of the wrong person.
 */
final class StoneTruth {
  /** One fact: its kind and values, and the names it may be of. */
  private record Fact(String kind, List<String> values, List<String[]> names) {}

  private record Stone(String id, String text, List<Fact> facts) {}

  /** What came of a whole list of stones. */
  static final class Score {
    private final Map<String, int[]> kinds = new TreeMap<>();
    private final StringBuilder faults = new StringBuilder();
    private int phantoms;
    private int onWrongPerson;
    private int unasked;

    int right() {
      return kinds.values().stream().mapToInt(c -> c[0]).sum();
    }

    int known() {
      return kinds.values().stream().mapToInt(c -> c[1]).sum();
    }

    /** Persons named by a statement whom the stone doesn't name. */
    int phantoms() {
      return phantoms;
    }

    int onWrongPerson() {
      return onWrongPerson;
    }

    /** Births, deaths, ages, burials and marriages that the truth doesn't have. */
    int unasked() {
      return unasked;
    }

    @Override
    public String toString() {
      StringBuilder text = new StringBuilder();
      kinds.forEach((k, c) -> text.append(k).append(' ').append(c[0]).append('/').append(c[1]));
      return text.append('\n')
          .append(right() + " of " + known() + ", phantoms " + phantoms)
          .append(", on a wrong person " + onWrongPerson + ", unasked " + unasked + "\n")
          .append(faults)
          .toString();
    }
  }

  private final List<Stone> stones;

  private StoneTruth(List<Stone> stones) {
    this.stones = stones;
  }

  static StoneTruth of(String resource) {
    List<Stone> stones = new ArrayList<>();
    String id = "";
    List<String> lines = new ArrayList<>();
    List<Fact> facts = new ArrayList<>();
    List<String[]> names = new ArrayList<>();
    for (String row : rows(resource)) {
      if (row.startsWith("# ") && row.length() < 12) {
        add(stones, id, lines, facts);
        id = row.substring(2);
        lines = new ArrayList<>();
        facts = new ArrayList<>();
        names = new ArrayList<>();
      } else if (row.startsWith("= ")) {
        String[] cells = row.substring(2).split("\t", -1);
        List<String> values = Arrays.asList(cells).subList(1, cells.length);
        if (cells[0].equals("name")) {
          boolean lastWasName =
              !facts.isEmpty() && facts.get(facts.size() - 1).kind().equals("name");
          names = lastWasName ? new ArrayList<>(names) : new ArrayList<>();
          names.add(values.toArray(new String[0]));
        }
        facts.add(new Fact(cells[0], values, cells[0].equals("name") ? List.of() : names));
      } else if (!row.isEmpty() && !row.startsWith("#")) {
        lines.add(row);
      }
    }
    add(stones, id, lines, facts);
    return new StoneTruth(stones);
  }

  private static void add(List<Stone> stones, String id, List<String> lines, List<Fact> facts) {
    if (!id.isEmpty()) {
      stones.add(new Stone(id, String.join("\n", lines), List.copyOf(facts)));
    }
  }

  private static List<String> rows(String resource) {
    try (InputStream in = StoneTruth.class.getResourceAsStream(resource);
        BufferedReader rows =
            new BufferedReader(
                new InputStreamReader(
                    Objects.requireNonNull(in, resource), StandardCharsets.UTF_8))) {
      return rows.lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  int size() {
    return stones.size();
  }

  List<String> texts() {
    return stones.stream().map(Stone::text).toList();
  }

  Score score() throws LeidenException {
    Score score = new Score();
    for (Stone stone : stones) {
      score(stone, score);
    }
    return score;
  }

  private static void score(Stone stone, Score score) throws LeidenException {
    Inscription inscription = Leiden.parse(stone.text());
    List<Statement> found = Statements.of(inscription, CalendarChange.BRITISH);
    List<KinAgreement.Finding> findings = KinAgreement.of(found);
    Set<Statement> used = new HashSet<>();
    StringBuilder faults = new StringBuilder();
    for (Fact fact : stone.facts()) {
      String kind = fact.kind().equals("count") ? "count" : fact.kind();
      int[] c = score.kinds.computeIfAbsent(kind, k -> new int[2]);
      c[1]++;
      if (isRight(fact, found, findings, used, score, faults)) {
        c[0]++;
      } else {
        faults.append("  missed ").append(fact.kind()).append(' ').append(fact.values());
        faults.append('\n');
      }
    }
    for (Statement s : found) {
      boolean unnamedIsAsked = stone.facts().stream().anyMatch(f -> f.kind().equals("person"));
      if (s.kind() == Kind.NAME && !used.contains(s) && !unnamedIsAsked) {
        score.phantoms++;
        faults.append("  phantom ").append(s.value()).append('\n');
      } else if ((s.isDate() || s.kind() == Kind.AGE)
          && !used.contains(s)
          && !s.isReckoned()
          && s.value().length() > 4
          && stone.facts().stream().noneMatch(f -> f.kind().matches("contradiction|reckoned"))) {
        score.unasked++;
        faults.append("  unasked ").append(s.kind()).append(' ').append(s.value()).append('\n');
      }
    }
    if (faults.length() > 0) {
      score.faults.append(stone.id()).append(' ').append(stone.text().replace("\n", " / "));
      score.faults.append('\n').append(faults);
      for (Statement s : found) {
        score.faults.append("    ").append(s.persons()).append(s.kind()).append(' ');
        score.faults.append(s.value()).append("  “").append(s.text()).append("”\n");
      }
      findings.forEach(f -> score.faults.append("    ").append(f.words()).append('\n'));
    }
  }

  private static boolean isRight(
      Fact fact,
      List<Statement> found,
      List<KinAgreement.Finding> findings,
      Set<Statement> used,
      Score score,
      StringBuilder faults) {
    List<String> values = fact.values();
    switch (fact.kind()) {
      case "count":
        return found.stream().filter(s -> kind(s).equals(values.get(0))).count()
            == Long.parseLong(values.get(1));
      case "contradiction":
        return findings.stream().anyMatch(KinAgreement.Finding::contradiction);
      case "reckoned":
        return found.stream()
            .anyMatch(
                s -> s.isDate() && s.supplied().isPresent() && s.value().contains(values.get(0)));
      case "person":
        return found.stream().anyMatch(s -> s.person() > 0);
      default:
        break;
    }
    Statement hit = null;
    boolean elsewhere = false;
    for (Statement s : found) {
      boolean once = !fact.kind().matches("kin|service");
      if (!kind(s).equals(fact.kind()) || (once && used.contains(s)) || !agrees(fact, s)) {
        continue;
      }
      if (fact.names().isEmpty() || isOfOneOf(fact.names(), s, found)) {
        hit = s;
        break;
      }
      elsewhere = true;
    }
    if (hit == null && elsewhere) {
      score.onWrongPerson++;
      faults.append("  wrong person: ");
    }
    if (hit != null) {
      used.add(hit);
    }
    return hit != null;
  }

  private static String kind(Statement s) {
    return s.kind().name().toLowerCase(Locale.ROOT);
  }

  private static boolean isOfOneOf(List<String[]> names, Statement s, List<Statement> found) {
    boolean aboutNobody = s.persons().isEmpty();
    return aboutNobody
        || found.stream()
            .filter(n -> n.kind() == Kind.NAME && s.persons().contains(n.person()))
            .anyMatch(n -> names.stream().anyMatch(name -> isName(Arrays.asList(name), n)));
  }

  private static boolean isName(List<String> expected, Statement s) {
    Detail.Name name = s.detail(Detail.Name.class).orElseThrow();
    return among(expected.get(0), name.given())
        && among(expected.get(1), name.surname())
        && (expected.get(2).equals("*") || among(expected.get(2), name.birthSurname()));
  }

  private static boolean among(String alternatives, String value) {
    return Arrays.stream(alternatives.split("/", -1)).anyMatch(a -> norm(a).equals(norm(value)));
  }

  private static String norm(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9? ]", "").strip();
  }

  private static boolean agrees(Fact fact, Statement s) {
    List<String> values = fact.values();
    return switch (fact.kind()) {
      case "name" -> isName(values, s);
      case "kin" -> {
        Detail.Kinship kin = s.detail(Detail.Kinship.class).orElseThrow();
        boolean related =
            Arrays.stream(values.get(0).split("/", -1)).anyMatch(r -> s.value().contains(r));
        yield related
            && Arrays.stream(values.get(1).split("/", -1))
                .anyMatch(
                    of ->
                        kin.names().stream()
                            .anyMatch(n -> norm(of).equals(norm(n.replace('|', ' ')))));
      }
      case "service" -> {
        Detail.Service service = s.detail(Detail.Service.class).orElseThrow();
        StringBuilder parts = new StringBuilder();
        for (String part : values.get(0).split("/", -1)) {
          parts.append(
              switch (part) {
                case "rank" -> service.rank();
                case "unit" -> service.unit();
                case "war" -> service.war();
                default -> service.office();
              });
        }
        yield norm(parts.toString()).contains(norm(values.get(1)));
      }
      case "maker", "cause", "origin", "occupation" ->
          norm(s.value() + " " + s.text()).contains(norm(values.get(0)));
      case "scripture" -> true;
      default -> values.contains(s.value());
    };
  }
}
