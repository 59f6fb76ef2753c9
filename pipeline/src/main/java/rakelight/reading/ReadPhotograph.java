package rakelight.reading;

import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.Frame;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.picture.Point;

/** Finds and reads the lines of one photograph. */
public final class ReadPhotograph implements Stage<ReadPhotograph.Input, ReadPicture> {
  public static final StageKind<Input, ReadPicture> KIND =
      new StageKind<>("reading", 10, Input.class, ReadPicture.class);

  private final MachineReader reader;
  private final ReaderSettings settings;

  /**
   * @param frame the part of the picture that is read, of one stone among several; the whole if
   *     empty
   */
  public record Input(PictureSource picture, Optional<Frame> frame, ReaderSettings reader) {
    public Input {
      frame = frame == null ? Optional.empty() : frame; // Unknown to earlier programs.
    }
  }

  /**
   * @param reader borrowed
   */
  public ReadPhotograph(MachineReader reader) {
    this.reader = reader;
    this.settings = reader.settings();
  }

  /** The input that has a picture, or a part of it, read with this reader. */
  public Input input(PictureSource picture, Optional<Frame> frame) {
    return new Input(picture, frame, settings);
  }

  @Override
  public StageKind<Input, ReadPicture> kind() {
    return KIND;
  }

  /**
   * @throws IllegalArgumentException if the input asks for another reader
   */
  @Override
  public ReadPicture run(Input input, Given given) throws BadInputException {
    if (!input.reader().equals(settings)) {
      throw new IllegalArgumentException("The input asks for another reader: " + input.reader());
    }
    GrayImage picture = Picture.upright(input.picture(), given);
    return input.frame().map(frame -> framed(picture, frame)).orElseGet(() -> reader.read(picture));
  }

  /** Reads what is in a frame, in pixels of the whole; stones beside it are the whole's matter. */
  private ReadPicture framed(GrayImage picture, Frame frame) {
    GrayImage part = picture.part(frame.left(), frame.top(), frame.widthPx(), frame.heightPx());
    return reader
        .read(part)
        .map(at -> new Point(at.x() + frame.left(), at.y() + frame.top()))
        .alone();
  }
}
