package rakelight.index;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.lucene.util.BytesRef;
import rakelight.names.GivenNames;
import rakelight.names.Likeness;
import rakelight.names.SoundCodes;

/**
 * How common words are: on this ground, as far as they were plainly read, and given names also by a
 * published count; a word that was never met by its letters and its length. This is the prior that
 * tells what a worn word may have been.
 */
final class Vocabulary {
  /** The share of words nobody met before. A choice. */
  private static final double UNMET = 0.03;

  /** So many persons of the published count weigh in with those of the ground. A choice. */
  private static final double COUNTED = 100;

  /** A word that stands once may be misread, so it counts half. */
  private static final double ONCE = 0.5;

  /** A word that is all explained by another misread counts so. A choice. */
  private static final double HARDLY = 0.1;

  /** So many times as often as expected a word may be another misread. A choice. */
  private static final double MORE_THAN_EXPECTED = 1.5;

  /** The part of the doubtful letters by which plainly read ones are held to be wrong. A choice. */
  private static final double MISREAD_FOR_DOUBTFUL = 0.3;

  /** The share of letters misread where none is doubtful. A choice. */
  private static final double LEAST_MISREAD = 0.003;

  private static final int MOST_KEPT = 100_000;
  private static final int MOST_MASSES = 1_000_000;
  private static final int LONGEST = 24;
  private static final int LETTERS = 36;
  private static final int ALPHABET = 26;

  /** Of words that may have been meant, those count that weigh so much of the word typed. */
  private static final double LEAST_SLIPPED = 0.02;

  private static final int MOST_SLIPPED = 4;
  private static final int MOST_SOUNDS = 8;
  private static final int MANY_WORDS = 2000;
  private static final int FIRST_TWO = 2;
  private static final int LAST_TWO = 3;

  /**
   * Whoever writes one of two given names that everybody knows doesn't mean the other, as Albert
   * and Alfred, unless their letters are as alike as those of Catherine and Katherine. A choice.
   */
  private static final double GIVEN_NAMES_ALIKE = 0.85;

  /** What one segment holds; a segment never changes. */
  record Counted(
      Map<String, Integer> words, int total, long[] letters, long[] lengths, long doubtful) {}

  private record Common(String text, int[] letters, double share) {}

  private final Map<String, Double> counts = new HashMap<>();
  private final Map<Integer, List<Common>> byPlace = new HashMap<>();
  private final List<Common> all = new ArrayList<>();
  private final Map<String, Double> masses = new ConcurrentHashMap<>();
  private final double total;
  private final LetterShares shares;
  private final double[] lengths = new double[LONGEST + 1];
  private final Channel reader;
  private final YearsAsked.Misread figures;
  private final Map<String, List<String>> sounds = new ConcurrentHashMap<>();
  private Map<String, List<String>> bySound = Map.of();

  Vocabulary(List<Counted> segments) {
    long[] letters = new long[LETTERS];
    long[] ofLength = new long[LONGEST + 1];
    long doubtful = 0;
    double words = 0;
    for (Counted segment : segments) {
      segment.words().forEach((word, count) -> counts.merge(word, (double) count, Double::sum));
      words += segment.total();
      doubtful += segment.doubtful();
      for (int i = 0; i < LETTERS; i++) {
        letters[i] += segment.letters()[i];
      }
      for (int i = 0; i <= LONGEST; i++) {
        ofLength[i] += segment.lengths()[i];
      }
    }
    double met = words;
    long read = 1;
    for (long each : letters) {
      read += each;
    }
    reader =
        Channel.reader(
            counts, LEAST_MISREAD + MISREAD_FOR_DOUBTFUL * doubtful / (double) (read + doubtful));
    figures = new YearsAsked.Misread(reader);
    reader.misreadings(counts).forEach((word, misread) -> counts.merge(word, misread, this::left));
    counts.replaceAll((word, count) -> count <= 1 ? Math.min(ONCE, count) : count);
    for (Map.Entry<String, Double> share : GivenNames.known().shares().entrySet()) {
      counts.merge(share.getKey(), COUNTED * share.getValue(), Double::sum);
    }
    total = met + COUNTED;
    shares = shares(letters);
    long sum = 1;
    for (long each : ofLength) {
      sum += each + 1;
    }
    for (int i = 0; i <= LONGEST; i++) {
      lengths[i] = (ofLength[i] + 1.0) / sum;
    }
    counts.forEach(
        (word, count) -> {
          Common common = new Common(word, word.codePoints().toArray(), count / total);
          all.add(common);
          for (int i = 0; i < common.letters().length; i++) {
            place(key(common.letters().length, i, common.letters()[i]), common);
            if (i > 0) {
              place(
                  pair(common.letters().length, i, common.letters()[i - 1], common.letters()[i]),
                  common);
            }
          }
          place(key(0, 0, common.letters()[0]), common);
          int last = common.letters().length - 1;
          place(key(0, 1, common.letters()[last]), common);
          if (last > 0) {
            place(pair(0, FIRST_TWO, common.letters()[0], common.letters()[1]), common);
            place(pair(0, LAST_TWO, common.letters()[last - 1], common.letters()[last]), common);
          }
        });
  }

  /** How often a word truly stands that so often is another misread. */
  private double left(double count, double misread) {
    return Math.max(HARDLY, count - MORE_THAN_EXPECTED * misread);
  }

  private void place(int key, Common common) {
    byPlace.computeIfAbsent(key, k -> new ArrayList<>()).add(common);
  }

  private static int key(int length, int at, int letter) {
    return (length * 64 + at) * 0x10000 + letter;
  }

  /** Of a letter and the one before it. */
  private static int pair(int length, int at, int one, int two) {
    return Integer.MIN_VALUE | key(length, at, (one << 8 ^ two) & 0xFFFF);
  }

  private static LetterShares shares(long[] letters) {
    double sum = 0;
    for (long each : letters) {
      sum += each + 1;
    }
    double[] shares = new double[LETTERS];
    for (int i = 0; i < LETTERS; i++) {
      shares[i] = (letters[i] + 1) / sum;
    }
    return new LetterShares(shares, 1 / sum);
  }

  /** Counts the words of one segment; those that stand there once only while they are few. */
  static Counted count(TermTable terms) {
    Map<String, Integer> words = new HashMap<>();
    long[] letters = new long[LETTERS];
    long[] lengths = new long[LONGEST + 1];
    long doubtful = 0;
    int total = 0;
    boolean few = terms.size() < MOST_KEPT;
    BytesRef term = new BytesRef();
    for (int number = 0; number < terms.size(); number++) {
      terms.term(number, term);
      int count = terms.count(number);
      boolean clear = true;
      int length = 0;
      for (int i = 0; i < term.length; i++) {
        int sign = term.bytes[term.offset + i];
        if (sign == Skeleton.TAIL) {
          break;
        }
        int place = LetterShares.place(sign);
        if (place >= 0) {
          letters[place] += count;
        } else if (sign == Skeleton.UNKNOWN || sign == Skeleton.OPEN) {
          doubtful += count;
        }
        clear &= place >= 0 || sign < 0 || sign == '&';
        length++;
      }
      if (clear) {
        total += count;
        lengths[Math.min(LONGEST, length)] += count;
        if (few || count > 1) {
          words.put(term.utf8ToString(), count);
        }
      }
    }
    return new Counted(words, total, letters, lengths, doubtful);
  }

  /** What readers make of letters on this ground. */
  Channel reader() {
    return reader;
  }

  /** What readers make of the figures of years. */
  YearsAsked.Misread figures() {
    return figures;
  }

  LetterShares letters() {
    return shares;
  }

  /** The share of this word among all words, above 0. */
  double share(String word) {
    return counts.getOrDefault(word, 0.0) / total + byLetters(word);
  }

  private double byLetters(String word) {
    double letters = UNMET;
    int[] each = word.codePoints().toArray();
    for (int letter : each) {
      letters *= shares.of(letter);
    }
    return letters * lengths[Math.min(LONGEST, each.length)];
  }

  /**
   * Words met here of which a slip of one letter makes this one, by how likely each is meant; those
   * that are next to nothing beside the word itself aren't told.
   *
   * @return the words, each with how likely this one is typed for it
   */
  Map<String, Double> slippedFrom(String word) {
    Map<String, Double> all = new HashMap<>();
    int[] typed = word.codePoints().toArray();
    StringBuilder other = new StringBuilder(word);
    for (int i = 0; i <= word.length(); i++) {
      for (int place = 0; place < ALPHABET; place++) {
        other.insert(i, LetterShares.letter(place));
        slippedFrom(other.toString(), typed, all);
        other.deleteCharAt(i);
      }
      if (i == word.length()) {
        break;
      }
      char own = word.charAt(i);
      for (int place = 0; place < ALPHABET; place++) {
        if (LetterShares.letter(place) != own) {
          other.setCharAt(i, LetterShares.letter(place));
          slippedFrom(other.toString(), typed, all);
        }
      }
      other.deleteCharAt(i);
      slippedFrom(other.toString(), typed, all);
      other.insert(i, own);
      if (i > 0 && word.charAt(i - 1) != own) {
        other.setCharAt(i, word.charAt(i - 1));
        other.setCharAt(i - 1, own);
        slippedFrom(other.toString(), typed, all);
        other.replace(0, other.length(), word);
      }
    }
    double least = LEAST_SLIPPED * share(word);
    Map<String, Double> kept = new LinkedHashMap<>();
    all.entrySet().stream()
        .filter(each -> each.getValue() * share(each.getKey()) > least)
        .sorted(
            Comparator.comparingDouble(
                    (Map.Entry<String, Double> each) -> -each.getValue() * share(each.getKey()))
                .thenComparing(Map.Entry.comparingByKey()))
        .limit(MOST_SLIPPED)
        .forEach(each -> kept.put(each.getKey(), each.getValue()));
    return kept;
  }

  private void slippedFrom(String meant, int[] typed, Map<String, Double> into) {
    if (counts.getOrDefault(meant, 0.0) > ONCE && !into.containsKey(meant)) {
      into.put(
          meant,
          LetterAlignment.typed(
              Places.of(new Skeleton(meant)), typed, Channel.SEARCHER, LetterShares.ALIKE));
    }
  }

  /** The share of all words that begin with this letter, above 0. */
  double shareBeginning(int letter) {
    double sum = UNMET * shares.of(letter);
    for (Common common : byPlace.getOrDefault(key(0, 0, letter), List.of())) {
      sum += common.share();
    }
    return sum;
  }

  /** The share of the words that may have stood there, each by how well it fits; kept. */
  double mass(Places term) {
    Skeleton skeleton = term.skeleton();
    if (term.clear()) {
      // It stands there once at least, and the first may be what was misread.
      double count = counts.getOrDefault(skeleton.text(), 0.0) - 1;
      return Math.max(count / total, byLetters(skeleton.text()));
    }
    Double known = masses.get(skeleton.text());
    if (known == null) {
      if (masses.size() > MOST_MASSES) {
        masses.clear();
      }
      known = sum(term);
      masses.put(skeleton.text(), known);
    }
    return known;
  }

  private double sum(Places term) {
    List<Skeleton.Slot> slots = term.slots();
    boolean fixed = term.fixed();
    double sum = 0;
    for (Common common : likely(term)) {
      sum += common.share() * Fixed.anyFit(term, common.letters());
    }
    double letters = UNMET * (fixed ? lengths[Math.min(LONGEST, slots.size())] : 1);
    for (Skeleton.Slot slot : slots) {
      if (slot instanceof Skeleton.Known one) {
        letters *= shares.of(one.letter());
      } else if (slot instanceof Skeleton.OneOf oneOf) {
        double open = 0;
        for (int j = 0; j < oneOf.texts().length; j++) {
          double text = oneOf.weights()[j];
          for (int letter : oneOf.texts()[j]) {
            text *= shares.of(letter);
          }
          open += text;
        }
        letters *= open;
      }
    }
    return sum + letters;
  }

  /**
   * The shortest list of words that a known letter allows, or two side by side; of no sure length,
   * an outer letter.
   */
  private List<Common> likely(Places term) {
    List<Common> least = all;
    int[] signs = term.signs();
    int last = signs.length - 1;
    for (int i = 0; i <= last; i++) {
      if (signs[i] < 0) {
        continue;
      }
      if (term.fixed()) {
        boolean two = i > 0 && signs[i - 1] >= 0;
        if (two || i == last || signs[i + 1] < 0) {
          int key =
              two ? pair(signs.length, i, signs[i - 1], signs[i]) : key(signs.length, i, signs[i]);
          least = shorter(least, key);
        }
      } else if (i == 0) {
        boolean two = last > 0 && signs[1] >= 0;
        least = shorter(least, two ? pair(0, FIRST_TWO, signs[0], signs[1]) : key(0, 0, signs[0]));
      } else if (i == last) {
        boolean two = signs[i - 1] >= 0;
        int key = two ? pair(0, LAST_TWO, signs[i - 1], signs[i]) : key(0, 1, signs[i]);
        least = shorter(least, key);
      }
    }
    return least;
  }

  private List<Common> shorter(List<Common> least, int key) {
    List<Common> here = byPlace.getOrDefault(key, List.of());
    return here.size() < least.size() ? here : least;
  }

  /** Words met here that share a sound code with this one, the most common first; kept. */
  List<String> soundingLike(String word) {
    if (sounds.size() > MOST_KEPT) {
      sounds.clear();
    }
    return sounds.computeIfAbsent(word, this::withSoundOf);
  }

  /** How many words it counts by. */
  double total() {
    return total;
  }

  /** The share of words that are so long. */
  double lengthShare(int length) {
    return lengths[length];
  }

  /** All words it counts, in their order. */
  Set<String> words() {
    return new TreeSet<>(counts.keySet());
  }

  /** The share of a word by its count alone; 0 for one that was never met. */
  double countShare(String word) {
    return counts.getOrDefault(word, 0.0) / total;
  }

  /** Words by their sound codes, the most common first. */
  Map<String, List<String>> bySound() {
    soundingLike("aaaa");
    Map<String, List<String>> sorted = new TreeMap<>();
    bySound.forEach(
        (code, words) ->
            sorted.put(
                code,
                words.stream()
                    .distinct()
                    .sorted(
                        Comparator.comparingDouble(
                                (String other) -> -counts.getOrDefault(other, 0.0))
                            .thenComparing(Comparator.naturalOrder()))
                    .toList()));
    return sorted;
  }

  private synchronized List<String> withSoundOf(String word) {
    if (bySound.isEmpty()) {
      Map<String, List<String>> codes = new HashMap<>();
      // Where there are many, most that stand once are others misread.
      double least = all.size() > MANY_WORDS ? ONCE / total : 0;
      for (Common common : all) {
        if (common.share() <= least) {
          continue;
        }
        for (String code : codes(common.text())) {
          codes.computeIfAbsent(code, key -> new ArrayList<>()).add(common.text());
        }
      }
      bySound = codes;
    }
    return codes(word).stream()
        .flatMap(code -> bySound.getOrDefault(code, List.of()).stream())
        .distinct()
        .filter(other -> !other.equals(word) && maySoundAlike(word, other))
        .sorted(
            Comparator.comparingDouble((String other) -> -counts.getOrDefault(other, 0.0))
                .thenComparing(Comparator.naturalOrder()))
        .limit(MOST_SOUNDS)
        .toList();
  }

  private static boolean maySoundAlike(String word, String other) {
    GivenNames names = GivenNames.known();
    return !names.isKnown(word)
        || !names.isKnown(other)
        || Likeness.jaroWinkler(word, other) >= GIVEN_NAMES_ALIKE;
  }

  /** How likely it is this word, of all that sound like it. */
  double shareOfSound(String word) {
    double all = share(word);
    for (String other : soundingLike(word)) {
      all += share(other);
    }
    return share(word) / all;
  }

  private static List<String> codes(String word) {
    List<String> codes = new ArrayList<>();
    if (word.length() >= 4 && word.chars().allMatch(letter -> letter >= 'a' && letter <= 'z')) {
      codes.add(SoundCodes.soundex(word));
      codes.addAll(SoundCodes.daitchMokotoff(word));
    }
    return codes;
  }
}
