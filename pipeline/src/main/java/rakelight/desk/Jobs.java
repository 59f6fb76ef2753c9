package rakelight.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import rakelight.archive.ArchiveException;

/**
 * Commands run from pages, one after another: two at once would take longer on a small machine, and
 * get into each other's way. They go on when nobody looks, until the program ends. Thread-safe.
 */
final class Jobs implements AutoCloseable {
  private final List<String> program;
  private final Path records;
  private final Clock clock;
  private final List<Job> jobs = new ArrayList<>();
  private final ExecutorService runner =
      Executors.newSingleThreadExecutor(
          task -> {
            Thread thread = new Thread(task, "jobs");
            thread.setDaemon(true);
            return thread;
          });

  /**
   * @param program the words that start this program, before a command
   * @param records a folder for what jobs say
   */
  Jobs(List<String> program, Path records, Clock clock) {
    this.program = List.copyOf(program);
    this.records = records;
    this.clock = clock;
  }

  /**
   * Runs a command once those before it are over.
   *
   * @param words the command and what goes with it
   * @param after is done when it is over, however it ends
   */
  Job start(Job.Kind kind, String title, List<String> words, Runnable after) {
    Job job;
    synchronized (jobs) {
      String id = String.valueOf(jobs.size() + 1);
      try {
        Files.createDirectories(records);
      } catch (IOException e) {
        throw new ArchiveException(records + ": can't be written (" + e.getMessage() + ").", e);
      }
      job = new Job(id, kind, title, words, clock.instant(), records.resolve(id + ".txt"));
      jobs.add(job);
    }
    runner.execute(
        () -> {
          try {
            job.run(program);
          } finally {
            after.run();
          }
        });
    return job;
  }

  /** All since the program began, the last first. */
  List<Job> all() {
    synchronized (jobs) {
      List<Job> all = new ArrayList<>(jobs);
      Collections.reverse(all);
      return all;
    }
  }

  Optional<Job> find(String id) {
    return all().stream().filter(job -> job.id().equals(id)).findFirst();
  }

  /** Those that run or wait. */
  long open() {
    return all().stream().filter(job -> !job.look().state().isOver()).count();
  }

  /** Stops whatever runs or waits. */
  @Override
  public void close() {
    all().forEach(Job::stop);
    runner.shutdown();
  }
}
