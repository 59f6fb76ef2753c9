package rakelight.reading;

import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.PictureSource;
import rakelight.picture.Picture;

/** Finds and reads the lines of one photograph. */
public final class ReadPhotograph implements Stage<ReadPhotograph.Input, ReadPicture> {
  public static final StageKind<Input, ReadPicture> KIND =
      new StageKind<>("reading", 7, Input.class, ReadPicture.class);

  private final MachineReader reader;
  private final ReaderSettings settings;

  public record Input(PictureSource picture, ReaderSettings reader) {}

  /**
   * @param reader borrowed
   */
  public ReadPhotograph(MachineReader reader) {
    this.reader = reader;
    this.settings = reader.settings();
  }

  /** The input that has a picture read with this reader. */
  public Input input(PictureSource picture) {
    return new Input(picture, settings);
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
    return reader.read(Picture.upright(input.picture(), given));
  }
}
