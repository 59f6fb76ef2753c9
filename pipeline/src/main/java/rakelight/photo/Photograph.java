package rakelight.photo;

import java.util.Optional;
import java.util.function.Predicate;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.archive.Sha256;

/**
 * One original file.
 *
 * @param originalName the file's name as it was given at ingest
 * @param originalPath the whole path it was given at
 * @param picture where in the file the picture is that can be read
 * @param preview the place of the preview, where the picture is an embedded one
 * @param widthPx of that picture as stored, before {@code orientation}; of the file's main image
 *     where nothing can be read, 0 if unknown
 * @param heightPx as {@code widthPx}
 * @param orientation Exif orientation, 1 to 8: what to do to see the picture upright
 * @param camera maker and model
 * @param cameraSerial which one of that model, if its files say
 * @param focalLength35mm of the lens that would see as much on 36 x 24 mm film, in mm
 * @param face the carved side it shows, once it has been put there
 * @param damage what is missing of it, where it is kept though damaged
 * @param offered what its file says of whose it is and what it shows
 * @param copyOf the original, such as the HEIC that a JPEG was made from, that it is a copy of
 * @param card the field card it shows, if it shows one
 * @param setAside why it waits for no face, if somebody said so
 * @param inParts whether stones among several on it are faces of their own
 */
public record Photograph(
    PhotographId id,
    Sha256 sha256,
    String originalName,
    String originalPath,
    long sizeBytes,
    FileFormat format,
    PictureKind picture,
    Optional<Preview> preview,
    int widthPx,
    int heightPx,
    int orientation,
    Optional<CaptureTime> taken,
    Optional<Position> position,
    Optional<Direction> direction,
    Optional<String> camera,
    Optional<String> cameraSerial,
    Optional<String> lens,
    Optional<Double> focalLengthMm,
    Optional<Double> focalLength35mm,
    Optional<String> photographer,
    Optional<String> credit,
    Optional<String> rights,
    Optional<FaceId> face,
    Optional<Light> light,
    Optional<CardLabel> card,
    Optional<String> damage,
    Offered offered,
    Optional<PhotographId> copyOf,
    Optional<SetAside> setAside,
    boolean inParts) {

  /** The camera that took it. */
  public CameraBody takenBy() {
    return CameraBody.of(camera, cameraSerial, originalPath);
  }

  /**
   * Whether it still is to be put on a face: neither it nor a stone on it is on one, it shows no
   * card, isn't set aside.
   */
  public boolean isWaiting() {
    return face.isEmpty() && !inParts && card.isEmpty() && setAside.isEmpty();
  }

  /** Where its picture is. */
  public PictureSource source() {
    return new PictureSource(sha256, preview, orientation);
  }

  /** Whether orientation turns the picture by a quarter, so that width and height change places. */
  public boolean quarterTurned() {
    return orientation >= 5;
  }

  /** Width once upright. */
  public int uprightWidthPx() {
    return quarterTurned() ? heightPx : widthPx;
  }

  /** Height once upright. */
  public int uprightHeightPx() {
    return quarterTurned() ? widthPx : heightPx;
  }

  /**
   * Whether it has a picture that can be shown; a damaged file may still fail.
   *
   * @param decodes whether files of a kind can be decoded that are pictures themselves
   */
  public boolean isShown(Predicate<FileFormat> decodes) {
    return picture != PictureKind.NONE && (picture != PictureKind.ITSELF || decodes.test(format));
  }
}
