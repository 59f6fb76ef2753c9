package rakelight.photo;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import rakelight.archive.FaceId;

/**
 * Which faces were photographed, by whatever camera, at about the moment of a shot. Good for as
 * much as the clocks are; corrections of clocks count.
 */
public final class NearInTime {
  /**
   * Who photographs along a row stands a minute or two at each stone (common practice, no source).
   */
  private static final Duration FARTHEST = Duration.ofMinutes(3);

  private final ZoneId zone;
  private final NavigableMap<Instant, List<Photograph>> placed = new TreeMap<>();

  /**
   * @param photographs those that are on a face and have a time count
   */
  public NearInTime(List<Photograph> photographs, ZoneId zone) {
    this.zone = zone;
    photographs.stream()
        .filter(shot -> shot.face().isPresent() && shot.taken().isPresent())
        .forEach(
            shot ->
                placed.merge(
                    instant(shot),
                    List.of(shot),
                    (some, more) -> Stream.concat(some.stream(), more.stream()).toList()));
  }

  /**
   * The nearest shot of each face that was photographed within three minutes, the nearest face
   * first.
   */
  public Map<FaceId, Photograph> to(Photograph shot) {
    Map<FaceId, Photograph> nearest = new LinkedHashMap<>();
    if (shot.taken().isEmpty()) {
      return nearest;
    }
    Instant at = instant(shot);
    placed.subMap(at.minus(FARTHEST), true, at.plus(FARTHEST), true).values().stream()
        .flatMap(List::stream)
        .sorted(java.util.Comparator.comparingLong(other -> secondsApart(shot, other)))
        .forEach(other -> nearest.putIfAbsent(other.face().orElseThrow(), other));
    return nearest;
  }

  /** Seconds between two shots that have a time. */
  public long secondsApart(Photograph one, Photograph other) {
    return Duration.between(instant(one), instant(other)).abs().getSeconds();
  }

  private Instant instant(Photograph shot) {
    return shot.taken().orElseThrow().instant(zone);
  }
}
