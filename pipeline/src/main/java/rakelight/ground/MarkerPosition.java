package rakelight.ground;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.photo.Position;

/**
 * Where a marker stands, by one piece of evidence.
 *
 * @param latitudeDegrees WGS 84, north positive
 * @param longitudeDegrees WGS 84, east positive
 * @param errorMetres standard error, east and north alike: two in three are off by less in each
 *     direction
 * @param words how it is known, such as {@code 4 photographs on 2 days}
 * @param reader who noted it; empty where it is reckoned
 * @param decision to undo where somebody noted it; empty where it is reckoned
 */
public record MarkerPosition(
    MarkerId marker,
    double latitudeDegrees,
    double longitudeDegrees,
    double errorMetres,
    Basis basis,
    String words,
    Optional<String> reader,
    Optional<DecisionId> decision) {

  /** What a position rests on. */
  public enum Basis {
    /** Drawn on a plan at the desk. */
    PLAN,
    /** Distances by tape from points that are known. */
    TAPE,
    /** A reading of a receiver, typed in. */
    GPS,
    /** A file that another program drew. */
    GEOJSON,
    /** The place in a row, between others of the row whose positions are known. */
    ROW,
    /** Where the cameras say that they stood. */
    PHOTOGRAPHS;

    /** As commands and documents write it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** The basis with this label. */
    public static Optional<Basis> of(String label) {
      return Arrays.stream(values()).filter(basis -> basis.label().equals(label)).findFirst();
    }
  }

  /**
   * @throws IllegalArgumentException if it isn't on the globe or the error isn't above 0
   */
  public MarkerPosition {
    if (!(Math.abs(latitudeDegrees) <= 90) || !(Math.abs(longitudeDegrees) <= 180)) {
      throw new IllegalArgumentException(
          latitudeDegrees + "," + longitudeDegrees + " is not on the globe; give LAT,LON");
    }
    if (!(errorMetres > 0 && errorMetres < 100_000)) {
      throw new IllegalArgumentException(
          "a position needs its standard error in metres, above 0: " + errorMetres);
    }
  }

  /** The distance to another along the ellipsoid. */
  public double metresTo(MarkerPosition other) {
    return GroundPlane.metres(
        latitudeDegrees, longitudeDegrees, other.latitudeDegrees, other.longitudeDegrees);
  }

  /** The same for packages that know nothing of how positions come about. */
  public Position place() {
    return new Position(
        latitudeDegrees, longitudeDegrees, Optional.of(errorMetres), Optional.empty());
  }

  /** In words: where, how far it may be off, by what. */
  public String told() {
    return String.format(
        Locale.ROOT,
        "%.7f,%.7f  ±%s m  by %s%s",
        latitudeDegrees,
        longitudeDegrees,
        metres(errorMetres),
        basis.label(),
        words.isEmpty() ? "" : " (" + words + ")");
  }

  static String metres(double metres) {
    return String.format(Locale.ROOT, metres < 0.995 ? "%.2f" : "%.1f", metres);
  }
}
