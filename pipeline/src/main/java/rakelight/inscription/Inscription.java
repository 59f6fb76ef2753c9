package rakelight.inscription;

import static java.util.stream.Collectors.toList;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a face says, sign by sign. Immutable, and in one normal form, so that equal readings are
 * equal objects:
 *
 * <ul>
 *   <li>it begins with a {@link Break}, and no line is empty;
 *   <li>a {@link Space} stands between two letters or gaps of one line;
 *   <li>two gaps of the same kind side by side are one, when their extents are exact or unknown and
 *       no span begins or ends between them;
 *   <li>spans begin and end at a letter or gap, nest, and stand in reading order, the wider first;
 *   <li>letters that were never cut are supplied, with one degree of doubt for each span.
 * </ul>
 *
 * The constructor refuses anything else with an {@link IllegalArgumentException}.
 */
public record Inscription(List<Sign> signs, List<Span> spans) {

  public Inscription {
    signs = List.copyOf(signs);
    Map<SignId, Integer> positions = positions(signs);
    requireLines(signs);
    requireTies(signs);
    spans = inReadingOrder(spans, positions);
    requireSingleGaps(signs, spans);
    requireNesting(signs, spans, positions);
    requireSuppliedWhereUncut(signs, spans, positions);
  }

  /** The signs line by line, each line led by its {@link Break}. */
  public List<List<Sign>> lines() {
    List<List<Sign>> lines = new ArrayList<>();
    for (Sign sign : signs) {
      if (sign instanceof Break) {
        lines.add(new ArrayList<>());
      }
      lines.get(lines.size() - 1).add(sign);
    }
    return lines.stream().map(List::copyOf).collect(toList());
  }

  /** Where the sign stands in {@link #signs()}. */
  public int position(SignId id) {
    for (int i = 0; i < signs.size(); i++) {
      if (signs.get(i).id().equals(id)) {
        return i;
      }
    }
    throw new IllegalArgumentException("no sign " + id + " in this reading");
  }

  /** The spans over a sign, outermost first. */
  public List<Span> spansOver(SignId id) {
    if (spans.isEmpty()) {
      return spans;
    }
    int at = position(id);
    return spans.stream()
        .filter(span -> position(span.first()) <= at && at <= position(span.last()))
        .collect(toList());
  }

  /** The largest id in use. */
  public int lastId() {
    return signs.stream().mapToInt(sign -> sign.id().number()).max().orElse(0);
  }

  /** The same reading under other ids, all of them new ones given. */
  public Inscription withIds(Map<SignId, SignId> newIds) {
    List<Sign> renamed = new ArrayList<>();
    for (Sign sign : signs) {
      renamed.add(sign.withId(newIds.getOrDefault(sign.id(), sign.id())));
    }
    List<Span> moved = new ArrayList<>();
    for (Span span : spans) {
      moved.add(
          new Span(
              span.kind(),
              newIds.getOrDefault(span.first(), span.first()),
              newIds.getOrDefault(span.last(), span.last()),
              span.text()));
    }
    return new Inscription(renamed, moved);
  }

  private static Map<SignId, Integer> positions(List<Sign> signs) {
    Map<SignId, Integer> positions = new HashMap<>();
    for (int i = 0; i < signs.size(); i++) {
      if (positions.put(signs.get(i).id(), i) != null) {
        throw new IllegalArgumentException("two signs with id " + signs.get(i).id());
      }
    }
    return positions;
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private static void requireLines(List<Sign> signs) {
    if (signs.isEmpty() || !(signs.get(0) instanceof Break begin) || begin.joined()) {
      throw new IllegalArgumentException("a reading begins with a line, on which no word runs on");
    }
    for (int i = 0; i < signs.size(); i++) {
      boolean inkFollows = i + 1 < signs.size() && isInk(signs.get(i + 1));
      if (signs.get(i) instanceof Break && !inkFollows) {
        throw new IllegalArgumentException("a line begins with a letter or a gap");
      }
      if (signs.get(i) instanceof Space && !(inkFollows && isInk(signs.get(i - 1)))) {
        throw new IllegalArgumentException("a space stands between two letters or gaps of a line");
      }
    }
  }

  private static void requireSingleGaps(List<Sign> signs, List<Span> spans) {
    for (int i = 1; i < signs.size(); i++) {
      if (signs.get(i - 1) instanceof Gap before
          && signs.get(i) instanceof Gap gap
          && areOne(before, gap)
          && !isSpanEdge(before.id(), gap.id(), spans)) {
        throw new IllegalArgumentException("two gaps of one kind side by side: make them one");
      }
    }
  }

  /** Whether two gaps side by side say no more than one of their joint extent. */
  static boolean areOne(Gap before, Gap gap) {
    boolean sameExtent =
        (before.extent() instanceof Extent.Exact && gap.extent() instanceof Extent.Exact)
            || (before.extent() instanceof Extent.Unknown
                && gap.extent() instanceof Extent.Unknown);
    boolean linesUnknown = gap.extent() instanceof Extent.Unknown && gap.unit() == Gap.Unit.LINES;
    return sameExtent
        && before.reason() == gap.reason()
        && before.unit() == gap.unit()
        && before.erased() == gap.erased()
        && (before.doubtful() == gap.doubtful() || linesUnknown);
  }

  static boolean isSpanEdge(SignId before, SignId after, List<Span> spans) {
    return spans.stream()
        .anyMatch(span -> span.last().equals(before) || span.first().equals(after));
  }

  private static void requireTies(List<Sign> signs) {
    for (int i = 0; i < signs.size(); i++) {
      if (signs.get(i) instanceof Letter letter
          && letter.forms().contains(LetterForm.LIGATURE)
          && !(i + 1 < signs.size() && signs.get(i + 1) instanceof Letter)) {
        throw new IllegalArgumentException("a ligature needs a letter after it");
      }
    }
  }

  private static List<Span> inReadingOrder(List<Span> spans, Map<SignId, Integer> positions) {
    for (Span span : spans) {
      if (!positions.containsKey(span.first()) || !positions.containsKey(span.last())) {
        throw new IllegalArgumentException("span over a sign that isn't in the reading: " + span);
      }
    }
    return spans.stream()
        .sorted(
            Comparator.<Span>comparingInt(span -> positions.getOrDefault(span.first(), 0))
                .thenComparingInt(span -> -positions.getOrDefault(span.last(), 0))
                .thenComparing(span -> span.kind() == Span.Kind.NOTE))
        .collect(toList());
  }

  private static void requireNesting(
      List<Sign> signs, List<Span> spans, Map<SignId, Integer> positions) {
    Set<Span> seen = new HashSet<>();
    List<Span> open = new ArrayList<>();
    for (Span span : spans) {
      int first = positions.getOrDefault(span.first(), 0);
      int last = positions.getOrDefault(span.last(), 0);
      if (first > last || !isInk(signs.get(first)) || !isInk(signs.get(last))) {
        throw new IllegalArgumentException(
            "a span runs from a letter or gap forward to a letter or gap: " + span);
      }
      if (!seen.add(span)) {
        throw new IllegalArgumentException("the same span twice: " + span);
      }
      if (span.kind() == Span.Kind.NOTE) {
        continue;
      }
      open.removeIf(outer -> positions.getOrDefault(outer.last(), 0) < first);
      for (Span outer : open) {
        if (positions.getOrDefault(outer.last(), 0) < last) {
          throw new IllegalArgumentException("spans cross: " + outer + " and " + span);
        }
        if (outer.kind() == span.kind()) {
          throw new IllegalArgumentException("a span within its own kind: " + span);
        }
        if (outer.isUncut()) {
          throw new IllegalArgumentException("letters never cut carry no further span: " + span);
        }
      }
      open.add(span);
    }
  }

  private static void requireSuppliedWhereUncut(
      List<Sign> signs, List<Span> spans, Map<SignId, Integer> positions) {
    for (Span span : spans) {
      if (!span.isUncut()) {
        continue;
      }
      List<Sign> covered =
          signs.subList(
              positions.getOrDefault(span.first(), 0), positions.getOrDefault(span.last(), 0) + 1);
      Set<Boolean> doubts = new HashSet<>();
      for (Sign sign : covered) {
        if (sign instanceof Gap) {
          throw new IllegalArgumentException("no gap in letters that were never cut: " + span);
        }
        if (sign instanceof Letter letter) {
          if (letter.standing() != Standing.SUPPLIED || letter.erased()) {
            throw new IllegalArgumentException("letters never cut are supplied: " + span);
          }
          doubts.add(letter.doubtful());
        }
      }
      if (doubts.size() > 1) {
        throw new IllegalArgumentException("letters never cut are doubtful all or none: " + span);
      }
    }
  }
}
