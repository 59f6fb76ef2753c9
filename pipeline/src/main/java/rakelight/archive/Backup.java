package rakelight.archive;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Copies an archive while others go on working in it: the ledger by SQLite's own backup, then every
 * original, digested on its way. What a machine made is left out; it comes back. The ledger takes
 * its name last, so that a copy cut short is no archive.
 */
public final class Backup {
  private static final String WARNING = "CONFIDENTIAL.txt";
  private static final int CHUNK_BYTES = 1 << 20;

  private final Archive archive;
  private final Path target;
  private final List<Check.Fault> faults = new ArrayList<>();

  private Backup(Archive archive, Path target) {
    this.archive = archive;
    this.target = target;
  }

  /**
   * What was copied.
   *
   * @param faults originals that weren't, since they aren't what their name says
   */
  public record Result(int originals, long sizeBytes, List<Check.Fault> faults) {
    public Result {
      faults = List.copyOf(faults);
    }
  }

  /**
   * Copies the archive.
   *
   * @param target a folder that is empty or doesn't exist yet
   * @param progress is told of each original as it has been copied
   * @throws ArchiveException if the folder is in use or lies within the archive, or can't be
   *     written
   */
  public static Result copy(Archive archive, Path target, Consumer<Path> progress) {
    Backup backup = new Backup(archive, target);
    try {
      return backup.copy(progress);
    } catch (IOException e) {
      throw new ArchiveException(
          target + ": the backup wasn't finished (" + e + "). Remove the folder and try again.", e);
    }
  }

  private Result copy(Consumer<Path> progress) throws IOException {
    Path root = archive.root().toAbsolutePath().normalize();
    if (target.toAbsolutePath().normalize().startsWith(root)) {
      throw new ArchiveException(target + ": lies within the archive. Give a folder elsewhere.");
    }
    Files.createDirectories(target);
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(target)) {
      if (entries.iterator().hasNext()) {
        throw new ArchiveException(
            target + ": the folder isn't empty. Give a new folder for each backup.");
      }
    }
    Files.writeString(target.resolve(WARNING), Notice.confidential());
    Notice.write(target, archive.ground(), archive.ledger().schema());
    Files.createDirectories(target.resolve(Originals.FOLDER));
    Files.createDirectories(target.resolve(Derived.FOLDER));
    // The ledger first: an original's row comes after the original, so that all it speaks of are
    // there to be copied.
    Path ledger = target.resolve(Ledger.FILE + ".part");
    archive.ledger().backupTo(ledger);
    int originals = 0;
    long sizeBytes = 0;
    for (Path original : archive.originals().all()) {
      if (copied(original)) {
        originals++;
        sizeBytes += Files.size(original);
      }
      progress.accept(original);
    }
    try (FileChannel channel = FileChannel.open(ledger, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    Durable.rename(ledger, target.resolve(Ledger.FILE));
    Durable.flushFolder(target);
    return new Result(originals, sizeBytes, faults);
  }

  private boolean copied(Path original) throws IOException {
    Sha256 named = Originals.digestInName(original).orElse(null);
    if (named == null) {
      faults.add(
          new Check.Fault("original-stray", original.toString(), "isn't an original; not copied."));
      return false;
    }
    Path copy = target.resolve(archive.root().relativize(original));
    Files.createDirectories(copy.resolveSibling("."));
    MessageDigest digest = Sha256.digest();
    try (InputStream in = Files.newInputStream(original);
        FileChannel channel =
            FileChannel.open(copy, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        OutputStream out = new DigestOutputStream(Channels.newOutputStream(channel), digest)) {
      byte[] chunk = new byte[CHUNK_BYTES];
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        out.write(chunk, 0, n);
      }
      channel.force(true);
    }
    if (!Sha256.finish(digest, new byte[0]).equals(named)) {
      Files.delete(copy);
      faults.add(
          new Check.Fault(
              "original-changed",
              original.toString(),
              "its content isn't what its name says; not copied. Run `check`."));
      return false;
    }
    Durable.readOnly(copy);
    return true;
  }
}
