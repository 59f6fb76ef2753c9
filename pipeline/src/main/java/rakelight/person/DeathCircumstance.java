package rakelight.person;

import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.MarkerId;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Edtf;

/**
 * Something that stones, sources or questions say of deaths that came together: what somebody died
 * of, a unit, a place, a ship. None of it is said to be the cause.
 *
 * @param words as carved or written
 * @param persons whom it is said of; empty for a source or question that speaks of the days
 * @param from where it is said: mentions, a source's row, a question
 */
public record DeathCircumstance(Sort sort, String words, List<Person> persons, List<String> from) {
  /** What sort of thing is said. */
  public enum Sort {
    /** What somebody died of or how, with the ship or event where it is named. */
    CAUSE("died of or by"),
    PLACE("died at"),
    UNIT("unit"),
    WAR("war"),
    ORIGIN("from"),
    SURNAME("one surname"),
    MARKER("on one marker"),
    SOURCE("a source says"),
    QUESTION("a question asks");

    private final String words;

    Sort(String words) {
      this.words = words;
    }

    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }

    public String words() {
      return words;
    }
  }

  public DeathCircumstance {
    persons = List.copyOf(persons);
    from = List.copyOf(from);
  }

  /** In a line: what, of how many, and where it is said. */
  public String told() {
    return sort.words()
        + " "
        + words
        + (persons.size() > 1 ? " (" + persons.size() + " of them)" : "")
        + (from.isEmpty() ? "" : ": " + String.join(", ", from));
  }

  /** Collects what is said of one cluster. */
  private static final class Said {
    private final Map<String, String> words = new LinkedHashMap<>();
    private final Map<String, Sort> sorts = new HashMap<>();
    private final Map<String, Set<Person>> persons = new HashMap<>();
    private final Map<String, Set<String>> from = new HashMap<>();

    void add(Sort sort, String said, Person person, String where) {
      String shown = said.replace(" / ", " ").strip();
      if (shown.isEmpty()) {
        return;
      }
      String key =
          sort + "|" + RollWords.key(sort == Sort.UNIT ? RollWords.UNIT : RollWords.PLAIN, shown);
      words.putIfAbsent(key, shown);
      sorts.put(key, sort);
      persons
          .computeIfAbsent(key, k -> new TreeSet<>(Comparator.comparing(Person::id)))
          .add(person);
      from.computeIfAbsent(key, k -> new TreeSet<>()).add(where);
    }

    List<DeathCircumstance> all() {
      return words.entrySet().stream()
          .map(
              entry ->
                  new DeathCircumstance(
                      sorts.getOrDefault(entry.getKey(), Sort.CAUSE),
                      entry.getValue(),
                      List.copyOf(persons.getOrDefault(entry.getKey(), Set.of())),
                      List.copyOf(from.getOrDefault(entry.getKey(), Set.of()))))
          .filter(
              one ->
                  one.persons().size() > 1
                      || (one.sort() != Sort.SURNAME && one.sort() != Sort.MARKER))
          .sorted(
              Comparator.comparingInt((DeathCircumstance one) -> -one.persons().size())
                  .thenComparing(DeathCircumstance::sort)
                  .thenComparing(DeathCircumstance::words))
          .toList();
    }
  }

  /**
   * What is said of a cluster, what is said of most first.
   *
   * @param sought persons sought by rolls and registers
   * @param found by mention, whom of them people found there
   * @param questions those that may be told
   */
  public static List<DeathCircumstance> of(
      Deaths.Cluster cluster,
      List<Sought> sought,
      Map<MentionId, Sought> found,
      List<Question> questions) {
    Said said = new Said();
    for (Person person : cluster.persons()) {
      for (Mention mention : person.mentions()) {
        byStone(said, person, mention);
        Optional.ofNullable(found.get(mention.id())).ifPresent(row -> bySource(said, person, row));
      }
    }
    return Stream.of(
            said.all().stream(),
            inTheseDays(cluster, sought, found).stream(),
            asked(cluster, questions).stream())
        .flatMap(all -> all)
        .toList();
  }

  private static void byStone(Said said, Person person, Mention mention) {
    String where = mention.label();
    mention.statements(Kind.CAUSE).forEach(s -> said.add(Sort.CAUSE, s.text(), person, where));
    mention.statements(Kind.ORIGIN).forEach(s -> said.add(Sort.ORIGIN, s.value(), person, where));
    mention
        .statements(Kind.DEATH)
        .flatMap(s -> s.detail(Detail.Dated.class).stream())
        .forEach(dated -> said.add(Sort.PLACE, dated.place(), person, where));
    mention
        .statements(Kind.SERVICE)
        .flatMap(s -> s.detail(Detail.Service.class).stream())
        .forEach(
            service -> {
              said.add(Sort.UNIT, service.unit(), person, where);
              said.add(Sort.WAR, service.war(), person, where);
            });
    if (!mention.isKinOnly()) {
      said.add(Sort.SURNAME, mention.name().surname(), person, where);
      said.add(Sort.MARKER, mention.source().marker().number(), person, where);
    }
  }

  private static void bySource(Said said, Person person, Sought row) {
    said.add(Sort.UNIT, row.row().unit(), person, row.label());
    said.add(Sort.SOURCE, row.row().note(), person, row.label());
  }

  /** Whom a source says to have died in these days and nobody has found on a stone; unnamed. */
  private static List<DeathCircumstance> inTheseDays(
      Deaths.Cluster cluster, List<Sought> sought, Map<MentionId, Sought> found) {
    Map<Long, List<Sought>> open =
        sought.stream()
            .filter(one -> !found.containsValue(one))
            .filter(one -> one.row().died().filter(day -> isWithin(day, cluster)).isPresent())
            .collect(
                Collectors.groupingBy(
                    Sought::sourceNumber, LinkedHashMap::new, Collectors.toList()));
    return open.entrySet().stream()
        .map(
            entry ->
                new DeathCircumstance(
                    Sort.SOURCE,
                    entry.getValue().size()
                        + " more who died in these days and are found on no stone",
                    List.of(),
                    entry.getValue().stream().map(Sought::label).toList()))
        .toList();
  }

  private static boolean isWithin(String edtf, Deaths.Cluster cluster) {
    Edtf date = Edtf.parse(edtf);
    return date.earliest().isPresent()
        && date.latest().isPresent()
        && !date.earliest().get().toLocalDate().isBefore(cluster.first())
        && !date.latest().get().toLocalDate().isAfter(cluster.last());
  }

  /** Questions about a marker of these persons, or that name a month of these days. */
  private static List<DeathCircumstance> asked(Deaths.Cluster cluster, List<Question> questions) {
    Set<MarkerId> markers =
        cluster.persons().stream()
            .flatMap(person -> person.mentions().stream())
            .map(mention -> mention.source().marker().id())
            .collect(Collectors.toSet());
    List<String> months = new ArrayList<>();
    for (LocalDate day = cluster.first().withDayOfMonth(1);
        !day.isAfter(cluster.last());
        day = day.plusMonths(1)) {
      months.add(
          day.getMonth().getDisplayName(TextStyle.FULL, Locale.ENGLISH) + " " + day.getYear());
    }
    return questions.stream()
        .filter(
            question ->
                question.marker().filter(markers::contains).isPresent()
                    || (question.marker().isEmpty() && months.stream().anyMatch(question::answers)))
        .map(
            question ->
                new DeathCircumstance(
                    Sort.QUESTION,
                    question.text()
                        + question.answer().map(step -> " Answer: " + step.words()).orElse(""),
                    List.of(),
                    List.of(question.label())))
        .toList();
  }
}
