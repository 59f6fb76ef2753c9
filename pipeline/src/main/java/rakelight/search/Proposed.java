package rakelight.search;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.index.HitList;
import rakelight.index.IndexException;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.index.Widening;
import rakelight.marker.Marker;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;

/**
 * An index of its own of what machines propose for faces that nobody has read, as it was when it
 * was made; closing removes it. Faces that two read blind are left out until both have signed. Safe
 * for many threads.
 */
public final class Proposed implements AutoCloseable {
  private final Path folder;
  private final SearchIndex index;

  private Proposed(Path folder, SearchIndex index) {
    this.folder = folder;
    this.index = index;
  }

  /**
   * Makes it, which takes time for each unread face.
   *
   * @throws ArchiveException if the folder for what is made on the way can't be written
   */
  static Proposed of(Archive archive) {
    Map<Marker, List<FaceStatements>> proposed = new LinkedHashMap<>();
    for (FaceStatements face : new Evidence(archive).proposed()) {
      proposed.computeIfAbsent(face.marker(), marker -> new ArrayList<>()).add(face);
    }
    Path folder = archive.workingFolder().resolve("proposed-" + UUID.randomUUID());
    try {
      try (IndexWriting writing = IndexWriting.open(folder, true).orElseThrow()) {
        Entries entries = new Entries(archive);
        proposed.forEach((marker, faces) -> writing.put(entries.of(marker, faces)));
        writing.commit(1);
      }
      return new Proposed(folder, SearchIndex.open(folder));
    } catch (IndexException e) {
      IndexWriting.remove(folder);
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  HitList find(String query, int limit, Set<Widening> widenings, SearchIndex.Neighbourhood near)
      throws QueryException {
    try {
      return index.search(query, limit, widenings, near);
    } catch (IndexException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  @Override
  public void close() {
    index.close();
    IndexWriting.remove(folder);
  }
}
