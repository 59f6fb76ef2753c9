package rakelight.cli;

import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;

/**
 * What the program prints, in UTF-8. Control characters, which a file's name or a tag may hold and
 * which would drive the terminal, are printed as the sign for a character that can't be shown.
 */
final class PlainWriter extends PrintWriter {
  PlainWriter(OutputStream out) {
    super(out, true, StandardCharsets.UTF_8);
  }

  /** Writes what does drive the terminal, such as the end of a bar. */
  void control(String sequence) {
    super.write(sequence, 0, sequence.length());
  }

  @Override
  public void write(int c) {
    super.write(plain((char) c));
  }

  @Override
  public void write(char[] text, int from, int length) {
    char[] plain = new char[length];
    for (int i = 0; i < length; i++) {
      plain[i] = plain(text[from + i]);
    }
    super.write(plain, 0, length);
  }

  @Override
  public void write(String text, int from, int length) {
    write(text.toCharArray(), from, length);
  }

  private static char plain(char c) {
    return Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t' ? '\uFFFD' : c;
  }
}
