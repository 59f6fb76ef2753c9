package rakelight.reading;

import java.util.List;
import rakelight.picture.GrayImage;

/**
 * Reads strips, one line each, and says what every letter may be. Implementations hold native
 * handles: close them. {@link #read} may be called by several threads at once.
 */
public interface Recogniser extends AutoCloseable {
  /** A short name for reports and for the record, such as "carved-letters". */
  String name();

  /** SHA-256, in hexadecimal, of the weights; with the name it identifies the recogniser. */
  String digest();

  /** One lattice per strip, in the same order; a lattice without slots where nothing was read. */
  List<LineLattice> read(List<GrayImage> strips);

  @Override
  void close();
}
