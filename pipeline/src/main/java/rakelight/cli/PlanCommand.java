package rakelight.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.ground.GroundPlan;
import rakelight.ground.PlanFiles;
import rakelight.marker.Caution;

@Command(
    name = "plan",
    description = {
      "Writes the plan of the ground: markers whose position is known, plots, and which footstones"
          + " are tied to which stones. It is the archive's own, complete and confidential."
    })
final class PlanCommand extends ArchiveCommand {
  @Option(names = "--geojson", paramLabel = "FILE", description = "As GeoJSON (RFC 7946).")
  private Optional<Path> geoJson = Optional.empty();

  @Option(names = "--svg", paramLabel = "FILE", description = "As a drawing, north up.")
  private Optional<Path> svg = Optional.empty();

  @Override
  int run(Archive archive) throws Exception {
    if (geoJson.isEmpty() && svg.isEmpty()) {
      throw wrong("Give --geojson FILE or --svg FILE");
    }
    GroundPlan plan = GroundPlan.of(archive);
    if (geoJson.isPresent()) {
      Files.writeString(geoJson.get(), PlanFiles.geoJson(plan) + "\n", StandardCharsets.UTF_8);
    }
    if (svg.isPresent()) {
      Files.writeString(svg.get(), PlanFiles.svg(plan), StandardCharsets.UTF_8);
    }
    out()
        .println(
            Counted.of(plan.markers().size(), "marker")
                + " on the plan, "
                + plan.unplaced().size()
                + " whose position nobody knows; "
                + Counted.of(plan.ties().size(), "footstone")
                + " tied");
    out().println(Caution.LOOK_ONLY);
    return 0;
  }
}
