package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

@Command(
    name = "markers",
    description = "Lists the markers with their other numbers, faces and photographs.")
final class MarkersCommand extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PhotoStore photographs = new PhotoStore(archive);
    ReadingStore readings = new ReadingStore(archive);
    for (Marker marker : new MarkerStore(archive).markers()) {
      ObjectNode object = JsonLines.object();
      object.put("marker", marker.number());
      marker.earlierNumbers().forEach(object.withArray("otherNumbers")::add);
      ArrayNode faces = object.putArray("faces");
      StringBuilder words = new StringBuilder(marker.number());
      if (!marker.earlierNumbers().isEmpty()) {
        words.append(" (also ").append(String.join(", ", marker.earlierNumbers())).append(')');
      }
      boolean empty = true;
      for (Face face : photographs.faces(marker.id())) {
        int shots = photographs.ofFace(face.id()).size();
        boolean read = readings.current(face.id()).isPresent();
        empty &= shots == 0 && !read;
        faces.addObject().put("face", face.name()).put("photographs", shots).put("read", read);
        words
            .append("  ")
            .append(face.name())
            .append(": ")
            .append(Counted.of(shots, "photograph"))
            .append(read ? ", read" : "");
      }
      if (empty) {
        words.append("  (no photograph, nothing read)");
      }
      if (json) {
        JsonLines.print(out(), object);
      } else {
        out().println(words);
      }
    }
    return 0;
  }
}
