package rakelight.publish.site;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import rakelight.archive.ArchiveException;

/**
 * The folder of a site as it is made: all files are written into another beside it, which takes its
 * place once it is whole. What lay there is left alone until then, and touched only if it is an
 * earlier site of ours, which {@value #OURS} tells.
 */
final class SiteFolder implements AutoCloseable {
  static final String OURS = "rakelight-site.json";

  private final Path folder;
  private final Path aside;
  private final Path before;
  private final Set<String> written = new TreeSet<>();
  private long sizeBytes;
  private boolean done;

  private SiteFolder(Path folder, Path aside, Path before) {
    this.folder = folder;
    this.aside = aside;
    this.before = before;
  }

  /**
   * Begins a site.
   *
   * @throws ArchiveException if the folder holds anything else than an earlier site
   */
  static SiteFolder begin(Path to) throws IOException {
    Path folder = to.toAbsolutePath().normalize();
    if (folder.getFileName() == null) {
      throw new ArchiveException(to + " is no folder that a site could take the place of.");
    }
    Optional<String> other = inTheWay(folder);
    if (other.isPresent()) {
      throw new ArchiveException(
          folder
              + " holds "
              + other.get()
              + " and isn't a site made before. Give an empty or a new folder.");
    }
    Path parent = Optional.ofNullable(folder.getParent()).orElseThrow();
    Files.createDirectories(parent);
    Path aside = parent.resolve("." + folder.getFileName() + ".making");
    Path before = parent.resolve("." + folder.getFileName() + ".before");
    for (Path left : new Path[] {aside, before}) {
      if (Files.isDirectory(left)) {
        delete(left);
      }
    }
    Files.createDirectories(aside);
    return new SiteFolder(folder, aside, before);
  }

  /** Something that isn't ours; empty if the folder may be used. */
  private static Optional<String> inTheWay(Path folder) throws IOException {
    if (!Files.exists(folder) || Files.isRegularFile(folder.resolve(OURS))) {
      return Optional.empty();
    }
    if (!Files.isDirectory(folder)) {
      return Optional.of("no folder but a file");
    }
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
      for (Path file : files) {
        return Optional.of(String.valueOf(file.getFileName()));
      }
    }
    return Optional.empty();
  }

  /** Somebody who writes a text. */
  interface Writing {
    void to(Writer out) throws IOException;
  }

  /**
   * Writes a text.
   *
   * @param path below the folder, parted by slashes
   */
  void text(String path, Writing writing) throws IOException {
    Path file = file(path);
    try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      writing.to(out);
    }
    sizeBytes += Files.size(file);
  }

  /** Writes a file of bytes. */
  void bytes(String path, byte[] bytes) throws IOException {
    Files.write(file(path), bytes);
    sizeBytes += bytes.length;
  }

  /** Copies a file. */
  void copy(String path, Path from) throws IOException {
    Path file = file(path);
    Files.copy(from, file, StandardCopyOption.REPLACE_EXISTING);
    sizeBytes += Files.size(file);
  }

  boolean has(String path) {
    return written.contains(path);
  }

  private Path file(String path) throws IOException {
    Path file = aside.resolve(path);
    Files.createDirectories(file.getParent());
    written.add(path);
    return file;
  }

  /** The pages, by path. */
  Stream<String> pages() {
    return written.stream().filter(path -> path.endsWith(".html"));
  }

  int files() {
    return written.size();
  }

  long sizeBytes() {
    return sizeBytes;
  }

  /** Puts the site in its place. */
  void finish() throws IOException {
    if (Files.exists(folder)) {
      Files.move(folder, before, StandardCopyOption.ATOMIC_MOVE);
    }
    Files.move(aside, folder, StandardCopyOption.ATOMIC_MOVE);
    done = true;
    if (Files.exists(before)) {
      delete(before);
    }
  }

  @Override
  public void close() throws IOException {
    if (!done && Files.exists(aside)) {
      delete(aside);
    }
  }

  static void delete(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(each);
      }
    }
  }
}
