package rakelight.index;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.apache.lucene.index.BinaryDocValues;
import org.apache.lucene.index.DocValues;
import org.apache.lucene.index.LeafReader;

/**
 * The years that each document tells of, in memory, a number for each span: to read them from the
 * entries takes longer than to weigh them. Never changes.
 */
final class YearsOfDocuments {
  private static final int LENGTH_BITS = 8;
  private static final int WEIGHT_BITS = 6;
  private static final int EVENT_BITS = 3;
  private static final int LONGEST = (1 << LENGTH_BITS) - 1;
  private static final int HEAVIEST = (1 << WEIGHT_BITS) - 1;

  private final int[] starts;
  private int[] spans = new int[1 << 10];

  YearsOfDocuments(LeafReader reader) throws IOException {
    starts = new int[reader.maxDoc() + 1];
    BinaryDocValues scored = DocValues.getBinary(reader, Documents.SCORED);
    Scored.Cursor cursor = new Scored.Cursor();
    int count = 0;
    int next = 0;
    for (int doc = scored.nextDoc(); doc != BinaryDocValues.NO_MORE_DOCS; doc = scored.nextDoc()) {
      while (next <= doc) {
        starts[next++] = count;
      }
      cursor.begin(scored.binaryValue());
      for (Scored.Span span : cursor.spans()) {
        if (count == spans.length) {
          spans = Arrays.copyOf(spans, count * 2);
        }
        int length = Math.min(LONGEST, span.to() - span.from());
        int weight = (int) Math.max(1, Math.round(span.weight() * HEAVIEST));
        spans[count++] =
            ((span.from() << LENGTH_BITS | length) << WEIGHT_BITS | weight) << EVENT_BITS
                | span.event();
      }
    }
    Arrays.fill(starts, next, starts.length, count);
    spans = Arrays.copyOf(spans, count);
  }

  /** How well a document answers, nearly as {@link Scored.Cursor#years}. */
  double answer(int doc, List<YearsAsked> asked) {
    double all = 1;
    for (YearsAsked years : asked) {
      double sum = 0;
      boolean any = false;
      for (int i = starts[doc]; i < starts[doc + 1]; i++) {
        int span = spans[i];
        String event = Scored.EVENTS.get(span & (1 << EVENT_BITS) - 1);
        if (years.counts(event)) {
          any = true;
          int weight = span >>> EVENT_BITS & HEAVIEST;
          int length = span >>> EVENT_BITS + WEIGHT_BITS & LONGEST;
          int from = span >>> EVENT_BITS + WEIGHT_BITS + LENGTH_BITS;
          sum += years.of(from, from + length, event) * weight / HEAVIEST;
        }
      }
      all *= years.answer(sum, any);
    }
    return all;
  }
}
