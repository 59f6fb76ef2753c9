package rakelight.index;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Pattern;
import org.apache.lucene.store.ByteArrayDataInput;
import org.apache.lucene.util.BytesRef;

/**
 * Entries as bytes, for those that are shown, without what {@link Scored} holds of them: id,
 * marker, faces, words as shown, names (first, last, lent), years, ages, initials, facts. Every
 * list is led by its length. A text is twice its length and UTF-8, or 1 and the 16 bytes of a UUID;
 * a word that stands in its face's text after the word before is found there: twice its length plus
 * 1, and how far behind. Another form needs another {@link SearchIndex#FORMAT}, which has the index
 * made anew.
 */
final class EntryCodec {
  private static final double FULL = 1_000_000;
  private static final Pattern UUIDS =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");

  private EntryCodec() {}

  static byte[] encode(Entry entry) {
    Scored.Bytes out = new Scored.Bytes();
    text(out, entry.id());
    text(out, entry.marker());
    out.number(entry.faces().size());
    for (Entry.Face face : entry.faces()) {
      text(out, face.id());
      text(out, face.name());
      text(out, face.text());
      out.number(face.words());
    }
    int word = 0;
    for (Entry.Face face : entry.faces()) {
      int at = 0;
      for (int end = word + face.words(); word < end; word++) {
        at = shown(out, entry.words().get(word).shown(), face.text(), at);
      }
    }
    String all = String.join("", entry.texts());
    out.number(entry.names().size());
    for (int p = 0; p < entry.names().size(); p++) {
      Entry.Name name = entry.names().get(p);
      out.number(name.first());
      out.number(name.last() - name.first());
      out.number(name.lent().size());
      for (Word lent : name.lent()) {
        shown(out, lent.shown(), all, 0);
        if (p >= Scored.MOST_PERSONS) {
          texts(out, lent.ways().stream().map(Skeleton::text).toList());
        }
      }
    }
    out.number(entry.years().size());
    for (Entry.YearSpan year : entry.years()) {
      out.number(year.from());
      out.number(year.to() - year.from());
      out.number(Math.round((1 - year.weight()) * FULL));
      text(out, year.event());
      shown(out, year.shown(), all, 0);
    }
    out.number(entry.ages().size());
    for (Entry.AgeSpan age : entry.ages()) {
      out.number(age.from());
      out.number(age.to() - age.from());
      shown(out, age.shown(), all, 0);
    }
    texts(out, entry.initials());
    out.number(entry.facts().size());
    entry
        .facts()
        .forEach(
            (field, texts) -> {
              text(out, field);
              texts(out, texts);
            });
    return out.bytes();
  }

  private static void text(Scored.Bytes out, String text) {
    if (UUIDS.matcher(text).matches()) {
      out.number(1);
      out.append(bytes(UUID.fromString(text)));
    } else {
      byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
      out.number((long) utf8.length << 1);
      out.append(utf8);
    }
  }

  /** The bytes of an id: 16 of a UUID, any other in UTF-8. */
  static byte[] id(String id) {
    return UUIDS.matcher(id).matches()
        ? bytes(UUID.fromString(id))
        : id.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] bytes(UUID id) {
    return ByteBuffer.allocate(16)
        .putLong(id.getMostSignificantBits())
        .putLong(id.getLeastSignificantBits())
        .array();
  }

  private static void texts(Scored.Bytes out, List<String> texts) {
    out.number(texts.size());
    texts.forEach(each -> text(out, each));
  }

  /** Returns where in the text it ends. */
  private static int shown(Scored.Bytes out, String shown, String text, int from) {
    int at = shown.isEmpty() ? -1 : text.indexOf(shown, from);
    if (at < 0) {
      byte[] utf8 = shown.getBytes(StandardCharsets.UTF_8);
      out.number((long) utf8.length << 1);
      out.append(utf8);
      return from;
    }
    out.number((long) shown.length() << 1 | 1);
    out.number(at - from);
    return at + shown.length();
  }

  /**
   * @param scored what {@link Scored} made of the same entry
   */
  static Entry decode(BytesRef bytes, BytesRef scored) {
    return new Reading(bytes, scored).entry();
  }

  /** One entry as it is read. */
  private static final class Reading {
    private final ByteArrayDataInput in;
    private final Scored.Cursor words = new Scored.Cursor();
    private int at;

    Reading(BytesRef bytes, BytesRef scored) {
      in = new ByteArrayDataInput(bytes.bytes, bytes.offset, bytes.length);
      words.begin(scored);
      words.years(List.of());
      words.ages(List.of());
    }

    Entry entry() {
      String id = text();
      String marker = text();
      List<Entry.Face> faces = new ArrayList<>();
      for (int i = in.readVInt(); i > 0; i--) {
        faces.add(new Entry.Face(text(), text(), text(), in.readVInt()));
      }
      List<Word> all = new ArrayList<>();
      StringBuilder texts = new StringBuilder();
      for (Entry.Face face : faces) {
        at = 0;
        for (int i = 0; i < face.words(); i++) {
          all.add(new Word(shown(face.text(), at), ways()));
        }
        texts.append(face.text());
      }
      String text = texts.toString();
      List<Entry.Name> names = new ArrayList<>();
      for (int i = in.readVInt(); i > 0; i--) {
        int first = in.readVInt();
        int last = first + in.readVInt();
        List<Word> lent = new ArrayList<>();
        for (int j = in.readVInt(); j > 0; j--) {
          String shown = shown(text, 0);
          lent.add(new Word(shown, names.size() < Scored.MOST_PERSONS ? ways() : waysHere()));
        }
        names.add(new Entry.Name(first, last, lent));
      }
      List<Entry.YearSpan> years = new ArrayList<>();
      for (int i = in.readVInt(); i > 0; i--) {
        int from = in.readVInt();
        int to = from + in.readVInt();
        double weight = (FULL - in.readVInt()) / FULL;
        years.add(new Entry.YearSpan(from, to, weight, text(), shown(text, 0)));
      }
      List<Entry.AgeSpan> ages = new ArrayList<>();
      for (int i = in.readVInt(); i > 0; i--) {
        int from = in.readVInt();
        ages.add(new Entry.AgeSpan(from, from + in.readVInt(), shown(text, 0)));
      }
      List<String> initials = texts();
      Map<String, List<String>> facts = new TreeMap<>();
      for (int i = in.readVInt(); i > 0; i--) {
        facts.put(text(), texts());
      }
      return new Entry(id, marker, faces, all, names, years, ages, initials, facts);
    }

    private List<Skeleton> ways() {
      words.wordOf();
      List<Skeleton> ways = new ArrayList<>();
      for (int i = words.ways(); i > 0; i--) {
        ways.add(new Skeleton(words.way().utf8ToString()));
      }
      return ways;
    }

    private List<Skeleton> waysHere() {
      return texts().stream().map(Skeleton::new).toList();
    }

    private List<String> texts() {
      List<String> texts = new ArrayList<>();
      for (int i = in.readVInt(); i > 0; i--) {
        texts.add(text());
      }
      return texts;
    }

    private String text() {
      int head = in.readVInt();
      if ((head & 1) == 1) {
        byte[] id = new byte[16];
        in.readBytes(id, 0, id.length);
        ByteBuffer both = ByteBuffer.wrap(id);
        return new UUID(both.getLong(), both.getLong()).toString();
      }
      return utf8(head >>> 1);
    }

    private String shown(String text, int from) {
      int head = in.readVInt();
      if ((head & 1) == 0) {
        return utf8(head >>> 1);
      }
      int begin = from + in.readVInt();
      at = begin + (head >>> 1);
      return text.substring(begin, at);
    }

    private String utf8(int length) {
      byte[] utf8 = new byte[length];
      in.readBytes(utf8, 0, length);
      return new String(utf8, StandardCharsets.UTF_8);
    }
  }
}
