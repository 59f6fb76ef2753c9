package rakelight.cli;

import java.io.PrintWriter;
import rakelight.archive.DecisionId;
import rakelight.photo.FileFormat;
import rakelight.photo.IngestListener;
import rakelight.photo.PictureKind;
import rakelight.photo.RefusedFile;
import rakelight.picture.Natives;

/** Says on standard error how an ingest gets on. */
final class Ingesting implements IngestListener {
  private final PrintWriter err;
  private final Progress progress;

  Ingesting(PrintWriter err, Progress progress) {
    this.err = err;
    this.progress = progress;
  }

  @Override
  public void found(int files, long sizeBytes) {
    progress.start(files, sizeBytes);
  }

  @Override
  public void read(long sizeBytes) {
    progress.step(sizeBytes);
  }

  @Override
  public void withoutPicture(String path, FileFormat format, PictureKind picture) {
    if (picture == PictureKind.ITSELF) {
      line(path + ": kept, but can't be read here: " + Natives.decodersMissing() + ".");
      return;
    }
    line(
        path
            + ": kept, but there is no picture to read in a "
            + format.label()
            + " file. Save it as JPEG or TIFF and ingest that as well.");
  }

  @Override
  public void damaged(String path, String damage) {
    line(path + ": kept, though " + damage + ". If there is a whole copy, ingest that as well.");
  }

  @Override
  public void duplicate(String path, String sameAs) {
    line(path + ": the same file as " + sameAs + "; not stored twice.");
  }

  @Override
  public void mended(String path, String photograph) {
    line(
        path
            + ": the original of "
            + photograph
            + " was missing or damaged in the archive; this file has mended it.");
  }

  @Override
  public void withdrawn(String path, DecisionId by) {
    line(path + ": was withdrawn from the archive and isn't taken again (" + by + ").");
  }

  @Override
  public void refused(RefusedFile refusal) {
    line(refusal.line());
  }

  private void line(String text) {
    progress.clear();
    err.println(text);
    err.flush();
  }
}
