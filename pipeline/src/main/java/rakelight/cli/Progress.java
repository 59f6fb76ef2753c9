package rakelight.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.LongSupplier;

/**
 * How far a long job has got: a bar that is redrawn on a terminal, a plain line now and then
 * elsewhere. The remaining time is reckoned by bytes where there are any, else by pieces.
 */
final class Progress {
  private static final int BAR_CHARS = 30;
  private static final long REDRAW_NANOS = 100_000_000L;

  /**
   * A program that reads the plain lines, such as the desk's jobs, asks for more of them by this.
   */
  private static final String OFTEN = "RAKELIGHT_PROGRESS_OFTEN";

  private static final long PLAIN_LINE_NANOS =
      System.getenv(OFTEN) == null ? 10_000_000_000L : 1_000_000_000L;

  private final PrintWriter out;
  private final boolean terminal;
  private final String noun;
  private final LongSupplier nanoClock;
  private long startedAt;
  private long shownAt;
  private int pieces;
  private long sizeBytes;
  private int donePieces;
  private long doneBytes;
  private boolean drawn;

  /**
   * @param noun the pieces, plural, such as {@code files}
   */
  Progress(PrintWriter out, boolean terminal, String noun, LongSupplier nanoClock) {
    this.out = out;
    this.terminal = terminal;
    this.noun = noun;
    this.nanoClock = nanoClock;
  }

  /** On standard error; a bar if a person sits at the terminal. */
  static Progress on(PrintWriter err, String noun) {
    return new Progress(err, System.console() != null, noun, System::nanoTime);
  }

  void start(int pieces, long sizeBytes) {
    this.pieces = pieces;
    this.sizeBytes = sizeBytes;
    startedAt = nanoClock.getAsLong();
    shownAt = startedAt;
  }

  void step(long bytes) {
    donePieces++;
    doneBytes += bytes;
    long now = nanoClock.getAsLong();
    boolean last = donePieces == pieces;
    if (terminal && (last || now - shownAt >= REDRAW_NANOS)) {
      shownAt = now;
      control("\r" + bar() + line(now) + "\u001b[K");
      out.flush();
      drawn = true;
    } else if (!terminal && !last && now - shownAt >= PLAIN_LINE_NANOS) {
      shownAt = now;
      out.println(line(now));
      out.flush();
    }
  }

  /** Makes room for a line of text; the bar is drawn again at the next step. */
  void clear() {
    if (drawn) {
      control("\r\u001b[K");
      drawn = false;
      shownAt = Long.MIN_VALUE / 2;
    }
  }

  private void control(String sequence) {
    if (out instanceof PlainWriter plain) {
      plain.control(sequence);
    } else {
      out.print(sequence);
    }
  }

  private String bar() {
    int full = pieces == 0 ? 0 : (int) (BAR_CHARS * share());
    return "[" + "#".repeat(full) + ".".repeat(BAR_CHARS - full) + "] ";
  }

  private double share() {
    return sizeBytes > 0
        ? Math.min(1, (double) doneBytes / sizeBytes)
        : (double) donePieces / pieces;
  }

  private String line(long now) {
    double seconds = Math.max(1e-3, (now - startedAt) / 1e9);
    double remaining = share() > 0 ? seconds * (1 - share()) / share() : 0;
    return String.format(
        Locale.ROOT,
        "%d of %d %s, %.1f a second, %s left",
        donePieces,
        pieces,
        noun,
        donePieces / seconds,
        duration(remaining));
  }

  private static String duration(double seconds) {
    long whole = (long) Math.ceil(seconds);
    return whole < 60
        ? whole + " s"
        : String.format(Locale.ROOT, "%d min %02d s", whole / 60, whole % 60);
  }
}
