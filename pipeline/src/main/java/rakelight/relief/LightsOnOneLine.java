package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The shape that two lights show, or more of them in one line: the two that stand farthest apart,
 * one taken from the other.
 */
final class LightsOnOneLine {
  private static final double USUAL_SLANT =
      1 / Math.tan(Math.toRadians(LightEstimate.USUAL_GRAZING_DEGREES));

  private LightsOnOneLine() {}

  /** Where the lights stood: as known, else on either side of the face along the shading. */
  static List<LightDirection> lights(
      List<float[]> flat,
      int widthPx,
      int heightPx,
      List<Optional<LightDirection>> known,
      double capitalPx) {
    if (known.stream().allMatch(Optional::isPresent)) {
      return known.stream().flatMap(Optional::stream).toList();
    }
    float[] difference = difference(flat, 0, flat.size() - 1);
    ShadingAzimuth azimuth = ShadingAzimuth.of(difference, widthPx, heightPx);
    double x = azimuth.x() * USUAL_SLANT;
    double y = azimuth.y() * USUAL_SLANT;
    float[] heights = LinearShading.heights(difference, widthPx, heightPx, 2 * x, 2 * y, capitalPx);
    // Letters are cut rather than raised.
    double sign = LightEstimate.skew(heights) < 0 ? 1 : -1;
    List<LightDirection> lights = new ArrayList<>();
    for (int k = 0; k < flat.size(); k++) {
      double along = sign * (1 - 2.0 * k / (flat.size() - 1));
      lights.add(new LightDirection(x * along, y * along, 1));
    }
    return lights;
  }

  static float[] heights(
      List<float[]> flat,
      List<LightDirection> lights,
      int widthPx,
      int heightPx,
      double capitalPx) {
    int a = 0;
    int b = 1;
    double apart = -1;
    for (int i = 0; i < lights.size(); i++) {
      for (int j = i + 1; j < lights.size(); j++) {
        double distance =
            Math.hypot(
                slantX(lights.get(i)) - slantX(lights.get(j)),
                slantY(lights.get(i)) - slantY(lights.get(j)));
        if (distance > apart) {
          apart = distance;
          a = i;
          b = j;
        }
      }
    }
    return LinearShading.heights(
        difference(flat, a, b),
        widthPx,
        heightPx,
        slantX(lights.get(a)) - slantX(lights.get(b)),
        slantY(lights.get(a)) - slantY(lights.get(b)),
        capitalPx);
  }

  private static double slantX(LightDirection light) {
    return light.x() / light.z();
  }

  private static double slantY(LightDirection light) {
    return light.y() / light.z();
  }

  private static float[] difference(List<float[]> flat, int a, int b) {
    float[] difference = new float[flat.get(a).length];
    for (int i = 0; i < difference.length; i++) {
      difference[i] = flat.get(a)[i] - flat.get(b)[i];
    }
    return difference;
  }
}
