package rakelight.cli;

import java.util.List;
import rakelight.archive.Projection;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;

/** Every store's projection: an archive is always opened with all of them. */
final class Projections {
  private Projections() {}

  static List<Projection> all() {
    return List.of(PhotoStore.projection(), ReadingStore.projection());
  }
}
