package rakelight.photo;

import rakelight.archive.DecisionId;

/** Listens to nothing. */
public class NoListener implements IngestListener {
  @Override
  public void found(int files, long sizeBytes) {}

  @Override
  public void read(long sizeBytes) {}

  @Override
  public void withoutPicture(String path, FileFormat format, PictureKind picture) {}

  @Override
  public void damaged(String path, String damage) {}

  @Override
  public void duplicate(String path, String sameAs) {}

  @Override
  public void mended(String path, String photograph) {}

  @Override
  public void withdrawn(String path, DecisionId by) {}

  @Override
  public void refused(RefusedFile refusal) {}
}
