package rakelight.relief;

import java.util.List;

/**
 * A small piece of surface: how bright its material is and how it is turned (Woodham, "Photometric
 * method for determining surface orientation from multiple images", Optical Engineering 19(1),
 * 1980).
 *
 * @param albedo above 0, in units of the intensities it was found from
 * @param x the normal's share to the viewer's right
 * @param y up the face
 * @param z out of the face
 */
public record Facet(double albedo, double x, double y, double z) {
  /** Below this part of the largest possible value the lights count as lying in one plane. */
  private static final double SMALLEST_DETERMINANT = 1e-6;

  /**
   * The facet that shines so under these lights: intensity = albedo (normal . light), by least
   * squares where there are more than three.
   *
   * @param intensities linear in the light that is thrown back, one for each light
   * @throws IllegalArgumentException if there are fewer than three lights or they lie in one plane
   */
  public static Facet of(List<LightDirection> lights, double... intensities) {
    if (lights.size() != intensities.length) {
      throw new IllegalArgumentException(
          lights.size() + " lights and " + intensities.length + " intensities");
    }
    double[] matrix = new double[6];
    double[] right = new double[3];
    for (int i = 0; i < intensities.length; i++) {
      LightDirection light = lights.get(i);
      add(matrix, right, light.x(), light.y(), light.z(), intensities[i], 1);
    }
    double n = intensities.length;
    if (n < 3 || determinant(matrix) < SMALLEST_DETERMINANT * n * n * n / 27) {
      throw new IllegalArgumentException(
          "Photometric stereo needs three lights that don't lie in one plane with the face");
    }
    double[] g = solve(matrix, right);
    double albedo = Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2]);
    return new Facet(albedo, g[0] / albedo, g[1] / albedo, g[2] / albedo);
  }

  /** Rise of the surface per step to the right. */
  public double p() {
    return -x / z;
  }

  /** Rise of the surface per step up the face. */
  public double q() {
    return -y / z;
  }

  /** Adds one weighted equation to the normal equations: xx, xy, xz, yy, yz, zz. */
  static void add(
      double[] matrix,
      double[] right,
      double x,
      double y,
      double z,
      double intensity,
      double weight) {
    matrix[0] += weight * x * x;
    matrix[1] += weight * x * y;
    matrix[2] += weight * x * z;
    matrix[3] += weight * y * y;
    matrix[4] += weight * y * z;
    matrix[5] += weight * z * z;
    right[0] += weight * x * intensity;
    right[1] += weight * y * intensity;
    right[2] += weight * z * intensity;
  }

  private static double determinant(double[] m) {
    return m[0] * (m[3] * m[5] - m[4] * m[4])
        - m[1] * (m[1] * m[5] - m[4] * m[2])
        + m[2] * (m[1] * m[4] - m[3] * m[2]);
  }

  /** Solves symmetric equations by Cramer's rule. */
  static double[] solve(double[] m, double[] b) {
    double c00 = m[3] * m[5] - m[4] * m[4];
    double c01 = m[2] * m[4] - m[1] * m[5];
    double c02 = m[1] * m[4] - m[2] * m[3];
    double c11 = m[0] * m[5] - m[2] * m[2];
    double c12 = m[1] * m[2] - m[0] * m[4];
    double c22 = m[0] * m[3] - m[1] * m[1];
    double det = m[0] * c00 + m[1] * c01 + m[2] * c02;
    return new double[] {
      (c00 * b[0] + c01 * b[1] + c02 * b[2]) / det,
      (c01 * b[0] + c11 * b[1] + c12 * b[2]) / det,
      (c02 * b[0] + c12 * b[1] + c22 * b[2]) / det
    };
  }
}
