package rakelight.archive;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteDataSource;
import org.sqlite.core.DB;

/**
 * The one SQLite file of an archive.
 *
 * <p>One connection writes, in short transactions that begin {@code IMMEDIATE}: a transaction that
 * reads first and writes later on another connection would fail at once with a stale snapshot,
 * whatever the busy timeout. Other connections only read. Threads of one process queue for the
 * writer here; other processes wait in SQLite for up to {@value #BUSY_MILLIS} ms. Thread-safe.
 */
public final class Ledger implements AutoCloseable {
  static final String FILE = "ledger.sqlite";
  private static final int BUSY_MILLIS = 30_000;

  private final Path file;
  private final Handle writer;
  private final Jdbi readers;
  private final ConcurrentLinkedDeque<Handle> idleReaders = new ConcurrentLinkedDeque<>();
  private final ReentrantLock writing = new ReentrantLock();

  private volatile Optional<String> whyNotWritten = Optional.empty();

  private Ledger(Path file, Handle writer, Jdbi readers) {
    this.file = file;
    this.writer = writer;
    this.readers = readers;
  }

  /** Opens the file, makes it where it doesn't exist, and brings its tables up to date. */
  static Ledger open(Path file) {
    try {
      SQLiteDataSource writing = source(file, SQLiteConfig.TransactionMode.IMMEDIATE, false);
      Handle writer = Jdbi.create(writing).open();
      if (!Migrations.haveBegun(writer) || !Migrations.areDone(writer)) {
        Migrations.run(writing);
      }
      SQLiteDataSource reading = source(file, SQLiteConfig.TransactionMode.DEFERRED, true);
      return new Ledger(file, writer, Jdbi.create(reading));
    } catch (FlywayException | JdbiException e) {
      throw new ArchiveException(explain(file, e), e);
    }
  }

  /**
   * Reads within one snapshot. A thread that is inside {@link #write} reads its own transaction.
   */
  public <T> T read(Function<Handle, T> work) {
    if (writing.isHeldByCurrentThread()) {
      return work.apply(writer);
    }
    try {
      Handle idle = idleReaders.poll();
      Handle handle = idle == null ? readers.open() : idle;
      try {
        return handle.inTransaction(work::apply);
      } finally {
        idleReaders.push(handle);
      }
    } catch (JdbiException e) {
      throw new ArchiveException(explain(file, e), e);
    }
  }

  /**
   * Writes in one transaction, all of it or nothing. A write inside a write joins the outer one.
   */
  public <T> T write(Function<Handle, T> work) {
    if (writing.isHeldByCurrentThread()) {
      return work.apply(writer);
    }
    if (whyNotWritten.isPresent()) {
      throw new ArchiveException(whyNotWritten.get());
    }
    writing.lock();
    try {
      return writer.inTransaction(work::apply);
    } catch (JdbiException e) {
      throw new ArchiveException(explain(file, e), e);
    } finally {
      writing.unlock();
    }
  }

  /** From now on every write is refused with these words. */
  void refuseWrites(String why) {
    whyNotWritten = Optional.of(why);
  }

  /** The statements that make its tables, in a fixed order. */
  String schema() {
    return read(
        handle ->
            handle
                .createQuery(
                    "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'flyway%'"
                        + " AND name NOT LIKE 'sqlite%' ORDER BY type = 'table' DESC, name")
                .mapTo(String.class)
                .collect(Collectors.joining(";\n\n", "", ";\n")));
  }

  /** Copies the ledger as it stands to a new file, also while others write. */
  void backupTo(Path target) {
    try (Handle handle = readers.open()) {
      DB database = handle.getConnection().unwrap(SQLiteConnection.class).getDatabase();
      int code = database.backup("main", target.toString(), (remaining, pages) -> {});
      if (code != 0) {
        throw new ArchiveException(file + ": can't be copied (SQLite code " + code + ").");
      }
    } catch (JdbiException | SQLException e) {
      throw new ArchiveException(explain(file, e), e);
    }
  }

  /** Closes every connection; the last process to close leaves a single file behind. */
  @Override
  public void close() {
    for (Handle reader = idleReaders.poll(); reader != null; reader = idleReaders.poll()) {
      reader.close();
    }
    writer.close();
  }

  private static SQLiteDataSource source(
      Path file, SQLiteConfig.TransactionMode mode, boolean queryOnly) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setBusyTimeout(BUSY_MILLIS);
    config.setTransactionMode(mode);
    config.setTempStore(SQLiteConfig.TempStore.MEMORY);
    config.enforceForeignKeys(true);
    SQLiteDataSource source =
        new SQLiteDataSource(config) {
          @Override
          public java.sql.Connection getConnection() throws SQLException {
            java.sql.Connection connection = super.getConnection();
            if (queryOnly) {
              try (java.sql.Statement statement = connection.createStatement()) {
                statement.execute("PRAGMA query_only = ON");
              }
            }
            return connection;
          }
        };
    source.setUrl("jdbc:sqlite:" + file);
    return source;
  }

  private static String explain(Path file, Exception e) {
    Throwable cause = e;
    for (Throwable t = e; t != null; t = t.getCause()) {
      cause = t;
    }
    String detail = String.valueOf(cause.getMessage()).lines().findFirst().orElse("");
    Path folder = file.toAbsolutePath().getParent();
    if (detail.contains("SQLITE_FULL") || detail.contains("SQLITE_IOERR_WRITE")) {
      return file + ": the disk is full. Make room and run the command again; nothing is lost.";
    }
    if (detail.contains("SQLITE_READONLY")
        || (detail.contains("SQLITE_CANTOPEN") && folder != null && !Files.isWritable(folder))) {
      return file + ": no permission to write there. Make the archive's folder writable.";
    }
    if (detail.contains("SQLITE_BUSY")) {
      return file
          + ": another program has been writing for "
          + BUSY_MILLIS / 1000
          + " seconds. Try again when it has finished.";
    }
    if (detail.contains("SQLITE_CONSTRAINT_FOREIGNKEY")
        || detail.contains("SQLITE_CONSTRAINT_UNIQUE")) {
      return "This doesn't fit what is in the archive now: something that belongs to it is withdrawn,"
          + " or its number was given again. Nothing was changed; undo that first.";
    }
    if (detail.contains("SQLITE_NOTADB") || detail.contains("SQLITE_CORRUPT")) {
      return file + ": damaged, or not a ledger. Restore it from a backup.";
    }
    if (detail.contains("applied migration not resolved")
        || String.valueOf(e.getMessage()).contains("not resolved locally")) {
      return file + ": written by a newer version of this program. Use that version.";
    }
    return file + ": the ledger can't be used: " + detail;
  }
}
