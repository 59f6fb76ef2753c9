package rakelight.index;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.lucene.store.ByteArrayDataInput;

/**
 * Entries as bytes, for those that are shown. Texts as length and UTF-8; id, marker, faces, words
 * (shown, ways), names (first, last, lent), years, ages, initials, facts. Every list is led by its
 * length. Another form needs another {@link SearchIndex#FORMAT}, which has the index made anew.
 */
final class EntryCodec {
  private static final double FULL = 1_000_000;

  private EntryCodec() {}

  static byte[] encode(Entry entry) {
    Scored.Bytes out = new Scored.Bytes();
    out.text(entry.id());
    out.text(entry.marker());
    out.number(entry.faces().size());
    for (Entry.Face face : entry.faces()) {
      out.text(face.id());
      out.text(face.name());
      out.text(face.text());
      out.number(face.words());
    }
    words(out, entry.words());
    out.number(entry.names().size());
    for (Entry.Name name : entry.names()) {
      out.number(name.first());
      out.number(name.last());
      words(out, name.lent());
    }
    out.number(entry.years().size());
    for (Entry.YearSpan year : entry.years()) {
      out.number(year.from());
      out.number(year.to());
      out.number(Math.round(year.weight() * FULL));
      out.text(year.event());
      out.text(year.shown());
    }
    out.number(entry.ages().size());
    for (Entry.AgeSpan age : entry.ages()) {
      out.number(age.from());
      out.number(age.to());
      out.text(age.shown());
    }
    texts(out, entry.initials());
    out.number(entry.facts().size());
    entry
        .facts()
        .forEach(
            (field, texts) -> {
              out.text(field);
              texts(out, texts);
            });
    return out.bytes();
  }

  private static void words(Scored.Bytes out, List<Word> words) {
    out.number(words.size());
    for (Word word : words) {
      out.text(word.shown());
      texts(out, word.ways().stream().map(Skeleton::text).toList());
    }
  }

  private static void texts(Scored.Bytes out, List<String> texts) {
    out.number(texts.size());
    texts.forEach(out::text);
  }

  static Entry decode(byte[] bytes, int offset, int length) {
    ByteArrayDataInput in = new ByteArrayDataInput(bytes, offset, length);
    String id = text(in);
    String marker = text(in);
    List<Entry.Face> faces = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      faces.add(new Entry.Face(text(in), text(in), text(in), in.readVInt()));
    }
    List<Word> words = words(in);
    List<Entry.Name> names = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      names.add(new Entry.Name(in.readVInt(), in.readVInt(), words(in)));
    }
    List<Entry.YearSpan> years = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      years.add(
          new Entry.YearSpan(
              in.readVInt(), in.readVInt(), in.readVInt() / FULL, text(in), text(in)));
    }
    List<Entry.AgeSpan> ages = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      ages.add(new Entry.AgeSpan(in.readVInt(), in.readVInt(), text(in)));
    }
    List<String> initials = texts(in);
    Map<String, List<String>> facts = new TreeMap<>();
    for (int i = in.readVInt(); i > 0; i--) {
      facts.put(text(in), texts(in));
    }
    return new Entry(id, marker, faces, words, names, years, ages, initials, facts);
  }

  private static List<Word> words(ByteArrayDataInput in) {
    List<Word> words = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      words.add(new Word(text(in), texts(in).stream().map(Skeleton::new).toList()));
    }
    return words;
  }

  private static List<String> texts(ByteArrayDataInput in) {
    List<String> texts = new ArrayList<>();
    for (int i = in.readVInt(); i > 0; i--) {
      texts.add(text(in));
    }
    return texts;
  }

  private static String text(ByteArrayDataInput in) {
    byte[] utf8 = new byte[in.readVInt()];
    in.readBytes(utf8, 0, utf8.length);
    return new String(utf8, StandardCharsets.UTF_8);
  }
}
