package rakelight.work;

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

/** Tells which signed readings stay on faces that the last photograph has left. */
public final class LeftBehind {
  private final PhotoStore photos;
  private final MarkerStore markers;
  private final ReadingStore readings;

  public LeftBehind(Archive archive) {
    this.photos = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
  }

  /**
   * A line for each such face.
   *
   * @param before photographs as they were before they were moved
   */
  public List<String> lines(List<Photograph> before) {
    TreeSet<String> lines = new TreeSet<>();
    for (Photograph photograph : before) {
      photograph.face().flatMap(this::line).ifPresent(lines::add);
    }
    return List.copyOf(lines);
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
