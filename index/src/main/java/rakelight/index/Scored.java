package rakelight.index;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.apache.lucene.store.ByteArrayDataInput;
import org.apache.lucene.util.BytesRef;
import org.apache.lucene.util.BytesRefBuilder;

/**
 * What scoring needs of an entry, beside the documents of the index: years, ages, persons and words
 * as terms. Numbers are Lucene's variable-length integers.
 *
 * <pre>
 * spans of years (from, to - from, weight in 255ths, event)
 * spans of ages (from, to - from)
 * number of persons
 * words, those that are lent last: a number, four times the length of the only way, or 0; plus 2
 *   if what follows are persons whose name it is part of, as bits, else those of the word before;
 *   plus 1 if then comes twice the number of ways, plus 1 if it is lent, and each way's length;
 *   then the ways in UTF-8, where a length came each after its own
 * </pre>
 */
final class Scored {
  static final List<String> EVENTS = List.of("", "born", "married", "died", "buried", Query.MADE);
  static final int MOST_PERSONS = 62;
  private static final double FULL = 255;
  private static final int PERSONS = 2;
  private static final int WAYS = 1;

  private Scored() {}

  static byte[] encode(Entry entry) {
    Bytes out = new Bytes();
    out.number(entry.years().size());
    for (Entry.YearSpan year : entry.years()) {
      out.number(year.from());
      out.number(year.to() - year.from());
      out.number((int) Math.max(1, Math.round(year.weight() * FULL)));
      out.number(Math.max(0, EVENTS.indexOf(year.event())));
    }
    out.number(entry.ages().size());
    for (Entry.AgeSpan age : entry.ages()) {
      out.number(age.from());
      out.number(age.to() - age.from());
    }
    int persons = Math.min(MOST_PERSONS, entry.names().size());
    int lent = 0;
    for (int p = 0; p < persons; p++) {
      lent += entry.names().get(p).lent().size();
    }
    out.number(persons);
    out.number(entry.words().size() + lent);
    long before = 0;
    for (int i = 0; i < entry.words().size(); i++) {
      long bits = 0;
      for (int p = 0; p < persons; p++) {
        Entry.Name name = entry.names().get(p);
        bits |= name.first() <= i && i <= name.last() ? 1L << p : 0;
      }
      word(out, bits, before, false, entry.words().get(i));
      before = bits;
    }
    for (int p = 0; p < persons; p++) {
      for (Word word : entry.names().get(p).lent()) {
        word(out, 1L << p, before, true, word);
        before = 1L << p;
      }
    }
    return out.bytes();
  }

  private static void word(Bytes out, long persons, long before, boolean lent, Word word) {
    boolean plain = !lent && word.ways().size() == 1;
    byte[] only = plain ? word.ways().get(0).text().getBytes(StandardCharsets.UTF_8) : new byte[0];
    out.number((long) only.length << 2 | (persons == before ? 0 : PERSONS) | (plain ? 0 : WAYS));
    if (persons != before) {
      out.number(persons);
    }
    if (plain) {
      out.append(only);
      return;
    }
    out.number((long) word.ways().size() << 1 | (lent ? 1 : 0));
    for (Skeleton way : word.ways()) {
      out.text(way.text());
    }
  }

  /**
   * Years told of.
   *
   * @param event by its place among {@link #EVENTS}
   */
  record Span(int from, int to, double weight, int event) {}

  /** Bytes put one after the other. */
  static final class Bytes {
    private final BytesRefBuilder bytes = new BytesRefBuilder();

    void number(long value) {
      long rest = value;
      while ((rest & ~0x7FL) != 0) {
        bytes.append((byte) ((rest & 0x7F) | 0x80));
        rest >>>= 7;
      }
      bytes.append((byte) rest);
    }

    void text(String text) {
      byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
      number(utf8.length);
      append(utf8);
    }

    void append(byte[] all) {
      bytes.append(all, 0, all.length);
    }

    byte[] bytes() {
      return java.util.Arrays.copyOf(bytes.bytes(), bytes.length());
    }
  }

  /** Reads one entry after the other. */
  static final class Cursor {
    private final ByteArrayDataInput in = new ByteArrayDataInput();
    private byte[] bytes = new byte[0];
    private int words;
    private int persons;
    private long bits;
    private int length;
    private int ways;
    private boolean lent;
    private final BytesRef way = new BytesRef();

    /** Begins an entry, and says how likely the years asked for are told by it. */
    void begin(BytesRef entry) {
      bytes = entry.bytes;
      in.reset(entry.bytes, entry.offset, entry.length);
    }

    /** How well the years of an entry answer; the entry's beginning is read. */
    double years(List<YearsAsked> asked) {
      int spans = in.readVInt();
      double[] answers = new double[asked.size()];
      boolean[] any = new boolean[asked.size()];
      for (int i = 0; i < spans; i++) {
        int from = in.readVInt();
        int to = from + in.readVInt();
        double weight = in.readVInt() / FULL;
        String event = EVENTS.get(in.readVInt());
        for (int j = 0; j < answers.length; j++) {
          any[j] |= asked.get(j).counts(event);
          answers[j] += asked.get(j).of(from, to, event) * weight;
        }
      }
      double all = 1;
      for (int j = 0; j < answers.length; j++) {
        all *= asked.get(j).answer(answers[j], any[j]);
      }
      return all;
    }

    /** The spans of years. The cursor is spent. */
    List<Span> spans() {
      List<Span> spans = new ArrayList<>();
      for (int left = in.readVInt(); left > 0; left--) {
        int from = in.readVInt();
        int to = from + in.readVInt();
        spans.add(new Span(from, to, in.readVInt() / FULL, in.readVInt()));
      }
      return spans;
    }

    double ages(List<Query.Ages> asked) {
      int spans = in.readVInt();
      double[] answers = new double[asked.size()];
      for (int i = 0; i < spans; i++) {
        int from = in.readVInt();
        int to = from + in.readVInt();
        for (int j = 0; j < answers.length; j++) {
          Query.Ages ages = asked.get(j);
          int common = Math.min(to, ages.to()) - Math.max(from, ages.from()) + 1;
          answers[j] = Math.max(answers[j], Math.max(0.0, common) / (to - from + 1));
        }
      }
      double all = 1;
      for (double answer : answers) {
        all *= Math.max(YearsAsked.LEAST, answer);
      }
      persons = in.readVInt();
      words = in.readVInt();
      bits = 0;
      return all;
    }

    int persons() {
      return persons;
    }

    int words() {
      return words;
    }

    /** Begins a word: the bits of its persons; then come its {@link #ways}. */
    long wordOf() {
      int head = in.readVInt();
      bits = (head & PERSONS) == 0 ? bits : in.readVLong();
      length = head >>> 2;
      ways = 1;
      lent = false;
      if ((head & WAYS) != 0) {
        int more = in.readVInt();
        ways = more >>> 1;
        lent = (more & 1) == 1;
        length = -1;
      }
      return bits;
    }

    boolean lent() {
      return lent;
    }

    int ways() {
      return ways;
    }

    /** The next way as a term; valid until the next call. */
    BytesRef way() {
      int own = length >= 0 ? length : in.readVInt();
      way.bytes = bytes;
      way.offset = in.getPosition();
      way.length = own;
      in.skipBytes(own);
      return way;
    }
  }
}
