package rakelight.survey;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import rakelight.relief.Features;

/**
 * Finds among thousands of pictures the few that may show what another shows, without comparing it
 * with each: those that have codes nearly alike. Two codes are looked at if one of {@value #TABLES}
 * stretches of {@value #STRETCH_BITS} bits is the same in both (multi-index hashing: Norouzi,
 * Punjani and Fleet, CVPR 2012). For 4,000 pictures it takes some 200 MB.
 *
 * <p>Pictures are numbered as they are added. Not for use by two threads at once.
 */
final class FeatureIndex {
  private static final int TABLES = 10;
  private static final int STRETCH_BITS = 12;

  /** Codes that differ in more bits are no sign of anything; unlike places differ in some 110. */
  private static final int MOST_BITS = 90;

  /** The pictures that a place speaks for. */
  private static final int HEARD = 4;

  private final List<Features> pictures = new ArrayList<>();
  private final Bucket[][] tables = new Bucket[TABLES][1 << STRETCH_BITS];

  /** Growing pairs of a picture's number and a place in it. */
  private static final class Bucket {
    private int[] pairs = new int[8];
    private int used;

    void add(int picture, int place) {
      if (used == pairs.length) {
        pairs = Arrays.copyOf(pairs, 2 * used);
      }
      pairs[used++] = picture;
      pairs[used++] = place;
    }
  }

  int size() {
    return pictures.size();
  }

  Features picture(int number) {
    return pictures.get(number);
  }

  void add(Features features) {
    int number = pictures.size();
    pictures.add(features);
    for (int place = 0; place < features.count(); place++) {
      for (int table = 0; table < TABLES; table++) {
        int stretch = stretch(features, place, table);
        if (tables[table][stretch] == null) {
          tables[table][stretch] = new Bucket();
        }
        tables[table][stretch].add(number, place);
      }
    }
  }

  /** Bits of the first half of a code, which says what is above the median. */
  private static int stretch(Features features, int place, int table) {
    int from = table * STRETCH_BITS;
    int word = from / Long.SIZE;
    int shift = from % Long.SIZE;
    long bits = features.code(place, word) >>> shift;
    if (shift + STRETCH_BITS > Long.SIZE) {
      bits |= features.code(place, word + 1) << Long.SIZE - shift;
    }
    return (int) (bits & (1 << STRETCH_BITS) - 1);
  }

  /**
   * The numbers of the pictures most like one, the most like first. Each place speaks for the few
   * pictures that have its nearest likes, by how much nearer those are than the next: what many
   * pictures have (grass, a fence) says nothing (as Boiman, Shechtman and Irani, CVPR 2008).
   */
  List<Integer> most(Features asked, int most) {
    double[] votes = new double[pictures.size()];
    int[] nearest = new int[pictures.size()];
    int[] hits = new int[pictures.size()];
    Arrays.fill(nearest, Features.CODE_BITS);
    for (int place = 0; place < asked.count(); place++) {
      int found = 0;
      for (int table = 0; table < TABLES; table++) {
        Bucket bucket = tables[table][stretch(asked, place, table)];
        for (int i = 0; bucket != null && i < bucket.used; i += 2) {
          int picture = bucket.pairs[i];
          int bits = asked.difference(place, pictures.get(picture), bucket.pairs[i + 1]);
          if (nearest[picture] == Features.CODE_BITS && bits < MOST_BITS) {
            hits[found++] = picture;
          }
          nearest[picture] = Math.min(nearest[picture], Math.min(bits, Features.CODE_BITS - 1));
        }
      }
      vote(votes, nearest, hits, found);
      Arrays.fill(nearest, Features.CODE_BITS);
    }
    return IntStream.range(0, votes.length)
        .filter(picture -> votes[picture] > 0)
        .boxed()
        .sorted(Comparator.comparingDouble(picture -> -votes[picture]))
        .limit(most)
        .toList();
  }

  private static void vote(double[] votes, int[] nearest, int[] hits, int found) {
    int[] bits = new int[found];
    for (int i = 0; i < found; i++) {
      bits[i] = nearest[hits[i]];
    }
    Arrays.sort(bits);
    int next = found > HEARD ? bits[HEARD] : MOST_BITS;
    for (int i = 0; i < found; i++) {
      double nearer = Math.max(0, next - nearest[hits[i]]);
      votes[hits[i]] += nearer * nearer;
    }
  }
}
