package rakelight.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/**
 * The original files, byte for byte, each named by the SHA-256 of its content: {@code
 * originals/ab/cd/abcd...ef.jpg}. Written once and read-only, so {@code sha256sum} alone can audit
 * them. Those that were withdrawn and kept lie apart, {@code originals/sealed/ab/cd/...}, where
 * nothing looks for an original.
 */
public final class Originals {
  static final String FOLDER = "originals";
  static final String INCOMING = "incoming";
  private static final String SEALED = "sealed";
  private static final Pattern EXTENSION = Pattern.compile("[a-z0-9]{1,8}");
  private static final Pattern SHARD = Pattern.compile("[0-9a-f]{2}");

  private final Path folder;

  /** Those found as their names say in this run, with size and time of what was read. */
  private final Map<Sha256, Stamp> found = new ConcurrentHashMap<>();

  private record Stamp(long sizeBytes, FileTime changed) {
    static Stamp of(Path file) throws IOException {
      return new Stamp(Files.size(file), Files.getLastModifiedTime(file));
    }
  }

  Originals(Path folder) {
    this.folder = folder;
  }

  /**
   * Where an original lies or would lie.
   *
   * @param extension of its kind of file, lower case, without the dot
   */
  public Path path(Sha256 digest, String extension) {
    if (!EXTENSION.matcher(extension).matches()) {
      throw new IllegalArgumentException("not a file extension: " + extension);
    }
    String hex = digest.hex();
    return folder
        .resolve(hex.substring(0, 2))
        .resolve(hex.substring(2, 4))
        .resolve(hex + "." + extension);
  }

  /** Whether there is a file with this digest in its name, sealed or not. */
  boolean isThere(Sha256 digest) {
    return find(digest).isPresent()
        || sealed().stream()
            .anyMatch(file -> digestInName(file).filter(digest::equals).isPresent());
  }

  /** The file with this digest in its name, whatever its extension. */
  public Optional<Path> find(Sha256 digest) {
    Path shard = folder.resolve(digest.hex().substring(0, 2)).resolve(digest.hex().substring(2, 4));
    if (!Files.isDirectory(shard)) {
      return Optional.empty();
    }
    return list(shard, "*").stream()
        .filter(file -> digestInName(file).filter(digest::equals).isPresent())
        .findFirst();
  }

  /**
   * The bytes of an original, each time compared with its digest.
   *
   * @throws BadInputException if it is missing or damaged
   */
  byte[] read(Sha256 digest) throws BadInputException {
    Path file = required(digest);
    byte[] bytes;
    try {
      bytes = Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (!Sha256.of(bytes).equals(digest)) {
      throw damaged(file);
    }
    return bytes;
  }

  /**
   * The file of an original, compared with its digest when this run first asks for it, and again if
   * it has been written to since.
   *
   * @throws BadInputException if it is missing or damaged
   */
  Path sound(Sha256 digest) throws BadInputException {
    Path file = required(digest);
    try {
      Stamp stamp = Stamp.of(file);
      if (!stamp.equals(found.get(digest))) {
        if (!Sha256.of(file).equals(digest)) {
          throw damaged(file);
        }
        found.put(digest, stamp);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return file;
  }

  private Path required(Sha256 digest) throws BadInputException {
    return find(digest)
        .orElseThrow(
            () ->
                new BadInputException(
                    "its original "
                        + digest
                        + " is missing; ingest the same file again, or restore it from a backup"));
  }

  private static BadInputException damaged(Path file) {
    return new BadInputException(
        "its original "
            + file
            + " is damaged: its bytes aren't those its name tells; ingest the same file again, or"
            + " restore it from a backup");
  }

  /** The digest a file's name claims; empty for a name that isn't an original's. */
  static Optional<Sha256> digestInName(Path file) {
    String name = String.valueOf(file.getFileName());
    int dot = name.indexOf('.');
    return dot == 64
            && Sha256.HEX.matcher(name.substring(0, dot)).matches()
            && EXTENSION.matcher(name.substring(dot + 1).toLowerCase(Locale.ROOT)).matches()
        ? Optional.of(new Sha256(name.substring(0, dot)))
        : Optional.empty();
  }

  /** Where a sealed original lies or would lie. */
  Path sealedPath(Sha256 digest, String extension) {
    return folder.resolve(SEALED).resolve(folder.relativize(path(digest, extension)));
  }

  /** Seals an original, if it lies among the others. */
  void seal(Sha256 digest) throws IOException {
    Optional<Path> file = find(digest);
    if (file.isPresent()) {
      move(file.get(), folder.resolve(SEALED).resolve(folder.relativize(file.get())));
    }
  }

  /** Deletes an original, sealed or not. */
  void purge(Sha256 digest) throws IOException {
    Optional<Path> file = find(digest);
    if (file.isPresent()) {
      Durable.delete(file.get());
    }
  }

  /** Puts sealed originals back among the others. */
  void unseal(Predicate<Sha256> which) throws IOException {
    for (Path file : sealed()) {
      if (digestInName(file).filter(which).isPresent()) {
        move(file, folder.resolve(folder.resolve(SEALED).relativize(file)));
      }
    }
  }

  private static void move(Path file, Path target) throws IOException {
    Path shard = target.resolveSibling("");
    Files.createDirectories(shard);
    Durable.rename(file, target);
    Durable.flushFolder(shard);
    Durable.flushFolder(file.resolveSibling(""));
  }

  private List<Path> sealed() {
    Path sealed = folder.resolve(SEALED);
    return Files.isDirectory(sealed) ? all(sealed) : List.of();
  }

  /** Every file under the folder, sorted, the sealed ones last, without what is just coming in. */
  List<Path> all() {
    List<Path> files = new ArrayList<>(all(folder));
    files.addAll(sealed());
    return files;
  }

  private static List<Path> all(Path folder) {
    List<Path> files = new ArrayList<>();
    for (Path first : list(folder, "*")) {
      if (Set.of(INCOMING, SEALED).contains(String.valueOf(first.getFileName()))) {
        continue;
      }
      if (!Files.isDirectory(first) || !SHARD.matcher(first.getFileName().toString()).matches()) {
        files.add(first);
        continue;
      }
      for (Path second : list(first, "*")) {
        if (Files.isDirectory(second)) {
          files.addAll(list(second, "*"));
        } else {
          files.add(second);
        }
      }
    }
    return files;
  }

  /**
   * Opens a door for new originals, and clears away what a process that died left in its own.
   *
   * @throws ArchiveException if the folder can't be written
   */
  public Incoming receive() {
    return Incoming.open(this, folder);
  }

  private static List<Path> list(Path folder, String glob) {
    List<Path> entries = new ArrayList<>();
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder, glob)) {
      stream.forEach(entries::add);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Collections.sort(entries);
    return entries;
  }
}
