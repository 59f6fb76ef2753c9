package rakelight.work;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.Uuid7;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

/**
 * Puts right what stands on which marker: two markers that are one, one that is two, a face or a
 * reading that belongs to another. An archivist's alone; each is one act, taken back by one undo.
 *
 * <p>What people read on a face is bound to the face, and so is what was decided of the persons
 * named there. So a reading never changes hands: its face comes to stand elsewhere, and photographs
 * are put where they belong. No reading is dropped or signed under another name.
 */
public final class Regrouping {
  private final Archive archive;
  private final PhotoStore photographs;
  private final MarkerStore markers;
  private final ReadingStore readings;

  /**
   * What an act does, or would do.
   *
   * @param moves a line for each thing that goes elsewhere
   * @param warnings a line for each thing that somebody should look at
   */
  public record Done(List<String> moves, List<String> warnings) {
    public Done {
      moves = List.copyOf(moves);
      warnings = List.copyOf(warnings);
    }
  }

  /** Where a face stands. */
  private record Place(MarkerId marker, String name, Optional<Double> bearingDegrees) {
    static Place of(Face face) {
      return new Place(face.marker(), face.name(), face.bearingDegrees());
    }
  }

  /** One act in the making. */
  private final class Act {
    private final UUID batch;
    private final String reader;
    private final List<String> moves = new ArrayList<>();
    private final List<String> warnings = new ArrayList<>();

    Act(UUID batch, String reader) {
      this.batch = batch;
      this.reader = reader;
    }

    /**
     * Brings a face to a marker. Where one of that name is there, the two are one: photographs come
     * together on the one that was read. Two that were read both stay.
     */
    void bring(Face face, Marker to, String name) {
      List<Photograph> own = photographs.onFace(face.id());
      Optional<Face> there = photographs.face(to.id(), name);
      String line =
          inWords(face) + " -> " + to.number() + " " + name + withItsThings(face, own.size());
      if (there.isEmpty()) {
        moves.add(line);
        stand(face, new Place(to.id(), name, face.bearingDegrees()));
        return;
      }
      Face other = there.get();
      if (!isRead(face)) {
        moves.add(line);
        put(own, other);
        return;
      }
      if (!isRead(other)) {
        moves.add(line);
        put(photographs.onFace(other.id()), face);
        Optional<Double> bearing = other.bearingDegrees().or(face::bearingDegrees);
        stand(other, Place.of(face));
        stand(face, new Place(to.id(), other.name(), bearing));
        return;
      }
      String kept = free(to, name + " (" + numberOf(face) + ")");
      warnings.add(
          inWords(face)
              + " and "
              + inWords(other)
              + " were both read. The reading of the first is kept on "
              + to.number()
              + " "
              + kept
              + ", without photographs, and counts beside the other. If it says nothing more, take it"
              + " out with `withdraw --reading`.");
      moves.add(inWords(face) + " -> " + to.number() + " " + kept + withItsThings(face, 0));
      moves.add(inWords(face) + " -> " + inWords(other) + ": " + plural(own.size(), "photograph"));
      put(own, other);
      stand(face, new Place(to.id(), kept, Optional.empty()));
    }

    /**
     * Takes what was read on faces to the places of others; photographs and bearings stay where
     * they are. A face nobody has read that stood there comes to one of the places left.
     *
     * @param onto the face whose place each takes; all of them read
     */
    void carry(Map<Face, Face> onto) {
      Map<Face, Face> going = new LinkedHashMap<>(onto);
      boolean refused = true;
      while (refused) {
        refused =
            going
                .entrySet()
                .removeIf(one -> isRead(one.getValue()) && !going.containsKey(one.getValue()));
      }
      onto.forEach(
          (from, to) -> {
            if (going.containsKey(from)) {
              moves.add(inWords(from) + " -> " + inWords(to) + ": " + whatWasRead(from));
            } else {
              warnings.add(
                  inWords(from)
                      + ": "
                      + whatWasRead(from)
                      + " stays there, since what stands on "
                      + inWords(to)
                      + " was read too. Look at both, and withdraw or move the wrong one.");
            }
          });
      Set<Face> left = new LinkedHashSet<>(going.keySet());
      left.removeAll(going.values());
      for (Face displaced : List.copyOf(going.values())) {
        if (!going.containsKey(displaced)) {
          Face place = left.iterator().next();
          left.remove(place);
          going.put(displaced, place);
        }
      }
      Map<Face, List<Photograph>> shots = new LinkedHashMap<>();
      Map<Face, Place> places = new LinkedHashMap<>();
      going.forEach(
          (face, place) -> {
            shots.put(face, photographs.onFace(place.id()));
            places.put(face, Place.of(place));
          });
      places.forEach(this::stand);
      shots.forEach((face, ofPlace) -> put(ofPlace, face));
    }

    private void stand(Face face, Place place) {
      photographs.moveFace(
          face.id(), place.marker(), place.name(), place.bearingDegrees(), batch, reader);
    }

    void put(List<Photograph> shots, Face onto) {
      Map<PhotographId, FaceId> faces = new LinkedHashMap<>();
      shots.forEach(shot -> faces.put(shot.id(), onto.id()));
      photographs.assignTogether(faces, Map.of(), batch, reader);
    }
  }

  public Regrouping(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
    this.readings = new ReadingStore(archive);
  }

  /**
   * Two markers are one. Faces of one name become one; the number of the first leads to the second.
   *
   * @throws ArchiveException if they are one already
   */
  public Done merge(Marker gone, Marker into, boolean dryRun, NamedReader by) {
    if (gone.id().equals(into.id())) {
      throw new ArchiveException(
          "Marker " + gone.number() + " is " + into.number() + "; there is nothing to merge.");
    }
    return act(
        dryRun,
        by,
        act -> {
          photographs.faces(gone.id()).forEach(face -> act.bring(face, into, face.name()));
          markers.merge(gone.id(), into.id(), act.batch, act.reader);
          act.moves.add(gone.number() + " -> " + into.number() + ": found by both numbers");
        });
  }

  /**
   * A face stands on another marker, or has another name, with its photographs and what was read.
   *
   * @throws ArchiveException if it stands there already
   */
  public Done move(Face face, Marker to, String name, boolean dryRun, NamedReader by) {
    if (photographs.face(to.id(), name).filter(there -> there.id().equals(face.id())).isPresent()) {
      throw new ArchiveException(inWords(face) + " stands there already.");
    }
    return act(dryRun, by, act -> act.bring(face, to, name));
  }

  /**
   * What was read on a face belongs to another; photographs stay.
   *
   * @throws ArchiveException if nobody has read the first, or somebody has read the other
   */
  public Done moveReading(Face face, Marker to, String name, boolean dryRun, NamedReader by) {
    if (!isRead(face)) {
      throw new ArchiveException(
          "Nobody has read " + inWords(face) + "; there is no reading to move.");
    }
    return act(
        dryRun,
        by,
        act -> {
          Face other = photographs.faceOf(to.number(), name, by.name());
          if (other.id().equals(face.id())) {
            throw new ArchiveException(inWords(face) + " stands there already.");
          }
          if (isRead(other)) {
            throw new ArchiveException(
                inWords(other)
                    + " was read too ("
                    + whatWasRead(other)
                    + "). Move that first, or `withdraw --reading` it.");
          }
          act.carry(Map.of(face, other));
        });
  }

  /**
   * One marker is two: faces, or photographs of it, go to a new one.
   *
   * @throws ArchiveException if the number is taken, or one of them isn't on the marker
   */
  public Done split(
      Marker marker,
      String number,
      List<Face> faces,
      List<Photograph> shots,
      boolean dryRun,
      NamedReader by) {
    return act(
        dryRun,
        by,
        act -> {
          Marker made = markers.create(number, by.name());
          for (Photograph shot : shots) {
            Face from =
                shot.face()
                    .flatMap(photographs::face)
                    .filter(face -> face.marker().equals(marker.id()))
                    .orElseThrow(
                        () ->
                            new ArchiveException(
                                shot.originalName()
                                    + ": isn't on marker "
                                    + marker.number()
                                    + ". Name photographs of it."));
            Face onto = photographs.faceOf(made.number(), from.name(), by.name());
            act.moves.add(inWords(from) + " -> " + inWords(onto) + ": " + shot.originalName());
            act.put(List.of(shot), onto);
            if (isRead(from)) {
              String warning =
                  inWords(from)
                      + ": "
                      + whatWasRead(from)
                      + " stays there. Look whether it is of the stone that stays.";
              if (!act.warnings.contains(warning)) {
                act.warnings.add(warning);
              }
            }
          }
          faces.forEach(face -> act.bring(face, made, face.name()));
        });
  }

  /**
   * Has what was read on faces follow all their photographs, after these were moved.
   *
   * @param before where photographs were
   * @param batch of the act by which they were moved
   */
  public Done follow(Map<PhotographId, FaceId> before, UUID batch, NamedReader by) {
    by.requireArchivist();
    Map<FaceId, Set<FaceId>> went = new LinkedHashMap<>();
    before.forEach(
        (shot, from) ->
            photographs
                .photograph(shot)
                .flatMap(Photograph::face)
                .filter(to -> !to.equals(from))
                .ifPresent(to -> went.computeIfAbsent(from, f -> new LinkedHashSet<>()).add(to)));
    return archive
        .ledger()
        .write(
            handle -> {
              Act act = new Act(batch, by.name());
              Map<Face, Face> onto = new LinkedHashMap<>();
              went.forEach(
                  (from, to) -> {
                    Face face = photographs.face(from).orElseThrow();
                    boolean allWent =
                        photographs.onFace(from).stream()
                            .noneMatch(shot -> from.equals(before.get(shot.id())));
                    if (isRead(face) && allWent && to.size() == 1) {
                      onto.put(face, photographs.face(to.iterator().next()).orElseThrow());
                    }
                  });
              Set<Face> taken = new LinkedHashSet<>();
              onto.values().removeIf(place -> !taken.add(place));
              act.carry(onto);
              return new Done(act.moves, act.warnings);
            });
  }

  private Done act(boolean dryRun, NamedReader by, Consumer<Act> work) {
    by.requireArchivist();
    Act act = new Act(Uuid7.next(), by.name());
    try {
      archive
          .ledger()
          .write(
              handle -> {
                work.accept(act);
                if (dryRun) {
                  throw new OnlyLooked();
                }
                return 0;
              });
    } catch (OnlyLooked e) {
      // Nothing was written.
    }
    return new Done(act.moves, act.warnings);
  }

  private static final class OnlyLooked extends RuntimeException {}

  /** Whether a decision is one of an act that is taken back as a whole. */
  static boolean isPartOf(Decision decision) {
    return PhotoStore.movesFace(decision) || MarkerStore.mergesInto(decision).isPresent();
  }

  private boolean isRead(Face face) {
    return !readings.versions(face.id()).isEmpty() || !readings.drafting(face.id()).isEmpty();
  }

  private String whatWasRead(Face face) {
    List<Reading> signed = readings.versions(face.id());
    return signed.isEmpty()
        ? "the draft by " + String.join(", ", readings.drafting(face.id()))
        : "the reading by " + signed.get(signed.size() - 1).reader();
  }

  private String withItsThings(Face face, int shots) {
    List<String> things = new ArrayList<>();
    if (shots > 0) {
      things.add(plural(shots, "photograph"));
    }
    if (isRead(face)) {
      things.add(whatWasRead(face));
    }
    return things.isEmpty() ? "" : ": " + String.join(", ", things);
  }

  private static String plural(int count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }

  private String free(Marker marker, String name) {
    String free = name;
    for (int i = 2; photographs.face(marker.id(), free).isPresent(); i++) {
      free = name + " " + i;
    }
    return free;
  }

  private String numberOf(Face face) {
    return markers.numberOf(face.marker());
  }

  private String inWords(Face face) {
    return numberOf(face) + " " + face.name();
  }
}
