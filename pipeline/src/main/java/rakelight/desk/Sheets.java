package rakelight.desk;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.work.FaceState;
import rakelight.work.Faces;
import rakelight.work.Leases;
import rakelight.work.NamedReader;
import rakelight.work.Role;
import rakelight.work.Work;

/** Sheets to take to the stone: what a reader may see of the faces of some markers, on paper. */
public final class Sheets {
  /** Enough for a picture nine centimetres wide. */
  private static final int LONGEST_PX = 1600;

  private final Archive archive;
  private final PhotoStore photographs;
  private final Faces faces;
  private final Pictures pictures;

  Sheets(Archive archive, Faces faces, Pictures pictures) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.faces = faces;
    this.pictures = pictures;
  }

  /**
   * Writes sheets for whoever comes: with nothing on them that a blind reader may not see.
   *
   * @param out takes a PDF file
   */
  public static void write(Archive archive, List<Marker> markers, OutputStream out)
      throws IOException {
    Faces faces = new Faces(archive, new Leases(java.time.Clock.systemUTC()));
    new Sheets(archive, faces, new Pictures(archive))
        .write(markers, new NamedReader("", Role.GUEST), out);
  }

  void write(List<Marker> markers, NamedReader by, OutputStream out) throws IOException {
    List<Sheet.Side> sides = new ArrayList<>();
    for (Marker marker : markers) {
      for (Face face : photographs.faces(marker.id())) {
        sides.add(side(marker, face, by));
      }
    }
    Sheet.write(archive.ground().name(), sides, out);
  }

  private Sheet.Side side(Marker marker, Face face, NamedReader by) throws IOException {
    Work work = faces.look(face, by);
    List<Photograph> shots = photographs.ofFace(face.id());
    ShownFace view = FaceViews.of(work, FaceState.OPEN, shots);
    Optional<Photograph> leading =
        FaceViews.leading(work, shots).filter(shot -> shot.isShown(Picture::isRead));
    Optional<byte[]> picture = Optional.empty();
    if (leading.isPresent()) {
      picture = Optional.of(Files.readAllBytes(pictures.photograph(leading.get(), LONGEST_PX)));
    }
    return new Sheet.Side(
        marker.number(),
        face.name(),
        new ConditionStore(archive).newest(marker.id()).map(ConditionNote::unsafe).orElse(""),
        picture,
        view.lines().stream().filter(line -> !line.isEmpty()).toList());
  }
}
