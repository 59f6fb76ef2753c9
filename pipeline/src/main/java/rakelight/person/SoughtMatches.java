package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.person.SourceStore.Judgement;

/**
 * Persons sought beside the stones that may be theirs, with the odds; people decide. What they
 * decided of one mention holds for all of that person, and who is found for one row of a source
 * isn't offered for another.
 */
public final class SoughtMatches {
  private final List<Result> results;

  /**
   * A person sought.
   *
   * @param found the mention that a person said is his
   * @param matches mentions of which nobody has decided, the likeliest first; none once found
   */
  public record Result(Sought sought, Optional<Mention> found, List<Linkage.Match> matches) {
    public Result {
      matches = List.copyOf(matches);
    }
  }

  private SoughtMatches(List<Result> results) {
    this.results = List.copyOf(results);
  }

  /** Everybody sought, compared with every confirmed reading. */
  public static SoughtMatches of(Archive archive) {
    SourceStore store = new SourceStore(archive);
    // Where nobody is sought no reading need be looked at.
    return store.sought().isEmpty()
        ? new SoughtMatches(List.of())
        : of(store, People.of(archive).persons());
  }

  /**
   * The same for whoever knows the persons already.
   *
   * @param persons all that confirmed readings speak of
   */
  public static SoughtMatches of(SourceStore store, List<Person> persons) {
    List<Sought> sought = store.sought();
    if (sought.isEmpty()) {
      return new SoughtMatches(List.of());
    }
    Map<MentionId, Person> personOf = new HashMap<>();
    persons.forEach(person -> person.mentions().forEach(m -> personOf.put(m.id(), person)));
    Map<String, MentionId> found = new HashMap<>();
    Set<String> refused = new HashSet<>();
    for (Judgement judgement : store.judgements()) {
      String row = judgement.source() + " " + judgement.row();
      Person whom = personOf.get(judgement.mention());
      if (judgement.found()) {
        found.put(row, judgement.mention());
      } else if (whom != null) {
        refused.add(row + " " + whom.id());
      }
    }
    Set<String> taken = new HashSet<>();
    for (Sought one : sought) {
      MentionId mention = found.get(key(one));
      Person whom = mention == null ? null : personOf.get(mention);
      if (whom != null) {
        taken.add(one.source() + " " + whom.id());
      }
    }
    Map<String, List<Linkage.Match>> matches = new HashMap<>();
    for (Linkage.Match match : Linkage.match(sought, persons)) {
      String row = key(match.sought());
      UUID whom = match.person().id();
      boolean open =
          !found.containsKey(row)
              && !refused.contains(row + " " + whom)
              && !taken.contains(match.sought().source() + " " + whom);
      if (open) {
        matches.computeIfAbsent(row, r -> new ArrayList<>()).add(match);
      }
    }
    List<Result> results = new ArrayList<>();
    for (Sought one : sought) {
      Optional<Mention> whom =
          Optional.ofNullable(found.get(key(one)))
              .flatMap(
                  id ->
                      Optional.ofNullable(personOf.get(id)).stream()
                          .flatMap(person -> person.mentions().stream())
                          .filter(m -> m.id().equals(id))
                          .findFirst());
      results.add(new Result(one, whom, matches.getOrDefault(key(one), List.of())));
    }
    return new SoughtMatches(results);
  }

  private static String key(Sought sought) {
    return sought.source() + " " + sought.row().number();
  }

  /** Everybody sought, source by source and row by row. */
  public List<Result> results() {
    return results;
  }

  /** The matches with stones of these markers, by present or earlier numbers. */
  public List<Linkage.Match> on(Set<String> markerNumbers) {
    return results.stream()
        .flatMap(result -> result.matches().stream())
        .filter(
            match ->
                match.person().mentions().stream()
                    .anyMatch(m -> isOn(m.source().marker(), markerNumbers)))
        .toList();
  }

  private static boolean isOn(Marker marker, Set<String> numbers) {
    return numbers.contains(marker.number())
        || marker.earlierNumbers().stream().anyMatch(numbers::contains);
  }
}
