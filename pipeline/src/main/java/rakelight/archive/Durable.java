package rakelight.archive;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;

/** Moves and flushes that survive a power cut, as far as the platform allows. */
final class Durable {
  private static final boolean POSIX =
      FileSystems.getDefault().supportedFileAttributeViews().contains("posix");

  private Durable() {}

  /** Renames within one file system; the name shows either nothing or the whole file. */
  static void rename(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      throw new IOException("the folder's file system can't rename atomically: " + to, e);
    }
  }

  /** Writes a file, or writes it anew, so that it is on the disk when this returns. */
  static void write(Path file, byte[] bytes) throws IOException {
    try (FileChannel channel =
        FileChannel.open(
            file,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      ByteBuffer rest = ByteBuffer.wrap(bytes);
      while (rest.hasRemaining()) {
        channel.write(rest);
      }
      channel.force(true);
    }
  }

  /** Flushes a folder's entries. Windows can't open folders and keeps their entries by itself. */
  static void flushFolder(Path folder) throws IOException {
    if (!POSIX) {
      return;
    }
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }

  static void readOnly(Path file) throws IOException {
    if (POSIX) {
      Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("r--r--r--"));
    } else if (!file.toFile().setReadOnly()) {
      throw new IOException("can't be made read-only: " + file);
    }
  }

  /** Deletes a file that may have been made read-only, which Windows refuses. */
  static void delete(Path file) throws IOException {
    if (!POSIX && Files.exists(file) && !file.toFile().setWritable(true)) {
      throw new IOException("can't be made writable: " + file);
    }
    Files.deleteIfExists(file);
  }
}
