package rakelight.inscription;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * All that people have signed of one face, and what follows from it.
 *
 * <p>Where one reading is enough, the last one signed stands. Where the ground asks for two, the
 * last ones of the first two readers count: they are sealed until there are two; where they agree
 * letter by letter the more doubtful of them stands; where they differ, a third reader's settlement
 * of these two. A settlement stands until the two are settled anew.
 *
 * @param versions every version that stands, the first one first
 * @param required how many readers must read it, 1 or 2
 * @param test whether its truth is known and it serves to measure readers; then nothing stands
 */
public record FaceReadings(List<Reading> versions, int required, boolean test) {

  /** How far a face is. */
  public enum State {
    /** Nobody has signed a reading. */
    UNREAD,
    /** One of two readers has signed; sealed. */
    ONCE_READ,
    /** Two readings differ; a third reader settles. */
    TO_SETTLE,
    /** A reading stands. */
    SETTLED
  }

  /** Two readings to be settled. */
  public record Two(Reading first, Reading second) {
    public Comparison comparison() {
      return Comparison.of(first.inscription(), second.inscription());
    }
  }

  public FaceReadings {
    versions = List.copyOf(versions);
  }

  /** The reading that stands. */
  public Optional<Reading> current() {
    if (test || versions.isEmpty()) {
      return Optional.empty();
    }
    if (required < 2) {
      return Optional.of(versions.get(versions.size() - 1));
    }
    Optional<Two> two = two();
    if (two.isEmpty()) {
      return Optional.empty();
    }
    Optional<Reading> settlement = lastSettlement();
    if (settlement.filter(reading -> settles(reading, two.get())).isPresent()) {
      return settlement;
    }
    return agree(two.get()) ? Optional.of(moreDoubtful(two.get())) : settlement;
  }

  public State state() {
    if (test || versions.isEmpty()) {
      return State.UNREAD;
    }
    if (required < 2) {
      return State.SETTLED;
    }
    return two()
        .map(
            two ->
                agree(two) || lastSettlement().filter(last -> settles(last, two)).isPresent()
                    ? State.SETTLED
                    : State.TO_SETTLE)
        .orElse(State.ONCE_READ);
  }

  /** The last readings of the first two readers, once there are two. */
  public Optional<Two> two() {
    Map<String, Reading> byReader = new LinkedHashMap<>();
    for (Reading reading : versions) {
      if (reading.settles().isEmpty()) {
        byReader.put(reading.reader(), reading);
      }
    }
    List<Reading> readings = new ArrayList<>(byReader.values());
    return readings.size() < 2
        ? Optional.empty()
        : Optional.of(new Two(readings.get(0), readings.get(1)));
  }

  /** The two readings that this reader would settle, being the reader of neither. */
  public Optional<Two> toSettle(String reader) {
    return two()
        .filter(
            two ->
                required > 1
                    && !two.first().reader().equals(reader)
                    && !two.second().reader().equals(reader));
  }

  /** The last that this reader signed of his own reading. */
  public Optional<Reading> by(String reader) {
    return versions.stream()
        .filter(version -> version.reader().equals(reader) && version.settles().isEmpty())
        .reduce((earlier, later) -> later);
  }

  /** Whether what has been signed may be shown to nobody but its own reader. */
  public boolean sealed() {
    return test || (required > 1 && two().isEmpty());
  }

  /** Whether what a machine takes names and dates to be may be shown to nobody. */
  public boolean heldBack() {
    return required > 1 && sealed();
  }

  private Optional<Reading> lastSettlement() {
    return versions.stream()
        .filter(version -> !version.settles().isEmpty())
        .reduce((earlier, later) -> later);
  }

  private static boolean settles(Reading settlement, Two two) {
    return settlement.settles().equals(List.of(two.first().id(), two.second().id()));
  }

  private static boolean agree(Two two) {
    return two.comparison().differences().isEmpty();
  }

  private static Reading moreDoubtful(Two two) {
    return clear(two.second()) <= clear(two.first()) ? two.second() : two.first();
  }

  private static long clear(Reading reading) {
    return reading.inscription().signs().stream()
        .filter(sign -> sign instanceof Letter letter && letter.standing() == Standing.CLEAR)
        .count();
  }
}
