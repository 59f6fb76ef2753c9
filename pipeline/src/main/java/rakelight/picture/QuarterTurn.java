package rakelight.picture;

/**
 * A picture turned by quarters, and the way back.
 *
 * @param clockwise how many quarters it is turned clockwise, 0 to 3
 * @param widthPx width of the picture before it is turned
 * @param heightPx its height
 */
public record QuarterTurn(int clockwise, int widthPx, int heightPx) {
  public QuarterTurn {
    if (clockwise < 0 || clockwise > 3) {
      throw new IllegalArgumentException("0 to 3 quarters, not " + clockwise);
    }
  }

  /** The turn, of any number of quarters either way, of one picture. */
  public static QuarterTurn of(GrayImage picture, int quarters) {
    return new QuarterTurn(Math.floorMod(quarters, 4), picture.widthPx(), picture.heightPx());
  }

  /** The picture, which must have this turn's size, turned. */
  public GrayImage turned(GrayImage picture) {
    boolean onItsSide = clockwise % 2 == 1;
    int width = onItsSide ? heightPx : widthPx;
    int height = onItsSide ? widthPx : heightPx;
    byte[] from = picture.pixels();
    byte[] to = new byte[from.length];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        int source =
            switch (clockwise) {
              case 1 -> (heightPx - 1 - x) * widthPx + y;
              case 2 -> (heightPx - 1 - y) * widthPx + widthPx - 1 - x;
              case 3 -> x * widthPx + widthPx - 1 - y;
              default -> y * widthPx + x;
            };
        to[y * width + x] = from[source];
      }
    }
    return new GrayImage(width, height, to);
  }

  /** Where a point of the turned picture lies on the picture as it was. */
  public Point back(Point p) {
    return switch (clockwise) {
      case 1 -> new Point(p.y(), heightPx - p.x());
      case 2 -> new Point(widthPx - p.x(), heightPx - p.y());
      case 3 -> new Point(widthPx - p.y(), p.x());
      default -> p;
    };
  }
}
