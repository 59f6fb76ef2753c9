package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.ground.FaceBearing;
import rakelight.ground.RakingRound;
import rakelight.ground.SunDay;
import rakelight.marker.Caution;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

@Command(
    name = "sun",
    description = {
      "When the sun rakes the faces, 5 to 20 degrees above their surface: on a day, with an order to",
      "photograph them in, or through a year. A face needs its bearing (assign --bearing), the ground",
      "its horizon where something hides the low sun (ground --horizon)."
    })
final class SunCommand extends ArchiveCommand {
  @Option(names = "--on", paramLabel = "DAY", description = "A day's plan: 2026-06-20")
  private Optional<LocalDate> day = Optional.empty();

  @Option(
      names = "--year",
      paramLabel = "YEAR",
      description = "Every face's days and hours through a year, three days a month.")
  private Optional<Integer> year = Optional.empty();

  @Option(names = "--marker", paramLabel = "NUMBER", description = "These alone; may be repeated.")
  private List<String> numbers = new ArrayList<>();

  @Option(
      names = "--lean",
      paramLabel = "DEGREES",
      defaultValue = "0",
      description = "How far the faces lean back out of upright; 90 for stones lying face up.")
  private double leanDegrees;

  @Option(
      names = "--between",
      paramLabel = "TIME-TIME",
      defaultValue = "00:00-23:59",
      description = "When you can be there, on the ground's clock: 08:00-17:30")
  private String between;

  @Option(
      names = "--minutes",
      paramLabel = "N",
      defaultValue = "6",
      description = "How long a face takes, with the way to it (default: ${DEFAULT-VALUE}).")
  private int minutes;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  /** A face whose bearing is known. */
  private record Seen(Marker marker, Face face, FaceBearing plane) {}

  @Override
  int run(Archive archive) {
    if (day.isPresent() == year.isPresent()) {
      throw wrong("Give a day (--on) or a year (--year).");
    }
    if (!(leanDegrees > -90 && leanDegrees <= 90)) {
      throw wrong("--lean must be -90 to 90 degrees, not " + leanDegrees);
    }
    if (minutes < 1) {
      throw wrong("--minutes must be 1 or more, not " + minutes);
    }
    PhotoStore photos = new PhotoStore(archive);
    List<Seen> seen = new ArrayList<>();
    int unknown = 0;
    for (Marker marker : markers(archive)) {
      for (Face face : photos.faces(marker.id())) {
        if (face.bearingDegrees().isPresent()) {
          FaceBearing plane = new FaceBearing(face.bearingDegrees().get(), leanDegrees);
          seen.add(new Seen(marker, face, plane));
        } else {
          unknown++;
        }
      }
    }
    if (day.isPresent()) {
      printDay(archive, seen, day.get());
    } else {
      printYear(archive, seen, year.orElseThrow());
    }
    if (unknown > 0) {
      err()
          .println(
              Counted.of(unknown, "face")
                  + " without a bearing: say where a face looks to with `assign ... --bearing`.");
    }
    if (!json && !seen.isEmpty()) {
      out().println(Caution.LOOK_ONLY);
      Caution.VISIT.forEach(out()::println);
    }
    return 0;
  }

  private List<Marker> markers(Archive archive) {
    MarkerStore store = new MarkerStore(archive);
    return numbers.isEmpty() ? store.markers() : numbers.stream().map(store::named).toList();
  }

  private void printDay(Archive archive, List<Seen> seen, LocalDate on) {
    String[] times = between.split("-", -1);
    LocalTime from = time(times[0]);
    LocalTime to = times.length == 2 ? time(times[1]) : badTime();
    SunDay sun = SunDay.of(archive.ground(), on);
    List<RakingRound.Stop<Seen>> stops =
        seen.stream().map(one -> new RakingRound.Stop<>(one, sun.raking(one.plane()))).toList();
    List<RakingRound.Visit<Seen>> visits = RakingRound.of(stops, from, to, minutes);
    Map<Seen, LocalTime> at = new LinkedHashMap<>();
    visits.forEach(visit -> at.put(visit.stop().what(), visit.at()));
    List<RakingRound.Stop<Seen>> ordered =
        new ArrayList<>(visits.stream().map(RakingRound.Visit::stop).toList());
    stops.stream().filter(stop -> !at.containsKey(stop.what())).forEach(ordered::add);
    ConditionStore conditions = new ConditionStore(archive);
    for (RakingRound.Stop<Seen> stop : ordered) {
      Optional<LocalTime> visit = Optional.ofNullable(at.get(stop.what()));
      if (json) {
        ObjectNode object = described(stop.what()).put("on", on.toString());
        raking(object.putArray("raking"), stop.raking());
        visit.ifPresent(time -> object.put("visit", time.toString()));
        unsafe(conditions, stop.what()).ifPresent(why -> object.put("unsafe", why));
        JsonLines.print(out(), object);
      } else {
        out()
            .println(
                visit.map(time -> time + "  ").orElse("  -    ")
                    + named(stop.what())
                    + "  "
                    + (stop.raking().isEmpty()
                        ? "not raked on this day"
                        : stop.raking().stream()
                            .map(SunCommand::told)
                            .collect(Collectors.joining(", ")))
                    + unsafe(conditions, stop.what()).map(why -> "  UNSAFE: " + why).orElse(""));
      }
    }
    if (!json) {
      out()
          .println(
              Counted.of(visits.size(), "face")
                  + " of "
                  + stops.size()
                  + " in the round on "
                  + on
                  + ", "
                  + minutes
                  + " min each.");
    }
  }

  private static Optional<String> unsafe(ConditionStore conditions, Seen seen) {
    return conditions
        .newest(seen.marker().id())
        .map(ConditionNote::unsafe)
        .filter(why -> !why.isEmpty());
  }

  private void printYear(Archive archive, List<Seen> seen, int of) {
    List<SunDay> days =
        IntStream.rangeClosed(1, 12)
            .boxed()
            .flatMap(month -> IntStream.of(1, 11, 21).mapToObj(on -> LocalDate.of(of, month, on)))
            .map(on -> SunDay.of(archive.ground(), on))
            .toList();
    boolean anyNever = false;
    for (Seen one : seen) {
      Map<LocalDate, List<SunDay.Raking>> found = new LinkedHashMap<>();
      for (SunDay sun : days) {
        List<SunDay.Raking> raking = sun.raking(one.plane());
        if (!raking.isEmpty()) {
          found.put(sun.day(), raking);
        }
      }
      anyNever |= found.isEmpty();
      if (json) {
        ObjectNode object = described(one).put("never", found.isEmpty());
        ArrayNode each = object.putArray("days");
        found.forEach(
            (on, raking) -> {
              ObjectNode line = each.addObject().put("on", on.toString());
              raking(line.putArray("raking"), raking);
            });
        JsonLines.print(out(), object);
      } else {
        out().println(named(one) + (found.isEmpty() ? "  never" : ""));
        found.forEach(
            (on, raking) ->
                out()
                    .println(
                        "  "
                            + on
                            + "  "
                            + raking.stream()
                                .map(SunCommand::told)
                                .collect(Collectors.joining(", "))));
      }
    }
    if (!json && anyNever) {
      out().println(Caution.OTHER_LIGHT);
    }
  }

  private static ObjectNode described(Seen seen) {
    return JsonLines.object()
        .put("marker", seen.marker().number())
        .put("face", seen.face().name())
        .put("bearing", seen.plane().bearingDegrees());
  }

  private static String named(Seen seen) {
    return "marker "
        + seen.marker().number()
        + " "
        + seen.face().name()
        + ", looks to "
        + degrees(seen.plane().bearingDegrees());
  }

  private static void raking(ArrayNode array, List<SunDay.Raking> raking) {
    for (SunDay.Raking light : raking) {
      array
          .addObject()
          .put("from", light.from().toString())
          .put("to", light.to().toString())
          .put("azimuth", Math.round(light.azimuthDegrees()))
          .put("strictly", light.strictly());
    }
  }

  private static String told(SunDay.Raking light) {
    return light.from()
        + " to "
        + light.to()
        + " from "
        + degrees(light.azimuthDegrees())
        + (light.strictly() ? "" : " (never under 10 degrees)");
  }

  private static String degrees(double value) {
    return String.format(Locale.ROOT, "%.0f\u00B0", value);
  }

  private LocalTime time(String words) {
    try {
      return LocalTime.parse(words.strip());
    } catch (DateTimeParseException e) {
      return badTime();
    }
  }

  private LocalTime badTime() {
    throw wrong("--between must be two times such as 08:00-17:30, not " + between);
  }
}
