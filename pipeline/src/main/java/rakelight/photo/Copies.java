package rakelight.photo;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Photographs that may be copies, in a kind that everybody can read, of originals that not
 * everybody can, such as what a telephone keeps as HEIC. They say the same moment to the fraction
 * of a second they have, the same camera, and the same size or shape. Only ever proposed: a burst
 * of shots within a second can't be told apart, so where several would do none is proposed.
 */
public final class Copies {
  /** Programs round when they make a picture smaller. */
  private static final double SHAPE_TOLERANCE = 0.01;

  /** A copy and the original it may be made from. */
  public record Pair(Photograph copy, Photograph original) {}

  private Copies() {}

  /** The pairs that nobody has confirmed, in the order of the originals. */
  public static List<Pair> proposed(List<Photograph> photographs) {
    List<Photograph> originals =
        photographs.stream()
            .filter(p -> isOriginal(p) && p.taken().isPresent())
            .filter(p -> photographs.stream().noneMatch(copy -> isTied(copy, p)))
            .toList();
    Map<Photograph, List<Photograph>> ofCopy = new HashMap<>();
    Map<Photograph, List<Photograph>> ofOriginal = new HashMap<>();
    for (Photograph original : originals) {
      for (Photograph copy : photographs) {
        if (copy.picture() == PictureKind.ITSELF
            && !isOriginal(copy)
            && copy.copyOf().isEmpty()
            && mayBeCopy(copy, original)) {
          ofCopy.computeIfAbsent(copy, c -> new ArrayList<>()).add(original);
          ofOriginal.computeIfAbsent(original, o -> new ArrayList<>()).add(copy);
        }
      }
    }
    List<Pair> pairs = new ArrayList<>();
    for (Photograph original : originals) {
      List<Photograph> copies = ofOriginal.getOrDefault(original, List.of());
      if (copies.size() == 1 && ofCopy.getOrDefault(copies.get(0), List.of()).size() == 1) {
        pairs.add(new Pair(copies.get(0), original));
      }
    }
    return pairs;
  }

  /** Programs make copies of what other programs may not show. */
  private static boolean isOriginal(Photograph photograph) {
    return photograph.picture() == PictureKind.NONE || photograph.format().isCoded();
  }

  private static boolean isTied(Photograph copy, Photograph original) {
    return copy.copyOf().equals(Optional.of(original.id()));
  }

  private static boolean mayBeCopy(Photograph copy, Photograph original) {
    return copy.taken().isPresent()
        && copy.taken().get().local().equals(original.taken().orElseThrow().local())
        && copy.camera().isPresent()
        && copy.camera().equals(original.camera())
        && (copy.cameraSerial().isEmpty()
            || original.cameraSerial().isEmpty()
            || copy.cameraSerial().equals(original.cameraSerial()))
        && hasShapeOf(copy, original);
  }

  /** Turned or not: programs turn pictures upright as they convert them. */
  private static boolean hasShapeOf(Photograph copy, Photograph original) {
    double one = shape(copy);
    double other = shape(original);
    return Math.max(copy.widthPx(), copy.heightPx())
            <= Math.max(original.widthPx(), original.heightPx())
        && Math.abs(one - other) <= SHAPE_TOLERANCE * other;
  }

  private static double shape(Photograph photograph) {
    double longer = Math.max(photograph.widthPx(), photograph.heightPx());
    return longer / Math.max(1, Math.min(photograph.widthPx(), photograph.heightPx()));
  }
}
