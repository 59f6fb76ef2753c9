package rakelight.inscription;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Where two readings of a face differ, word by word. Signs are compared by their ids, so that a
 * letter read anew is one place and not two.
 */
public final class Apparatus {
  private final Inscription current;
  private final Inscription earlier;
  private final List<Variant> variants = new ArrayList<>();

  /**
   * One place.
   *
   * @param line of the current reading, from 1; for a line that only the earlier one has, the line
   *     it stood after, 0 at the top
   * @param lemma what the current reading has there; empty for nothing
   * @param rejected what the earlier one has; empty for nothing
   */
  public record Variant(int line, Optional<Inscription> lemma, Optional<Inscription> rejected) {}

  private Apparatus(Inscription current, Inscription earlier) {
    this.current = current;
    this.earlier = earlier;
  }

  /** Every place at which they differ, from the top. */
  public static List<Variant> between(Inscription current, Inscription earlier) {
    Apparatus apparatus = new Apparatus(current, earlier);
    apparatus.compare();
    return List.copyOf(apparatus.variants);
  }

  private void compare() {
    List<List<Sign>> before = earlier.lines();
    int reached = 0;
    int number = 0;
    for (List<Sign> line : current.lines()) {
      int same = counterpart(line, before, reached);
      for (; same >= 0 && reached < same; reached++) {
        gone(number, before.get(reached));
      }
      number++;
      if (same < 0) {
        variants.add(new Variant(number, Optional.of(part(current, line)), Optional.empty()));
      } else {
        line(number, line, before.get(same));
        reached = same + 1;
      }
    }
    for (; reached < before.size(); reached++) {
      gone(number, before.get(reached));
    }
  }

  private void gone(int number, List<Sign> line) {
    variants.add(new Variant(number, Optional.empty(), Optional.of(part(earlier, line))));
  }

  /** The earlier line, from one on, that has most letters and gaps of this one; -1 for none. */
  private static int counterpart(List<Sign> line, List<List<Sign>> before, int from) {
    Set<SignId> ids = new HashSet<>();
    line.stream().filter(Apparatus::isInk).forEach(sign -> ids.add(sign.id()));
    int best = -1;
    long most = 0;
    for (int i = from; i < before.size(); i++) {
      long shared =
          before.get(i).stream()
              .filter(Apparatus::isInk)
              .map(Sign::id)
              .filter(ids::contains)
              .count();
      if (shared > most) {
        best = i;
        most = shared;
      }
    }
    return best;
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private void line(int number, List<Sign> line, List<Sign> other) {
    if (part(current, line).equals(part(earlier, other))) {
      return;
    }
    int most = Math.min(line.size(), other.size());
    int start = 1;
    while (start < most && line.get(start).equals(other.get(start))) {
      start++;
    }
    int end = 0;
    while (end < most - start
        && line.get(line.size() - 1 - end).equals(other.get(other.size() - 1 - end))) {
      end++;
    }
    if (start == line.size() && start == other.size()) {
      // The same signs, of which other things are said.
      start = 1;
    }
    while (start > 1 && !(endsWord(line, start) && endsWord(other, start))) {
      start--;
    }
    while (end > 0 && !(endsWord(line, line.size() - end) && endsWord(other, other.size() - end))) {
      end--;
    }
    List<Sign> words = trimmed(line.subList(start, line.size() - end));
    List<Sign> others = trimmed(other.subList(start, other.size() - end));
    if (isCut(current, line, words) || isCut(earlier, other, others)) {
      words = line.subList(1, line.size());
      others = other.subList(1, other.size());
    }
    variants.add(
        new Variant(
            number,
            words.isEmpty() ? Optional.empty() : Optional.of(part(current, words)),
            others.isEmpty() ? Optional.empty() : Optional.of(part(earlier, others))));
  }

  /** Whether no word runs on over the place before a sign. */
  private static boolean endsWord(List<Sign> line, int at) {
    return at == line.size() || line.get(at) instanceof Space || !isInk(line.get(at - 1));
  }

  private static List<Sign> trimmed(List<Sign> signs) {
    int start = 0;
    int end = signs.size();
    while (start < end && signs.get(start) instanceof Space) {
      start++;
    }
    while (end > start && signs.get(end - 1) instanceof Space) {
      end--;
    }
    return signs.subList(start, end);
  }

  /** Whether a span of the line reaches out of the words. */
  private static boolean isCut(Inscription of, List<Sign> line, List<Sign> words) {
    if (words.isEmpty()) {
      return false;
    }
    return of.spans().stream()
        .anyMatch(
            span -> {
              int first = Math.max(of.position(span.first()), of.position(line.get(0).id()));
              int last =
                  Math.min(of.position(span.last()), of.position(line.get(line.size() - 1).id()));
              int from = of.position(words.get(0).id());
              int to = of.position(words.get(words.size() - 1).id());
              boolean touches = first <= to && last >= from && first <= last;
              return touches && (first < from || last > to);
            });
  }

  /** These signs as a reading of one line, with what is said of them. */
  private static Inscription part(Inscription of, List<Sign> signs) {
    List<Sign> own = new ArrayList<>(signs);
    if (own.get(0) instanceof Break) {
      own.remove(0);
    }
    int from = of.position(own.get(0).id());
    int to = of.position(own.get(own.size() - 1).id());
    List<Span> spans = new ArrayList<>();
    for (Span span : of.spans()) {
      int first = Math.max(from, of.position(span.first()));
      int last = Math.min(to, of.position(span.last()));
      if (first <= last) {
        spans.add(
            new Span(
                span.kind(), of.signs().get(first).id(), of.signs().get(last).id(), span.text()));
      }
    }
    own.add(0, new Break(new SignId(of.lastId() + 1), false));
    return NormalForm.of(own, spans);
  }
}
