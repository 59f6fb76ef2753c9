package rakelight.archive;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/**
 * State tables as a function of decisions.
 *
 * <p>The rows that belong to a subject follow from that subject's standing decisions alone, in the
 * order of their places: that is what lets one subject be cleared and replayed after an undo, and
 * the whole be rebuilt. A projection writes only its own tables and reads nothing but them.
 */
public interface Projection {
  /** The kinds of decision it is told of. */
  Set<String> kinds();

  /** The tables it owns: nothing else writes them, and rebuilding empties them first. */
  Set<String> tables();

  /** Removes every row that belongs to the subject. */
  void clear(Handle handle, UUID subject);

  /** Takes one decision into account. */
  void apply(Handle handle, Decision decision);

  /**
   * The kinds of which the newest about a subject holds, each with what it sets, in words. Two made
   * on different laptops, neither knowing of the other, are asked about when they come together;
   * kinds that set the same thing have the same words.
   */
  default Map<String, String> settings() {
    return Map.of();
  }

  /** Why the rows of a subject don't fit beside those of others, if they don't; one sentence. */
  default Optional<String> misfit(Handle handle, UUID subject) {
    return Optional.empty();
  }
}
