package rakelight.ground;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/**
 * A plot with its boundary.
 *
 * @param boundary of its outer ring, longitude before latitude as GeoJSON has it, the last the same
 *     as the first
 */
public record Plot(String name, List<List<Double>> boundary) {
  private static final GeometryFactory SHAPES = new GeometryFactory();

  /**
   * @throws IllegalArgumentException if it has no name or the boundary isn't a simple closed ring
   */
  public Plot {
    boundary = boundary.stream().map(List::copyOf).toList();
    if (name.isBlank()) {
      throw new IllegalArgumentException("a plot needs a name");
    }
    boolean closed =
        boundary.size() >= 4
            && boundary.stream().allMatch(corner -> corner.size() >= 2)
            && boundary.get(0).equals(boundary.get(boundary.size() - 1));
    if (!closed || !polygon(boundary).isValid()) {
      throw new IllegalArgumentException(
          "the boundary of plot " + name + " must be a closed ring that doesn't cross itself");
    }
  }

  /** Whether a place lies in it or on its boundary. */
  public boolean holds(double latitudeDegrees, double longitudeDegrees) {
    return polygon(boundary)
        .intersects(SHAPES.createPoint(new Coordinate(longitudeDegrees, latitudeDegrees)));
  }

  private static Polygon polygon(List<List<Double>> ring) {
    return SHAPES.createPolygon(
        ring.stream()
            .map(corner -> new Coordinate(corner.get(0), corner.get(1)))
            .toArray(Coordinate[]::new));
  }
}
