package rakelight.index;

import java.io.IOException;
import org.apache.lucene.index.BinaryDocValues;
import org.apache.lucene.index.DocValues;
import org.apache.lucene.index.LeafReader;

/**
 * The first and the last year that each document tells of, in memory, so that those that tell of
 * quite others needn't be read. Never changes.
 */
final class YearBounds {
  private static final short NONE = 0;

  private final short[] first;
  private final short[] last;

  YearBounds(LeafReader reader) throws IOException {
    first = new short[reader.maxDoc()];
    last = new short[reader.maxDoc()];
    BinaryDocValues scored = DocValues.getBinary(reader, Documents.SCORED);
    Scored.Cursor cursor = new Scored.Cursor();
    for (int doc = scored.nextDoc(); doc != BinaryDocValues.NO_MORE_DOCS; doc = scored.nextDoc()) {
      cursor.begin(scored.binaryValue());
      long bounds = cursor.yearBounds();
      first[doc] = (short) (bounds >>> 32);
      last[doc] = (short) bounds;
    }
  }

  /** Whether a document tells of a year from one to another; also where it tells of none. */
  boolean mayTell(int doc, int from, int to) {
    return first[doc] == NONE || (first[doc] <= to && last[doc] >= from);
  }
}
