package rakelight.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.reading.ProposalStore;

/** An archive with faces that a machine has read as a test says, and no more than work needs. */
public final class WorkGround implements AutoCloseable {
  private final Archive archive;

  public WorkGround(Path folder) {
    archive =
        Archive.init(
            folder,
            new Ground("Fenn Lane", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(
                MarkerStore.projection(),
                PhotoStore.projection(),
                ProposalStore.projection(),
                ReadingStore.projection(),
                ReaderStore.projection(),
                LeftFaceStore.projection()));
  }

  public Archive archive() {
    return archive;
  }

  /** The front of a marker, of which a machine has proposed these lines; none if there are none. */
  public Face face(String marker, String... lines) {
    Face face = new PhotoStore(archive).faceOf(marker, "front", "Ada Fenn");
    if (lines.length > 0) {
      propose(face, lines);
    }
    return face;
  }

  /** Makes another proposal the newest of a face. */
  public void propose(Face face, String... lines) {
    try {
      GivenProposal.of(archive, face.id(), lines);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Work at one desk or one terminal. */
  public Faces faces() {
    return new Faces(archive, new Leases(Clock.systemUTC()));
  }

  @Override
  public void close() {
    archive.close();
  }
}
