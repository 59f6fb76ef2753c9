package rakelight.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import rakelight.archive.ArchiveException;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/** Finds the photographs that somebody names by id, by digest, by path or by file name. */
final class Chosen {
  private Chosen() {}

  static List<Photograph> of(PhotoStore store, List<String> names) {
    List<Photograph> chosen = new ArrayList<>();
    for (String name : names) {
      List<Photograph> found =
          store.named(name, Path.of(name).toAbsolutePath().normalize().toString());
      if (found.size() != 1) {
        throw new ArchiveException(
            name
                + (found.isEmpty()
                    ? ": no such photograph here. List them with `photographs`."
                    : ": " + found.size() + " photographs have that name. Give the id instead."));
      }
      chosen.add(found.get(0));
    }
    return chosen;
  }
}
