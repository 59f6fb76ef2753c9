package rakelight.desk;

import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.search.Coverage;
import rakelight.search.GroundSearch;

/**
 * The desk's one search. The index is brought up to date by one thread of its own; a request waits
 * for that a moment and no longer.
 */
final class Searching implements AutoCloseable {
  /** Longer nobody waits for what was confirmed last; a choice. */
  private static final int SECONDS_TO_WAIT = 2;

  /** The same where nothing was searched before, so that there may be no index at all. */
  private static final int SECONDS_TO_WAIT_AT_FIRST = 20;

  private static final int SECONDS_TO_END = 20;

  private final Archive archive;
  private final GroundSearch search;
  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          run -> {
            Thread thread = new Thread(run, "following the journal");
            thread.setDaemon(true);
            return thread;
          });
  private @Nullable Future<?> following;
  private volatile boolean searched;
  private long covered = -1;
  private Optional<Coverage> coverage = Optional.empty();

  Searching(Archive archive) {
    this.archive = archive;
    this.search = new GroundSearch(archive);
  }

  GroundSearch search() {
    return search;
  }

  /** Begins to bring the index up to date, where that is needed and not begun. */
  synchronized Optional<Future<?>> follow() {
    if (search.isUpToDate()) {
      return Optional.empty();
    }
    if (following == null || following.isDone()) {
      following = worker.submit(() -> search.update(false));
    }
    return Optional.of(following);
  }

  /**
   * Brings the index up to date, if that takes a moment only.
   *
   * @return whether what was confirmed last can be found
   * @throws ArchiveException if the index can't be written
   */
  boolean followed() {
    Optional<Future<?>> update = follow();
    if (update.isEmpty()) {
      searched = true;
      return true;
    }
    try {
      update.get().get(searched ? SECONDS_TO_WAIT : SECONDS_TO_WAIT_AT_FIRST, TimeUnit.SECONDS);
      searched = true;
    } catch (TimeoutException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    } catch (ExecutionException e) {
      throw e.getCause() instanceof ArchiveException cause
          ? cause
          : new IllegalStateException(e.getCause());
    }
    return search.isUpToDate();
  }

  /** Whether the index was up to date once, so that it can be asked. */
  boolean isThere() {
    return searched;
  }

  /** What an answer covers now. */
  synchronized Coverage coverage() {
    long now = archive.journal().lastCounter();
    if (coverage.isEmpty() || covered != now) {
      coverage = Optional.of(Coverage.of(archive));
      covered = now;
    }
    return coverage.get();
  }

  @Override
  public void close() {
    worker.shutdown();
    try {
      worker.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    search.close();
  }
}
