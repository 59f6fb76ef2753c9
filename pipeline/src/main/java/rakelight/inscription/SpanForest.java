package rakelight.inscription;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A reading's signs as a forest under its spans, for whoever prints them nested. */
public final class SpanForest {
  /** A sign, or a span with what stands under it. */
  public sealed interface Node {}

  public record Leaf(Sign sign) implements Node {}

  public record Branch(Span span, List<Node> children) implements Node {
    public Branch {
      children = List.copyOf(children);
    }
  }

  private final List<Sign> signs;
  private final Map<SignId, Integer> positions = new HashMap<>();

  private SpanForest(List<Sign> signs) {
    this.signs = signs;
    for (int i = 0; i < signs.size(); i++) {
      positions.put(signs.get(i).id(), i);
    }
  }

  /** All signs in reading order, the first line's beginning first; notes are left aside. */
  public static List<Node> of(Inscription inscription) {
    List<Span> nesting =
        inscription.spans().stream().filter(span -> span.kind() != Span.Kind.NOTE).toList();
    return new SpanForest(inscription.signs()).nodes(0, inscription.signs().size(), nesting);
  }

  private int position(SignId id) {
    return positions.getOrDefault(id, -1);
  }

  private List<Node> nodes(int from, int to, List<Span> spans) {
    List<Node> nodes = new ArrayList<>();
    int at = from;
    int next = 0;
    while (at < to) {
      if (next < spans.size() && position(spans.get(next).first()) == at) {
        Span span = spans.get(next);
        int end = position(span.last()) + 1;
        int after = next + 1;
        while (after < spans.size() && position(spans.get(after).first()) < end) {
          after++;
        }
        nodes.add(new Branch(span, nodes(at, end, spans.subList(next + 1, after))));
        next = after;
        at = end;
      } else {
        nodes.add(new Leaf(signs.get(at)));
        at++;
      }
    }
    return nodes;
  }
}
