package rakelight.cli;

import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalInt;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.ground.Horizon;
import rakelight.marker.NumberPattern;
import rakelight.person.calendar.CalendarChange;
import rakelight.publish.WithholdingStore;
import rakelight.survey.DatingClue;

@Command(
    name = "ground",
    description =
        "Shows the ground's settings, or corrects them; each change is signed and can be undone.")
final class GroundCommand extends ArchiveCommand {
  @Option(
      names = "--calendar",
      paramLabel = "CALENDAR",
      description = {
        "When the country went from the Julian to the Gregorian calendar: british, scottish,",
        "gregorian (always), or the first Gregorian day, perhaps with the first year counted from",
        "January: 1752-09-14,1752"
      })
  private Optional<String> calendar = Optional.empty();

  @Option(
      names = "--burials-told-after",
      paramLabel = "YEARS|none",
      description = {
        "How many years a burial must be old before it is published; none where the ground has no",
        "such rule."
      })
  private Optional<String> toldAfter = Optional.empty();

  @Option(names = "--name", paramLabel = "NAME", description = "What people call it.")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--datum",
      paramLabel = "LAT,LON",
      description = "Its datum point, decimal degrees, WGS 84: 54.1234,-3.2345")
  private Optional<String> datum = Optional.empty();

  @Option(names = "--zone", paramLabel = "ZONE", description = "Its time zone.")
  private Optional<String> zone = Optional.empty();

  @Option(
      names = "--numbers",
      paramLabel = "PATTERNS|none",
      description = {
        "How markers are numbered: # stands for figures, @ for a letter, everything else for"
            + " itself;",
        "several patterns are parted by spaces: \"@-# #\" lets A-12 and 12 through."
      })
  private Optional<String> numbers = Optional.empty();

  @Option(
      names = "--horizon",
      paramLabel = "AZIMUTH:HEIGHT|none",
      description = {
        "What hides the low sun, in degrees, azimuth clockwise from true north: \"80:6 110:14"
            + " 140:4\";",
        "a straight line is drawn from point to point."
      })
  private Optional<String> horizon = Optional.empty();

  @Option(
      names = "--region",
      paramLabel = "REGIONS|none",
      description = {
        "Whose fashions its markers follow, for `made`, parted by spaces: alabama, england,"
            + " galway,",
        "georgia, michigan, new-england, ohio, ontario, pennsylvania, scotland, texas."
      })
  private Optional<String> regions = Optional.empty();

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to change something.")
  private Optional<String> reader = Optional.empty();

  @Override
  int run(Archive archive) {
    Optional<CalendarChange> stated = calendar.map(this::parse);
    Optional<OptionalInt> rule = toldAfter.map(this::years);
    Ground before = archive.ground();
    Ground described = described(before);
    boolean changes = stated.isPresent() || rule.isPresent() || !described.equals(before);
    if (changes && reader.isEmpty()) {
      throw wrong("Give your name to change a setting (--reader)");
    }
    Ground wanted =
        stated
            .map(
                change ->
                    described.with(
                        new Ground.Calendar(
                            change.firstGregorianDay(), change.firstYearFromJanuary())))
            .orElse(described);
    if (!wanted.equals(before)) {
      archive.describe(wanted, reader.orElseThrow());
    }
    WithholdingStore withholding = new WithholdingStore(archive);
    rule.ifPresent(years -> withholding.tellAfter(years, reader.orElseThrow()));
    print(archive.ground(), withholding.toldAfterYears());
    return 0;
  }

  /** The ground as it is to be, but for its calendar. */
  private Ground described(Ground before) {
    try {
      Datum at =
          datum
              .map(Datum::of)
              .orElse(new Datum(before.latitudeDegrees(), before.longitudeDegrees()));
      Optional<String> patterns =
          numbers.isEmpty()
              ? before.numbers()
              : numbers.filter(words -> !words.equals("none")).map(String::strip);
      patterns.ifPresent(NumberPattern::of);
      Optional<String> hidden =
          horizon.isEmpty()
              ? before.horizon()
              : horizon.filter(words -> !words.equals("none")).map(String::strip);
      hidden.ifPresent(Horizon::parse);
      Optional<String> fashions =
          regions.isEmpty()
              ? before.regions()
              : regions.filter(words -> !words.equals("none")).map(String::strip);
      DatingClue.ofGround(fashions);
      return before
          .at(
              name.map(String::strip).orElse(before.name()),
              at.latitudeDegrees(),
              at.longitudeDegrees(),
              zone.map(ZoneId::of).orElse(before.zone()))
          .withNumbers(patterns)
          .withHorizon(hidden)
          .withRegions(fashions);
    } catch (DateTimeException e) {
      throw wrong("--zone must be a time zone such as Europe/Dublin: " + zone.orElse(""));
    } catch (IllegalArgumentException e) {
      throw wrong(String.valueOf(e.getMessage()));
    }
  }

  private void print(Ground ground, OptionalInt toldAfterYears) {
    PrintWriter out = out();
    CalendarChange change = CalendarChange.of(ground);
    out.println(ground.name());
    out.println(
        "datum     " + ground.latitudeDegrees() + "," + ground.longitudeDegrees() + " (WGS 84)");
    out.println("zone      " + ground.zone());
    out.println(
        "calendar  Gregorian from "
            + change.firstGregorianDay()
            + ", years from 1 January since "
            + change.firstYearFromJanuary()
            + (ground.calendar().isEmpty() ? " (British; nobody has stated it)" : ""));
    ground.numbers().ifPresent(patterns -> out.println("numbers   " + patterns));
    ground.horizon().ifPresent(points -> out.println("horizon   " + points + " (degrees)"));
    ground.regions().ifPresent(names -> out.println("region    " + names));
    toldAfterYears.ifPresent(years -> out.println("burials   told after " + years + " years"));
  }

  private OptionalInt years(String text) {
    if (text.equals("none")) {
      return OptionalInt.empty();
    }
    try {
      return OptionalInt.of(Integer.parseInt(text));
    } catch (NumberFormatException e) {
      throw wrong("--burials-told-after must be a number of years or none, not " + text);
    }
  }

  private CalendarChange parse(String text) {
    try {
      return CalendarChange.parse(text);
    } catch (IllegalArgumentException e) {
      throw wrong("--calendar " + text + ": " + e.getMessage());
    }
  }
}
