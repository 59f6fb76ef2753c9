package rakelight.index;

import java.io.IOException;
import java.util.Arrays;
import java.util.function.IntConsumer;
import org.apache.lucene.index.LeafReader;
import org.apache.lucene.index.PostingsEnum;
import org.apache.lucene.index.Terms;
import org.apache.lucene.index.TermsEnum;
import org.apache.lucene.search.DocIdSetIterator;
import org.apache.lucene.util.BytesRef;

/**
 * The terms of one field of one segment with their documents, in memory: a search meets thousands
 * of terms, each in a document or two, and to look each up on disk takes longer than to weigh it.
 * Terms go by their number, 0 for the first in the order of their bytes. Never changes.
 */
final class TermTable {
  /** Beginnings of terms aren't compared further. */
  private static final int LONGEST_SHARED = 127;

  private static final int BLOCK = 64;

  /** More terms taken apart aren't kept: they would fill the memory. */
  private static final int MOST_TAKEN_APART = 500_000;

  private static final byte NO_SURE_LENGTH = -1;

  private static final int ALIVE = 1 << 16;

  private byte[] signs = new byte[1 << 12];
  private int[] starts = new int[1 << 8];
  private byte[] shared = new byte[1 << 8];
  private byte[] leastShared = new byte[0];
  private byte[] docs = new byte[1 << 12];
  private int[] docStarts = new int[1 << 8];
  private int size;
  private int docsEnd;
  private final int[] letters;
  private final byte[] lengths;
  private final Places[] places;

  /** About so many of them; threads may miscount a few. */
  private int takenApart;

  /** The terms of each sure length, at one more than it; those of none first. */
  private final int[][] byLength;

  private final int[][] lettersByLength;

  /** Reads a segment's terms. */
  TermTable(LeafReader reader, String field) throws IOException {
    Terms terms = reader.terms(field);
    if (terms != null) {
      TermsEnum each = terms.iterator();
      PostingsEnum postings = null;
      for (BytesRef term = each.next(); term != null; term = each.next()) {
        postings = each.postings(postings, PostingsEnum.NONE);
        add(term, each.docFreq(), postings);
      }
    }
    signs = Arrays.copyOf(signs, starts[size]);
    starts = Arrays.copyOf(starts, size + 1);
    docs = Arrays.copyOf(docs, docsEnd);
    docStarts = Arrays.copyOf(docStarts, size);
    shared = Arrays.copyOf(shared, size);
    leastShared = new byte[(size + BLOCK - 1) / BLOCK];
    Arrays.fill(leastShared, (byte) LONGEST_SHARED);
    for (int i = 0; i < size; i++) {
      leastShared[i / BLOCK] = (byte) Math.min(leastShared[i / BLOCK], shared[i]);
    }
    letters = new int[size];
    lengths = new byte[size];
    for (int i = 0; i < size; i++) {
      sign(i);
    }
    places = new Places[size];
    byLength = new int[SkeletonPattern.LONGEST + 2][];
    lettersByLength = new int[byLength.length][];
    int[] counts = new int[byLength.length];
    for (byte length : lengths) {
      counts[length + 1]++;
    }
    for (int i = 0; i < counts.length; i++) {
      byLength[i] = new int[counts[i]];
      lettersByLength[i] = new int[counts[i]];
    }
    Arrays.fill(counts, 0);
    for (int i = 0; i < size; i++) {
      int length = lengths[i] + 1;
      byLength[length][counts[length]] = i;
      lettersByLength[length][counts[length]++] = letters[i];
    }
  }

  /** What is compared first where letters may be wrong: which are known, and how many there are. */
  private void sign(int number) {
    int known = 0;
    int length = 0;
    boolean sure = true;
    for (int at = starts[number]; at < starts[number + 1] && signs[at] != Skeleton.TAIL; at++) {
      int sign = signs[at];
      boolean run = sign == Skeleton.MAYBE || sign == Skeleton.MANY || sign == Skeleton.TEXTS;
      sure &= !run;
      boolean place = sign >= 0 && !run && sign != Skeleton.UNSURE && sign != Skeleton.SIDE;
      // Of a letter of several bytes the first counts, and any word may have it.
      length += place || (sign & 0xC0) == 0xC0 ? 1 : 0;
      if (place && sign != Skeleton.UNKNOWN && sign != Skeleton.OPEN) {
        known |= SkeletonPattern.bit(sign);
      }
    }
    letters[number] = known;
    lengths[number] = sure && length <= SkeletonPattern.LONGEST ? (byte) length : NO_SURE_LENGTH;
  }

  private void add(BytesRef term, int count, PostingsEnum postings) throws IOException {
    if (size + 2 > starts.length) {
      starts = Arrays.copyOf(starts, starts.length * 2);
      docStarts = Arrays.copyOf(docStarts, docStarts.length * 2);
      shared = Arrays.copyOf(shared, shared.length * 2);
    }
    int start = starts[size];
    int end = start + term.length;
    if (end > signs.length) {
      signs = Arrays.copyOf(signs, Math.max(end, signs.length * 2));
    }
    System.arraycopy(term.bytes, term.offset, signs, start, term.length);
    shared[size] = (byte) (size == 0 ? 0 : sharedWithLast(start, end));
    docStarts[size] = docsEnd;
    number(count);
    int last = 0;
    for (int doc = postings.nextDoc();
        doc != DocIdSetIterator.NO_MORE_DOCS;
        doc = postings.nextDoc()) {
      number(doc - last);
      last = doc;
    }
    starts[++size] = end;
  }

  /** Never ends within a letter of several bytes. */
  private int sharedWithLast(int start, int end) {
    int before = starts[size - 1];
    int most = Math.min(LONGEST_SHARED, Math.min(start - before, end - start));
    int same = Arrays.mismatch(signs, before, before + most, signs, start, start + most);
    int length = same < 0 ? most : same;
    while (length > 0 && start + length < end && (signs[start + length] & 0xC0) == 0x80) {
      length--;
    }
    return length;
  }

  private void number(int value) {
    if (docsEnd + 5 > docs.length) {
      docs = Arrays.copyOf(docs, docs.length * 2);
    }
    int rest = value;
    while ((rest & ~0x7F) != 0) {
      docs[docsEnd++] = (byte) (rest & 0x7F | 0x80);
      rest >>>= 7;
    }
    docs[docsEnd++] = (byte) rest;
  }

  int size() {
    return size;
  }

  /** The term's bytes, put into {@code into}. */
  void term(int number, BytesRef into) {
    into.bytes = signs;
    into.offset = starts[number];
    into.length = starts[number + 1] - starts[number];
  }

  String text(int number) {
    BytesRef term = new BytesRef();
    term(number, term);
    return term.utf8ToString();
  }

  /** The term taken apart. */
  Places places(int number) {
    Places own = places[number];
    if (own == null) {
      own = Places.of(new Skeleton(text(number)));
      if (takenApart < MOST_TAKEN_APART) {
        takenApart++;
        places[number] = own;
      }
    }
    return own;
  }

  /** Whether at least one letter of a term is known, if only as one of several. */
  boolean hasLetters(int number) {
    for (int at = starts[number]; at < starts[number + 1]; at++) {
      int sign = signs[at];
      if (sign != Skeleton.UNKNOWN
          && sign != Skeleton.MAYBE
          && sign != Skeleton.MANY
          && sign != Skeleton.SIDE) {
        return true;
      }
    }
    return false;
  }

  /** Of a term's bytes, so that the same bytes have the same. */
  static int hash(byte[] bytes, int from, int to) {
    int hash = 1;
    for (int at = from; at < to; at++) {
      hash = 31 * hash + bytes[at];
    }
    return hash * 0x9E3779B1;
  }

  int hash(int number) {
    return hash(signs, starts[number], starts[number + 1]);
  }

  boolean is(int number, BytesRef term) {
    return Arrays.equals(
        signs,
        starts[number],
        starts[number + 1],
        term.bytes,
        term.offset,
        term.offset + term.length);
  }

  /** The term's number; -1 if there is none such. */
  int number(BytesRef term) {
    int low = 0;
    int high = size - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      int order =
          Arrays.compareUnsigned(
              signs,
              starts[middle],
              starts[middle + 1],
              term.bytes,
              term.offset,
              term.offset + term.length);
      if (order == 0) {
        return middle;
      }
      low = order < 0 ? middle + 1 : low;
      high = order < 0 ? high : middle - 1;
    }
    return -1;
  }

  /** In how many documents a term stands. */
  int count(int number) {
    int at = docStarts[number];
    int value = 0;
    int shift = 0;
    byte next = docs[at];
    while (next < 0) {
      value |= (next & 0x7F) << shift;
      shift += 7;
      next = docs[++at];
    }
    return value | next << shift;
  }

  /** The documents in which a term stands, in their order, one by one. */
  void docs(int number, IntConsumer doing) {
    int at = docStarts[number];
    int end = number + 1 < size ? docStarts[number + 1] : docs.length;
    while (docs[at++] < 0) {
      // the count
    }
    int doc = 0;
    while (at < end) {
      int value = 0;
      int shift = 0;
      byte next = docs[at++];
      while (next < 0) {
        value |= (next & 0x7F) << shift;
        shift += 7;
        next = docs[at++];
      }
      doc += value | next << shift;
      doing.accept(doc);
    }
  }

  /** The numbers of the terms that a pattern accepts. */
  void accepted(SkeletonPattern pattern, IntConsumer doing) {
    if (pattern.isOpenEnd()) {
      acceptedInOrder(pattern, doing);
      return;
    }
    SkeletonPattern.Passed passed = begin(pattern);
    accepted(pattern, passed, 0, doing);
    int most = Math.min(byLength.length - 2, pattern.longest());
    for (int length = Math.max(0, pattern.shortest()); length <= most; length++) {
      accepted(pattern, passed, length + 1, doing);
    }
  }

  /** Nearly all are told by their letters alone; only the rest is stepped. */
  private void accepted(
      SkeletonPattern pattern, SkeletonPattern.Passed passed, int list, IntConsumer doing) {
    int[] numbers = byLength[list];
    int[] known = lettersByLength[list];
    for (int i = 0; i < numbers.length; i++) {
      if (pattern.mayAccept(known[i]) && pass(pattern, passed, numbers[i], 0) < 0) {
        doing.accept(numbers[i]);
      }
    }
  }

  private void acceptedInOrder(SkeletonPattern pattern, IntConsumer doing) {
    SkeletonPattern.Passed passed = begin(pattern);
    int known = 0;
    int i = 0;
    while (i < size) {
      int depth = pass(pattern, passed, i, i == 0 ? 0 : Math.min(shared[i], known));
      if (depth < 0) {
        doing.accept(i);
      }
      known = depth < 0 ? ~depth & ALIVE - 1 : depth & ALIVE - 1;
      boolean alive = depth < 0 || (depth & ALIVE) != 0;
      i = alive ? i + 1 : after(i, known);
    }
  }

  /**
   * How many letters of a word are plainly read as others, where a term has as many places; many
   * where it hasn't.
   */
  int different(int number, int[] word) {
    if (lengths[number] != word.length) {
      return Integer.MAX_VALUE;
    }
    int different = 0;
    int place = 0;
    for (int at = starts[number]; at < starts[number + 1] && place < word.length; at++) {
      int sign = signs[at];
      if (sign < 0) {
        return Integer.MAX_VALUE;
      }
      if (sign == Skeleton.TAIL) {
        break;
      }
      if (sign != Skeleton.UNSURE && sign != Skeleton.SIDE) {
        boolean known = sign != Skeleton.UNKNOWN && sign != Skeleton.OPEN;
        different += known && sign != word[place] ? 1 : 0;
        place++;
      }
    }
    return different;
  }

  /**
   * Whether a pattern accepts a term.
   *
   * @param passed what the pattern begins with, to be used again
   */
  boolean accepts(SkeletonPattern pattern, SkeletonPattern.Passed passed, int number) {
    return pattern.mayAccept(letters[number], lengths[number])
        && pass(pattern, passed, number, 0) < 0;
  }

  /** What a pattern begins with, for {@link #accepts}. */
  static SkeletonPattern.Passed begin(SkeletonPattern pattern) {
    return pattern.begin(LONGEST_SHARED + 1);
  }

  /**
   * Steps a pattern along a term from a depth on.
   *
   * @return how deep it came, with {@link #ALIVE} unless nothing can be accepted that begins so;
   *     the complement if it accepts the term
   */
  private int pass(SkeletonPattern pattern, SkeletonPattern.Passed passed, int number, int from) {
    int start = starts[number];
    int length = starts[number + 1] - start;
    int depth = from;
    while (depth < length && depth <= LONGEST_SHARED) {
      byte sign = signs[start + depth];
      if (sign == Skeleton.TAIL || pattern.isOpenEnd()) {
        if (passed.accepts(depth)) {
          return ~depth;
        }
        if (sign == Skeleton.TAIL) {
          return depth;
        }
      }
      boolean alive = true;
      if (sign >= 0) {
        alive = passed.step(depth, sign);
      } else if ((sign & 0xC0) == 0x80) {
        passed.same(depth);
      } else {
        alive = passed.step(depth, letter(start + depth));
      }
      if (!alive) {
        return depth;
      }
      depth++;
    }
    return depth == length && passed.accepts(depth) ? ~depth : depth | ALIVE;
  }

  private int letter(int at) {
    int lead = signs[at] & 0xFF;
    int more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : 1;
    int letter = lead & (0x3F >> more);
    for (int i = 1; i <= more; i++) {
      letter = letter << 6 | signs[at + i] & 0x3F;
    }
    return letter;
  }

  /** The next term that doesn't share the sign at a depth with this one. */
  private int after(int number, int depth) {
    int next = number + 1;
    while (next < size && shared[next] > depth) {
      next++;
      while (next % BLOCK == 0 && next < size && leastShared[next / BLOCK] > depth) {
        next = Math.min(size, next + BLOCK);
      }
    }
    return next;
  }
}
