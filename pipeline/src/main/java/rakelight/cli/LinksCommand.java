package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.marker.MarkerStore;

@Command(name = "links", description = "Lists the confirmed links.")
final class LinksCommand extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    MarkerStore markers = new MarkerStore(archive);
    for (Link link : new LinkStore(archive).links()) {
      String from = markers.numberOf(link.from());
      Optional<String> to = link.toMarker().map(markers::numberOf);
      if (json) {
        ObjectNode object = JsonLines.object().put("from", from).put("kind", link.kind().label());
        to.ifPresent(number -> object.put("toMarker", number));
        link.toWords().ifPresent(words -> object.put("toPerson", words));
        object
            .put("note", link.note())
            .put("reader", link.reader())
            .put("at", link.at().toString())
            .put("decision", link.decision().toString());
        JsonLines.print(out, object);
      } else {
        out.println(
            from
                + "  "
                + link.kind().label()
                + " "
                + to.or(link::toWords).orElse("")
                + (link.note().isEmpty() ? "" : "  (" + link.note() + ")")
                + "  "
                + link.reader()
                + "  "
                + link.decision());
      }
    }
    return 0;
  }
}
