package rakelight.marker;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Apart;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Joining;
import rakelight.archive.MarkerId;
import rakelight.archive.Meeting;
import rakelight.archive.NewDecision;

/**
 * Markers that were made part of others on two laptops. One that was made part of different ones is
 * part of the later in order; of several that were made part of each other in a ring, the earliest
 * in order isn't. The act that can't stand beside later ones is taken back as a whole, with the
 * faces and photographs that it moved, and somebody is asked.
 */
final class MergedMarkersJoining implements Joining {
  private static final List<String> MERGED = List.of(MarkerStore.MERGED);

  /** A merge that can't stand, and the later one that it can't stand beside. */
  private record Against(Decision fallen, Decision later) {}

  @Override
  public List<Apart> apart(Meeting meeting) {
    return fallen(meeting.standing(MERGED)).stream()
        .map(
            pair ->
                Apart.of(
                    pair.fallen().subject().equals(pair.later().subject())
                        ? "which marker it is part of"
                        : "which marker is part of the other",
                    pair.fallen(),
                    pair.later(),
                    Optional.empty(),
                    Optional.empty()))
        .toList();
  }

  @Override
  public List<NewDecision> follows(Archive joined, Meeting meeting) {
    List<NewDecision> follows = new ArrayList<>();
    for (Against pair : fallen(joined.journal().standing(MERGED))) {
      List<Decision> act =
          new ArrayList<>(
              joined.journal().act(pair.fallen().payload(MarkerStore.Merged.class).batch()));
      Collections.reverse(act);
      act.forEach(part -> follows.add(NewDecision.undoing(part, Decision.PROGRAM)));
    }
    return follows;
  }

  private static List<Against> fallen(List<Decision> merges) {
    List<Against> fallen = new ArrayList<>();
    Map<MarkerId, Decision> kept = new HashMap<>();
    List<Decision> latestFirst = new ArrayList<>(merges);
    Collections.reverse(latestFirst);
    for (Decision merge : latestFirst) {
      MarkerId gone = new MarkerId(merge.subject());
      Optional<Decision> later = Optional.ofNullable(kept.get(gone));
      boolean isSaidTwice = later.filter(said -> into(said).equals(into(merge))).isPresent();
      Optional<Decision> against = later.or(() -> lastStep(into(merge), gone, kept));
      if (against.isEmpty()) {
        kept.put(gone, merge);
      } else if (!isSaidTwice) {
        fallen.add(new Against(merge, against.get()));
      }
    }
    return fallen;
  }

  /** The step by which what was kept leads from one marker to another, if it does. */
  private static Optional<Decision> lastStep(
      MarkerId from, MarkerId to, Map<MarkerId, Decision> kept) {
    Optional<Decision> step = Optional.ofNullable(kept.get(from));
    while (step.isPresent() && !into(step.get()).equals(to)) {
      step = Optional.ofNullable(kept.get(into(step.get())));
    }
    return step;
  }

  private static MarkerId into(Decision merge) {
    return merge.payload(MarkerStore.Merged.class).into();
  }
}
