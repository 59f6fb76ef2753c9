package rakelight.ground;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import rakelight.archive.Ground;

/**
 * One day's sun over a ground, minute by minute.
 *
 * @param sun where it stands, by the minute since the day began; behind the horizon too
 */
public record SunDay(LocalDate day, List<Minute> sun, Horizon horizon) {
  /**
   * Low enough over a face that its letters throw shadows, high enough that it isn't dark: 5 to 20
   * degrees (common practice, no source).
   */
  public static final double LEAST_DEGREES = 5;

  /** See {@link #LEAST_DEGREES}. */
  public static final double MOST_DEGREES = 20;

  /**
   * Raking in the strict sense of imaging services, 80 degrees and more from the normal of the
   * face.
   */
  public static final double STRICT_DEGREES = 10;

  /**
   * @param time on the ground's clock
   */
  public record Minute(ZonedDateTime time, SunPosition sun) {}

  /**
   * A stretch of time in which the sun rakes a face.
   *
   * @param to the last minute of it
   * @param strictly whether it gets as low as {@link #STRICT_DEGREES} over the face
   * @param azimuthDegrees where the light comes from in the middle of it
   */
  public record Raking(LocalTime from, LocalTime to, boolean strictly, double azimuthDegrees) {
    /** So many minutes, at least one. */
    public int minutes() {
      return to.toSecondOfDay() / 60 - from.toSecondOfDay() / 60 + 1;
    }
  }

  public SunDay {
    sun = List.copyOf(sun);
  }

  /** The sun of a day on a ground's own clock; what hides it there is counted. */
  public static SunDay of(Ground ground, LocalDate day) {
    ZoneId zone = ground.zone();
    List<Minute> minutes = new ArrayList<>();
    ZonedDateTime end = day.plusDays(1).atStartOfDay(zone);
    for (ZonedDateTime time = day.atStartOfDay(zone);
        time.isBefore(end);
        time = time.plusMinutes(1)) {
      minutes.add(
          new Minute(
              time, SunPosition.at(time, ground.latitudeDegrees(), ground.longitudeDegrees(), 0)));
    }
    return new SunDay(day, minutes, ground.horizon().map(Horizon::parse).orElse(Horizon.LEVEL));
  }

  /** When the sun rakes a face on this day, in order. */
  public List<Raking> raking(FaceBearing face) {
    List<Raking> found = new ArrayList<>();
    int start = -1;
    for (int at = 0; at <= sun.size(); at++) {
      boolean rakes = at < sun.size() && rakes(face, sun.get(at).sun());
      if (rakes && start < 0) {
        start = at;
      } else if (!rakes && start >= 0) {
        found.add(stretch(face, sun.subList(start, at)));
        start = -1;
      }
    }
    return found;
  }

  private boolean rakes(FaceBearing face, SunPosition position) {
    double height = face.heightOf(position);
    return horizon.lets(position) && height >= LEAST_DEGREES && height <= MOST_DEGREES;
  }

  private static Raking stretch(FaceBearing face, List<Minute> minutes) {
    return new Raking(
        minutes.get(0).time().toLocalTime(),
        minutes.get(minutes.size() - 1).time().toLocalTime(),
        minutes.stream().anyMatch(one -> face.heightOf(one.sun()) <= STRICT_DEGREES),
        minutes.get(minutes.size() / 2).sun().azimuthDegrees());
  }
}
