package rakelight.ground;

import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;

/** Writes the tables that {@link PositionStore} reads. */
final class PositionProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(
        PositionStore.NOTED, PositionStore.IN_ROW, PositionStore.POINT, PositionStore.PLOT);
  }

  @Override
  public Set<String> tables() {
    return Set.of("position_note", "row_place", "datum_point", "plot");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(
        PositionStore.IN_ROW,
        "its place in a row",
        PositionStore.POINT,
        "where the point is",
        PositionStore.PLOT,
        "the bounds of the plot");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM position_note WHERE marker_id = ?", subject.toString());
    handle.execute("DELETE FROM row_place WHERE marker_id = ?", subject.toString());
    handle.execute("DELETE FROM datum_point WHERE subject = ?", subject.toString());
    handle.execute("DELETE FROM plot WHERE subject = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(1);
    String id = decision.id().toString();
    String subject = decision.subject().toString();
    switch (decision.kind()) {
      case PositionStore.NOTED -> {
        PositionStore.Noted noted = decision.payload(PositionStore.Noted.class);
        handle.execute(
            "INSERT INTO position_note VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            id,
            subject,
            noted.basis(),
            noted.latitudeDegrees(),
            noted.longitudeDegrees(),
            noted.errorMetres(),
            noted.words(),
            decision.reader(),
            decision.counter());
      }
      case PositionStore.IN_ROW -> {
        RowPlace place = decision.payload(RowPlace.class);
        handle.execute(
            "INSERT INTO row_place VALUES (?, ?, ?, ?, ?)",
            id,
            subject,
            place.row(),
            place.place(),
            decision.counter());
      }
      case PositionStore.POINT -> {
        DatumPoint point = decision.payload(DatumPoint.class);
        handle.execute(
            "INSERT INTO datum_point VALUES (?, ?, ?, ?, ?, ?, ?)",
            id,
            subject,
            point.name(),
            point.latitudeDegrees(),
            point.longitudeDegrees(),
            point.errorMetres(),
            decision.counter());
      }
      default -> {
        Plot plot = decision.payload(Plot.class);
        handle.execute(
            "INSERT INTO plot VALUES (?, ?, ?, ?, ?)",
            id,
            subject,
            plot.name(),
            Json.text(plot.boundary()),
            decision.counter());
      }
    }
  }
}
