package rakelight.photo;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Incoming;
import rakelight.archive.Sha256;

/**
 * One file read, judged and stored, but not yet in the ledger.
 *
 * @param path absolute
 * @param refusal why it is not taken; then the rest is empty
 * @param digest of its content
 * @param content what it is, unless the ledger has its digest already, or it was withdrawn
 * @param stored whether its bytes were put among the originals now; where the ledger has its digest
 *     already, the original was missing or damaged
 */
record FileReading(
    Path path,
    long sizeBytes,
    Optional<RefusedFile> refusal,
    Optional<Sha256> digest,
    Optional<FileContent> content,
    boolean stored) {
  /** Files up to this size are held in memory, so that they are read once. */
  private static final long LARGEST_IN_MEMORY_BYTES = 64 << 20;

  private static final long LARGEST_BYTES = Integer.MAX_VALUE - 16;

  /** Reads, judges and stores; runs on any thread. */
  static FileReading of(
      FolderWalk.Found file, Archive archive, PhotoStore store, Incoming incoming) {
    try {
      if (file.sizeBytes() == 0) {
        Inspection.of(ByteBuffer.allocate(0), "");
      }
      if (file.sizeBytes() > LARGEST_BYTES) {
        throw new UnfitFileException(
            "too-large", "the file is larger than 2 GiB.", "Save a smaller copy and ingest that.");
      }
      return file.sizeBytes() <= LARGEST_IN_MEMORY_BYTES
          ? inMemory(file, archive, store, incoming)
          : onDisk(file, archive, store, incoming);
    } catch (UnfitFileException e) {
      return refused(file, e.refusal(file.path().toString()));
    }
  }

  private static FileReading inMemory(
      FolderWalk.Found file, Archive archive, PhotoStore store, Incoming incoming)
      throws UnfitFileException {
    byte[] bytes;
    try {
      bytes = Files.readAllBytes(file.path());
    } catch (IOException e) {
      throw unreadable(e);
    }
    Sha256 digest = Sha256.of(bytes);
    Optional<Photograph> known = store.photograph(digest);
    Optional<FileContent> content = Optional.empty();
    if (known.isEmpty()) {
      if (archive.withdrawals().of(digest).isPresent()) {
        return withdrawn(file, digest);
      }
      content = Optional.of(judge(ByteBuffer.wrap(bytes), file.path()));
    }
    boolean stored;
    try {
      stored = incoming.keep(digest, extension(known, content), bytes);
    } catch (IOException e) {
      throw unwritable(archive, e);
    }
    return new FileReading(
        file.path(), bytes.length, Optional.empty(), Optional.of(digest), content, stored);
  }

  private static FileReading onDisk(
      FolderWalk.Found file, Archive archive, PhotoStore store, Incoming incoming)
      throws UnfitFileException {
    try (FileChannel in = open(file.path())) {
      Incoming.Copy copy = copy(archive, incoming, in);
      try {
        Optional<Photograph> known = store.photograph(copy.digest());
        if (known.isEmpty() && archive.withdrawals().of(copy.digest()).isPresent()) {
          incoming.drop(copy);
          return withdrawn(file, copy.digest());
        }
        Optional<FileContent> content =
            known.isPresent() ? Optional.empty() : Optional.of(judgeCopy(copy, file.path()));
        long sizeBytes = Files.size(copy.file());
        boolean stored = incoming.keep(copy, extension(known, content));
        return new FileReading(
            file.path(), sizeBytes, Optional.empty(), Optional.of(copy.digest()), content, stored);
      } catch (UnfitFileException e) {
        incoming.drop(copy);
        throw e;
      }
    } catch (IOException e) {
      throw unwritable(archive, e);
    }
  }

  private static FileChannel open(Path path) throws UnfitFileException {
    try {
      return FileChannel.open(path, StandardOpenOption.READ);
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  private static Incoming.Copy copy(Archive archive, Incoming incoming, FileChannel in)
      throws UnfitFileException {
    try {
      return incoming.copy(new NamedFaults(in));
    } catch (NamedFaults.ReadFault e) {
      throw unreadable(e.cause());
    } catch (IOException e) {
      throw unwritable(archive, e);
    }
  }

  private static FileContent judgeCopy(Incoming.Copy copy, Path path)
      throws UnfitFileException, IOException {
    try (FileChannel channel = FileChannel.open(copy.file(), StandardOpenOption.READ)) {
      return judge(channel.map(FileChannel.MapMode.READ_ONLY, 0, channel.size()), path);
    }
  }

  private static FileContent judge(ByteBuffer bytes, Path path) throws UnfitFileException {
    return FileContent.of(bytes, String.valueOf(path.getFileName()));
  }

  private static String extension(Optional<Photograph> known, Optional<FileContent> content) {
    return content
        .map(c -> c.inspection().format())
        .or(() -> known.map(Photograph::format))
        .orElseThrow()
        .extension();
  }

  /** Neither judged nor stored. */
  private static FileReading withdrawn(FolderWalk.Found file, Sha256 digest) {
    return new FileReading(
        file.path(),
        file.sizeBytes(),
        Optional.empty(),
        Optional.of(digest),
        Optional.empty(),
        false);
  }

  private static FileReading refused(FolderWalk.Found file, RefusedFile refusal) {
    return new FileReading(
        file.path(),
        file.sizeBytes(),
        Optional.of(refusal),
        Optional.empty(),
        Optional.empty(),
        false);
  }

  private static UnfitFileException unreadable(IOException e) {
    if (e instanceof NoSuchFileException) {
      return new UnfitFileException("missing", "it has gone meanwhile.", "Check the path.");
    }
    String why = e instanceof AccessDeniedException ? "no permission" : e.toString();
    return new UnfitFileException(
        "unreadable", "it can't be read (" + why + ").", "Check its permissions and its disk.");
  }

  private static ArchiveException unwritable(Archive archive, IOException e) {
    String message = String.valueOf(e.getMessage());
    if (message.contains("No space left")
        || message.contains("not enough space")
        || message.contains("quota")) {
      return new ArchiveException(
          archive.root()
              + ": the disk is full. Make room and run the command again; it goes on where it"
              + " stopped.",
          e);
    }
    return new ArchiveException(
        archive.root() + ": an original can't be written (" + e + "). Check the folder.", e);
  }
}
