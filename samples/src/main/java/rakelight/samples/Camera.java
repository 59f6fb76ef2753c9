package rakelight.samples;

/**
 * A pinhole camera in front of a face. World coordinates are millimetres from the middle of the
 * face, x to the viewer's right, y up, z towards the viewer; image coordinates are pixels from the
 * top left corner of the upright picture.
 */
final class Camera {
  private final double[] right;
  private final double[] up;
  private final double[] back;
  private final double[] centre;
  private final double focalPx;
  private final double cx;
  private final double cy;
  final double distanceMm;

  Camera(SampleFace face, View view) {
    double w = face.stone().widthMm();
    double h = face.stone().heightMm();
    cx = view.widthPx() / 2.0;
    cy = view.heightPx() / 2.0;
    // 43.27 mm is the diagonal of the 36 x 24 mm frame that equivalent focal lengths refer to.
    focalPx = view.equipment().focal35Mm() / 43.27 * Math.hypot(view.widthPx(), view.heightPx());
    double scale = view.fill() * Math.min(view.widthPx() / w, view.heightPx() / h);
    distanceMm = focalPx / scale;
    double yaw = Math.toRadians(view.yawDegrees());
    double pitch = Math.toRadians(view.pitchDegrees());
    back =
        new double[] {
          Math.sin(yaw) * Math.cos(pitch), Math.sin(pitch), Math.cos(yaw) * Math.cos(pitch)
        };
    double[] level = {Math.cos(yaw), 0, -Math.sin(yaw)};
    double[] over = cross(back, level);
    double roll = Math.toRadians(view.rollDegrees());
    right = new double[3];
    up = new double[3];
    for (int i = 0; i < 3; i++) {
      right[i] = Math.cos(roll) * level[i] + Math.sin(roll) * over[i];
      up[i] = Math.cos(roll) * over[i] - Math.sin(roll) * level[i];
    }
    // Aims a little below the middle of an upright stone, so that some of the sky is lost rather
    // than the foot.
    double aim = face.stone().lying() ? 0 : -0.02 * h;
    centre = new double[] {back[0] * distanceMm, back[1] * distanceMm + aim, back[2] * distanceMm};
  }

  private static double[] cross(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }

  private static double dot(double[] a, double x, double y, double z) {
    return a[0] * x + a[1] * y + a[2] * z;
  }

  /** Pixel of a point, or NaN when it lies behind the camera. */
  double[] project(double x, double y, double z) {
    double dx = x - centre[0];
    double dy = y - centre[1];
    double dz = z - centre[2];
    double depth = -dot(back, dx, dy, dz);
    if (depth < 50) {
      return new double[] {Double.NaN, Double.NaN};
    }
    return new double[] {
      cx + focalPx * dot(right, dx, dy, dz) / depth, cy - focalPx * dot(up, dx, dy, dz) / depth
    };
  }

  /** Pixels per millimetre at a point. */
  double scaleAt(double x, double y, double z) {
    return focalPx / Math.max(50, -dot(back, x - centre[0], y - centre[1], z - centre[2]));
  }

  /** Direction of the ray through a pixel. */
  double[] ray(double u, double v) {
    double a = (u - cx) / focalPx;
    double b = -(v - cy) / focalPx;
    return new double[] {
      right[0] * a + up[0] * b - back[0],
      right[1] * a + up[1] * b - back[1],
      right[2] * a + up[2] * b - back[2]
    };
  }

  double[] centre() {
    return centre.clone();
  }

  /**
   * The homography from face millimetres (from the top left corner, y down) to pixels, row by row.
   */
  double[] homography(double faceWidthMm, double faceHeightMm) {
    // A face point (a, b) is the world point (a - w/2, h/2 - b, 0).
    double[] ox = {-faceWidthMm / 2 - centre[0], faceHeightMm / 2 - centre[1], -centre[2]};
    double xr = dot(right, ox[0], ox[1], ox[2]);
    double xu = dot(up, ox[0], ox[1], ox[2]);
    double xb = -dot(back, ox[0], ox[1], ox[2]);
    double[] depth = {-back[0], back[1], xb};
    double[] across = {right[0], -right[1], xr};
    double[] down = {-up[0], up[1], -xu};
    double[] m = new double[9];
    for (int i = 0; i < 3; i++) {
      m[i] = focalPx * across[i] + cx * depth[i];
      m[3 + i] = focalPx * down[i] + cy * depth[i];
      m[6 + i] = depth[i];
    }
    return m;
  }

  static double[] invert(double[] m) {
    double a = m[4] * m[8] - m[5] * m[7];
    double b = m[5] * m[6] - m[3] * m[8];
    double c = m[3] * m[7] - m[4] * m[6];
    double det = m[0] * a + m[1] * b + m[2] * c;
    return new double[] {
      a / det, (m[2] * m[7] - m[1] * m[8]) / det, (m[1] * m[5] - m[2] * m[4]) / det,
      b / det, (m[0] * m[8] - m[2] * m[6]) / det, (m[2] * m[3] - m[0] * m[5]) / det,
      c / det, (m[1] * m[6] - m[0] * m[7]) / det, (m[0] * m[4] - m[1] * m[3]) / det
    };
  }
}
