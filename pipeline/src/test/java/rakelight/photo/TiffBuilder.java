package rakelight.photo;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

/** Writes the directories of a TIFF file, for Exif blocks and for small raw files in tests. */
final class TiffBuilder {
  private final ByteOrder order;
  private final List<Directory> chain = new ArrayList<>();

  TiffBuilder(ByteOrder order) {
    this.order = order;
  }

  /** One directory in the making. */
  final class Directory {
    private record Field(
        int type, int count, byte[] data, List<Directory> pointsTo, boolean blob) {}

    private final TreeMap<Integer, Field> fields = new TreeMap<>();

    Directory shorts(int tag, int... values) {
      ByteBuffer data = ByteBuffer.allocate(2 * values.length).order(order);
      for (int value : values) {
        data.putShort((short) value);
      }
      return put(tag, new Field(3, values.length, data.array(), List.of(), false));
    }

    Directory longs(int tag, long... values) {
      ByteBuffer data = ByteBuffer.allocate(4 * values.length).order(order);
      for (long value : values) {
        data.putInt((int) value);
      }
      return put(tag, new Field(4, values.length, data.array(), List.of(), false));
    }

    Directory bytes(int tag, int... values) {
      byte[] data = new byte[values.length];
      for (int i = 0; i < values.length; i++) {
        data[i] = (byte) values[i];
      }
      return put(tag, new Field(1, values.length, data, List.of(), false));
    }

    Directory text(int tag, String value) {
      byte[] data = (value + "\0").getBytes(StandardCharsets.US_ASCII);
      return put(tag, new Field(2, data.length, data, List.of(), false));
    }

    /** Numerators and denominators in turn. */
    Directory rationals(int tag, long... values) {
      ByteBuffer data = ByteBuffer.allocate(4 * values.length).order(order);
      for (long value : values) {
        data.putInt((int) value);
      }
      return put(tag, new Field(5, values.length / 2, data.array(), List.of(), false));
    }

    Directory directories(int tag, Directory... others) {
      return put(tag, new Field(4, others.length, new byte[0], List.of(others), false));
    }

    /** Puts bytes somewhere in the file and their place into the field. */
    Directory blobAt(int tag, byte[] blob) {
      return put(tag, new Field(4, 1, blob, List.of(), true));
    }

    private Directory put(int tag, Field field) {
      fields.put(tag, field);
      return this;
    }
  }

  /** A directory that isn't in the chain, to be pointed to. */
  Directory loose() {
    return new Directory();
  }

  /** The next directory of the chain. */
  Directory chained() {
    Directory directory = new Directory();
    chain.add(directory);
    return directory;
  }

  byte[] build() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    write(out, order == ByteOrder.LITTLE_ENDIAN ? new byte[] {'I', 'I'} : new byte[] {'M', 'M'});
    write(out, ByteBuffer.allocate(2).order(order).putShort((short) 42).array());
    write(out, new byte[4]);
    int firstPointer = 4;
    byte[] file = null;
    List<int[]> links = new ArrayList<>();
    int pointer = firstPointer;
    for (Directory directory : chain) {
      int[] place = place(out, directory);
      links.add(new int[] {pointer, place[0]});
      pointer = place[1];
    }
    file = out.toByteArray();
    for (int[] link : links) {
      ByteBuffer.wrap(file).order(order).putInt(link[0], link[1]);
    }
    return file;
  }

  /** Writes a directory behind all it points to; gives its place and that of its link field. */
  private int[] place(ByteArrayOutputStream out, Directory directory) {
    TreeMap<Integer, byte[]> values = new TreeMap<>();
    directory.fields.forEach(
        (tag, field) -> {
          byte[] data = field.data();
          if (!field.pointsTo().isEmpty()) {
            ByteBuffer places = ByteBuffer.allocate(4 * field.pointsTo().size()).order(order);
            field.pointsTo().forEach(other -> places.putInt(place(out, other)[0]));
            data = places.array();
          } else if (field.blob()) {
            int at = align(out);
            write(out, data);
            data = ByteBuffer.allocate(4).order(order).putInt(at).array();
          }
          if (data.length > 4) {
            int at = align(out);
            write(out, data);
            data = ByteBuffer.allocate(4).order(order).putInt(at).array();
          }
          values.put(tag, java.util.Arrays.copyOf(data, 4));
        });
    int start = align(out);
    ByteBuffer entries = ByteBuffer.allocate(2 + 12 * directory.fields.size() + 4).order(order);
    entries.putShort((short) directory.fields.size());
    directory.fields.forEach(
        (tag, field) ->
            entries
                .putShort((short) (int) tag)
                .putShort((short) field.type())
                .putInt(field.count())
                .put(values.get(tag)));
    int link = start + entries.position();
    entries.putInt(0);
    write(out, entries.array());
    return new int[] {start, link};
  }

  private static int align(ByteArrayOutputStream out) {
    if (out.size() % 2 != 0) {
      out.write(0);
    }
    return out.size();
  }

  private static void write(ByteArrayOutputStream out, byte[] bytes) {
    try {
      out.write(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
