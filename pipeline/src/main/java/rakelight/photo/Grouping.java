package rakelight.photo;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import rakelight.archive.Archive;
import rakelight.archive.PhotographId;

/**
 * Puts photographs on faces by what is known beside them: a manifest, field cards, folder names.
 *
 * <p>It only ever adds: a photograph that is on a face already stays there until a person decides
 * otherwise.
 */
public final class Grouping {
  private final Archive archive;
  private final PhotoStore store;
  private final ZoneId zone;
  private final String reader;
  private final Consumer<String> say;

  /**
   * @param say takes one line for a person about each thing that could not be done
   */
  public Grouping(Archive archive, String reader, Consumer<String> say) {
    this.archive = archive;
    this.store = new PhotoStore(archive);
    this.zone = archive.ground().zone();
    this.reader = reader;
    this.say = say;
  }

  /**
   * What a grouping did.
   *
   * @param assigned photographs put on a face
   * @param faults lines that could not be followed
   */
  public record Result(int assigned, int faults) {}

  /** Follows a manifest. */
  public Result byManifest(Manifest manifest) {
    return archive.ledger().write(handle -> followAll(manifest));
  }

  private Result followAll(Manifest manifest) {
    Map<String, Photograph> byPath = new HashMap<>();
    Map<String, List<Photograph>> byName = new HashMap<>();
    for (Photograph photograph : store.photographs()) {
      List<String> paths = new ArrayList<>(store.otherPaths(photograph.id()));
      paths.add(photograph.originalPath());
      for (String path : paths) {
        byPath.put(Manifest.composed(path), photograph);
        byName
            .computeIfAbsent(Manifest.composed(nameOf(path)), name -> new ArrayList<>())
            .add(photograph);
      }
    }
    Path folder = manifest.file().toAbsolutePath().normalize().resolveSibling("");
    int assigned = 0;
    int faults = 0;
    for (Manifest.Row row : manifest.rows()) {
      String where = manifest.file() + ":" + row.line() + ": ";
      Path path = folder.resolve(row.file()).normalize();
      List<Photograph> found =
          Optional.ofNullable(byPath.get(Manifest.composed(path.toString())))
              .map(List::of)
              .orElseGet(
                  () ->
                      byName.getOrDefault(Manifest.composed(nameOf(row.file())), List.of()).stream()
                          .distinct()
                          .toList());
      if (found.size() != 1) {
        faults++;
        say.accept(
            where
                + (found.isEmpty()
                    ? row.file() + " isn't among the photographs. Check the name."
                    : found.size()
                        + " photographs are named "
                        + row.file()
                        + ". Give the path as seen from the manifest's folder."));
      } else if (follow(row, found.get(0), where)) {
        assigned++;
      }
    }
    return new Result(assigned, faults);
  }

  private boolean follow(Manifest.Row row, Photograph photograph, String where) {
    Credits credits = row.credits();
    if (differs(credits.photographer(), photograph.photographer())
        || differs(credits.credit(), photograph.credit())
        || differs(credits.rights(), photograph.rights())) {
      store.credit(
          photograph.id(), credits.photographer(), credits.credit(), credits.rights(), reader);
    }
    if (row.taken().isPresent() && !row.taken().equals(photograph.taken())) {
      store.date(photograph.id(), row.taken().get(), reader);
    }
    if (row.marker().isEmpty()) {
      return false;
    }
    Face face = store.faceOf(row.marker().get(), row.face(), reader);
    if (row.bearingDegrees().isPresent() && face.bearingDegrees().isEmpty()) {
      store.describeFace(face.id(), row.bearingDegrees(), reader);
    }
    if (photograph.face().isPresent() && !photograph.face().get().equals(face.id())) {
      say.accept(
          where
              + row.file()
              + " is on another face already and stays there. Move it with `assign`.");
      return false;
    }
    if (photograph.face().isPresent() && !differs(row.light(), photograph.light())) {
      return false;
    }
    store.assign(photograph.id(), face.id(), row.light(), "manifest", reader);
    return photograph.face().isEmpty();
  }

  private static <T> boolean differs(Optional<T> wanted, Optional<T> present) {
    return wanted.isPresent() && !wanted.equals(present);
  }

  /**
   * A field card names the face of the shots that the same camera took after it, until its next
   * card, on the same day.
   */
  public Result byCards() {
    return archive
        .ledger()
        .write(
            handle -> {
              Map<String, List<Photograph>> byCamera = new TreeMap<>();
              store.photographs().stream()
                  .filter(photograph -> photograph.taken().isPresent())
                  .forEach(
                      photograph ->
                          byCamera
                              .computeIfAbsent(
                                  photograph.camera().orElse(""), camera -> new ArrayList<>())
                              .add(photograph));
              int assigned = 0;
              for (List<Photograph> shots : byCamera.values()) {
                assigned += followCards(shots);
              }
              return new Result(assigned, 0);
            });
  }

  private int followCards(List<Photograph> shots) {
    shots.sort(Comparator.comparing(this::instant).thenComparing(Photograph::originalPath));
    int assigned = 0;
    Optional<Photograph> lastCard = Optional.empty();
    for (Photograph shot : shots) {
      if (shot.card().isPresent()) {
        lastCard = Optional.of(shot);
      } else if (shot.face().isEmpty()
          && lastCard.filter(card -> sameDay(card, shot)).isPresent()) {
        CardLabel label = lastCard.get().card().orElseThrow();
        put(shot.id(), label, "card");
        assigned++;
      }
    }
    return assigned;
  }

  private boolean sameDay(Photograph card, Photograph shot) {
    return card.taken()
        .orElseThrow()
        .in(zone)
        .toLocalDate()
        .equals(shot.taken().orElseThrow().in(zone).toLocalDate());
  }

  private Instant instant(Photograph photograph) {
    return photograph.taken().orElseThrow().instant(zone);
  }

  /**
   * Folders named like markers.
   *
   * @param given the folders handed to ingest
   */
  public Result byFolders(List<Path> given) {
    List<Path> roots = given.stream().map(path -> path.toAbsolutePath().normalize()).toList();
    return archive
        .ledger()
        .write(
            handle -> {
              int assigned = 0;
              for (Photograph photograph : store.photographs()) {
                if (photograph.face().isPresent() || photograph.card().isPresent()) {
                  continue;
                }
                Path path = Path.of(photograph.originalPath());
                Optional<CardLabel> label =
                    roots.stream().flatMap(root -> FolderNames.of(path, root).stream()).findFirst();
                if (label.isPresent()) {
                  put(photograph.id(), label.get(), "folder");
                  assigned++;
                }
              }
              return new Result(assigned, 0);
            });
  }

  private void put(PhotographId photograph, CardLabel label, String by) {
    Face face = store.faceOf(label.markerNumber(), label.faceName(), reader);
    store.assign(photograph, face.id(), Optional.empty(), by, reader);
  }

  private static String nameOf(String path) {
    return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
  }
}
