package rakelight.work;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.FaceId;

/**
 * Who has which face open, so that two people don't do the same work. In memory only: what keeps
 * work from being lost is the version that every change names. Thread-safe.
 */
public final class Leases {
  /** Long enough for a hard letter, short enough that a face left open comes back the same hour. */
  static final Duration LIFE = Duration.ofMinutes(10);

  /** Somebody who has a face, and until when. */
  public record Lease(String reader, Instant until) {}

  private final Clock clock;
  private final Map<FaceId, Map<String, Instant>> held = new HashMap<>();

  public Leases(Clock clock) {
    this.clock = clock;
  }

  /**
   * Takes or renews a lease.
   *
   * @param most how many readers may have the face at a time
   * @return the lease of this reader; or of another, if there are too many
   */
  synchronized Lease take(FaceId face, String reader, int most) {
    Map<String, Instant> of = of(face);
    if (!of.containsKey(reader) && of.size() >= most) {
      Map.Entry<String, Instant> other = of.entrySet().iterator().next();
      return new Lease(other.getKey(), other.getValue());
    }
    Lease lease = new Lease(reader, clock.instant().plus(LIFE));
    of.put(reader, lease.until());
    held.put(face, of);
    return lease;
  }

  /** This reader's lease of the face. */
  synchronized Optional<Lease> of(FaceId face, String reader) {
    return Optional.ofNullable(of(face).get(reader)).map(until -> new Lease(reader, until));
  }

  /** Somebody else who has the face. */
  synchronized Optional<Lease> other(FaceId face, String reader) {
    return of(face).entrySet().stream()
        .filter(entry -> !entry.getKey().equals(reader))
        .map(entry -> new Lease(entry.getKey(), entry.getValue()))
        .findFirst();
  }

  /** How many others have the face. */
  synchronized int others(FaceId face, String reader) {
    return (int) of(face).keySet().stream().filter(name -> !name.equals(reader)).count();
  }

  synchronized void letGo(FaceId face, String reader) {
    Map<String, Instant> of = of(face);
    of.remove(reader);
    if (of.isEmpty()) {
      held.remove(face);
    }
  }

  /** Those that haven't run out. */
  private Map<String, Instant> of(FaceId face) {
    Map<String, Instant> of = held.getOrDefault(face, new HashMap<>());
    of.values().removeIf(until -> until.isBefore(clock.instant()));
    return of;
  }
}
