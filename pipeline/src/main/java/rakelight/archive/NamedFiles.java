package rakelight.archive;

import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * A result of several files, such as pictures.
 *
 * @param files by name, such as {@code depth.png}: lower-case letters, figures, hyphens and dots
 */
public record NamedFiles(SortedMap<String, byte[]> files) {
  private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]*(\\.[a-z0-9-]+)*");

  public NamedFiles {
    files = Collections.unmodifiableSortedMap(new TreeMap<>(files));
    files.keySet().forEach(NamedFiles::requireName);
  }

  public static NamedFiles of(Map<String, byte[]> files) {
    return new NamedFiles(new TreeMap<>(files));
  }

  /** Their names, sorted. */
  public Set<String> names() {
    return files.keySet();
  }

  /** The content of one. */
  public Optional<byte[]> file(String name) {
    return Optional.ofNullable(files.get(name));
  }

  static boolean isName(String name) {
    return NAME.matcher(name).matches();
  }

  static void requireName(String name) {
    if (!isName(name)) {
      throw new IllegalArgumentException("not the name of a derived file: " + name);
    }
  }
}
