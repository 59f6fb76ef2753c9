package rakelight.desk;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * One command that waits, runs or has run for somebody who doesn't type commands, in a process of
 * its own: what it says is kept, whoever looks. Thread-safe.
 */
final class Job {
  /** Lines shown on a page; the record has all. */
  private static final int LINES_SHOWN = 200;

  /** A process that was asked to stop and hasn't is ended. */
  private static final int SECONDS_TO_STOP = 20;

  /** What commands print now and then of how far they are. */
  private static final Pattern HOW_FAR = Pattern.compile("(\\d+) of (\\d+) .+, .+ left");

  enum State {
    WAITING("waits for the one before it"),
    RUNNING("runs"),
    DONE("done"),
    TO_SEE_TO("done, with something to see to"),
    STOPPED("stopped");

    private final String words;

    State(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }

    boolean isOver() {
      return this != WAITING && this != RUNNING;
    }
  }

  /**
   * How a job stands at one time.
   *
   * @param howFar the command's own words on how far it is; empty if it has said nothing
   * @param done pieces done of {@code all}; both 0 if nobody knows
   * @param lines the last lines it said
   */
  record Look(State state, String howFar, int done, int all, List<String> lines) {}

  /** What a job does. */
  enum Kind {
    INGEST,
    PROPOSE,
    INDEX,
    CHECK,
    BACKUP,
    EXPORT,
    SITE,
    BOOK,
    LEND,
    LOOK_AT_RETURN,
    RETURN,
    LOOK_AT_COPY,
    MERGE;

    /** Whether it only said what another would bring. */
    boolean isLook() {
      return this == LOOK_AT_RETURN || this == LOOK_AT_COPY;
    }

    /** Whether it brought in what others decided. */
    boolean isMeeting() {
      return this == RETURN || this == MERGE;
    }
  }

  private final String id;
  private final String title;
  private final Kind kind;
  private final List<String> words;
  private final Instant asked;
  private final Path record;
  private final Deque<String> lines = new ArrayDeque<>();
  private State state = State.WAITING;
  private String howFar = "";
  private int done;
  private int all;
  private @Nullable Process process;
  private boolean toStop;

  /**
   * @param words the command and what goes with it
   * @param record a file for all it says
   */
  Job(String id, Kind kind, String title, List<String> words, Instant asked, Path record) {
    this.id = id;
    this.kind = kind;
    this.title = title;
    this.words = List.copyOf(words);
    this.asked = asked;
    this.record = record;
  }

  public String id() {
    return id;
  }

  public Kind kind() {
    return kind;
  }

  /** The command and what goes with it. */
  List<String> words() {
    return words;
  }

  public String title() {
    return title;
  }

  public Instant asked() {
    return asked;
  }

  /** Everything it has said, if it has said something. */
  Optional<Path> record() {
    return Optional.of(record).filter(Files::exists);
  }

  public synchronized Look look() {
    return new Look(state, howFar, done, all, List.copyOf(lines));
  }

  /** Runs it to its end. Anything that goes wrong is said in its lines. */
  void run(List<String> program) {
    State end;
    try {
      Optional<Process> started = begin(program);
      end = started.isEmpty() ? State.STOPPED : finish(started.get());
    } catch (IOException e) {
      say("This could not be run: " + e.getMessage());
      end = State.TO_SEE_TO;
    }
    synchronized (this) {
      state = end;
      process = null;
    }
  }

  private synchronized Optional<Process> begin(List<String> program) throws IOException {
    if (toStop) {
      return Optional.empty();
    }
    ProcessBuilder builder =
        new ProcessBuilder(Stream.concat(program.stream(), words.stream()).toList());
    builder.redirectErrorStream(true);
    builder.environment().put("RAKELIGHT_PROGRESS_OFTEN", "yes");
    // Left there by the launcher of the application, which would take the command for Java's own.
    builder.environment().remove("_JPACKAGE_LAUNCHER");
    Process running = builder.start();
    running.getOutputStream().close();
    process = running;
    state = State.RUNNING;
    return Optional.of(running);
  }

  private State finish(Process running) throws IOException {
    try (BufferedReader said =
            new BufferedReader(
                new InputStreamReader(running.getInputStream(), StandardCharsets.UTF_8));
        BufferedWriter kept = Files.newBufferedWriter(record)) {
      for (String line = said.readLine(); line != null; line = said.readLine()) {
        Matcher far = HOW_FAR.matcher(line);
        if (far.matches()) {
          far(line, Integer.parseInt(far.group(1)), Integer.parseInt(far.group(2)));
        } else {
          kept.write(line);
          kept.newLine();
          say(line);
        }
      }
    }
    int code;
    try {
      code = running.waitFor();
    } catch (InterruptedException e) {
      running.destroy();
      Thread.currentThread().interrupt();
      return State.STOPPED;
    }
    synchronized (this) {
      return toStop ? State.STOPPED : code == 0 ? State.DONE : State.TO_SEE_TO;
    }
  }

  private synchronized void far(String line, int pieces, int ofAll) {
    howFar = line;
    done = pieces;
    all = ofAll;
  }

  private synchronized void say(String line) {
    lines.addLast(line);
    if (lines.size() > LINES_SHOWN) {
      lines.removeFirst();
    }
  }

  /**
   * Stops it, or keeps it from beginning. What the command had finished stays; every command leaves
   * the archive whole wherever it ends.
   */
  void stop() {
    Process running;
    synchronized (this) {
      if (state.isOver()) {
        return;
      }
      toStop = true;
      running = process;
      if (state == State.WAITING) {
        state = State.STOPPED;
      }
    }
    if (running != null) {
      running.destroy();
      try {
        if (!running.waitFor(SECONDS_TO_STOP, TimeUnit.SECONDS)) {
          running.destroyForcibly();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
