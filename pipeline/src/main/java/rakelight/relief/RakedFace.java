package rakelight.relief;

import java.util.List;
import java.util.Optional;
import rakelight.photo.PictureSource;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * A face and the photographs that lie over its leading one, as an input of stages.
 *
 * @param outline of the face on the leading photograph, four corners
 * @param proportion width by height of the face as seen from in front, if known
 * @param views the leading one first; the light of a single one tells nothing and is left out
 */
public record RakedFace(Polygon outline, Optional<Double> proportion, List<View> views) {
  /**
   * One photograph.
   *
   * @param toLeading from its pixels to those of the leading photograph
   * @param light where it stood, if known
   */
  public record View(PictureSource picture, Homography toLeading, Optional<FaceLight> light) {
    /** The same without its light. */
    View unlit() {
      return new View(picture, toLeading, Optional.empty());
    }
  }

  public RakedFace {
    if (views.isEmpty()) {
      throw new IllegalArgumentException("a face is seen on a photograph at least");
    }
    views = views.size() > 1 ? List.copyOf(views) : List.of(views.get(0).unlit());
  }
}
