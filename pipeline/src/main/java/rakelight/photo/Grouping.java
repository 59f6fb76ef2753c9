package rakelight.photo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;
import rakelight.marker.MarkerStore;

/**
 * Puts photographs on faces by what is known beside them: a manifest, field cards, folder names.
 *
 * <p>It only ever adds: a photograph that is on a face already stays there until a person decides
 * otherwise.
 */
public final class Grouping {
  private final Archive archive;
  private final PhotoStore store;
  private final MarkerStore markers;
  private final ZoneId zone;
  private final String reader;
  private final Consumer<String> say;

  /**
   * @param say takes one line for a person about each thing that could not be done
   */
  public Grouping(Archive archive, String reader, Consumer<String> say) {
    this.archive = archive;
    this.store = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.zone = archive.ground().zone();
    this.reader = reader;
    this.say = say;
  }

  /**
   * What a grouping did.
   *
   * @param assigned photographs put on a face
   * @param elsewhere rows of photographs that are on another face and stay there
   * @param faults lines that could not be followed
   */
  public record Result(int assigned, int elsewhere, int faults) {}

  /**
   * A photograph that a table puts on another face than it is on.
   *
   * @param from marker and face it is on now; empty if on none
   * @param to marker and face it comes to
   */
  public record Move(Photograph photograph, Optional<CardLabel> from, CardLabel to) {}

  /** Follows a manifest. */
  public Result byManifest(Manifest manifest) {
    return archive.ledger().write(handle -> followAll(manifest));
  }

  private Result followAll(Manifest manifest) {
    Named named = new Named(manifest);
    int assigned = 0;
    int elsewhere = 0;
    for (Manifest.Row row : manifest.rows()) {
      Optional<Photograph> found = named.photograph(row);
      if (found.isPresent()) {
        switch (follow(row, found.get(), manifest.file() + ":" + row.line() + ": ")) {
          case PUT -> assigned++;
          case ELSEWHERE -> elsewhere++;
          case AS_IT_WAS -> {}
        }
      }
    }
    return new Result(assigned, elsewhere, named.faults);
  }

  /** What a table would move, in its order; changes nothing. */
  public List<Move> moves(Manifest manifest) {
    return archive
        .ledger()
        .read(
            handle -> {
              Named named = new Named(manifest);
              List<Move> moves = new ArrayList<>();
              for (Manifest.Row row : manifest.rows()) {
                Optional<Photograph> found = named.photograph(row);
                if (found.isPresent() && row.marker().isPresent()) {
                  CardLabel to = new CardLabel(row.marker().get(), row.face());
                  Optional<CardLabel> from = found.get().face().map(this::label);
                  if (!isThere(found.get(), to)) {
                    moves.add(new Move(found.get(), from, to));
                  }
                }
              }
              return moves;
            });
  }

  private boolean isThere(Photograph photograph, CardLabel to) {
    Optional<Face> wanted =
        markers
            .byNumber(to.markerNumber())
            .flatMap(marker -> store.face(marker.id(), to.faceName()));
    return wanted.isPresent() && photograph.face().equals(wanted.map(Face::id));
  }

  private CardLabel label(FaceId id) {
    Face face = store.face(id).orElseThrow();
    return new CardLabel(markers.numberOf(face.marker()), face.name());
  }

  /** Moves photographs as a table says, in one act that is undone as one. */
  public void move(List<Move> moves, Manifest manifest, UUID batch) {
    archive
        .ledger()
        .write(
            handle -> {
              Named named = new Named(manifest);
              Map<PhotographId, Light> lights = new HashMap<>();
              for (Manifest.Row row : manifest.rows()) {
                named
                    .photograph(row)
                    .ifPresent(
                        shot -> row.light().ifPresent(light -> lights.put(shot.id(), light)));
              }
              Map<PhotographId, FaceId> faces = new LinkedHashMap<>();
              for (Move move : moves) {
                CardLabel to = move.to();
                faces.put(
                    move.photograph().id(),
                    store.faceOf(to.markerNumber(), to.faceName(), reader).id());
              }
              store.assignTogether(faces, lights, batch, reader);
              return 0;
            });
  }

  /** The photographs a table speaks of; says of each line which it can't find. */
  private final class Named {
    private final Manifest manifest;
    private final Path folder;
    private final Map<String, Photograph> byPath = new HashMap<>();
    private final Map<String, List<Photograph>> byName = new HashMap<>();
    private final Map<PhotographId, Manifest.Row> rowOf = new HashMap<>();
    private int faults;

    Named(Manifest manifest) {
      this.manifest = manifest;
      this.folder = manifest.file().toAbsolutePath().normalize().resolveSibling("");
      Map<PhotographId, List<String>> others = store.otherPaths();
      for (Photograph photograph : store.photographs()) {
        List<String> paths = new ArrayList<>(others.getOrDefault(photograph.id(), List.of()));
        paths.add(photograph.originalPath());
        for (String path : paths) {
          byPath.put(Manifest.composed(path), photograph);
          byName
              .computeIfAbsent(Manifest.composed(nameOf(path)), name -> new ArrayList<>())
              .add(photograph);
        }
      }
    }

    Optional<Photograph> photograph(Manifest.Row row) {
      Path path = folder.resolve(row.file()).normalize();
      List<Photograph> found =
          Optional.ofNullable(byPath.get(Manifest.composed(path.toString())))
              .map(List::of)
              .orElseGet(
                  () ->
                      byName.getOrDefault(Manifest.composed(nameOf(row.file())), List.of()).stream()
                          .distinct()
                          .toList());
      if (found.isEmpty() && isWithdrawn(path)) {
        return Optional.empty();
      }
      if (found.size() != 1) {
        fault(
            row,
            found.isEmpty()
                ? row.file() + " isn't among the photographs. Check the name."
                : found.size()
                    + " photographs are named "
                    + row.file()
                    + ". Give the path as seen from the manifest's folder.");
        return Optional.empty();
      }
      Optional<String> refusal = row.marker().flatMap(markers::refusal);
      if (refusal.isPresent()) {
        fault(row, refusal.get());
        return Optional.empty();
      }
      Manifest.Row before = rowOf.putIfAbsent(found.get(0).id(), row);
      if (before != null && before != row && !sameFace(before, row)) {
        fault(
            row,
            row.file()
                + " has the same bytes as "
                + before.file()
                + " of line "
                + before.line()
                + ", which puts it on another face. Leave one of the lines out.");
        return Optional.empty();
      }
      return Optional.of(found.get(0));
    }

    private boolean isWithdrawn(Path file) {
      try {
        return Files.isRegularFile(file) && archive.withdrawals().of(Sha256.of(file)).isPresent();
      } catch (IOException e) {
        return false;
      }
    }

    private boolean sameFace(Manifest.Row one, Manifest.Row other) {
      return one.marker().equals(other.marker()) && one.face().equals(other.face());
    }

    private void fault(Manifest.Row row, String what) {
      faults++;
      say.accept(manifest.file() + ":" + row.line() + ": " + what);
    }
  }

  private enum Followed {
    PUT,
    ELSEWHERE,
    AS_IT_WAS
  }

  private Followed follow(Manifest.Row row, Photograph photograph, String where) {
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
      return Followed.AS_IT_WAS;
    }
    Face face = store.faceOf(row.marker().get(), row.face(), reader);
    if (row.bearingDegrees().isPresent() && face.bearingDegrees().isEmpty()) {
      store.describeFace(face.id(), row.bearingDegrees(), reader);
    }
    if (photograph.face().isPresent() && !photograph.face().get().equals(face.id())) {
      say.accept(
          where
              + row.file()
              + " is on "
              + inWords(label(photograph.face().get()))
              + " and stays there.");
      return Followed.ELSEWHERE;
    }
    if (photograph.face().isPresent() && !differs(row.light(), photograph.light())) {
      return Followed.AS_IT_WAS;
    }
    store.assign(photograph.id(), face.id(), row.light(), "manifest", reader);
    return photograph.face().isEmpty() ? Followed.PUT : Followed.AS_IT_WAS;
  }

  /** Marker and face as people say them. */
  public static String inWords(CardLabel label) {
    return "marker " + label.markerNumber() + ", " + label.faceName();
  }

  private static <T> boolean differs(Optional<T> wanted, Optional<T> present) {
    return wanted.isPresent() && !wanted.equals(present);
  }

  /**
   * A field card names the face of the shots that the same camera took after it, until its next
   * card, on the same day. Shots that somebody took off a face stay off. Where the numbers in the
   * names of files go to and fro between two runs, two cameras have been mixed, and their cards
   * aren't followed.
   */
  public Result byCards() {
    return archive
        .ledger()
        .write(
            handle -> {
              Map<CameraBody, List<Photograph>> streams = new LinkedHashMap<>();
              store.photographs().stream()
                  .filter(photograph -> photograph.taken().isPresent())
                  .forEach(
                      photograph ->
                          streams
                              .computeIfAbsent(photograph.takenBy(), camera -> new ArrayList<>())
                              .add(photograph));
              Set<PhotographId> takenOff = store.takenOff();
              int assigned = 0;
              for (List<Photograph> shots : streams.values()) {
                shots.sort(
                    Comparator.comparing(this::instant).thenComparing(Photograph::originalPath));
                assigned += followCards(shots, takenOff);
              }
              return new Result(assigned, 0, 0);
            });
  }

  private int followCards(List<Photograph> shots, Set<PhotographId> takenOff) {
    int assigned = 0;
    Optional<Photograph> lastCard = Optional.empty();
    Optional<Mixed> mixed = Mixed.of(shots);
    boolean told = false;
    Set<String> refused = new HashSet<>();
    for (Photograph shot : shots) {
      if (shot.card().isPresent()) {
        lastCard = Optional.of(shot);
      } else if (shot.face().isEmpty()
          && !takenOff.contains(shot.id())
          && lastCard.filter(card -> sameDay(card, shot)).isPresent()) {
        if (mixed.isPresent()) {
          if (!told) {
            say.accept(mixed.get().inWords());
            told = true;
          }
          continue;
        }
        CardLabel label = lastCard.get().card().orElseThrow();
        Optional<String> refusal = markers.refusal(label.markerNumber());
        if (refusal.isPresent()) {
          if (refused.add(label.markerNumber())) {
            say.accept(lastCard.get().originalName() + ": " + refusal.get());
          }
          continue;
        }
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
              Set<PhotographId> takenOff = store.takenOff();
              for (Photograph photograph : store.photographs()) {
                if (photograph.face().isPresent()
                    || photograph.card().isPresent()
                    || takenOff.contains(photograph.id())) {
                  continue;
                }
                Path path = Path.of(photograph.originalPath());
                Optional<CardLabel> label =
                    roots.stream().flatMap(root -> FolderNames.of(path, root).stream()).findFirst();
                if (label.filter(l -> markers.refusal(l.markerNumber()).isEmpty()).isPresent()) {
                  put(photograph.id(), label.get(), "folder");
                  assigned++;
                }
              }
              return new Result(assigned, 0, 0);
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
