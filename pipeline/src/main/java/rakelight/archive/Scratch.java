package rakelight.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * A folder for what an archive that can't be written needs while it is looked at: a copy of its
 * ledger, which may have to be brought up to date, and what is made by machine. Nobody else may
 * read it; it goes when it is closed, or when the program ends.
 */
final class Scratch implements AutoCloseable {
  /** Another program may be writing; then what was copied doesn't belong together. */
  private static final int ATTEMPTS = 3;

  private final Path folder;
  private final Thread atTheEnd = new Thread(this::delete, "scratch");

  private Scratch(Path folder) {
    this.folder = folder;
    Runtime.getRuntime().addShutdownHook(atTheEnd);
  }

  /**
   * A folder with a copy of a ledger in it.
   *
   * @throws ArchiveException if it can't be copied
   */
  static Scratch with(Path ledger) {
    try {
      Scratch scratch = new Scratch(Files.createTempDirectory("rakelight-"));
      scratch.copy(ledger);
      return scratch;
    } catch (IOException e) {
      throw new ArchiveException(
          ledger + ": can't be copied to be looked at (" + e + "). Check the disk.", e);
    }
  }

  /** A folder with what is put into it. */
  static Scratch of(Consumer<Path> put) {
    try {
      Scratch scratch = new Scratch(Files.createTempDirectory("rakelight-"));
      put.accept(scratch.folder);
      return scratch;
    } catch (IOException e) {
      throw new ArchiveException("No temporary folder can be made (" + e + "). Check the disk.", e);
    }
  }

  Path folder() {
    return folder;
  }

  private void copy(Path ledger) throws IOException {
    for (int attempt = 1; attempt <= ATTEMPTS; attempt++) {
      List<Object> before = state(ledger);
      Files.copy(ledger, folder.resolve(Ledger.FILE), StandardCopyOption.REPLACE_EXISTING);
      Path log = ledger.resolveSibling(Ledger.FILE + "-wal");
      if (Files.exists(log)) {
        Files.copy(log, folder.resolve(Ledger.FILE + "-wal"), StandardCopyOption.REPLACE_EXISTING);
      }
      if (state(ledger).equals(before)) {
        return;
      }
    }
    throw new IOException("another program keeps writing");
  }

  private static List<Object> state(Path ledger) throws IOException {
    List<Object> state = new ArrayList<>();
    for (String ending : List.of("", "-wal")) {
      try {
        BasicFileAttributes of =
            Files.readAttributes(
                ledger.resolveSibling(Ledger.FILE + ending), BasicFileAttributes.class);
        state.add(of.size());
        state.add(of.lastModifiedTime());
      } catch (NoSuchFileException e) {
        state.add("none");
      }
    }
    return state;
  }

  @Override
  public void close() {
    delete();
    try {
      Runtime.getRuntime().removeShutdownHook(atTheEnd);
    } catch (IllegalStateException e) {
      // The program is ending already.
    }
  }

  private void delete() {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      // Its own folder for temporary files is the system's to clear.
    }
  }
}
