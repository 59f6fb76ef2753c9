package rakelight.photo;

import rakelight.archive.DecisionId;

/** Is told how an ingest gets on, on the thread that called it. */
public interface IngestListener {
  /** All folders have been walked. */
  void found(int files, long sizeBytes);

  /** One more file has been read. */
  void read(long sizeBytes);

  /**
   * A file has been taken; nothing in it can be read here.
   *
   * @param picture where its picture is, if another machine can read it
   */
  void withoutPicture(String path, FileFormat format, PictureKind picture);

  /** A file has been taken of which a part is missing. */
  void damaged(String path, String damage);

  /** A file holds the same bytes as one taken before. */
  void duplicate(String path, String sameAs);

  /** A file has put right the original of a photograph, which was missing or damaged. */
  void mended(String path, String photograph);

  /** A file holds the bytes of a photograph that was withdrawn, and wasn't taken. */
  void withdrawn(String path, DecisionId by);

  /** A file was refused. */
  void refused(RefusedFile refusal);
}
