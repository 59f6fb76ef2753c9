package rakelight.reading;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** A machine reader whose networks are loaded when it is first asked for. Thread-safe. */
public final class ReaderOnDemand implements AutoCloseable {
  private final Supplier<MachineReader> opens;
  private @Nullable MachineReader opened;

  /** The reader that proposals are made with. */
  public ReaderOnDemand() {
    this(MachineReader::standard);
  }

  /**
   * @param opens gives the reader, which is closed with this
   */
  public ReaderOnDemand(Supplier<MachineReader> opens) {
    this.opens = opens;
  }

  /** The reader; borrowed. */
  public synchronized MachineReader get() {
    MachineReader known = opened;
    if (known == null) {
      known = opens.get();
      opened = known;
    }
    return known;
  }

  @Override
  public synchronized void close() {
    if (opened != null) {
      opened.close();
      opened = null;
    }
  }
}
