package rakelight.samples;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * How the volunteers of one season photographed a face: when the sun raked it if it ever does, else
 * in shade or by lamp.
 */
final class SeasonVisit {
  private static final View.Equipment[] CAMERAS = {
    new View.Equipment("Halden", "Halden Pocket 4", "Halden 4.3mm f/1.8", 4.3, 27, 1.8),
    new View.Equipment("Orrery", "Orrery X2", "Orrery 23mm f/2", 23, 35, 5.6),
    new View.Equipment("Tamsin Optical", "T-900", "Tamsin 18-55mm f/3.5-5.6", 30, 45, 8.0)
  };
  private static final LocalDate[] DAYS = {
    LocalDate.of(2026, 4, 18),
    LocalDate.of(2026, 5, 9),
    LocalDate.of(2026, 6, 13),
    LocalDate.of(2026, 7, 11),
    LocalDate.of(2026, 9, 5),
    LocalDate.of(2026, 9, 26)
  };

  /** Metres of latitude in a degree; enough for a ground of fifty metres. */
  private static final double METRES_PER_DEGREE = 111_132;

  private SeasonVisit() {}

  /** The views of one face: one, or the lights of a raking set from one camera position. */
  static List<View> views(SampleGround ground, SampleMarker marker, SampleFace face, int widthPx) {
    SplittableRandom r = new SplittableRandom(face.seed() ^ 0x7157L);
    ZoneId zone = ZoneId.of(ground.zone());
    double[] at = position(ground, marker);
    double lat = at[0];
    double lon = at[1];
    boolean raking = marker.lights() > 1;
    OffsetDateTime taken = at(zone, DAYS[r.nextInt(DAYS.length)], 11 * 3600 + r.nextInt(3600), r);
    Lamp light = new Lamp(0, 45, 0, 1, false);
    if (raking) {
      taken = at(zone, DAYS[3], 20 * 3600 + 50 * 60 + (int) (marker.eastM() * 40), r);
      light = Lamp.raking(face, around(0, marker.lights(), r), 12);
    } else if (r.nextInt(6) > 0) {
      for (int tries = 0; tries < 300; tries++) {
        OffsetDateTime t =
            at(zone, DAYS[r.nextInt(DAYS.length)], r.nextInt(7 * 3600, 20 * 3600), r);
        Sun sun = Sun.at(t.toInstant(), lat, lon);
        double grazing =
            Math.toDegrees(
                Math.asin(
                    new Lamp(sun.azimuthDegrees(), sun.elevationDegrees(), 1, 0.3, false)
                        .inFrameOf(face)[2]));
        double widest = tries < 150 ? 32 : 65;
        if (sun.elevationDegrees() > 6 && grazing > 7 && grazing < widest) {
          taken = t;
          light =
              new Lamp(sun.azimuthDegrees(), sun.elevationDegrees(), 1, 0.30, r.nextInt(9) == 0);
          break;
        }
      }
    }
    double yaw = r.nextDouble(-11, 11);
    double accuracy = r.nextDouble(3, 9);
    View.Position position =
        new View.Position(
            lat + r.nextDouble(-0.6, 0.6) * accuracy / METRES_PER_DEGREE,
            lon
                + r.nextDouble(-0.6, 0.6)
                    * accuracy
                    / (METRES_PER_DEGREE * Math.cos(Math.toRadians(lat))),
            14 + r.nextDouble(-2, 2),
            accuracy,
            (face.bearingDegrees() + 180 - yaw + r.nextDouble(-4, 4) + 720) % 360);
    boolean small = face.stone().heightMm() < 450;
    double pitch =
        face.stone().lying()
            ? -r.nextDouble(14, 26)
            : small ? r.nextDouble(18, 32) : r.nextDouble(3, 13);
    View.Equipment camera = CAMERAS[raking ? 2 : r.nextInt(CAMERAS.length)];
    int orientation =
        raking
            ? 1
            : new int[] {1, 1, 1, 6, 1, 1, 6, 1, 1, 1, 1, 8, 1, 1, 6, 1, 1, 3}[r.nextInt(18)];
    View first =
        new View(
            light,
            yaw,
            pitch,
            r.nextDouble(-1.8, 1.8),
            r.nextDouble(0.74, 0.88),
            widthPx,
            widthPx * 21 / 16,
            orientation,
            r.nextDouble(0.55, 0.95) * widthPx / 1600,
            r.nextDouble(0.008, 0.03),
            r.nextDouble(0.80, 0.90),
            camera,
            taken,
            position);
    List<View> out = new ArrayList<>(List.of(first));
    for (int i = 1; i < marker.lights(); i++) {
      out.add(
          first.with(
              Lamp.raking(face, around(i, marker.lights(), r), r.nextDouble(9, 18)),
              40L * i + r.nextInt(12)));
    }
    return out;
  }

  /** Latitude and longitude of a marker. */
  static double[] position(SampleGround ground, SampleMarker marker) {
    return new double[] {
      ground.latitude() + marker.northM() / METRES_PER_DEGREE,
      ground.longitude()
          + marker.eastM() / (METRES_PER_DEGREE * Math.cos(Math.toRadians(ground.latitude())))
    };
  }

  /**
   * Lamps are held from one side over the top to the other: from below, grass and hand are in the
   * way.
   */
  private static double around(int i, int count, SplittableRandom r) {
    return -82 + 164.0 * i / (count - 1) + r.nextDouble(-4, 4);
  }

  private static OffsetDateTime at(ZoneId zone, LocalDate day, int second, SplittableRandom r) {
    Instant t =
        day.atTime(LocalTime.ofSecondOfDay(second))
            .atZone(zone)
            .toInstant()
            .plusMillis(r.nextInt(1000));
    return t.atZone(zone).toOffsetDateTime();
  }
}
