package rakelight.reading;

import java.util.List;
import rakelight.finding.Polygon;

/**
 * What was found and read on one picture.
 *
 * @param face the outline of the inscribed face, four corners in upright full-size pixels
 * @param lines in reading order; none where nothing was found
 */
public record ReadPicture(Polygon face, List<ReadLine> lines) {
  public ReadPicture {
    lines = List.copyOf(lines);
  }

  /** The sum of the probabilities of all letters seen: of several views the surest has most. */
  public double lettersSeen() {
    return lines.stream().mapToDouble(line -> line.lattice().lettersSeen()).sum();
  }
}
