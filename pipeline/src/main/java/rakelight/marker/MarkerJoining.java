package rakelight.marker;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;

/**
 * Markers of two laptops: of two that were given one number apart, the later in order is numbered
 * <i>bis</i>, a word of the trade for a number that was given twice (common practice, no source).
 * Whether they are one marker is for people to say.
 */
final class MarkerJoining implements Joining {
  private static final Set<String> NUMBERING = Set.of(MarkerStore.CREATED, MarkerStore.RENUMBERED);

  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    MarkerStore store = new MarkerStore(joined);
    List<Marker> all = store.markers();
    Set<String> taken =
        all.stream().map(Marker::number).collect(Collectors.toCollection(HashSet::new));
    Map<MarkerId, Long> first = numbered(joined, meeting.sides().get(0));
    Map<MarkerId, Long> second = numbered(joined, meeting.sides().get(1));
    List<NewDecision> follows = new ArrayList<>();
    Map<MarkerId, Long> placed = new LinkedHashMap<>(first);
    placed.putAll(second);
    List<Marker> inOrder =
        all.stream()
            .filter(marker -> placed.containsKey(marker.id()))
            .sorted(Comparator.comparing(marker -> placed.getOrDefault(marker.id(), 0L)))
            .toList();
    Set<MarkerId> again = new HashSet<>();
    for (Marker later : inOrder) {
      for (Marker earlier : all) {
        boolean before =
            placed.getOrDefault(earlier.id(), 0L) < placed.getOrDefault(later.id(), 0L);
        if (!earlier.id().equals(later.id())
            && before
            && NumberForm.areAlike(earlier.number(), later.number())
            && again.add(later.id())) {
          String number = free(later.number(), taken);
          follows.add(
              NewDecision.of(
                      Decision.PROGRAM,
                      MarkerStore.RENUMBERED,
                      1,
                      later.id().value(),
                      new MarkerStore.Numbered(number))
                  .restingOn(List.of(store.madeBy(later.id()))));
        }
      }
    }
    return follows;
  }

  /** The markers that a side numbered, each with the place of the decision. */
  private static Map<MarkerId, Long> numbered(Archive joined, Meeting.Side side) {
    Map<MarkerId, Long> places = new HashMap<>();
    side.standing().stream()
        .filter(decision -> NUMBERING.contains(decision.kind()))
        .forEach(
            decision ->
                places.put(
                    new MarkerId(decision.subject()),
                    joined.journal().find(decision.id()).orElseThrow().counter()));
    return places;
  }

  private static String free(String number, Set<String> taken) {
    String free = number + " bis";
    for (int i = 2; !taken.add(free); i++) {
      free = number + " bis " + i;
    }
    return free;
  }
}
