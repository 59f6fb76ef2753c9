package rakelight.photo;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ReadableByteChannel;

/** Passes reading on, so that a fault of the file read isn't taken for one of the archive. */
record NamedFaults(ReadableByteChannel in) implements ReadableByteChannel {
  /** A fault while reading. */
  static final class ReadFault extends IOException {
    private final IOException cause;

    ReadFault(IOException cause) {
      super(cause);
      this.cause = cause;
    }

    IOException cause() {
      return cause;
    }
  }

  @Override
  public int read(ByteBuffer target) throws IOException {
    try {
      return in.read(target);
    } catch (IOException e) {
      throw new ReadFault(e);
    }
  }

  @Override
  public boolean isOpen() {
    return in.isOpen();
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
