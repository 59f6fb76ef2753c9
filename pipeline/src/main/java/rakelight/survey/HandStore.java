package rakelight.survey;

import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.Projection;
import rakelight.photo.PhotoStore;

/** What people say of who lettered two faces. An undo takes a saying back. */
public final class HandStore {
  /** Subject: the first face. */
  private static final SaidOfTwoStore.Table<FaceId, SaidOfHands> TABLE =
      new SaidOfTwoStore.Table<>(
          "lettering.hand", "lettering_hand", "subject", FaceId::of, SaidOfHands::labelled);

  private final PhotoStore faces;
  private final SaidOfTwoStore<FaceId, SaidOfHands> said;

  public HandStore(Archive archive) {
    this.faces = new PhotoStore(archive);
    this.said = new SaidOfTwoStore<>(archive, TABLE);
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new SaidOfTwoProjection(TABLE);
  }

  /**
   * Notes what somebody says of two.
   *
   * @throws ArchiveException if both are one
   */
  public void say(FaceId one, FaceId other, SaidOfHands word, String reader) {
    if (one.equals(other)) {
      throw new ArchiveException("Both are one face; name two.");
    }
    said.say(
        one.value(),
        one,
        other,
        word.label(),
        reader,
        List.of(faces.madeBy(one), faces.madeBy(other)));
  }

  /** All that was said, in order. */
  public List<SaidOfTwo<FaceId, SaidOfHands>> all() {
    return said.all();
  }

  /** The newest saying of two faces. */
  public Optional<SaidOfTwo<FaceId, SaidOfHands>> newest(FaceId one, FaceId other) {
    return said.newest(one, other);
  }
}
