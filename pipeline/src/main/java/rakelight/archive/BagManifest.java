package rakelight.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A manifest of a bag: the digest of each file it lists (RFC 8493, sections 2.1.3 and 2.2.1).
 *
 * @param name the file's own name, such as {@code manifest-sha512.txt}
 * @param algorithm as in the name, such as {@code sha512}
 * @param digests lower-case hexadecimal digits by path from the bag's folder, with {@code /}
 * @param twice paths that are listed more than once
 * @param unreadable lines that are no digest and path
 */
record BagManifest(
    String name,
    String algorithm,
    Map<String, String> digests,
    List<String> twice,
    List<String> unreadable) {
  private static final Pattern NAME = Pattern.compile("(tag)?manifest-([a-z0-9]+)\\.txt");
  private static final Pattern LINE = Pattern.compile("([0-9a-fA-F]+)[ \\t]+\\*?(.+)");
  private static final Pattern ESCAPED = Pattern.compile("%(0[aA]|0[dD]|25)");

  /** Whether it lists tag files and not the payload. */
  boolean isOfTags() {
    return name.startsWith("tag");
  }

  /** The algorithm that a file's name tells, if it is a manifest's name. */
  static Optional<String> algorithmOf(Path file) {
    Matcher name = NAME.matcher(String.valueOf(file.getFileName()));
    return name.matches() ? Optional.of(name.group(2)) : Optional.empty();
  }

  /** A digest by a manifest's algorithm, as the Java platform calls it. */
  static Optional<MessageDigest> digest(String algorithm) {
    try {
      return Optional.of(
          MessageDigest.getInstance(
              algorithm.toUpperCase(Locale.ROOT).replaceFirst("SHA", "SHA-")));
    } catch (NoSuchAlgorithmException e) {
      return Optional.empty();
    }
  }

  /**
   * Reads a manifest.
   *
   * @throws MalformedInputException if its bytes aren't of the bag's encoding
   */
  static BagManifest read(Path file, Charset encoding) throws IOException {
    Map<String, String> digests = new TreeMap<>();
    List<String> twice = new ArrayList<>();
    List<String> unreadable = new ArrayList<>();
    try (var lines = Files.lines(file, encoding)) {
      lines
          .filter(line -> !line.isBlank())
          .forEach(
              line -> {
                Matcher entry = LINE.matcher(line);
                if (!entry.matches()) {
                  unreadable.add(line);
                } else if (digests.put(
                        unescaped(entry.group(2)), entry.group(1).toLowerCase(Locale.ROOT))
                    != null) {
                  twice.add(unescaped(entry.group(2)));
                }
              });
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    return new BagManifest(
        String.valueOf(file.getFileName()),
        algorithmOf(file).orElseThrow(),
        digests,
        twice,
        unreadable);
  }

  /** Writes a manifest in UTF-8 under its name, which shows the old one or all of the new. */
  static void write(Path file, Map<String, String> digests) throws IOException {
    StringBuilder text = new StringBuilder();
    new TreeMap<>(digests)
        .forEach(
            (path, digest) -> text.append(digest).append("  ").append(escaped(path)).append('\n'));
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Durable.write(part, text.toString().getBytes(StandardCharsets.UTF_8));
    Durable.rename(part, file);
  }

  private static String escaped(String path) {
    return path.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A");
  }

  private static String unescaped(String path) {
    return ESCAPED
        .matcher(path)
        .replaceAll(
            one ->
                Matcher.quoteReplacement(
                    String.valueOf((char) Integer.parseInt(one.group(1), 16))));
  }
}
