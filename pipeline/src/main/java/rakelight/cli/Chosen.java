package rakelight.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import rakelight.archive.ArchiveException;
import rakelight.archive.PhotographId;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/** Finds the photographs that somebody names by id, by digest, by path or by file name. */
final class Chosen {
  private Chosen() {}

  static List<Photograph> of(PhotoStore store, List<String> names) {
    List<Photograph> all = store.photographs();
    Map<PhotographId, List<String>> others = store.otherPaths();
    List<Photograph> chosen = new ArrayList<>();
    for (String name : names) {
      List<Photograph> found =
          all.stream()
              .filter(p -> isMeant(p, others.getOrDefault(p.id(), List.of()), name))
              .toList();
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

  private static boolean isMeant(Photograph photograph, List<String> otherPaths, String name) {
    if (photograph.id().toString().equals(name)
        || photograph.sha256().hex().equals(name)
        || photograph.originalName().equals(name)) {
      return true;
    }
    String path = Path.of(name).toAbsolutePath().normalize().toString();
    return photograph.originalPath().equals(path) || otherPaths.contains(path);
  }
}
