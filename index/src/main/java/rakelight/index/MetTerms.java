package rakelight.index;

import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.apache.lucene.util.FixedBitSet;

/**
 * The terms of a table that say something of a word asked for, those that say most first.
 *
 * @param numbers of the terms
 * @param given what each says
 */
record MetTerms(int[] numbers, float[] given) {
  static final MetTerms NONE = new MetTerms(new int[0], new float[0]);

  MetTerms {
    numbers = numbers.clone();
    given = given.clone();
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
        int initial =
            table.number(new org.apache.lucene.util.BytesRef(word.word().substring(0, 1)));
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
      this.count = before.numbers().length;
      this.numbers = Arrays.copyOf(before.numbers(), count + 64);
      this.given = Arrays.copyOf(before.given(), count + 64);
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
      Integer[] order = new Integer[count];
      for (int i = 0; i < count; i++) {
        order[i] = i;
      }
      Arrays.sort(order, Comparator.comparingDouble(i -> -given[i]));
      int[] numbersSorted = new int[count];
      float[] givenSorted = new float[count];
      for (int i = 0; i < count; i++) {
        numbersSorted[i] = numbers[order[i]];
        givenSorted[i] = given[order[i]];
      }
      return new MetTerms(numbersSorted, givenSorted);
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
          terms += fresh.numbers().length;
        }
        var eldest = kept.entrySet().iterator();
        while (terms > MOST && eldest.hasNext()) {
          terms -= eldest.next().getValue().numbers().length;
          eldest.remove();
        }
      }
      return fresh;
    }
  }
}
