package rakelight.cli;

import java.io.PrintWriter;
import java.util.Optional;
import java.util.OptionalInt;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.person.calendar.CalendarChange;
import rakelight.publish.WithholdingStore;

@Command(
    name = "ground",
    description =
        "Shows the ground's settings, or states its calendar or its rule for young burials.")
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

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to change something.")
  private Optional<String> reader = Optional.empty();

  @Override
  int run(Archive archive) {
    Optional<CalendarChange> stated = calendar.map(this::parse);
    Optional<OptionalInt> rule = toldAfter.map(this::years);
    if ((stated.isPresent() || rule.isPresent()) && reader.isEmpty()) {
      throw wrong("Give your name to change a setting (--reader)");
    }
    stated.ifPresent(
        change ->
            archive.describe(
                archive
                    .ground()
                    .with(
                        new Ground.Calendar(
                            change.firstGregorianDay(), change.firstYearFromJanuary())),
                reader.orElseThrow()));
    WithholdingStore withholding = new WithholdingStore(archive);
    rule.ifPresent(years -> withholding.tellAfter(years, reader.orElseThrow()));
    print(archive.ground(), withholding.toldAfterYears());
    return 0;
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
