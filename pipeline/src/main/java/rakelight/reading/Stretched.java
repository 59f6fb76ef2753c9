package rakelight.reading;

import java.util.List;
import java.util.Locale;
import rakelight.picture.GrayImage;

/**
 * A recogniser that is shown every strip wider than it is. One that takes few steps along a line
 * overlooks letters in narrow lettering; what it misses at one width it often sees at another, so
 * the two are voices of their own. Places in the lattices are parts of the strip, so they stay.
 */
final class Stretched implements Recogniser {
  private final Recogniser recogniser;
  private final double factor;

  /**
   * @param recogniser borrowed: whoever made it closes it
   * @param factor above 1, up to 2; tried: 1.12 and 1.25
   */
  Stretched(Recogniser recogniser, double factor) {
    if (!(factor > 1 && factor <= 2)) {
      throw new IllegalArgumentException("A strip is stretched by 1 to 2, not by " + factor);
    }
    this.recogniser = recogniser;
    this.factor = factor;
  }

  @Override
  public String name() {
    return String.format(Locale.ROOT, "%s, %.2f wide", recogniser.name(), factor);
  }

  @Override
  public String digest() {
    return recogniser.digest();
  }

  @Override
  public List<LineLattice> read(List<GrayImage> strips) {
    return recogniser.read(strips.stream().map(this::stretched).toList());
  }

  /** Linear between the columns' middles. */
  private GrayImage stretched(GrayImage strip) {
    int width = (int) Math.round(strip.widthPx() * factor);
    int height = strip.heightPx();
    byte[] pixels = new byte[width * height];
    for (int x = 0; x < width; x++) {
      double at = (x + 0.5) * strip.widthPx() / width - 0.5;
      int left = (int) Math.floor(at);
      double part = at - left;
      int a = Math.max(0, left);
      int b = Math.min(strip.widthPx() - 1, left + 1);
      for (int y = 0; y < height; y++) {
        pixels[y * width + x] =
            (byte) Math.round(strip.at(a, y) * (1 - part) + strip.at(b, y) * part);
      }
    }
    return new GrayImage(width, height, pixels);
  }

  @Override
  public void close() {
    // Borrowed.
  }
}
