package rakelight.relief;

import java.util.List;
import rakelight.picture.GrayImage;

/**
 * What was found of a carving.
 *
 * @param picture the square around it on the leading photograph, see {@link
 *     CarvingShape#PICTURE_PX}
 */
public record CarvingLook(GrayImage picture, CarvingShape shape) {

  /** Looks at pictures that lie over each other. */
  static CarvingLook of(List<GrayImage> lights, double widthShare, double heightShare) {
    return new CarvingLook(lights.get(0), CarvingShape.of(lights, widthShare, heightShare));
  }
}
