package rakelight.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * What follows from the ledger and is dear to work out, kept as documents in {@code
 * derived/conclusions.sqlite}. The file may be deleted at any time, also while programs have it
 * open.
 *
 * <p>A document is kept under its kind and a key that names all it was made from, so that it never
 * has to be mended: where an input changes, the key does, and a decision that is undone is asked
 * for by the key it had before. Whoever can't find a document makes it. Documents of other versions
 * of a kind are dropped when a program first keeps one of its own.
 *
 * <p>Several processes may have it open. Thread-safe. It holds no truth, so a damaged file is made
 * anew.
 */
public final class Conclusions implements AutoCloseable {
  static final String FILE = "conclusions.sqlite";

  /** Of the table's layout; a file of another one is made anew. */
  private static final int LAYOUT = 1;

  private static final int BUSY_MILLIS = 20_000;
  private static final int ATTEMPTS = 3;

  private final Path file;
  private final Set<Kind> alone = new HashSet<>();
  private Optional<Open> open = Optional.empty();

  /**
   * What sort of document it is.
   *
   * @param version of what makes it; another one may make another document out of the same
   */
  public record Kind(String name, int version) {}

  /**
   * @param identity of the file on the disk, which changes when it is deleted and made again
   */
  private record Open(Handle handle, Object identity) {}

  Conclusions(Path folder) {
    this.file = folder.resolve(FILE);
  }

  /** The document of a kind under a key, if it is kept. */
  public Optional<String> find(Kind kind, String key) {
    return with(
        handle ->
            handle
                .createQuery(
                    "SELECT document FROM conclusion WHERE kind = :kind AND version = :version"
                        + " AND key = :key")
                .bind("kind", kind.name())
                .bind("version", kind.version())
                .bind("key", key)
                .mapTo(String.class)
                .findOne());
  }

  /** All that is kept of a kind, by key. */
  public Map<String, String> all(Kind kind) {
    return with(
        handle -> {
          Map<String, String> all = new HashMap<>();
          handle
              .createQuery(
                  "SELECT key, document FROM conclusion WHERE kind = :kind AND version ="
                      + " :version")
              .bind("kind", kind.name())
              .bind("version", kind.version())
              .map((row, context) -> all.put(row.getString("key"), row.getString("document")))
              .list();
          return all;
        });
  }

  /** Keeps documents under their keys; those that are kept already stay as they are. */
  public void keep(Kind kind, Map<String, String> documents) {
    if (!documents.isEmpty()) {
      with(handle -> handle.inTransaction(h -> insert(h, kind, documents)));
    }
  }

  /** Keeps one document of a kind and drops all others of it. */
  public void keepOnly(Kind kind, String key, String document) {
    with(
        handle ->
            handle.inTransaction(
                h -> {
                  h.execute("DELETE FROM conclusion WHERE kind = ?", kind.name());
                  return insert(h, kind, Map.of(key, document));
                }));
  }

  /** Forgets everything; it is worked out anew when it is asked for. */
  public synchronized void forget() {
    close();
    delete();
  }

  private int insert(Handle handle, Kind kind, Map<String, String> documents) {
    if (alone.add(kind)) {
      handle.execute(
          "DELETE FROM conclusion WHERE kind = ? AND version <> ?", kind.name(), kind.version());
    }
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT OR IGNORE INTO conclusion (kind, version, key, document) VALUES (?, ?, ?, ?)");
    documents.forEach((key, document) -> batch.add(kind.name(), kind.version(), key, document));
    return batch.execute().length;
  }

  private synchronized <T> T with(Function<Handle, T> work) {
    for (int attempt = 1; ; attempt++) {
      try {
        return work.apply(handle());
      } catch (JdbiException e) {
        close();
        if (isDamaged(e)) {
          delete();
        }
        if (attempt == ATTEMPTS) {
          throw new ArchiveException(
              file
                  + ": conclusions can't be kept ("
                  + cause(e)
                  + "). Make the folder writable, or delete the file; it is made anew.",
              e);
        }
      }
    }
  }

  private Handle handle() {
    Optional<Object> there = identity();
    if (open.isPresent() && there.filter(open.get().identity()::equals).isEmpty()) {
      close();
    }
    if (open.isEmpty()) {
      open = Optional.of(opened());
    }
    return open.get().handle();
  }

  private Open opened() {
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Handle handle = Jdbi.create(source(file)).open();
    try {
      int layout = handle.createQuery("PRAGMA user_version").mapTo(Integer.class).one();
      if (layout != LAYOUT && layout != 0) {
        handle.close();
        delete();
        return opened();
      }
      handle.useTransaction(
          h -> {
            h.execute(
                "CREATE TABLE IF NOT EXISTS conclusion (kind TEXT NOT NULL, version INTEGER NOT"
                    + " NULL, key TEXT NOT NULL, document TEXT NOT NULL, PRIMARY KEY (kind,"
                    + " version, key)) STRICT, WITHOUT ROWID");
            h.execute("PRAGMA user_version = " + LAYOUT);
          });
      return new Open(handle, identity().orElse(""));
    } catch (JdbiException e) {
      handle.close();
      throw e;
    }
  }

  private static SQLiteDataSource source(Path file) {
    SQLiteConfig config = new SQLiteConfig();
    // Not WAL: its two files beside this one would outlive it where it is deleted, and programs
    // that
    // had the old file open would share them with those that have the new one.
    config.setJournalMode(SQLiteConfig.JournalMode.DELETE);
    config.setSynchronous(SQLiteConfig.SynchronousMode.NORMAL);
    config.setBusyTimeout(BUSY_MILLIS);
    config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file);
    return source;
  }

  /** Which file lies there now; on Windows, where an open file can't be deleted, its making. */
  private Optional<Object> identity() {
    try {
      BasicFileAttributes of = Files.readAttributes(file, BasicFileAttributes.class);
      return Optional.of(of.fileKey() == null ? of.creationTime() : of.fileKey());
    } catch (NoSuchFileException e) {
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void delete() {
    try {
      for (String end : new String[] {"", "-journal"}) {
        Files.deleteIfExists(file.resolveSibling(FILE + end));
      }
    } catch (IOException e) {
      throw new ArchiveException(
          file + ": can't be deleted (" + e + "). Delete it; it is made anew.", e);
    }
  }

  private static boolean isDamaged(JdbiException e) {
    String words = cause(e);
    return words.contains("SQLITE_NOTADB") || words.contains("SQLITE_CORRUPT");
  }

  private static String cause(@org.jspecify.annotations.Nullable Throwable e) {
    Throwable cause = e;
    for (Throwable t = e; t != null; t = t.getCause()) {
      cause = t;
    }
    return cause == null ? "" : String.valueOf(cause.getMessage()).lines().findFirst().orElse("");
  }

  @Override
  public synchronized void close() {
    alone.clear();
    open.ifPresent(one -> one.handle().close());
    open = Optional.empty();
  }
}
