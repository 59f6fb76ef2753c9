package rakelight.desk;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.ground.FaceBearing;
import rakelight.ground.SunDay;
import rakelight.marker.Description;
import rakelight.photo.Face;

/**
 * When the sun rakes faces, in words; keeps the days of one year, since they are the same for all.
 */
final class Sunlight {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM", Locale.ENGLISH);
  private static final int[] DAYS = {1, 11, 21};

  private final Archive archive;
  private Optional<Year> kept = Optional.empty();

  private record Year(
      Ground ground, int of, List<SunDay> days, SunDay today, Map<FaceBearing, Boolean> never) {}

  Sunlight(Archive archive) {
    this.archive = archive;
  }

  /** How a face stands, if it is known where it looks to; a fallen marker's lies face up. */
  static Optional<FaceBearing> plane(Face face, Description said) {
    double lean = said.hasState("lying face up") ? 90 : 0;
    return face.bearingDegrees().map(bearing -> new FaceBearing(bearing, lean));
  }

  /** Where a face looks to, in words. */
  static String looks(Face face) {
    return face.bearingDegrees()
        .map(bearing -> compass(bearing) + String.format(Locale.ROOT, ", %.0f°", bearing))
        .orElse("nobody has said where to");
  }

  private static String compass(double bearing) {
    String[] names = {
      "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
    };
    return names[(int) Math.round(((bearing % 360) + 360) % 360 / 45) % 8];
  }

  /** A face through the year of a day, three days a month. */
  StonePage.SunFace of(Face face, FaceBearing plane, LocalDate today) {
    Year year = year(today);
    List<StonePage.Row> days = new ArrayList<>();
    StringBuilder chart = new StringBuilder();
    List<LocalDate> raked = new ArrayList<>();
    for (SunDay day : year.days()) {
      List<SunDay.Raking> raking = day.raking(plane);
      if (!raking.isEmpty()) {
        raked.add(day.day());
        days.add(new StonePage.Row(DAY.format(day.day()), told(raking)));
      }
      for (SunDay.Raking light : raking) {
        chart.append(
            String.format(
                Locale.ROOT,
                "M%d %.2fV%.2f",
                day.day().getDayOfYear(),
                hour(light.from()),
                hour(light.to())));
      }
    }
    List<SunDay.Raking> now = year.today().raking(plane);
    return new StonePage.SunFace(
        face.name(),
        raked.isEmpty()
            ? "never"
            : raked.size() == year.days().size() ? "all year" : stretches(year, raked),
        now.isEmpty() ? "not today" : "today " + told(now),
        chart.toString(),
        days);
  }

  /** Whether no day looked at in the year has raking light for a face. */
  boolean isNeverRaked(FaceBearing plane, LocalDate in) {
    Year year = year(in);
    synchronized (year.never()) {
      return year.never()
          .computeIfAbsent(
              plane, face -> year.days().stream().allMatch(day -> day.raking(face).isEmpty()));
    }
  }

  /** The day's sun over the ground. */
  SunDay day(LocalDate day) {
    return SunDay.of(archive.ground(), day);
  }

  static String told(List<SunDay.Raking> raking) {
    return raking.stream()
        .map(light -> light.from() + " to " + light.to())
        .collect(Collectors.joining(", "));
  }

  private static double hour(LocalTime time) {
    return time.toSecondOfDay() / 3600.0;
  }

  /** Days in a row, as far as three days a month tell. */
  private static String stretches(Year year, List<LocalDate> raked) {
    List<String> told = new ArrayList<>();
    int start = -1;
    for (int i = 0; i <= year.days().size(); i++) {
      boolean is = i < year.days().size() && raked.contains(year.days().get(i).day());
      if (is && start < 0) {
        start = i;
      } else if (!is && start >= 0) {
        told.add(
            DAY.format(year.days().get(start).day())
                + " to "
                + DAY.format(year.days().get(i - 1).day()));
        start = -1;
      }
    }
    return "about " + String.join(", and ", told);
  }

  private synchronized Year year(LocalDate today) {
    Ground ground = archive.ground();
    Year year =
        kept.filter(one -> one.ground().equals(ground) && one.of() == today.getYear())
            .orElseGet(
                () ->
                    new Year(
                        ground,
                        today.getYear(),
                        IntStream.rangeClosed(1, 12)
                            .boxed()
                            .flatMap(
                                month ->
                                    IntStream.of(DAYS)
                                        .mapToObj(day -> LocalDate.of(today.getYear(), month, day)))
                            .map(day -> SunDay.of(ground, day))
                            .toList(),
                        SunDay.of(ground, today),
                        new HashMap<>()));
    if (!year.today().day().equals(today)) {
      year = new Year(ground, year.of(), year.days(), SunDay.of(ground, today), year.never());
    }
    kept = Optional.of(year);
    return year;
  }
}
