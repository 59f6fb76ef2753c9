package rakelight.cli;

import java.io.OutputStream;
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
import rakelight.publish.paper.PlanSheets;

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

  @Option(
      names = "--pdf",
      paramLabel = "FILE",
      description = "As sheets to print, with an index of names.")
  private Optional<Path> pdf = Optional.empty();

  @Option(
      names = "--scale",
      paramLabel = "N",
      description = "Of the sheets, 1:N; 200 unless given.")
  private int scale = PlanSheets.USUAL_SCALE;

  @Override
  int run(Archive archive) throws Exception {
    if (geoJson.isEmpty() && svg.isEmpty() && pdf.isEmpty()) {
      throw wrong("Give --geojson FILE, --svg FILE or --pdf FILE");
    }
    if (scale < PlanSheets.LARGEST_SCALE || scale > PlanSheets.SMALLEST_SCALE) {
      throw wrong(
          "--scale is a number from "
              + PlanSheets.LARGEST_SCALE
              + " to "
              + PlanSheets.SMALLEST_SCALE
              + ", such as 200 for 1:200");
    }
    GroundPlan plan = GroundPlan.of(archive);
    if (geoJson.isPresent()) {
      Files.writeString(geoJson.get(), PlanFiles.geoJson(plan) + "\n", StandardCharsets.UTF_8);
    }
    if (svg.isPresent()) {
      Files.writeString(svg.get(), PlanFiles.svg(plan), StandardCharsets.UTF_8);
    }
    if (pdf.isPresent()) {
      try (OutputStream sheets = Files.newOutputStream(pdf.get())) {
        out()
            .println(Counted.of(PlanSheets.write(plan, scale, sheets), "sheet") + " at 1:" + scale);
      }
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
