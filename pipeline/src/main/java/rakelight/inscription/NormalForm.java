package rakelight.inscription;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Brings signs as they were met in a text into the one form of an {@link Inscription}. */
public final class NormalForm {
  private NormalForm() {}

  /**
   * Makes one gap of two that say no more than one, and counts ids from one.
   *
   * @throws IllegalArgumentException if the signs don't go together
   */
  public static Inscription of(List<Sign> signs, List<Span> spans) {
    List<Span> kept = new ArrayList<>(spans);
    List<Sign> single = new ArrayList<>();
    for (Sign sign : signs) {
      if (!single.isEmpty()
          && single.get(single.size() - 1) instanceof Gap first
          && sign instanceof Gap second
          && Inscription.areOne(first, second)
          && !Inscription.isSpanEdge(first.id(), second.id(), kept)) {
        single.set(single.size() - 1, joined(first, second));
        // A span that ended at the second gap ends at the joint one.
        kept.replaceAll(
            span ->
                span.last().equals(second.id())
                    ? new Span(span.kind(), span.first(), first.id(), span.text())
                    : span);
      } else {
        single.add(sign);
      }
    }
    Map<SignId, SignId> fromOne = new HashMap<>();
    for (Sign sign : single) {
      fromOne.put(sign.id(), new SignId(fromOne.size() + 1));
    }
    return new Inscription(single, kept).withIds(fromOne);
  }

  private static Gap joined(Gap first, Gap second) {
    if (first.extent() instanceof Extent.Exact one && second.extent() instanceof Extent.Exact two) {
      return new Gap(
          first.id(),
          first.reason(),
          new Extent.Exact(one.count() + two.count()),
          first.unit(),
          first.erased(),
          first.doubtful());
    }
    return first;
  }
}
