package rakelight.ground;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.jdbi.v3.core.mapper.RowMapper;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;
import rakelight.archive.Uuid7;
import rakelight.marker.MarkerStore;

/** Walks that people planned. The newest plan of a walk stands, those before it are kept. */
public final class WalkStore {
  /** Subject: the walk's own id. */
  static final String PLANNED = "walk.planned";

  /** More stops than anybody walks in a day; a choice. */
  private static final int MOST_STOPS = 200;

  private static final int LONGEST_NAME = 100;
  private static final int LONGEST_NOTE = 1000;
  private static final int LONGEST_MINUTES = 120;

  private final Archive archive;

  /** Version 1 of the payload; a walk without stops is gone. */
  record Plan(String name, List<PlannedWalk.Stop> stops, boolean back, int minutes) {
    Plan {
      stops = List.copyOf(stops);
    }
  }

  private static final RowMapper<PlannedWalk> ROW =
      (row, context) -> {
        Plan plan = Json.read(row.getString("plan"), Plan.class);
        return new PlannedWalk(
            UUID.fromString(row.getString("walk_id")),
            plan.name(),
            plan.stops(),
            plan.back(),
            plan.minutes(),
            row.getString("reader"),
            Instant.parse(row.getString("at")),
            DecisionId.of(row.getString("decision_id")));
      };

  public WalkStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new WalkProjection();
  }

  /**
   * Plans a walk.
   *
   * @return its id
   * @throws ArchiveException as {@link #change} does
   */
  public UUID plan(
      String name, List<PlannedWalk.Stop> stops, boolean back, int minutes, String reader) {
    if (stops.isEmpty()) {
      throw new ArchiveException("A walk goes to a marker at least; name one.");
    }
    UUID id = Uuid7.next();
    change(id, name, stops, back, minutes, reader);
    return id;
  }

  /**
   * Plans a walk anew.
   *
   * @param stops none to drop the walk; a marker named twice is one stop
   * @throws ArchiveException if a name is missing, or there is too much of something
   */
  public void change(
      UUID id,
      String name,
      List<PlannedWalk.Stop> stops,
      boolean back,
      int minutes,
      String reader) {
    String called = name.strip();
    if (called.isEmpty() || called.length() > LONGEST_NAME) {
      throw new ArchiveException("Give the walk a name, in " + LONGEST_NAME + " signs at most.");
    }
    if (minutes < 0 || minutes > LONGEST_MINUTES) {
      throw new ArchiveException("One stays 0 to " + LONGEST_MINUTES + " minutes at a marker.");
    }
    MarkerStore markers = new MarkerStore(archive);
    Set<MarkerId> seen = new LinkedHashSet<>();
    List<PlannedWalk.Stop> clean = new ArrayList<>();
    for (PlannedWalk.Stop stop : stops) {
      if (stop.note().strip().length() > LONGEST_NOTE) {
        throw new ArchiveException("A note has " + LONGEST_NOTE + " signs at most.");
      }
      if (seen.add(stop.marker())) {
        clean.add(new PlannedWalk.Stop(stop.marker(), stop.note().strip()));
      }
    }
    if (clean.size() > MOST_STOPS) {
      throw new ArchiveException("A walk has " + MOST_STOPS + " stops at most.");
    }
    archive
        .journal()
        .append(
            NewDecision.of(reader, PLANNED, 1, id, new Plan(called, clean, back, minutes))
                .restingOn(seen.stream().map(markers::madeBy).toList()));
  }

  /** All walks, by name. */
  public List<PlannedWalk> walks() {
    Map<String, PlannedWalk> named = new TreeMap<>();
    Set<UUID> seen = new LinkedHashSet<>();
    for (PlannedWalk walk : rows()) {
      if (seen.add(walk.id()) && !walk.stops().isEmpty()) {
        named.put(walk.name() + " " + walk.id(), walk);
      }
    }
    return List.copyOf(named.values());
  }

  /** A walk by its id. */
  public Optional<PlannedWalk> walk(UUID id) {
    return walks().stream().filter(walk -> walk.id().equals(id)).findFirst();
  }

  private List<PlannedWalk> rows() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery(
                        "SELECT walk_id, plan, reader, at, decision_id FROM planned_walk ORDER BY"
                            + " counter DESC")
                    .map(ROW)
                    .list());
  }
}
