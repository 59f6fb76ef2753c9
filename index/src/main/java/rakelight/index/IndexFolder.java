package rakelight.index;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The folder of an index: {@code gen-N} holds one made from the beginning, {@code current} its
 * name, {@code lock} is locked by whoever writes. A new generation is whole before {@code current}
 * names it, and older ones go after that; so a search never meets half an index.
 */
final class IndexFolder {
  static final String FORMAT = "format";
  private static final String COUNTER = "counter";
  private static final String CURRENT = "current";
  private static final String GENERATION = "gen-";

  private IndexFolder() {}

  static IndexException missing(Path folder) {
    return new IndexException(folder + ": there is no index yet. Make one with `index`.");
  }

  /** The folder of the current generation, if one is named and there. */
  static Optional<Path> current(Path folder) {
    try {
      Path named = folder.resolve(CURRENT);
      if (!Files.exists(named)) {
        return Optional.empty();
      }
      String name = Files.readString(named, StandardCharsets.UTF_8).strip();
      if (!name.matches(GENERATION + "[0-9]{1,9}") || !Files.isDirectory(folder.resolve(name))) {
        throw new IndexException(
            folder
                + ": the index is damaged (no such part as "
                + name
                + "). Run `index` to make it anew; nothing is lost.");
      }
      return Optional.of(folder.resolve(name));
    } catch (IOException e) {
      throw new IndexException(folder + ": the index can't be read: " + e.getMessage(), e);
    }
  }

  /** A generation's folder that doesn't exist yet. */
  static Path next(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      int last =
          entries
              .map(entry -> String.valueOf(entry.getFileName()))
              .filter(name -> name.matches(GENERATION + "[0-9]{1,9}"))
              .mapToInt(name -> Integer.parseInt(name.substring(GENERATION.length())))
              .max()
              .orElse(0);
      return folder.resolve(GENERATION + (last + 1));
    }
  }

  /** Names a whole generation the current one and removes the others. */
  static void setCurrent(Path folder, Path generation) throws IOException {
    Path temporary = folder.resolve(CURRENT + ".part");
    Files.writeString(temporary, generation.getFileName() + "\n", StandardCharsets.UTF_8);
    Files.move(
        temporary,
        folder.resolve(CURRENT),
        StandardCopyOption.ATOMIC_MOVE,
        StandardCopyOption.REPLACE_EXISTING);
    List<Path> others;
    try (Stream<Path> entries = Files.list(folder)) {
      others =
          entries
              .filter(entry -> String.valueOf(entry.getFileName()).startsWith(GENERATION))
              .filter(entry -> !entry.equals(generation))
              .toList();
    }
    for (Path other : others) {
      remove(other);
    }
  }

  static void remove(Path generation) throws IOException {
    List<Path> files;
    try (Stream<Path> walk = Files.walk(generation)) {
      files = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path file : files) {
      Files.deleteIfExists(file);
    }
  }

  static Map<String, String> state(long counter) {
    return Map.of(FORMAT, String.valueOf(SearchIndex.FORMAT), COUNTER, String.valueOf(counter));
  }

  static long counter(Map<String, String> state) {
    return Long.parseLong(state.getOrDefault(COUNTER, "0"));
  }
}
