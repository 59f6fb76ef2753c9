package rakelight.archive;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.channels.ReadableByteChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * New originals on their way in.
 *
 * <p>Order of writes: a temporary file in {@code originals/incoming/RUN}, flushed, made read-only,
 * renamed to its place; then, at {@link #settle}, the folders it appeared in are flushed; only then
 * may a row speak of it. A process that dies leaves its RUN folder; the lock on the file {@code
 * lock} in it tells a dead run from a living one. Thread-safe.
 */
public final class Incoming implements AutoCloseable {
  private static final int CHUNK_BYTES = 1 << 20;
  private static final String LOCK = "lock";

  private final Originals originals;
  private final Path run;
  private final FileChannel lockFile;
  private final Set<Path> unsettled = new TreeSet<>();
  private int counter;

  private Incoming(Originals originals, Path run, FileChannel lockFile) {
    this.originals = originals;
    this.run = run;
    this.lockFile = lockFile;
  }

  static Incoming open(Originals originals, Path folder) {
    Path incoming = folder.resolve(Originals.INCOMING);
    try {
      Files.createDirectories(incoming);
      clearDeadRuns(incoming);
      // The folder gets its name only once the lock is held, so nobody takes it for a dead run's.
      Path run = incoming.resolve(Uuid7.next().toString());
      Files.createDirectory(run);
      FileChannel lockFile =
          FileChannel.open(
              run.resolve(LOCK), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      FileLock lock = lockFile.lock();
      assert lock.isValid();
      return new Incoming(originals, run, lockFile);
    } catch (IOException e) {
      throw new ArchiveException(
          incoming + ": can't be written (" + reason(e) + "). Make the archive's folder writable.",
          e);
    }
  }

  /**
   * Stores bytes held in memory, unless they are there already, whole.
   *
   * @param digest the SHA-256 of the bytes
   * @return whether they weren't
   */
  public boolean keep(Sha256 digest, String extension, byte[] bytes) throws IOException {
    Path target = originals.path(digest, extension);
    if (isThere(target, digest, bytes.length)) {
      return false;
    }
    Path temporary = temporary();
    try {
      try (FileChannel out =
          FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
        ByteBuffer buffer = ByteBuffer.wrap(bytes);
        while (buffer.hasRemaining()) {
          out.write(buffer);
        }
        out.force(true);
      }
      place(temporary, target);
    } catch (IOException e) {
      Durable.delete(temporary);
      throw e;
    }
    return true;
  }

  /** Copies a file too large for memory and digests it in the same pass. */
  public Copy copy(ReadableByteChannel in) throws IOException {
    Path temporary = temporary();
    MessageDigest digest = Sha256.digest();
    ByteBuffer chunk = ByteBuffer.allocate(CHUNK_BYTES);
    try (FileChannel out =
        FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      while (in.read(chunk) >= 0) {
        chunk.flip();
        digest.update(chunk.duplicate());
        while (chunk.hasRemaining()) {
          out.write(chunk);
        }
        chunk.clear();
      }
      out.force(true);
    } catch (IOException e) {
      Durable.delete(temporary);
      throw e;
    }
    return new Copy(temporary, Sha256.finish(digest, new byte[0]));
  }

  /**
   * Gives a copy its place, or drops it where the original is there already, whole.
   *
   * @return whether it wasn't
   */
  public boolean keep(Copy copy, String extension) throws IOException {
    Path target = originals.path(copy.digest(), extension);
    if (isThere(target, copy.digest(), Files.size(copy.file()))) {
      drop(copy);
      return false;
    }
    place(copy.file(), target);
    return true;
  }

  /** Removes a copy that shall not be kept. */
  public void drop(Copy copy) throws IOException {
    Durable.delete(copy.file());
  }

  /** Flushes the folders in which originals have appeared: after this, rows may speak of them. */
  public void settle() throws IOException {
    Set<Path> folders;
    synchronized (unsettled) {
      folders = new TreeSet<>(unsettled);
      unsettled.clear();
    }
    for (Path folder : folders) {
      Durable.flushFolder(folder);
    }
  }

  @Override
  public void close() {
    try {
      lockFile.close();
      deleteRun(run);
    } catch (IOException e) {
      // What stays behind is cleared by the next run.
    }
  }

  /** A copied file that has no place yet. */
  public record Copy(Path file, Sha256 digest) {}

  /**
   * Whether the original is there, whole. One without a row comes from a run that died between the
   * rename and the row: it is read again before it is trusted, once.
   */
  private static boolean isThere(Path target, Sha256 digest, long sizeBytes) throws IOException {
    return Files.exists(target)
        && Files.size(target) == sizeBytes
        && Sha256.of(target).equals(digest);
  }

  private void place(Path temporary, Path target) throws IOException {
    Path second = parent(target);
    Path first = parent(second);
    synchronized (unsettled) {
      if (make(first)) {
        unsettled.add(parent(first));
      }
      if (make(second)) {
        unsettled.add(first);
      }
    }
    Durable.readOnly(temporary);
    if (Files.exists(target)) {
      Durable.delete(target);
    }
    Durable.rename(temporary, target);
    synchronized (unsettled) {
      unsettled.add(second);
    }
  }

  /** Makes a folder; false if it was there. */
  private static boolean make(Path folder) throws IOException {
    if (Files.isDirectory(folder)) {
      return false;
    }
    Files.createDirectories(folder);
    return true;
  }

  private synchronized Path temporary() {
    counter++;
    return run.resolve(counter + ".part");
  }

  private static Path parent(Path path) {
    Path parent = path.getParent();
    if (parent == null) {
      throw new IllegalArgumentException("no folder above " + path);
    }
    return parent;
  }

  private static void clearDeadRuns(Path incoming) throws IOException {
    try (DirectoryStream<Path> runs = Files.newDirectoryStream(incoming)) {
      for (Path run : runs) {
        if (isDead(run)) {
          deleteRun(run);
        }
      }
    }
  }

  private static boolean isDead(Path run) throws IOException {
    try (FileChannel channel = FileChannel.open(run.resolve(LOCK), StandardOpenOption.WRITE)) {
      FileLock lock = channel.tryLock();
      return lock != null;
    } catch (OverlappingFileLockException e) {
      return false;
    } catch (NoSuchFileException e) {
      // Just being made, or made by a process that died at once: left alone while it is young.
      return Files.isDirectory(run) && madeLongAgo(run);
    }
  }

  private static boolean madeLongAgo(Path run) {
    try {
      long millis =
          UUID.fromString(String.valueOf(run.getFileName())).getMostSignificantBits() >>> 16;
      return System.currentTimeMillis() - millis > 60_000;
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private static void deleteRun(Path run) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(run)) {
      for (Path file : files) {
        Durable.delete(file);
      }
    } catch (NoSuchFileException e) {
      return;
    }
    Files.deleteIfExists(run);
  }

  private static String reason(IOException e) {
    return e.getClass().getSimpleName() + ": " + reasonText(e.getMessage());
  }

  private static String reasonText(@Nullable String message) {
    return message == null ? "no reason given" : message;
  }
}
