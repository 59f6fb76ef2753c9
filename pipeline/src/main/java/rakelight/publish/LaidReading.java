package rakelight.publish;

import java.util.List;
import java.util.Optional;
import rakelight.inscription.SignId;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * Where the letters of a told reading stand on the photograph that shows most of them.
 *
 * @param on the photograph
 * @param letters each in its upright full-size pixels; those of which nobody can say where they
 *     stand are left out
 * @param reliefWidthPx of the squared face
 * @param reliefHeightPx of the squared face
 * @param toRelief from pixels of the photograph to those of the squared face; empty where there is
 *     no relief image that may be told
 */
public record LaidReading(
    ReadFrom.Shot on,
    List<LetterAt> letters,
    int reliefWidthPx,
    int reliefHeightPx,
    Optional<Homography> toRelief) {
  public LaidReading {
    letters = List.copyOf(letters);
  }

  /** A letter with four corners. */
  public record LetterAt(SignId sign, Polygon corners) {}
}
