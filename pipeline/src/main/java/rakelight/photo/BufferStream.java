package rakelight.photo;

import java.io.InputStream;
import java.nio.ByteBuffer;

/** Reads a buffer from its start as a stream. */
final class BufferStream extends InputStream {
  private final ByteBuffer bytes;

  BufferStream(ByteBuffer bytes) {
    this.bytes = bytes.duplicate().rewind();
  }

  @Override
  public int read() {
    return bytes.hasRemaining() ? bytes.get() & 0xFF : -1;
  }

  @Override
  public int read(byte[] target, int offset, int length) {
    if (length == 0) {
      return 0;
    }
    int n = Math.min(length, bytes.remaining());
    if (n == 0) {
      return -1;
    }
    bytes.get(target, offset, n);
    return n;
  }

  @Override
  public long skip(long n) {
    int skipped = (int) Math.max(0, Math.min(n, bytes.remaining()));
    bytes.position(bytes.position() + skipped);
    return skipped;
  }

  @Override
  public int available() {
    return bytes.remaining();
  }
}
