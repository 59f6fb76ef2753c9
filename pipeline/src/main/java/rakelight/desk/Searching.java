package rakelight.desk;

import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.index.QueryException;
import rakelight.index.Widening;
import rakelight.search.Coverage;
import rakelight.search.GroundSearch;
import rakelight.search.Proposed;

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

  /** A proposal isn't told by the journal, so these are looked up anew after a while. */
  private static final long MILLIS_OF_PROPOSED = 60_000;

  private final Archive archive;
  private final Clock clock;
  private final GroundSearch search;
  private final ExecutorService worker = thread("following the journal", Thread.NORM_PRIORITY);
  private final ExecutorService aside = thread("looking up proposals", Thread.MIN_PRIORITY);
  private @Nullable Future<?> following;
  private volatile boolean searched;
  private long covered = -1;
  private final Object lookedUp = new Object();
  private @Nullable Future<?> lookingUp;
  private Optional<Proposed> proposed = Optional.empty();
  private long proposedAt = -1;
  private long proposedMillis;
  private Optional<Coverage> coverage = Optional.empty();

  Searching(Archive archive, Clock clock) {
    this.archive = archive;
    this.clock = clock;
    this.search = new GroundSearch(archive);
  }

  private static ExecutorService thread(String name, int priority) {
    return Executors.newSingleThreadExecutor(
        run -> {
          Thread thread = new Thread(run, name);
          thread.setDaemon(true);
          thread.setPriority(priority);
          return thread;
        });
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

  /**
   * The few unread markers that could still answer; empty while what machines propose is looked up.
   *
   * @throws QueryException if the query can't be understood
   */
  Optional<List<GroundSearch.Unread>> couldAnswer(String query, Set<Widening> widenings)
      throws QueryException {
    if (coverage().read() == coverage().markers()) {
      return Optional.empty();
    }
    synchronized (lookedUp) {
      long now = archive.journal().lastCounter();
      boolean old = proposedAt != now || clock.millis() - proposedMillis > MILLIS_OF_PROPOSED;
      if (old && (lookingUp == null || lookingUp.isDone())) {
        lookingUp = aside.submit(() -> lookUp(now));
      }
      return proposed.isEmpty() || proposedAt != now
          ? Optional.empty()
          : Optional.of(search.couldAnswer(proposed.get(), query, widenings));
    }
  }

  /** What was proposed for a face that was read since isn't told any more. */
  private void lookUp(long counter) {
    Proposed fresh = search.proposed();
    synchronized (lookedUp) {
      proposed.ifPresent(Proposed::close);
      proposed = Optional.of(fresh);
      proposedAt = counter;
      proposedMillis = clock.millis();
    }
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
    aside.shutdown();
    try {
      aside.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
      worker.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    synchronized (lookedUp) {
      proposed.ifPresent(Proposed::close);
      proposed = Optional.empty();
    }
    search.close();
  }
}
