package rakelight.index;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.apache.lucene.util.BytesRef;
import org.apache.lucene.util.FixedBitSet;

/** The terms of a table that say something of a word asked for, those that say most first. */
final class MetTerms {
  static final MetTerms NONE = new MetTerms(new int[0], new float[0], new int[1], new int[1]);

  private final int[] numbers;
  private final float[] given;
  private final int[] places;
  private final int[] hashes;

  /**
   * @param places one more than the place among the terms, by hash; at least half of them 0
   */
  private MetTerms(int[] numbers, float[] given, int[] places, int[] hashes) {
    this.numbers = numbers;
    this.given = given;
    this.places = places;
    this.hashes = hashes;
  }

  /** Terms that were met otherwise. */
  static MetTerms of(TermTable table, int[] numbers, float[] given) {
    int length = Integer.highestOneBit(numbers.length + 1) * 4;
    int[] places = new int[length];
    int[] hashes = new int[length];
    for (int i = 0; i < numbers.length; i++) {
      int hash = table.hash(numbers[i]);
      int to = hash & length - 1;
      while (places[to] > 0) {
        to = to + 1 & length - 1;
      }
      places[to] = i + 1;
      hashes[to] = hash;
    }
    return new MetTerms(numbers, given, places, hashes);
  }

  int size() {
    return numbers.length;
  }

  /** The number of one of the terms in its table. */
  int number(int i) {
    return numbers[i];
  }

  /** What it says. */
  float given(int i) {
    return given[i];
  }

  /**
   * What a term says; 0 if it wasn't met.
   *
   * @param hash its {@link TermTable#hash}
   */
  float given(TermTable table, BytesRef term, int hash) {
    for (int i = hash & places.length - 1; places[i] > 0; i = i + 1 & places.length - 1) {
      if (hashes[i] == hash && table.is(numbers[places[i] - 1], term)) {
        return given[places[i] - 1];
      }
    }
    return 0;
  }

  /**
   * What a ladder accepts beyond the one before, added to it.
   *
   * @param before {@link #NONE} for the first
   * @param climbed slips of the one before; -1 for none
   */
  static MetTerms of(AskedWord word, TermTable table, MetTerms before, int climbed, int slips) {
    Collecting all = new Collecting(word, table, before);
    if (climbed < 0) {
      table.accepted(word.pattern(0), all::weigh);
      if (word.looksForInitials()) {
        int initial = table.number(new BytesRef(word.word().substring(0, 1)));
        if (initial >= 0) {
          all.weigh(initial);
        }
      }
    }
    int with = Math.min(slips, word.mostSlips());
    if (with > 0 && with > climbed) {
      table.accepted(word.pattern(with), all::weigh);
    }
    for (AskedWord.Form form : word.formsAsked()) {
      if (form.isSlip() && Math.min(1, slips) > climbed) {
        // Meant so, and read with a letter wrong besides.
        table.accepted(SkeletonPattern.of(form.text(), Math.min(1, slips)), all::weigh);
        continue;
      }
      boolean late = form.by().filter(by -> by == Widening.SOUNDS).isPresent();
      boolean due = late ? slips > 0 && climbed < 1 : climbed < 0;
      if (form.by().isPresent() && due) {
        table.accepted(SkeletonPattern.of(form.text(), 0), all::weigh);
      }
    }
    return all.sorted();
  }

  /** Terms as they are met, each weighed once. */
  private static final class Collecting {
    private final AskedWord word;
    private final TermTable table;
    private final FixedBitSet seen;
    private int[] numbers;
    private float[] given;
    private int count;

    Collecting(AskedWord word, TermTable table, MetTerms before) {
      this.word = word;
      this.table = table;
      this.seen = new FixedBitSet(Math.max(1, table.size()));
      this.count = before.numbers.length;
      this.numbers = Arrays.copyOf(before.numbers, count + 64);
      this.given = Arrays.copyOf(before.given, count + 64);
      for (int i = 0; i < count; i++) {
        seen.set(numbers[i]);
      }
    }

    void weigh(int number) {
      if (seen.getAndSet(number)) {
        return;
      }
      float is = (float) word.given(table.places(number));
      if (is > AskedWord.LEAST) {
        if (count == numbers.length) {
          numbers = Arrays.copyOf(numbers, count * 2);
          given = Arrays.copyOf(given, count * 2);
        }
        numbers[count] = number;
        given[count++] = is;
      }
    }

    MetTerms sorted() {
      // What is given is above 0, so that its bits are in its order.
      long[] by = new long[count];
      for (int i = 0; i < count; i++) {
        by[i] = (long) -Float.floatToRawIntBits(given[i]) << 32 | i;
      }
      Arrays.sort(by);
      int[] numbersSorted = new int[count];
      float[] givenSorted = new float[count];
      for (int i = 0; i < count; i++) {
        numbersSorted[i] = numbers[(int) by[i]];
        givenSorted[i] = given[(int) by[i]];
      }
      return MetTerms.of(table, numbersSorted, givenSorted);
    }
  }

  /** A word as it is asked for of a table. */
  record Key(String word, Set<Widening> widenings, TermTable table, int slips) {}

  /**
   * What was met for words asked lately: given names are asked for again and again. For one
   * committed state, since how common words are says what a term says.
   */
  static final class Lately {
    /** So many terms are kept in all, eight bytes each. */
    private static final int MOST = 2_000_000;

    private final Map<Key, MetTerms> kept = new LinkedHashMap<>(64, 0.75f, true);
    private long terms;

    MetTerms of(Key key, Supplier<MetTerms> reckoned) {
      synchronized (kept) {
        MetTerms known = kept.get(key);
        if (known != null) {
          return known;
        }
      }
      MetTerms fresh = reckoned.get();
      synchronized (kept) {
        if (kept.putIfAbsent(key, fresh) == null) {
          terms += fresh.size();
        }
        var eldest = kept.entrySet().iterator();
        while (terms > MOST && eldest.hasNext()) {
          terms -= eldest.next().getValue().size();
          eldest.remove();
        }
      }
      return fresh;
    }
  }
}
