package rakelight.relief;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The cut letters of one photograph of a face, see {@link FindLettering}. */
public record LetteringLook(List<LetterShape> letters) {
  public LetteringLook {
    letters = List.copyOf(letters);
  }

  /** By which letter they are, in the order they were first seen. */
  public Map<String, List<LetterShape>> byLetter() {
    Map<String, List<LetterShape>> by = new LinkedHashMap<>();
    for (LetterShape one : letters) {
      by.computeIfAbsent(one.letter(), letter -> new ArrayList<>()).add(one);
    }
    return by;
  }

  /** Big-endian: for each letter its UTF-8 length and bytes, half its width, its square. */
  byte[] bytes() {
    int square = LetterShape.SIDE * LetterShape.SIDE;
    List<byte[]> names =
        letters.stream().map(one -> one.letter().getBytes(StandardCharsets.UTF_8)).toList();
    int room = names.stream().mapToInt(name -> 1 + name.length + Float.BYTES + square).sum();
    ByteBuffer out = ByteBuffer.allocate(room);
    for (int i = 0; i < letters.size(); i++) {
      LetterShape one = letters.get(i);
      out.put((byte) names.get(i).length).put(names.get(i)).putFloat((float) one.halfWidthPx());
      for (float value : one.ink()) {
        out.put((byte) Math.round(Math.max(0, Math.min(255, value))));
      }
    }
    return out.array();
  }

  /** Reads what {@link #bytes} wrote. */
  static LetteringLook read(byte[] bytes) {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    List<LetterShape> letters = new ArrayList<>();
    while (in.hasRemaining()) {
      byte[] name = new byte[in.get()];
      in.get(name);
      float halfWidthPx = in.getFloat();
      float[] ink = new float[LetterShape.SIDE * LetterShape.SIDE];
      for (int i = 0; i < ink.length; i++) {
        ink[i] = in.get() & 0xff;
      }
      letters.add(new LetterShape(new String(name, StandardCharsets.UTF_8), ink, halfWidthPx));
    }
    return new LetteringLook(letters);
  }
}
