package rakelight.index;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Entries as bytes, for the index. Format 1: texts as length and UTF-8; id, marker, face, text;
 * words (shown, readings with weights as doubles, patterns); names (first, last); years (from, to,
 * weight, shown); initials; links. Every list is led by its length. Another form needs another
 * {@link SearchIndex#FORMAT}, which has the index made anew.
 */
final class EntryCodec {
  private EntryCodec() {}

  static byte[] encode(Entry entry) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      text(out, entry.id());
      text(out, entry.marker());
      text(out, entry.face());
      text(out, entry.text());
      out.writeInt(entry.words().size());
      for (Word word : entry.words()) {
        text(out, word.shown());
        out.writeInt(word.readings().size());
        for (Map.Entry<String, Double> reading : word.readings().entrySet()) {
          text(out, reading.getKey());
          out.writeDouble(reading.getValue());
        }
        texts(out, word.patterns().stream().map(Pattern::text).toList());
      }
      out.writeInt(entry.names().size());
      for (Entry.NameSpan name : entry.names()) {
        out.writeInt(name.first());
        out.writeInt(name.last());
      }
      out.writeInt(entry.years().size());
      for (Entry.YearSpan year : entry.years()) {
        out.writeInt(year.from());
        out.writeInt(year.to());
        out.writeDouble(year.weight());
        text(out, year.shown());
      }
      texts(out, entry.initials());
      texts(out, entry.links());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /**
   * @throws IOException if the bytes aren't those of an entry
   */
  static Entry decode(byte[] bytes, int offset, int length) throws IOException {
    try (DataInputStream in =
        new DataInputStream(new ByteArrayInputStream(bytes, offset, length))) {
      String id = text(in);
      String marker = text(in);
      String face = text(in);
      String text = text(in);
      List<Word> words = new ArrayList<>();
      for (int n = count(in); n > 0; n--) {
        String shown = text(in);
        Map<String, Double> readings = new TreeMap<>();
        for (int r = count(in); r > 0; r--) {
          readings.put(text(in), in.readDouble());
        }
        words.add(new Word(shown, readings, texts(in).stream().map(Pattern::new).toList()));
      }
      List<Entry.NameSpan> names = new ArrayList<>();
      for (int n = count(in); n > 0; n--) {
        names.add(new Entry.NameSpan(in.readInt(), in.readInt()));
      }
      List<Entry.YearSpan> years = new ArrayList<>();
      for (int n = count(in); n > 0; n--) {
        years.add(new Entry.YearSpan(in.readInt(), in.readInt(), in.readDouble(), text(in)));
      }
      return new Entry(id, marker, face, text, words, names, years, texts(in), texts(in));
    } catch (IllegalArgumentException e) {
      throw new IOException("not an entry of the index", e);
    }
  }

  private static void text(DataOutputStream out, String text) throws IOException {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    out.writeInt(bytes.length);
    out.write(bytes);
  }

  private static String text(DataInputStream in) throws IOException {
    byte[] bytes = new byte[count(in)];
    in.readFully(bytes);
    return new String(bytes, StandardCharsets.UTF_8);
  }

  private static void texts(DataOutputStream out, List<String> texts) throws IOException {
    out.writeInt(texts.size());
    for (String text : texts) {
      text(out, text);
    }
  }

  private static List<String> texts(DataInputStream in) throws IOException {
    List<String> texts = new ArrayList<>();
    for (int n = count(in); n > 0; n--) {
      texts.add(text(in));
    }
    return texts;
  }

  /** A length; no more than what is left to read, so that damage can't ask for the whole memory. */
  private static int count(DataInputStream in) throws IOException {
    int count = in.readInt();
    if (count < 0 || count > in.available()) {
      throw new IOException("not an entry of the index: a length of " + count);
    }
    return count;
  }
}
