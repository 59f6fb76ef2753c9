package rakelight.photo;

import java.io.IOException;
import java.nio.ByteBuffer;
import rakelight.archive.Sha256;

/**
 * All that ingest learns of a file: a pure function of its bytes and, for makers' raw formats, its
 * name.
 */
public record FileContent(Inspection inspection, FileTags tags) {
  /**
   * Looks at a whole file.
   *
   * @param bytes big-endian, from 0 to its limit; neither position nor content is changed
   * @param name the file's name, which only tells makers' raw formats apart
   * @throws UnfitFileException if it isn't to be taken as a photograph
   */
  public static FileContent of(ByteBuffer bytes, String name) throws UnfitFileException {
    Inspection inspection = Inspection.of(bytes, name);
    try {
      return new FileContent(inspection, FileTags.read(new BufferStream(bytes), bytes.limit()));
    } catch (IOException e) {
      throw new AssertionError("reading memory doesn't fail", e);
    }
  }

  /** Whether a file begins as a picture of a kind that is kept does, be it whole or not. */
  public static boolean isPicture(ByteBuffer bytes) {
    try {
      Inspection.of(bytes, "");
      return true;
    } catch (UnfitFileException e) {
      return !e.isOfNoPicture();
    }
  }

  /**
   * Where its picture is, if {@code inspection} says that it has one.
   *
   * @param original the digest of the file
   */
  public PictureSource source(Sha256 original) {
    return new PictureSource(original, inspection.preview(), orientation());
  }

  /** Exif orientation, 1 to 8: what the format itself says goes before a tag. */
  int orientation() {
    return inspection.turned().orElse(tags.orientation());
  }
}
