package rakelight.photo;

import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Shots close in time and place, which may show one face. Only ever proposed: a telephone can't
 * tell neighbouring graves apart.
 */
public final class ProposedGroups {
  /** From one stone to the next takes longer than this (common practice, no source). */
  private static final Duration LONGEST_PAUSE = Duration.ofSeconds(60);

  /** Beyond this two positions differ even under trees (common practice, no source). */
  private static final double FARTHEST_METRES = 15;

  private ProposedGroups() {}

  /**
   * Groups what is on no face, by camera and time.
   *
   * @return groups of one or more, camera by camera in order of their first shots, in order of
   *     time; then each shot without a time alone
   */
  public static List<List<Photograph>> of(List<Photograph> photographs, ZoneId groundZone) {
    Map<CameraBody, List<Photograph>> byCamera = new LinkedHashMap<>();
    photographs.stream()
        .filter(p -> p.isWaiting() && p.taken().isPresent())
        .sorted(
            Comparator.comparing((Photograph p) -> p.taken().orElseThrow().instant(groundZone))
                .thenComparing(Photograph::originalPath))
        .forEach(p -> byCamera.computeIfAbsent(p.takenBy(), c -> new ArrayList<>()).add(p));
    List<List<Photograph>> groups = new ArrayList<>();
    List<List<Photograph>> undated =
        photographs.stream()
            .filter(p -> p.isWaiting() && p.taken().isEmpty())
            .map(List::of)
            .toList();
    for (List<Photograph> shots : byCamera.values()) {
      List<Photograph> group = new ArrayList<>();
      for (Photograph shot : shots) {
        if (!group.isEmpty() && isElsewhere(group.get(group.size() - 1), shot, groundZone)) {
          groups.add(List.copyOf(group));
          group.clear();
        }
        group.add(shot);
      }
      groups.add(List.copyOf(group));
    }
    groups.addAll(undated);
    return groups;
  }

  /** Whether two shots, one after the other, are too far apart to be of one group. */
  static boolean isElsewhere(Photograph before, Photograph after, ZoneId zone) {
    Duration pause =
        Duration.between(
            before.taken().orElseThrow().instant(zone), after.taken().orElseThrow().instant(zone));
    return pause.compareTo(LONGEST_PAUSE) > 0
        || (before.position().isPresent()
            && after.position().isPresent()
            && before.position().get().metresTo(after.position().get()) > FARTHEST_METRES);
  }
}
