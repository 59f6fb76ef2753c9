package rakelight.measure;

import java.util.Optional;
import rakelight.picture.Polygon;

/**
 * One line of the truth: what a careful reader can see on one photograph.
 *
 * @param file the photograph's original name
 * @param line number on the face, from 1
 * @param text the letters that can be seen, as cut; lost and illegible places left out
 * @param legibility a class such as "legible", "worn" or "poor"; empty if not stated
 * @param material empty if not stated
 * @param light empty if not stated
 * @param box where the line stands, in upright full-size pixels, if known
 */
public record TruthLine(
    String file,
    int line,
    String text,
    String legibility,
    String material,
    String light,
    Optional<Polygon> box) {

  TruthLine withBox(Polygon place) {
    return new TruthLine(file, line, text, legibility, material, light, Optional.of(place));
  }
}
