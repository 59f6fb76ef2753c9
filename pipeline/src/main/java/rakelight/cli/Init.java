package rakelight.cli;

import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.Ground;

@Command(name = "init", description = "Makes a new, empty archive for one burial ground.")
final class Init implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "A new folder.")
  private Path root;

  @Option(names = "--ground", required = true, description = "Name of the burial ground.")
  private String name;

  @Option(
      names = "--datum",
      required = true,
      paramLabel = "LAT,LON",
      description = "Its datum point, decimal degrees, WGS 84: 54.1234,-3.2345")
  private String datum;

  @Option(
      names = "--zone",
      required = true,
      paramLabel = "ZONE",
      description = "Its time zone, such as Europe/Dublin.")
  private String zone;

  @Override
  public Integer call() {
    Ground ground = ground();
    try (Archive archive = Archive.init(root, ground, Projections.all())) {
      spec.commandLine()
          .getOut()
          .println("Made an archive for " + ground.name() + " in " + archive.root());
    }
    return 0;
  }

  private Ground ground() {
    try {
      return ground(name, datum, zone);
    } catch (IllegalArgumentException e) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), String.valueOf(e.getMessage()), e);
    }
  }

  /**
   * A ground as somebody describes it.
   *
   * @throws IllegalArgumentException if the words mean no place or no zone
   */
  static Ground ground(String name, String datum, String zone) {
    Datum at = Datum.of(datum);
    try {
      return new Ground(name, at.latitudeDegrees(), at.longitudeDegrees(), ZoneId.of(zone));
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "--zone must be a time zone such as Europe/Dublin: " + zone, e);
    }
  }
}
