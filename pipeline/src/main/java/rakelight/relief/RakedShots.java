package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;

/**
 * The photographs of a face that lie over the leading one, squared with the leading one's outline:
 * the same part of the stone from every light, however its face was outlined there.
 *
 * @param shots the leading one first
 * @param scale pixels of the squared face for one of the leading photograph
 */
public record RakedShots(List<RakingSet.Shot> shots, double scale) {
  public RakedShots {
    shots = List.copyOf(shots);
  }

  /**
   * Squares them.
   *
   * @throws BadInputException if a photograph can't be decoded
   */
  public static RakedShots of(RakedFace face, Given given) throws BadInputException {
    List<RakingSet.Shot> shots = new ArrayList<>();
    for (RakedFace.View view : face.views()) {
      Homography toThis = view.toLeading().inverse();
      SquaredFace squared =
          SquaredFace.of(
              Picture.upright(view.picture(), given),
              face.outline().map(toThis::map),
              face.proportion());
      shots.add(new RakingSet.Shot(squared.image(), view.light().flatMap(FaceLight::direction)));
    }
    GrayImage first = shots.get(0).squared();
    return new RakedShots(
        shots,
        Math.sqrt(
            first.widthPx() * (double) first.heightPx() / Math.max(1, face.outline().area())));
  }
}
