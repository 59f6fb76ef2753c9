package rakelight.ground;

import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What hides the low sun from a ground: hills, walls, trees. Points of azimuth and height in
 * degrees, a straight line between neighbours, around the whole compass.
 */
public final class Horizon {
  /** Nothing stands in the way. */
  public static final Horizon LEVEL = new Horizon(new TreeMap<>(Map.of(0.0, 0.0)));

  private static final Pattern POINT =
      Pattern.compile("(\\d{1,3}(?:\\.\\d+)?):(\\d{1,2}(?:\\.\\d+)?)");

  private final TreeMap<Double, Double> heights;

  private Horizon(TreeMap<Double, Double> heights) {
    this.heights = heights;
  }

  /**
   * @param points as {@code 80:6 110:14 140:4}: azimuth clockwise from true north, and how high
   *     what stands there reaches, both in degrees
   * @throws IllegalArgumentException if it isn't written so, saying how
   */
  public static Horizon parse(String points) {
    TreeMap<Double, Double> heights = new TreeMap<>();
    for (String point : points.strip().split("[\\s,]+", -1)) {
      Matcher written = POINT.matcher(point);
      if (!written.matches()
          || Double.parseDouble(written.group(1)) >= 360
          || Double.parseDouble(written.group(2)) > 90) {
        throw new IllegalArgumentException(
            "a horizon is written as azimuth:height in degrees, such as 80:6 110:14, not " + point);
      }
      heights.put(Double.parseDouble(written.group(1)), Double.parseDouble(written.group(2)));
    }
    return new Horizon(heights);
  }

  /** How high it reaches in a direction, in degrees. */
  public double heightDegrees(double azimuthDegrees) {
    double azimuth = ((azimuthDegrees % 360) + 360) % 360;
    Map.Entry<Double, Double> before = heights.floorEntry(azimuth);
    Map.Entry<Double, Double> after = heights.ceilingEntry(azimuth);
    double from = before == null ? heights.lastKey() - 360 : before.getKey();
    double to = after == null ? heights.firstKey() + 360 : after.getKey();
    double low = before == null ? heights.lastEntry().getValue() : before.getValue();
    double high = after == null ? heights.firstEntry().getValue() : after.getValue();
    return to == from ? low : low + (high - low) * (azimuth - from) / (to - from);
  }

  /** Whether it leaves the sun free. */
  public boolean lets(SunPosition sun) {
    return sun.altitudeDegrees() > heightDegrees(sun.azimuthDegrees());
  }
}
