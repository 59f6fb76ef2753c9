package rakelight.search;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.index.Hit;
import rakelight.index.IndexException;
import rakelight.index.IndexWriting;
import rakelight.index.QueryException;
import rakelight.index.SearchIndex;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * The index of an archive: brought up to date by following the journal, and searched. Only
 * confirmed readings and links are in it.
 */
public final class GroundSearch {
  private static final String FOLDER = "index";
  private static final Pattern ASKED_BY_NUMBER = Pattern.compile("(^|\\s)marker:(\"[^\"]*\"|\\S+)");

  private final Archive archive;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final LinkStore links;
  private final MarkerStore markers;
  private final Path folder;

  /**
   * What bringing the index up to date did.
   *
   * @param changed faces put in anew or taken out
   * @param entries faces in the index now
   */
  public record Updated(int changed, int entries) {}

  /**
   * A hit with what the archive has of it.
   *
   * @param reading the reading as it stands; empty if it was undone since the index was made
   * @param originals the photographs of the face, as they lie in the archive
   */
  public record Answer(
      Hit hit, Optional<Reading> reading, List<Photograph> photographs, List<Path> originals) {}

  public GroundSearch(Archive archive) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
    this.readings = new ReadingStore(archive);
    this.links = new LinkStore(archive);
    Path own = archive.root().resolve(FOLDER);
    this.folder =
        archive.isOnlyLookedAt() && !isUpToDate(own)
            ? archive.workingFolder().resolve(FOLDER)
            : own;
  }

  /**
   * Brings the index up to date with the journal.
   *
   * @param anew whether to make it from the beginning even if it is sound
   * @return empty while another process does so
   * @throws ArchiveException if it can't be written
   */
  public Optional<Updated> update(boolean anew) {
    try (IndexWriting writing = IndexWriting.open(folder, anew).orElse(null)) {
      if (writing == null) {
        return Optional.empty();
      }
      int changed =
          archive
              .ledger()
              .read(
                  handle -> {
                    long last = archive.journal().lastCounter();
                    int faces = follow(writing, archive.journal().since(writing.counter()));
                    writing.commit(last);
                    return faces;
                  });
      try (SearchIndex index = SearchIndex.open(folder)) {
        return Optional.of(new Updated(changed, index.size()));
      }
    } catch (IndexException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  /** Makes the index anew where there is one, so that no trace is left of what went out of it. */
  public void makeAnewIfThere() {
    if (Files.isDirectory(folder)) {
      update(true);
    }
  }

  /** Whether the index has followed the whole journal. */
  public boolean isUpToDate() {
    return isUpToDate(folder);
  }

  private boolean isUpToDate(Path folder) {
    try (SearchIndex index = SearchIndex.open(folder)) {
      return index.counter() == archive.journal().lastCounter();
    } catch (IndexException e) {
      return false;
    }
  }

  /**
   * The faces that answer a query, the best first.
   *
   * @throws QueryException if the query can't be understood
   * @throws ArchiveException if there is no index, or it is damaged
   */
  public List<Answer> search(String query, int limit) throws QueryException {
    try (SearchIndex index = SearchIndex.open(folder)) {
      return index.search(withNumbersNow(query)).stream().limit(limit).map(this::answer).toList();
    } catch (IndexException e) {
      throw new ArchiveException(String.valueOf(e.getMessage()), e);
    }
  }

  /** Asks for markers by the numbers they have now, however and whenever they were written. */
  private String withNumbersNow(String query) {
    return ASKED_BY_NUMBER
        .matcher(query)
        .replaceAll(
            asked ->
                Matcher.quoteReplacement(
                    markers
                        .byNumber(asked.group(2).replace("\"", ""))
                        .map(marker -> asked.group(1) + "marker:\"" + marker.number() + "\"")
                        .orElse(asked.group())));
  }

  private Answer answer(Hit hit) {
    FaceId face = FaceId.of(hit.entry().id());
    List<Photograph> ofFace = photographs.ofFace(face);
    List<Path> originals =
        ofFace.stream()
            .map(
                photograph ->
                    archive.originals().path(photograph.sha256(), photograph.format().extension()))
            .toList();
    return new Answer(hit, readings.current(face), ofFace, originals);
  }

  private int follow(IndexWriting writing, List<Decision> decisions) {
    Set<UUID> touched = new LinkedHashSet<>();
    boolean all = writing.counter() == 0 && !decisions.isEmpty();
    for (Decision decision : decisions) {
      all |= touch(decision, touched);
    }
    Set<Face> faces = new LinkedHashSet<>();
    if (all) {
      // What all readings assert is kept in one go; one by one would be a write for each.
      new Evidence(archive).confirmed();
      faces.addAll(photographs.faces());
    }
    for (UUID subject : touched) {
      Optional<Face> face = photographs.face(new FaceId(subject));
      if (face.isEmpty()) {
        writing.remove(subject.toString());
      }
      face.ifPresent(faces::add);
      faces.addAll(photographs.faces(new MarkerId(subject)));
    }
    Entries entries = new Entries(archive);
    int changed = 0;
    for (Face face : faces) {
      Optional<Reading> reading = readings.current(face.id());
      if (reading.isPresent()) {
        writing.put(entries.of(face, reading.get()));
        changed++;
      } else {
        writing.remove(face.id().toString());
      }
    }
    return changed;
  }

  /**
   * Notes whose entries a decision may change: its subject's, and those of markers that are linked
   * with it, which give its number.
   *
   * @return whether it may change every entry
   */
  private boolean touch(Decision decision, Set<UUID> touched) {
    touched.add(decision.subject());
    LinkStore.linked(decision).forEach(marker -> touched.add(marker.value()));
    MarkerStore.mergesInto(decision).ifPresent(marker -> touched.add(marker.value()));
    if (decision.kind().startsWith("marker.")) {
      for (Link link : links.ofMarker(new MarkerId(decision.subject()))) {
        touched.add(link.from().value());
        link.toMarker().ifPresent(marker -> touched.add(marker.value()));
      }
    }
    boolean undo = decision.kind().equals(Decision.UNDONE);
    return decision.kind().startsWith("ground.")
        || (undo
            && archive
                .journal()
                .find(DecisionId.of(decision.payload().path("undoes").asText()))
                .filter(target -> touch(target, touched))
                .isPresent());
  }
}
