package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.ProposedGroups;

@Command(
    name = "groups",
    description = "Proposes which photographs may show one face; `assign` decides.")
final class Groups extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    List<List<Photograph>> groups =
        ProposedGroups.of(new PhotoStore(archive).photographs(), archive.ground().zone());
    long undated =
        new PhotoStore(archive)
            .photographs().stream()
                .filter(p -> p.face().isEmpty() && p.card().isEmpty() && p.taken().isEmpty())
                .count();
    if (undated > 0) {
      err()
          .println(
              Counted.of((int) undated, "photograph")
                  + " on no face without a time, in no group: `photographs --unplaced --undated`.");
    }
    int number = 0;
    for (List<Photograph> group : groups) {
      number++;
      if (json) {
        ObjectNode object = JsonLines.object().put("group", number);
        ArrayNode photographs = object.putArray("photographs");
        group.forEach(photograph -> photographs.add(photograph.id().toString()));
        JsonLines.print(out, object);
      } else {
        out.println("Group " + number + ", " + group.size() + " photographs:");
        group.forEach(
            photograph -> out.println("  " + photograph.id() + "  " + photograph.originalPath()));
      }
    }
    return 0;
  }
}
