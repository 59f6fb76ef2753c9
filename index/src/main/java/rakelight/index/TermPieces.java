package rakelight.index;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;

/**
 * The terms of a field in pieces by their ends. Whoever looks for a word with one slip needs terms
 * that have its first two letters or its last two, so each lies in two pieces: by its length and
 * its beginning, and by its length and its end; an unknown letter is a sign of its own. A term of
 * no sure length, which is looked for without slips alone, lies in one piece by what is known at
 * its ends. A piece that would be large is cut by the other end as well.
 *
 * <p>A piece: how many terms; of each its text, its share (of a clear one as a word, of another
 * what may have stood there), the number of its entries, and these: the distance to the one before,
 * of names the persons in whose names it is, as twice a number of bits, or 1, how many, and each;
 * and, in the copy by beginnings, at which places among the entry's words it stands, as distances,
 * twice, plus one if there is another. Entries of a frequent term lie in a piece of their own.
 */
final class TermPieces {
  /** About so many signs a piece. Tried 450 to 1,000. */
  private static final int MOST_SIGNS = 500;

  private static final int MOST_HERE = 24;

  /** So many terms at least are in the pieces that the first one holds as a sample. */
  private static final int SAMPLE = 200;

  private static final int SAMPLED = 6;
  private static final char UNKNOWN = '?';
  private static final long FEW_PERSONS = 1L << 29;

  private final boolean ofNames;
  private final Map<String, Found> terms = new TreeMap<>();
  private final List<Leaf> leaves = new ArrayList<>();

  private TermPieces(boolean ofNames) {
    this.ofNames = ofNames;
  }

  /** Where a term stands: entry, place in it, persons as bits, in that order. */
  private static final class Found {
    private static final int EACH = 3;
    private long[] all = new long[EACH];
    private int size;
    private int entries;

    void add(int number, int place, long persons) {
      if (size == 0 || all[size - EACH] != number) {
        entries++;
      }
      if (size == all.length) {
        all = Arrays.copyOf(all, size * 2);
      }
      all[size] = number;
      all[size + 1] = place;
      all[size + 2] = persons;
      size += EACH;
    }
  }

  static TermPieces ofNames(List<Entry> entries) {
    TermPieces names = new TermPieces(true);
    for (int number = 0; number < entries.size(); number++) {
      Entry entry = entries.get(number);
      int persons = Math.min(Scored.MOST_PERSONS, entry.names().size());
      for (int i = 0; i < entry.words().size(); i++) {
        long bits = bits(entry, persons, i);
        if (bits != 0 || entry.names().isEmpty()) {
          names.add(entry.words().get(i), number, i, bits);
        }
      }
      int lent = entry.words().size();
      for (int p = 0; p < persons; p++) {
        for (Word word : entry.names().get(p).lent()) {
          names.add(word, number, lent++, 1L << p);
        }
      }
    }
    return names;
  }

  static TermPieces ofTexts(List<Entry> entries) {
    TermPieces texts = new TermPieces(false);
    for (int number = 0; number < entries.size(); number++) {
      Entry entry = entries.get(number);
      int persons = Math.min(Scored.MOST_PERSONS, entry.names().size());
      for (int i = 0; i < entry.words().size() && persons > 0; i++) {
        if (bits(entry, persons, i) == 0) {
          texts.add(entry.words().get(i), number, i, 0);
        }
      }
    }
    return texts;
  }

  private static long bits(Entry entry, int persons, int word) {
    long bits = 0;
    for (int p = 0; p < persons; p++) {
      Entry.Name name = entry.names().get(p);
      bits |= name.first() <= word && word <= name.last() ? 1L << p : 0;
    }
    return bits;
  }

  private void add(Word word, int number, int place, long persons) {
    for (Skeleton way : word.ways()) {
      terms.computeIfAbsent(way.text(), text -> new Found()).add(number, place, persons);
    }
  }

  /**
   * A term with what is known at its ends.
   *
   * @param frequent the number of the piece that holds its entries, or -1
   */
  private record Term(
      String text, int length, String ends, double share, Found found, int frequent) {
    /** About so many signs. */
    int size() {
      return 4 + text.length() / 2 + 3 * (frequent < 0 ? found.entries : 1);
    }
  }

  /**
   * Terms that lie together.
   *
   * @param byBeginning whether the copy is the one by beginnings, in which words in a row are
   *     looked for
   */
  private record Leaf(List<Term> terms, boolean byBeginning) {}

  /** Ends: the first letter, the second, the last, the last but one. */
  private static final int[][] ORDERS = {{0, 1, 2, 3}, {2, 3, 0, 1}};

  /** Plans the pieces of the terms and of where they lie; the first piece is told their lengths. */
  void plan(
      String field,
      Vocabulary vocabulary,
      PieceText base,
      Map<String, Consumer<PieceText>> pieces) {
    for (String word : vocabulary.words()) {
      terms.computeIfAbsent(word, text -> new Found());
    }
    Map<Integer, List<Term>> byLength = new TreeMap<>();
    int frequent = 0;
    for (Map.Entry<String, Found> term : terms.entrySet()) {
      Found found = term.getValue();
      Skeleton skeleton = new Skeleton(term.getKey());
      boolean here = found.entries <= MOST_HERE;
      if (!here) {
        pieces.put(field + "p-" + frequent, out -> entries(out, found, true));
      }
      List<String> places = places(term.getKey());
      int length = places.contains("*") ? -1 : places.size();
      byLength
          .computeIfAbsent(length, l -> new ArrayList<>())
          .add(
              new Term(
                  term.getKey(),
                  length,
                  ends(places),
                  skeleton.isClear()
                      ? vocabulary.countShare(term.getKey())
                      : vocabulary.mass(Places.of(skeleton)),
                  found,
                  here ? -1 : frequent++));
    }
    Map<Integer, List<Copy>> copies = new TreeMap<>();
    for (int order = 0; order < ORDERS.length; order++) {
      for (Map.Entry<Integer, List<Term>> each : byLength.entrySet()) {
        if (each.getKey() >= 0 || order == 0) {
          Copy copy = new Copy(leaves.size(), new ArrayList<>());
          copies.computeIfAbsent(Math.max(0, each.getKey()), l -> new ArrayList<>()).add(copy);
          split(each.getValue(), new String[] {"", "", "", ""}, ORDERS[order], 0, copy.ends());
        }
      }
    }
    base.number(PieceText.Kind.COUNT, copies.size());
    copies.forEach(
        (length, own) -> {
          base.number(PieceText.Kind.LEAF, length);
          pieces.put(field + "l-" + length, out -> own.forEach(copy -> copy.write(out)));
        });
    for (int i = 0; i < leaves.size(); i++) {
      Leaf leaf = leaves.get(i);
      pieces.put(field + "-" + i, out -> leaf(out, leaf));
    }
  }

  /** Where the leaves of one copy lie: they are numbered as they come. */
  private record Copy(int first, List<String> ends) {
    void write(PieceText out) {
      out.number(PieceText.Kind.LEAF, first);
      out.words(PieceModel.ENDS, ends);
    }
  }

  /** Some leaves, from which whoever writes and reads pieces learns what is common. */
  void sample(PieceText out) {
    List<Leaf> some = new ArrayList<>();
    int size = 0;
    for (int i = 0; i < SAMPLED && size < SAMPLE; i++) {
      Leaf leaf = leaves.get((int) ((i + 0.5) * leaves.size() / SAMPLED));
      some.add(leaf);
      size += leaf.terms().size();
    }
    out.number(PieceText.Kind.COUNT, some.size());
    for (Leaf leaf : some) {
      out.number(PieceText.Kind.KNOWN, leaf.byBeginning() ? 1 : 0);
      leaf(out, leaf);
    }
  }

  private void leaf(PieceText out, Leaf leaf) {
    out.number(PieceText.Kind.COUNT, leaf.terms().size());
    String before = "";
    for (Term term : leaf.terms()) {
      out.text(ofNames ? PieceModel.NAMES : PieceModel.TEXTS, term.text(), before);
      before = term.text();
      out.share(term.share());
      out.number(PieceText.Kind.ENTRIES, term.found().entries);
      if (term.frequent() < 0) {
        entries(out, term.found(), leaf.byBeginning());
      } else {
        out.number(PieceText.Kind.FREQUENT, term.frequent());
      }
    }
  }

  private void entries(PieceText out, Found found, boolean withPlaces) {
    int last = 0;
    int end;
    for (int at = 0; at < found.size; at = end) {
      int number = (int) found.all[at];
      out.gap(found.entries, number - last);
      last = number;
      end = at;
      long persons = 0;
      while (end < found.size && found.all[end] == number) {
        persons |= found.all[end + 2];
        end += Found.EACH;
      }
      if (ofNames) {
        persons(out, persons);
      }
      long before = 0;
      for (int i = at; i < end && withPlaces; i += Found.EACH) {
        long place = found.all[i + 1];
        out.number(
            ofNames ? PieceText.Kind.PLACE_IN_NAME : PieceText.Kind.PLACE_IN_TEXT,
            (place - before) * 2 + (i + Found.EACH < end ? 1 : 0));
        before = place;
      }
    }
  }

  private static void persons(PieceText out, long persons) {
    if (persons < FEW_PERSONS) {
      out.number(PieceText.Kind.PERSONS, persons * 2);
      return;
    }
    out.number(PieceText.Kind.PERSONS, 1);
    out.number(PieceText.Kind.COUNT, Long.bitCount(persons));
    for (int p = 0; p < Scored.MOST_PERSONS; p++) {
      if ((persons >> p & 1) == 1) {
        out.number(PieceText.Kind.COUNT, p);
      }
    }
  }

  /** The places of a term: a letter, an unknown one, or a star for any number of them. */
  private static List<String> places(String term) {
    List<String> places = new ArrayList<>();
    int[] signs = term.codePoints().toArray();
    for (int sign : signs) {
      if (sign == Skeleton.TAIL) {
        break;
      }
      switch (sign) {
        case Skeleton.SIDE, Skeleton.UNSURE -> {}
        case Skeleton.UNKNOWN, Skeleton.OPEN -> places.add(String.valueOf(UNKNOWN));
        case Skeleton.MAYBE, Skeleton.MANY, Skeleton.TEXTS -> places.add("*");
        default -> places.add(Character.toString(sign));
      }
    }
    return places;
  }

  private static String ends(List<String> places) {
    StringBuilder ends = new StringBuilder();
    int run = places.indexOf("*");
    int lastRun = places.lastIndexOf("*");
    for (int i = 0; i < 2; i++) {
      ends.append(i < places.size() && (run < 0 || i < run) ? end(places.get(i)) : UNKNOWN);
    }
    for (int i = 1; i <= 2; i++) {
      int at = places.size() - i;
      ends.append(at >= 0 && at > lastRun ? end(places.get(at)) : UNKNOWN);
    }
    return ends.toString();
  }

  /** Letters that aren't a to z or a figure are kept apart from all others, together. */
  private static char end(String place) {
    char sign = place.charAt(0);
    return sign == UNKNOWN || LetterShares.place(sign) >= 0 ? sign : '&';
  }

  private void split(List<Term> terms, String[] ends, int[] order, int depth, List<String> into) {
    if (size(terms) <= MOST_SIGNS || depth == order.length) {
      leaves.add(new Leaf(terms, order[0] == 0));
      into.add(String.join(",", ends).replaceFirst(",+$", ""));
      return;
    }
    Map<Character, List<Term>> byLetter = new TreeMap<>();
    for (Term term : terms) {
      byLetter.computeIfAbsent(term.ends().charAt(order[depth]), l -> new ArrayList<>()).add(term);
    }
    List<Term> group = new ArrayList<>();
    StringBuilder letters = new StringBuilder();
    for (Map.Entry<Character, List<Term>> each : byLetter.entrySet()) {
      boolean alone = each.getKey() == UNKNOWN;
      if (!group.isEmpty() && (alone || size(group) + size(each.getValue()) > MOST_SIGNS)) {
        splitOn(group, ends, order, depth, letters.toString(), into);
        group = new ArrayList<>();
        letters.setLength(0);
      }
      group.addAll(each.getValue());
      letters.append(each.getKey());
      if (alone) {
        splitOn(group, ends, order, depth, letters.toString(), into);
        group = new ArrayList<>();
        letters.setLength(0);
      }
    }
    if (!group.isEmpty()) {
      splitOn(group, ends, order, depth, letters.toString(), into);
    }
  }

  private void splitOn(
      List<Term> group, String[] ends, int[] order, int depth, String letters, List<String> into) {
    String[] own = ends.clone();
    own[order[depth]] = letters;
    split(group, own, order, depth + 1, into);
  }

  private static int size(List<Term> terms) {
    return terms.stream().mapToInt(Term::size).sum();
  }
}
