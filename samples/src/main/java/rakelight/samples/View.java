package rakelight.samples;

import java.time.OffsetDateTime;

/**
 * One light, one camera and one moment.
 *
 * @param yawDegrees how far the camera stands to the viewer's right of the face's normal
 * @param pitchDegrees how far it stands above the normal
 * @param rollDegrees how far it is turned about its axis, clockwise positive
 * @param fill share of the frame that the face takes in the tighter direction, 0.2 to 1.2
 * @param widthPx width of the upright picture, 200 to 9000
 * @param heightPx height of the upright picture, 200 to 9000
 * @param orientation EXIF orientation the file is stored with: 1, 3, 6 or 8; the upright picture is
 *     the same
 * @param blurPx standard deviation of the blur of lens and hand, in pixels
 * @param noise grain of the sensor, standard deviation at middle grey, 0 to 0.1
 * @param quality JPEG quality, 0.3 to 1
 */
public record View(
    Lamp light,
    double yawDegrees,
    double pitchDegrees,
    double rollDegrees,
    double fill,
    int widthPx,
    int heightPx,
    int orientation,
    double blurPx,
    double noise,
    double quality,
    Equipment equipment,
    OffsetDateTime taken,
    Position position) {

  /**
   * An invented camera with its invented maker. Focal lengths in millimetres.
   *
   * @param serial which one of its model; empty where its files don't say
   */
  public record Equipment(
      String make,
      String model,
      String lens,
      double focalMm,
      double focal35Mm,
      double fNumber,
      String serial) {
    /** One whose files don't say which of its model it is. */
    public Equipment(
        String make, String model, String lens, double focalMm, double focal35Mm, double fNumber) {
      this(make, model, lens, focalMm, focal35Mm, fNumber, "");
    }
  }

  /**
   * Where the telephone believes it stood: degrees, metres above the sea, metres of uncertainty,
   * compass direction it looked to.
   */
  public record Position(
      double latitude,
      double longitude,
      double altitudeM,
      double accuracyM,
      double directionDegrees) {}

  public View {
    if (widthPx < 200 || heightPx < 200 || widthPx > 9000 || heightPx > 9000) {
      throw new IllegalArgumentException(
          "View of " + widthPx + " x " + heightPx + " pixels: sides must be 200 to 9000");
    }
    if (orientation != 1 && orientation != 3 && orientation != 6 && orientation != 8) {
      throw new IllegalArgumentException(
          "View: orientation " + orientation + " must be 1, 3, 6 or 8");
    }
  }

  /** The same camera and moment under another light, some seconds later. */
  public View with(Lamp other, long secondsLater) {
    return new View(
        other,
        yawDegrees,
        pitchDegrees,
        rollDegrees,
        fill,
        widthPx,
        heightPx,
        orientation,
        blurPx,
        noise,
        quality,
        equipment,
        taken.plusSeconds(secondsLater),
        position);
  }

  /** The same moment from elsewhere. */
  View from(double yaw, double pitch, double roll) {
    return new View(
        light,
        yaw,
        pitch,
        roll,
        fill,
        widthPx,
        heightPx,
        orientation,
        blurPx,
        noise,
        quality,
        equipment,
        taken,
        position);
  }

  /** The same view on a picture of another size. */
  View sized(int width, int height) {
    return new View(
        light,
        yawDegrees,
        pitchDegrees,
        rollDegrees,
        fill,
        width,
        height,
        orientation,
        blurPx,
        noise,
        quality,
        equipment,
        taken,
        position);
  }
}
