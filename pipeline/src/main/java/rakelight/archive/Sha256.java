package rakelight.archive;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.regex.Pattern;

/** The SHA-256 of a file's bytes, as 64 lower-case hexadecimal digits. */
public record Sha256(@JsonValue String hex) {
  static final Pattern HEX = Pattern.compile("[0-9a-f]{64}");
  private static final int CHUNK_BYTES = 1 << 20;

  /**
   * @throws IllegalArgumentException if the text isn't 64 lower-case hexadecimal digits
   */
  @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
  public Sha256 {
    if (!HEX.matcher(hex).matches()) {
      throw new IllegalArgumentException("not a SHA-256 in lower-case hexadecimal: " + hex);
    }
  }

  /** The digest of these bytes. */
  public static Sha256 of(byte[] bytes) {
    return finish(digest(), bytes);
  }

  /** The digest of this text in UTF-8. */
  public static Sha256 of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  /** The digest of a file, read in one pass. */
  public static Sha256 of(Path file) throws IOException {
    MessageDigest digest = digest();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] chunk = new byte[CHUNK_BYTES];
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        digest.update(chunk, 0, n);
      }
    }
    return finish(digest, new byte[0]);
  }

  static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }

  static Sha256 finish(MessageDigest digest, byte[] rest) {
    return new Sha256(HexFormat.of().formatHex(digest.digest(rest)));
  }

  @Override
  public String toString() {
    return hex;
  }
}
