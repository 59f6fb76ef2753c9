package rakelight.work;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.Uuid7;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.SetAside;
import rakelight.photo.Streams;

/**
 * Puts many photographs at once where they belong. Each is one act, which one undo takes back. An
 * archivist's alone, since readings rest on what a photograph shows.
 */
public final class Sorting {
  private final Archive archive;
  private final PhotoStore photographs;
  private final MarkerStore markers;

  public Sorting(Archive archive) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.markers = new MarkerStore(archive);
  }

  /**
   * Where photographs are to go.
   *
   * @param number present or earlier number of the marker
   * @param isNew whether it may be one that isn't here yet
   */
  public record Place(String number, String face, boolean isNew) {}

  /**
   * What was done.
   *
   * @param decision one of the act, by which all of it is taken back
   * @param photographs how many
   * @param left what the photographs left behind, in words
   */
  public record Done(Decision decision, int photographs, List<String> left) {}

  /**
   * Puts photographs on a face.
   *
   * @throws ArchiveException if there is no such marker and it isn't said to be new
   */
  public Done put(List<Photograph> shots, Place place, NamedReader by) {
    return act(
        shots,
        by,
        () -> {
          if (markers.byNumber(place.number()).isEmpty() && !place.isNew()) {
            throw new ArchiveException(
                "There is no marker " + place.number() + " here. If it is a new one, say so.");
          }
          FaceId face = photographs.faceOf(place.number(), place.face(), by.name()).id();
          Map<PhotographId, FaceId> faces = new LinkedHashMap<>();
          shots.forEach(shot -> faces.put(shot.id(), face));
          photographs.assignTogether(faces, Map.of(), Uuid7.next(), by.name());
        });
  }

  /**
   * Puts each photograph on the face that was offered for it.
   *
   * @throws ArchiveException if one of the faces is gone
   */
  public Done take(Map<Photograph, Face> offered, NamedReader by) {
    return act(
        List.copyOf(offered.keySet()),
        by,
        () -> {
          Map<PhotographId, FaceId> faces = new LinkedHashMap<>();
          offered.forEach((shot, face) -> faces.put(shot.id(), face.id()));
          photographs.assignTogether(faces, Map.of(), Uuid7.next(), by.name());
        });
  }

  /** Puts a shot on a face, and all that follow it in its run: there another marker begins. */
  public Done splitFrom(Photograph shot, Place place, NamedReader by) {
    List<Photograph> rest =
        Streams.of(photographs.photographs(), archive.ground().zone()).stream()
            .flatMap(stream -> stream.runs().stream())
            .map(run -> run.from(shot))
            .filter(shots -> !shots.isEmpty())
            .findFirst()
            .orElseThrow();
    return put(rest, place, by);
  }

  /** Takes photographs off their faces; they wait for another. */
  public Done unplace(List<Photograph> shots, NamedReader by) {
    return act(shots, by, () -> photographs.takeOff(ids(shots), by.name()));
  }

  /** Says that photographs wait for no face. */
  public Done setAside(List<Photograph> shots, SetAside as, NamedReader by) {
    return act(shots, by, () -> photographs.setAside(ids(shots), as, by.name()));
  }

  private Done act(List<Photograph> shots, NamedReader by, Runnable decided) {
    by.requireArchivist();
    if (shots.isEmpty()) {
      throw new ArchiveException("Choose photographs first.");
    }
    Optional<Photograph> card = shots.stream().filter(shot -> shot.card().isPresent()).findFirst();
    if (card.isPresent()) {
      throw new ArchiveException(card.get().originalName() + " shows a field card.");
    }
    Decision last =
        archive
            .ledger()
            .write(
                handle -> {
                  decided.run();
                  List<Decision> about = archive.journal().bySubject(shots.get(0).id().value());
                  return about.get(about.size() - 1);
                });
    return new Done(last, shots.size(), new LeftBehind(archive).lines(shots));
  }

  private static List<PhotographId> ids(List<Photograph> shots) {
    return shots.stream().map(Photograph::id).toList();
  }
}
