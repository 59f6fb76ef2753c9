package rakelight.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;

/** The ground's settings, as last described. The subject is the archive's own id. */
final class GroundProjection implements Projection {
  static final String DESCRIBED = "ground.described";

  @Override
  public Set<String> kinds() {
    return Set.of(DESCRIBED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("ground");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(DESCRIBED, "the ground's settings");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM ground WHERE archive_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    Ground ground = decision.payload(Ground.class);
    handle.execute(
        "INSERT OR REPLACE INTO ground"
            + " (archive_id, name, latitude_degrees, longitude_degrees, zone, first_gregorian_day,"
            + " first_year_from_january, numbers, horizon, regions) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        decision.subject().toString(),
        ground.name(),
        ground.latitudeDegrees(),
        ground.longitudeDegrees(),
        ground.zone().getId(),
        ground.calendar().map(calendar -> calendar.firstGregorianDay().toString()).orElse(null),
        ground.calendar().map(Ground.Calendar::firstYearFromJanuary).orElse(null),
        ground.numbers().orElse(null),
        ground.horizon().orElse(null),
        ground.regions().orElse(null));
  }

  static UUID archiveId(Handle handle) {
    return UUID.fromString(
        handle.createQuery("SELECT archive_id FROM ground").mapTo(String.class).one());
  }

  static UUID id(Handle handle) {
    return handle
        .createQuery("SELECT archive_id FROM ground")
        .mapTo(String.class)
        .map(UUID::fromString)
        .one();
  }

  static Ground read(Handle handle) {
    return handle
        .createQuery(
            "SELECT name, latitude_degrees, longitude_degrees, zone, first_gregorian_day,"
                + " first_year_from_january, numbers, horizon, regions FROM ground")
        .map(
            (row, context) ->
                new Ground(
                    row.getString("name"),
                    row.getDouble("latitude_degrees"),
                    row.getDouble("longitude_degrees"),
                    ZoneId.of(row.getString("zone")),
                    Optional.ofNullable(row.getString("first_gregorian_day"))
                        .map(day -> new Ground.Calendar(LocalDate.parse(day), year(row))),
                    Optional.ofNullable(row.getString("numbers")),
                    Optional.ofNullable(row.getString("horizon")),
                    Optional.ofNullable(row.getString("regions"))))
        .one();
  }

  private static int year(ResultSet row) {
    try {
      return row.getInt("first_year_from_january");
    } catch (SQLException e) {
      throw new ArchiveException("the ground's calendar can't be read: " + e.getMessage(), e);
    }
  }
}
