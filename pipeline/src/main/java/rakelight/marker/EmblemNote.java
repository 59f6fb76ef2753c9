package rakelight.marker;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;

/**
 * An emblem that somebody saw on a marker.
 *
 * @param decision which noted it; it is the emblem's own name here
 * @param name of the glossary, or the reader's own words where {@code known} is false
 * @param outline on a photograph, corners in upright full-size pixels, if somebody drew it
 * @param details what was seen closely: which hand is slack, which cuff is lace, a stretched finger
 */
public record EmblemNote(
    DecisionId decision,
    MarkerId marker,
    String face,
    String name,
    boolean known,
    Optional<Outline> outline,
    Map<String, String> details,
    String remark,
    String reader,
    Instant at) {

  /** Where it is, as corners {@code x, y} in upright full-size pixels of a photograph. */
  public record Outline(PhotographId photograph, List<Double> corners) {
    public Outline {
      corners = List.copyOf(corners);
      if (corners.size() < 6 || corners.size() % 2 != 0) {
        throw new IllegalArgumentException("an outline has three corners or more");
      }
    }
  }

  public EmblemNote {
    details = Map.copyOf(details);
  }

  /** What the glossary says of it; empty for one it doesn't know. */
  public Optional<GlossaryEmblem> entry() {
    return known ? GlossaryEmblem.named(name) : Optional.empty();
  }
}
