package rakelight.samples;

import java.util.ArrayList;
import java.util.List;

/**
 * A line as the ground's tables write it, taken apart.
 *
 * <p>{@code {n12:HANNAH WREN}} says that these letters state something of person P12; the first
 * letter is the kind (see {@link Kind}). {@code [ANNA]} is a place where the surface is to be lost
 * whatever the weather does. {@code 6^TH^} sets raised letters. A run of {@code ~} is space left
 * uncut, one sign wide each.
 */
record MarkedText(List<Sign> signs, List<Span> spans) {

  /** One sign as cut; {@code span} is an index into the spans or -1. */
  record Sign(char letter, boolean superior, boolean gone, boolean blank, int span) {}

  /** What a stretch of letters states, and of whom. */
  record Span(Kind kind, String person) {}

  enum Kind {
    NAME('n'),
    DEATH('d'),
    BIRTH('b'),
    AGE('a'),
    KIN('k'),
    SERVICE('s'),
    ORIGIN('o'),
    MARRIAGE('m');

    private final char mark;

    Kind(char mark) {
      this.mark = mark;
    }

    private static Kind of(char mark, String line) {
      for (Kind k : values()) {
        if (k.mark == mark) {
          return k;
        }
      }
      throw new IllegalArgumentException("Unknown kind '" + mark + "' in line: " + line);
    }
  }

  MarkedText {
    signs = List.copyOf(signs);
    spans = List.copyOf(spans);
  }

  static MarkedText parse(String line) {
    List<Sign> signs = new ArrayList<>();
    List<Span> spans = new ArrayList<>();
    boolean superior = false;
    boolean gone = false;
    int span = -1;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      switch (c) {
        case '^' -> superior = !superior;
        case '[' -> gone = true;
        case ']' -> gone = false;
        case '{' -> {
          int colon = line.indexOf(':', i);
          if (colon < 0) {
            throw new IllegalArgumentException("'{' without ':' in line: " + line);
          }
          span = spans.size();
          spans.add(
              new Span(Kind.of(line.charAt(i + 1), line), "P" + line.substring(i + 2, colon)));
          i = colon;
        }
        case '}' -> span = -1;
        case '~' -> signs.add(new Sign(' ', false, false, true, span));
        default -> signs.add(new Sign(c, superior, gone, false, span));
      }
    }
    return new MarkedText(signs, spans);
  }

  /** The letters as they were cut, without marks. */
  String asCut() {
    StringBuilder b = new StringBuilder();
    for (Sign s : signs) {
      b.append(s.letter());
    }
    return b.toString().strip();
  }
}
