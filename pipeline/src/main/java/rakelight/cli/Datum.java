package rakelight.cli;

/**
 * A datum point as it is typed.
 *
 * @param latitudeDegrees WGS 84, north positive
 * @param longitudeDegrees WGS 84, east positive
 */
record Datum(double latitudeDegrees, double longitudeDegrees) {
  /**
   * @throws IllegalArgumentException if it isn't LAT,LON
   */
  static Datum of(String text) {
    String[] parts = text.split(",", -1);
    try {
      if (parts.length == 2) {
        return new Datum(
            Double.parseDouble(parts[0].strip()), Double.parseDouble(parts[1].strip()));
      }
    } catch (NumberFormatException e) {
      // Told below.
    }
    throw new IllegalArgumentException(
        "--datum must be LAT,LON in decimal degrees, such as 54.1234,-3.2345: " + text);
  }
}
