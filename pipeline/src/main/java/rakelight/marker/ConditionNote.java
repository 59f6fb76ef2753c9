package rakelight.marker;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;

/**
 * What somebody saw of a marker's condition on a day.
 *
 * @param on the day it was seen
 * @param words in the order of {@link Condition}; never empty
 * @param where on the marker, as far as somebody said
 * @param remark in the observer's own words; may be empty
 * @param reader who noted it
 */
public record ConditionNote(
    MarkerId marker,
    LocalDate on,
    List<Condition> words,
    Where where,
    String remark,
    String reader,
    Instant at,
    DecisionId decision) {

  /** A ninth of a face, as one looks at it. */
  public enum Area {
    TOP_LEFT,
    TOP,
    TOP_RIGHT,
    LEFT,
    MIDDLE,
    RIGHT,
    FOOT_LEFT,
    FOOT,
    FOOT_RIGHT;

    /** As people write it: {@code top left}. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The area of a label, in whatever case. */
    public static Optional<Area> of(String label) {
      return Arrays.stream(values())
          .filter(area -> area.label().equalsIgnoreCase(label.strip()))
          .findFirst();
    }
  }

  /**
   * Where on a marker, and since when.
   *
   * @param parts words of {@link Terms}; none for the whole marker
   * @param areas of the face; none for all of it
   * @param happened when damage came about, as a year, month or day; empty where nobody knows
   */
  public record Where(List<String> parts, List<Area> areas, Optional<String> happened) {
    /** Of the whole marker, and nobody knows since when. */
    public static final Where WHOLE = new Where(List.of(), List.of(), Optional.empty());

    public Where {
      parts = List.copyOf(parts);
      areas = List.copyOf(areas);
      happened = happened == null ? Optional.empty() : happened; // Left out where it is empty.
    }

    private String told() {
      return Stream.of(
              String.join(", ", parts),
              areas.stream().map(Area::label).collect(Collectors.joining(", ")),
              happened.map(when -> "happened " + when).orElse(""))
          .filter(words -> !words.isEmpty())
          .collect(Collectors.joining("; "));
    }
  }

  public ConditionNote {
    words = List.copyOf(words);
  }

  /**
   * What was seen on each day, in the order of the days given. Two notes of one day are one look,
   * and where they differ the worse is kept.
   *
   * @param notes of one marker, those of a day side by side
   */
  public static List<ConditionNote> byDay(List<ConditionNote> notes) {
    List<ConditionNote> days = new ArrayList<>();
    for (ConditionNote note : notes) {
      int last = days.size() - 1;
      if (last >= 0 && days.get(last).on.equals(note.on)) {
        days.set(last, days.get(last).with(note));
      } else {
        days.add(note);
      }
    }
    return days;
  }

  private ConditionNote with(ConditionNote other) {
    Set<Condition> both = EnumSet.copyOf(words);
    both.addAll(other.words);
    if (both.size() > 1) {
      both.remove(Condition.SOUND);
    }
    String remarks =
        Stream.of(placed(), other.placed())
            .filter(words -> !words.isEmpty())
            .distinct()
            .collect(Collectors.joining("; "));
    return new ConditionNote(
        marker, on, List.copyOf(both), Where.WHOLE, remarks, reader, at, decision);
  }

  private String placed() {
    return Stream.of(where.told(), remark)
        .filter(words -> !words.isEmpty())
        .collect(Collectors.joining("; "));
  }

  /** The words, where, and the remark if there is one, in a line. */
  public String told() {
    return words.stream().map(Condition::label).collect(Collectors.joining(", "))
        + (where.told().isEmpty() ? "" : ": " + where.told())
        + (remark.isEmpty() ? "" : " (" + remark + ")");
  }

  /** Why nobody should stand beside it; empty if nothing says so. */
  public String unsafe() {
    return labels(Condition.Concern.UNSAFE);
  }

  /** Why its letters won't last; empty if nothing says so. */
  public String fading() {
    return labels(Condition.Concern.FADING);
  }

  private String labels(Condition.Concern concern) {
    return words.stream()
        .filter(word -> word.concerns().contains(concern))
        .map(Condition::label)
        .collect(Collectors.joining(", "));
  }
}
