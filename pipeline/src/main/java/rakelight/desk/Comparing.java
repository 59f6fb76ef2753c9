package rakelight.desk;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.survey.StoneLikeness;

/** Looks at photographs and compares those that wait, while somebody sorts. One at a time. */
final class Comparing implements AutoCloseable {
  private static final int SECONDS_TO_END = 20;

  private final PhotoStore photographs;
  private final StoneLikeness likeness;
  private final AtomicBoolean running = new AtomicBoolean();
  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          run -> {
            Thread thread = new Thread(run, "comparing photographs");
            thread.setDaemon(true);
            thread.setPriority(Thread.MIN_PRIORITY);
            return thread;
          });

  Comparing(Archive archive) {
    this.photographs = new PhotoStore(archive);
    this.likeness = new StoneLikeness(archive);
  }

  StoneLikeness likeness() {
    return likeness;
  }

  /** Begins, unless it is at it. */
  void goOn() {
    if (running.compareAndSet(false, true)) {
      worker.execute(this::run);
    }
  }

  private void run() {
    try {
      likeness.look(1, (done, all) -> {});
      for (Photograph shot : photographs.photographs()) {
        if (Thread.currentThread().isInterrupted()) {
          return;
        }
        if (shot.isWaiting()) {
          likeness.alike(shot.id());
        }
      }
    } catch (ArchiveException e) {
      if (!worker.isShutdown()) {
        System.err.println(e.getMessage());
      }
    } finally {
      running.set(false);
    }
  }

  @Override
  public void close() {
    worker.shutdownNow();
    try {
      worker.awaitTermination(SECONDS_TO_END, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
