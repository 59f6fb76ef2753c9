package rakelight.publish.gedcom;

import java.io.IOException;
import java.util.regex.Pattern;

/**
 * Lines of a GEDCOM 7 file (FamilySearch GEDCOM 7.0, section 1): level, pointer, tag and payload.
 * Line ends within a payload go on in {@code CONT}, an at sign at its beginning is doubled, and
 * characters that the standard bans are left out.
 */
final class GedcomWriter {
  /**
   * C0 but tabulator and line ends, DEL, C1, surrogates without a partner, and two non-characters.
   */
  private static final Pattern BANNED =
      Pattern.compile("[\\x00-\\x08\\x0B\\x0C\\x0E-\\x1F\\x7F-\\x9F\\uD800-\\uDFFF\\uFFFE\\uFFFF]");

  private final Appendable out;

  GedcomWriter(Appendable out) {
    this.out = out;
  }

  /** A record of its own, such as {@code 0 @P1@ INDI}. */
  void record(String pointer, String tag) throws IOException {
    out.append("0 @").append(pointer).append("@ ").append(tag).append('\n');
  }

  /** A line without payload. */
  void line(int level, String tag) throws IOException {
    out.append(String.valueOf(level)).append(' ').append(tag).append('\n');
  }

  /** A line with a text, which may hold line ends; without payload if it is empty. */
  void line(int level, String tag, String text) throws IOException {
    String[] lines = BANNED.matcher(text).replaceAll("").split("\\r\\n|\\r|\\n", -1);
    for (int i = 0; i < lines.length; i++) {
      int at = i == 0 ? level : level + 1;
      String payload = lines[i].startsWith("@") ? "@" + lines[i] : lines[i];
      if (payload.isEmpty()) {
        line(at, i == 0 ? tag : "CONT");
      } else {
        out.append(String.valueOf(at))
            .append(' ')
            .append(i == 0 ? tag : "CONT")
            .append(' ')
            .append(payload)
            .append('\n');
      }
    }
  }

  /** A line that points to a record. */
  void pointer(int level, String tag, String pointer) throws IOException {
    out.append(String.valueOf(level)).append(' ').append(tag).append(" @").append(pointer);
    out.append("@\n");
  }
}
