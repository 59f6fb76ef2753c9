package rakelight.marker;

import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;

/**
 * What somebody saw of a marker's condition on a day.
 *
 * @param on the day it was seen
 * @param words in the order of {@link Condition}; never empty
 * @param remark in the observer's own words; may be empty
 * @param reader who noted it
 */
public record ConditionNote(
    MarkerId marker,
    LocalDate on,
    List<Condition> words,
    String remark,
    String reader,
    Instant at,
    DecisionId decision) {
  public ConditionNote {
    words = List.copyOf(words);
  }

  /** The words, and the remark if there is one, in a line. */
  public String told() {
    return labels(EnumSet.allOf(Condition.Concern.class))
        + (remark.isEmpty() ? "" : " (" + remark + ")");
  }

  /** Why nobody should stand beside it; empty if nothing says so. */
  public String unsafe() {
    return labels(Set.of(Condition.Concern.UNSAFE));
  }

  /** Why its letters won't last; empty if nothing says so. */
  public String fading() {
    return labels(Set.of(Condition.Concern.FADING));
  }

  private String labels(Set<Condition.Concern> concerns) {
    return words.stream()
        .filter(word -> concerns.contains(word.concern()))
        .map(Condition::label)
        .collect(Collectors.joining(", "));
  }
}
