package rakelight.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/** Says which signed readings stay on faces that the last photograph has left. */
final class LeftBehind {
  private final PhotoStore photos;
  private final MarkerStore markers;
  private final ReadingStore readings;

  LeftBehind(Archive archive) {
    this.photos = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
  }

  /**
   * @param before photographs as they were before they were moved
   */
  void say(List<Photograph> before, PrintWriter err) {
    TreeSet<String> lines = new TreeSet<>();
    for (Photograph photograph : before) {
      photograph.face().flatMap(this::line).ifPresent(lines::add);
    }
    lines.forEach(err::println);
  }

  private Optional<String> line(FaceId id) {
    Optional<Reading> reading = readings.current(id);
    if (reading.isEmpty() || !photos.ofFace(id).isEmpty()) {
      return Optional.empty();
    }
    Face face = photos.face(id).orElseThrow();
    return Optional.of(
        "marker "
            + markers.numberOf(face.marker())
            + ", "
            + face.name()
            + ": no photograph is left on it, and the reading by "
            + reading.get().reader()
            + " stays there. If it belongs elsewhere, have it read there.");
  }
}
