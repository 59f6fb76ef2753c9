package rakelight.index;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.LeafReaderContext;

/**
 * Which files of an index were verified, so that their checksums are reckoned when the index
 * changes and not at each search. The file {@code checked} beside the generations names each by
 * name, size and time of change; it may be deleted.
 */
final class CheckedFiles {
  private static final String CHECKED = "checked";

  private CheckedFiles() {}

  static void verify(Path folder, Path generation, DirectoryReader reader) throws IOException {
    Set<String> known = known(folder);
    Set<String> now = new TreeSet<>();
    for (String file : reader.getIndexCommit().getFileNames()) {
      now.add(line(generation, file));
    }
    if (known.containsAll(now)) {
      return;
    }
    for (LeafReaderContext leaf : reader.leaves()) {
      leaf.reader().checkIntegrity();
    }
    note(folder, now);
  }

  private static Set<String> known(Path folder) {
    try {
      Path file = folder.resolve(CHECKED);
      return Files.exists(file)
          ? new HashSet<>(Files.readAllLines(file, StandardCharsets.UTF_8))
          : Set.of();
    } catch (IOException e) {
      // What can't be read was never verified.
      return Set.of();
    }
  }

  private static String line(Path generation, String name) throws IOException {
    Path file = generation.resolve(name);
    return generation.getFileName()
        + "/"
        + name
        + " "
        + Files.size(file)
        + " "
        + Files.getLastModifiedTime(file).toInstant();
  }

  private static void note(Path folder, Set<String> files) {
    try {
      Path temporary = folder.resolve(CHECKED + ".part");
      Files.write(temporary, List.copyOf(new LinkedHashSet<>(files)), StandardCharsets.UTF_8);
      Files.move(
          temporary,
          folder.resolve(CHECKED),
          StandardCopyOption.ATOMIC_MOVE,
          StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      // A folder that can't be written is verified each time.
      return;
    }
  }
}
