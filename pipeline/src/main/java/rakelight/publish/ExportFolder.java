package rakelight.publish;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/** A folder that files for others are written into, each of them whole or not at all. */
public final class ExportFolder {
  private static final String PHOTOGRAPHS = "photographs";

  /** Below these all files are of exports. */
  private static final List<String> FOLDERS = List.of(PHOTOGRAPHS, "iiif", "annotations");

  private static final Set<String> BY_NAME =
      Set.of("persons.ged", "readings.csv", "statements.csv");

  private final Path folder;
  private final Set<Path> written = new HashSet<>();

  /** Something that is written to a file. */
  @FunctionalInterface
  public interface Content {
    /** The stream is closed by whoever opened it. */
    void to(OutputStream out) throws IOException;
  }

  /**
   * @param folder made if need be
   */
  public ExportFolder(Path folder) {
    this.folder = folder.toAbsolutePath().normalize();
  }

  /**
   * Writes a file; one of that name is replaced.
   *
   * @param name within the folder, parted by slashes
   */
  public Path put(String name, Content content) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    Path part = file.resolveSibling(file.getFileName() + ".part");
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part))) {
      content.to(out);
    }
    written.add(file);
    return Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
  }

  /** Writes a text as UTF-8. */
  public Path put(String name, String text) throws IOException {
    return put(name, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
  }

  /**
   * Copies a photograph, unless it lies there already.
   *
   * @return its name within the folder
   */
  public String copied(Path original) throws IOException {
    String name = photograph(original);
    Path copy = folder.resolve(name);
    if (!Files.exists(copy)) {
      put(name, out -> Files.copy(original, out));
    }
    written.add(copy);
    return name;
  }

  /** The name of a photograph within the folder, whether or not it is copied there. */
  public static String photograph(Path original) {
    return PHOTOGRAPHS + "/" + original.getFileName();
  }

  /** The folder itself. */
  public Path path() {
    return folder;
  }

  /** What exports write that lies in the folder and that this run hasn't written. */
  public List<Path> leftFromBefore() throws IOException {
    List<Path> left = new ArrayList<>();
    if (Files.isDirectory(folder)) {
      try (Stream<Path> files = Files.list(folder)) {
        files
            .filter(Files::isRegularFile)
            .filter(
                file ->
                    file.toString().endsWith(".xml")
                        || BY_NAME.contains(String.valueOf(file.getFileName())))
            .forEach(left::add);
      }
    }
    for (String inner : FOLDERS) {
      if (Files.isDirectory(folder.resolve(inner))) {
        try (Stream<Path> files = Files.walk(folder.resolve(inner))) {
          files.filter(Files::isRegularFile).forEach(left::add);
        }
      }
    }
    left.removeAll(written);
    Collections.sort(left);
    return left;
  }
}
