package rakelight.photo;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * Photographs as they were taken: for each camera and day the shots one after the other, parted
 * into runs where a card, another face or a pause comes between.
 */
public final class Streams {
  private Streams() {}

  /**
   * What one camera took on one day.
   *
   * @param day by the ground's zone; empty for shots without a time, which come by their names
   */
  public record Stream(CameraBody camera, Optional<LocalDate> day, List<Run> runs) {
    public Stream {
      runs = List.copyOf(runs);
    }
  }

  /**
   * Shots one after the other that belong together as things stand: on one face, or waiting and
   * close in time, or set aside for one reason; or a card alone.
   */
  public record Run(List<Photograph> shots) {
    public Run {
      shots = List.copyOf(shots);
    }

    /** The first shot, which says what holds for all. */
    public Photograph first() {
      return shots.get(0);
    }

    /** A shot of this run and all that follow it there; none if it isn't one of them. */
    public List<Photograph> from(Photograph shot) {
      int at = shots.stream().map(Photograph::id).toList().indexOf(shot.id());
      return at < 0 ? List.of() : shots.subList(at, shots.size());
    }
  }

  private record Row(CameraBody camera, Optional<LocalDate> day) {}

  /** All photographs, day by day, of each day camera by camera; those without a time last. */
  public static List<Stream> of(List<Photograph> photographs, ZoneId zone) {
    Map<Row, List<Photograph>> rows = new LinkedHashMap<>();
    photographs.stream()
        .sorted(
            Comparator.comparing(
                    (Photograph shot) -> shot.taken().map(taken -> taken.instant(zone)),
                    Comparator.comparing(instant -> instant.orElse(java.time.Instant.MAX)))
                .thenComparing(Photograph::originalPath))
        .forEach(
            shot ->
                rows.computeIfAbsent(
                        new Row(
                            shot.takenBy(),
                            shot.taken().map(taken -> taken.in(zone).toLocalDate())),
                        row -> new ArrayList<>())
                    .add(shot));
    return rows.entrySet().stream()
        .map(
            row ->
                new Stream(row.getKey().camera(), row.getKey().day(), runs(row.getValue(), zone)))
        .sorted(Comparator.comparing(stream -> stream.day().orElse(LocalDate.MAX)))
        .toList();
  }

  private static List<Run> runs(List<Photograph> shots, ZoneId zone) {
    List<Run> runs = new ArrayList<>();
    List<Photograph> run = new ArrayList<>();
    for (Photograph shot : shots) {
      if (!run.isEmpty() && isParted(run.get(run.size() - 1), shot, zone)) {
        runs.add(new Run(run));
        run.clear();
      }
      run.add(shot);
    }
    runs.add(new Run(run));
    return runs;
  }

  private static boolean isParted(Photograph before, Photograph after, ZoneId zone) {
    boolean sameStanding =
        Objects.equals(before.face(), after.face())
            && before.setAside().equals(after.setAside())
            && before.card().isEmpty()
            && after.card().isEmpty();
    boolean bothWaitInTime =
        before.isWaiting() && before.taken().isPresent() && after.taken().isPresent();
    return !sameStanding || (bothWaitInTime && ProposedGroups.isElsewhere(before, after, zone));
  }
}
