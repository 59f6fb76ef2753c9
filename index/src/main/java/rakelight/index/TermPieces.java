package rakelight.index;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The terms of a field in pieces by their ends. Whoever looks for a word with one slip needs terms
 * that have its first two letters or its last two, so each lies in two pieces: by its length and
 * its beginning, and by its length and its end; an unknown letter is a sign of its own. A term of
 * no sure length, which is looked for without slips alone, lies in one piece by what is known at
 * its ends. A piece that would be large is cut by the other end as well.
 *
 * <p>A term: its text, a space, its share (of a clear one as a word, of another what may have stood
 * there), the number of its entries, and these: the distance to the one before, and of names the
 * persons in whose names it is, as twice a number of bits, or 1, how many, and each. Entries of a
 * frequent term lie in a piece of their own.
 */
final class TermPieces {
  private static final int MOST_BYTES = 1300;
  private static final int MOST_HERE = 24;
  private static final char UNKNOWN = '?';

  private final boolean ofNames;
  private int count;

  /** By text, by entry, the bits of the persons. */
  private final Map<String, TreeMap<Integer, Long>> terms = new TreeMap<>();

  private TermPieces(boolean ofNames) {
    this.ofNames = ofNames;
  }

  static TermPieces ofNames(List<Entry> entries) {
    TermPieces names = new TermPieces(true);
    for (int number = 0; number < entries.size(); number++) {
      Entry entry = entries.get(number);
      int persons = Math.min(Scored.MOST_PERSONS, entry.names().size());
      for (int i = 0; i < entry.words().size(); i++) {
        long bits = bits(entry, persons, i);
        if (bits != 0 || entry.names().isEmpty()) {
          names.add(entry.words().get(i), number, bits);
        }
      }
      for (int p = 0; p < persons; p++) {
        for (Word word : entry.names().get(p).lent()) {
          names.add(word, number, 1L << p);
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
          texts.add(entry.words().get(i), number, 0);
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

  private void add(Word word, int number, long bits) {
    for (Skeleton way : word.ways()) {
      terms
          .computeIfAbsent(way.text(), text -> new TreeMap<>())
          .merge(number, bits, (one, other) -> one | other);
    }
  }

  /** A term with what is known at its ends. */
  private record Record(String text, int length, String ends, String written) {}

  /** Ends: the first letter, the second, the last, the last but one. */
  private static final int[][] ORDERS = {{0, 1, 2, 3}, {2, 3, 0, 1}};

  void write(String field, Vocabulary vocabulary, PieceText base, SearchPieces.Pieces pieces)
      throws IOException {
    for (String word : vocabulary.words()) {
      terms.computeIfAbsent(word, text -> new TreeMap<>());
    }
    Map<Integer, List<Record>> byLength = new TreeMap<>();
    int frequent = 0;
    for (Map.Entry<String, TreeMap<Integer, Long>> term : terms.entrySet()) {
      Skeleton skeleton = new Skeleton(term.getKey());
      PieceText out = new PieceText();
      out.text(term.getKey());
      out.share(
          skeleton.isClear()
              ? vocabulary.countShare(term.getKey())
              : vocabulary.mass(Places.of(skeleton)));
      out.number(term.getValue().size());
      PieceText found = new PieceText();
      entries(found, term.getValue());
      if (term.getValue().size() <= MOST_HERE) {
        out.append(found.toString());
      } else {
        out.number(frequent);
        pieces.put(field + "p-" + frequent++, found.toString());
      }
      List<String> places = places(term.getKey());
      int length = places.contains("*") ? -1 : places.size();
      byLength
          .computeIfAbsent(length, l -> new ArrayList<>())
          .add(new Record(term.getKey(), length, ends(places), out.toString()));
    }
    Map<Integer, List<String>> leaves = new TreeMap<>();
    for (int order = 0; order < ORDERS.length; order++) {
      for (Map.Entry<Integer, List<Record>> each : byLength.entrySet()) {
        if (each.getKey() >= 0 || order == 0) {
          split(
              field,
              each.getValue(),
              new String[] {"", "", "", ""},
              ORDERS[order],
              0,
              order == 0 ? "a" : "b",
              leaves.computeIfAbsent(Math.max(0, each.getKey()), length -> new ArrayList<>()),
              pieces);
        }
      }
    }
    base.number(leaves.size());
    for (Map.Entry<Integer, List<String>> each : leaves.entrySet()) {
      base.number(each.getKey());
      PieceText out = new PieceText();
      out.words(each.getValue());
      pieces.put(field + "l-" + each.getKey(), out.toString());
    }
  }

  private void entries(PieceText out, TreeMap<Integer, Long> found) {
    int last = 0;
    for (Map.Entry<Integer, Long> each : found.entrySet()) {
      out.number(each.getKey() - last);
      last = each.getKey();
      if (!ofNames) {
        continue;
      }
      long bits = each.getValue();
      if (bits < 1L << 30) {
        out.number(bits * 2);
      } else {
        out.number(1);
        out.number(Long.bitCount(bits));
        for (int p = 0; p < Scored.MOST_PERSONS; p++) {
          if ((bits >> p & 1) == 1) {
            out.number(p);
          }
        }
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

  private void split(
      String field,
      List<Record> records,
      String[] ends,
      int[] order,
      int depth,
      String how,
      List<String> leaves,
      SearchPieces.Pieces pieces)
      throws IOException {
    int bytes = bytes(records);
    if (bytes <= MOST_BYTES || depth == order.length) {
      leaf(field, records, ends, how, leaves, pieces);
      return;
    }
    Map<Character, List<Record>> byLetter = new TreeMap<>();
    for (Record record : records) {
      byLetter
          .computeIfAbsent(record.ends().charAt(order[depth]), l -> new ArrayList<>())
          .add(record);
    }
    List<Record> group = new ArrayList<>();
    StringBuilder letters = new StringBuilder();
    for (Map.Entry<Character, List<Record>> each : byLetter.entrySet()) {
      boolean alone = each.getKey() == UNKNOWN;
      if (!group.isEmpty() && (alone || bytes(group) + bytes(each.getValue()) > MOST_BYTES)) {
        splitOn(field, group, ends, order, depth, letters.toString(), how, leaves, pieces);
        group = new ArrayList<>();
        letters.setLength(0);
      }
      group.addAll(each.getValue());
      letters.append(each.getKey());
      if (alone) {
        splitOn(field, group, ends, order, depth, letters.toString(), how, leaves, pieces);
        group = new ArrayList<>();
        letters.setLength(0);
      }
    }
    if (!group.isEmpty()) {
      splitOn(field, group, ends, order, depth, letters.toString(), how, leaves, pieces);
    }
  }

  private void splitOn(
      String field,
      List<Record> group,
      String[] ends,
      int[] order,
      int depth,
      String letters,
      String how,
      List<String> leaves,
      SearchPieces.Pieces pieces)
      throws IOException {
    String[] own = ends.clone();
    own[order[depth]] = letters;
    split(field, group, own, order, depth + 1, how, leaves, pieces);
  }

  private static int bytes(List<Record> records) {
    int bytes = 0;
    for (Record record : records) {
      bytes += record.written().length();
    }
    return bytes;
  }

  private void leaf(
      String field,
      List<Record> records,
      String[] ends,
      String how,
      List<String> leaves,
      SearchPieces.Pieces pieces)
      throws IOException {
    PieceText out = new PieceText();
    records.forEach(record -> out.append(record.written()));
    pieces.put(field + "-" + count, out.toString());
    // They are numbered as they come; only the first of each list tells its number.
    leaves.add(
        (leaves.isEmpty() || how.equals("b") && leaves.stream().noneMatch(l -> l.startsWith("b"))
                ? how + count
                : how)
            + ","
            + String.join(",", ends).replaceFirst(",+$", ""));
    count++;
  }
}
