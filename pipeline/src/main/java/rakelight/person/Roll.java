package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.names.NameForms;
import rakelight.person.Statement.Kind;

/**
 * Everybody of one regiment, company, war, rank, trade or place of origin, as stones tell it, with
 * the stones. What is spelt otherwise and means the same stands together, shown as carved.
 */
public final class Roll {
  /** What people are brought together by. */
  public enum By {
    REGIMENT("regiment or service"),
    COMPANY("company"),
    WAR("war"),
    RANK("rank"),
    TRADE("trade or office"),
    ORIGIN("place of origin");

    private final String words;

    By(String words) {
      this.words = words;
    }

    /** As commands and addresses write it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }

    public String words() {
      return words;
    }

    public static Optional<By> of(String label) {
      return Arrays.stream(values())
          .filter(by -> by.label().equals(label.strip().toLowerCase(Locale.ROOT)))
          .findFirst();
    }

    /** All labels, for messages. */
    public static String labels() {
      return Arrays.stream(values()).map(By::label).collect(Collectors.joining(", "));
    }
  }

  /**
   * Somebody on a roll.
   *
   * @param asCarved the words that put him there, each spelling once
   * @param mentions where they stand
   */
  public record Entry(Person person, List<String> asCarved, List<Mention> mentions) {
    public Entry {
      asCarved = List.copyOf(asCarved);
      mentions = List.copyOf(mentions);
    }

    /** The markers to look at, by number. */
    public List<Marker> markers() {
      return mentions.stream()
          .map(mention -> mention.source().marker())
          .distinct()
          .sorted(MarkerStore.BY_NUMBER)
          .toList();
    }

    /** Birth and death, as people say them. */
    public String life() {
      List<String> parts = new ArrayList<>();
      for (Kind kind : List.of(Kind.BIRTH, Kind.DEATH, Kind.AGE)) {
        List<String> values = person.inWords(kind);
        if (!values.isEmpty()) {
          parts.add(
              (kind == Kind.BIRTH ? "born " : kind == Kind.DEATH ? "died " : "aged ")
                  + String.join(" or ", values));
        }
      }
      return String.join(", ", parts);
    }
  }

  /**
   * People of one regiment, and so on.
   *
   * @param called the commonest spelling
   * @param spellings all of them, as carved, the commonest first
   * @param entries by surname and given name
   */
  public record Group(String called, List<String> spellings, List<Entry> entries) {
    public Group {
      spellings = List.copyOf(spellings);
      entries = List.copyOf(entries);
    }

    /** The spellings besides the one it is called by. */
    public List<String> others() {
      return spellings.stream().skip(1).toList();
    }
  }

  /**
   * What a stone says that puts somebody on a roll.
   *
   * @param spelling of what the group is called by
   * @param carved all the words
   */
  private record Saying(String key, String spelling, String carved, Mention mention) {}

  private Roll() {}

  /**
   * The groups, the largest first, then by name.
   *
   * @param persons those that may be told
   */
  public static List<Group> of(List<Person> persons, By by) {
    Map<String, Map<Person, List<Saying>>> groups = new TreeMap<>();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        for (Saying saying : sayings(mention, by)) {
          groups
              .computeIfAbsent(saying.key(), key -> new LinkedHashMap<>())
              .computeIfAbsent(person, p -> new ArrayList<>())
              .add(saying);
        }
      }
    }
    return groups.values().stream()
        .map(Roll::group)
        .sorted(
            Comparator.comparingInt((Group group) -> -group.entries().size())
                .thenComparing(group -> NameForms.fold(group.called()))
                .thenComparing(Group::called))
        .toList();
  }

  /** Whether a group is meant by these words: however it is spelt, or by a part of its name. */
  public static boolean isMeant(Group group, By by, String words) {
    String asked = words.strip().toLowerCase(Locale.ROOT);
    RollWords kind = words(by);
    return asked.isEmpty()
        || group.spellings().stream()
            .anyMatch(
                spelling ->
                    (" " + spelling.toLowerCase(Locale.ROOT)).contains(" " + asked)
                        || (" " + RollWords.key(kind, spelling).replace('|', ' ') + " ")
                            .contains(
                                " " + RollWords.key(kind, words).replace('|', ' ').strip() + " "));
  }

  private static RollWords words(By by) {
    return switch (by) {
      case REGIMENT, COMPANY -> RollWords.UNIT;
      case RANK -> RollWords.RANK;
      case WAR, TRADE, ORIGIN -> RollWords.PLAIN;
    };
  }

  private static Group group(Map<Person, List<Saying>> own) {
    Map<String, Integer> spelt = new TreeMap<>();
    own.values().forEach(all -> all.forEach(s -> spelt.merge(s.spelling(), 1, Integer::sum)));
    List<String> spellings = new ArrayList<>(spelt.keySet());
    spellings.sort(
        Comparator.comparingInt((String one) -> -spelt.getOrDefault(one, 0))
            .thenComparing(one -> one));
    List<Entry> entries = new ArrayList<>();
    own.forEach(
        (person, said) -> {
          Set<String> carved = new LinkedHashSet<>();
          Set<Mention> where = new LinkedHashSet<>();
          said.forEach(one -> carved.add(one.carved()));
          said.forEach(one -> where.add(one.mention()));
          entries.add(new Entry(person, List.copyOf(carved), List.copyOf(where)));
        });
    entries.sort(
        Comparator.comparing((Entry one) -> surname(one.person()))
            .thenComparing(one -> NameForms.fold(one.person().called()))
            .thenComparing(one -> one.mentions().get(0).label()));
    return new Group(spellings.get(0), spellings, entries);
  }

  private static String surname(Person person) {
    return person.fullest().map(m -> NameForms.fold(m.name().surname())).orElse("");
  }

  private static List<Saying> sayings(Mention mention, By by) {
    List<Saying> sayings = new ArrayList<>();
    switch (by) {
      case REGIMENT, COMPANY ->
          services(mention).forEach(service -> unit(mention, service.unit(), by, sayings));
      case WAR -> services(mention).forEach(s -> add(RollWords.PLAIN, s.war(), mention, sayings));
      case RANK -> {
        services(mention).forEach(s -> add(RollWords.RANK, s.rank(), mention, sayings));
        if (!mention.isKinOnly()) {
          mention.name().titles().stream()
              .filter(title -> PersonWords.RANKS.contains(NameForms.fold(title)))
              .forEach(title -> add(RollWords.RANK, title, mention, sayings));
        }
      }
      case TRADE -> {
        mention
            .statements(Kind.OCCUPATION)
            .forEach(s -> add(RollWords.PLAIN, s.value(), mention, sayings));
        services(mention).forEach(s -> add(RollWords.PLAIN, s.office(), mention, sayings));
      }
      case ORIGIN ->
          mention
              .statements(Kind.ORIGIN)
              .forEach(s -> add(RollWords.PLAIN, s.value(), mention, sayings));
    }
    return sayings;
  }

  private static List<Detail.Service> services(Mention mention) {
    return mention
        .statements(Kind.SERVICE)
        .flatMap(s -> s.detail(Detail.Service.class).stream())
        .toList();
  }

  private static void unit(Mention mention, String carved, By by, List<Saying> sayings) {
    UnitName unit = UnitName.of(carved);
    boolean told = by == By.REGIMENT ? !unit.regiment().isEmpty() : !unit.company().isEmpty();
    if (told) {
      String key = by == By.REGIMENT ? unit.regiment() : unit.company() + "|" + unit.regiment();
      String spelling = by == By.REGIMENT ? UnitName.withoutCompany(shown(carved)) : shown(carved);
      sayings.add(new Saying(key, spelling, shown(carved), mention));
    }
  }

  private static void add(RollWords kind, String carved, Mention mention, List<Saying> sayings) {
    String key = RollWords.key(kind, shown(carved));
    if (!key.isEmpty()) {
      sayings.add(new Saying(key, shown(carved), shown(carved), mention));
    }
  }

  private static String shown(String carved) {
    return carved.replace(" / ", " ").replaceAll("\\s+", " ").strip();
  }
}
