package rakelight.picture;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.atomic.AtomicInteger;
import org.opencv.core.Mat;

/**
 * Owns native handles (pictures, sessions, tensors) and lets them go together, last come first.
 *
 * <p>Memory behind a handle isn't seen by the garbage collector: 400 pictures of 12 MB left to it
 * took 5 GB. So every handle is opened within a scope:
 *
 * <pre>{@code
 * try (NativeScope scope = new NativeScope()) {
 *   Mat blurred = scope.mat();
 *   ...
 * }
 * }</pre>
 *
 * Not for use by two threads at once. The number of live handles is counted over all scopes, so
 * that tests can see that none is left.
 */
public final class NativeScope implements AutoCloseable {
  private static final AtomicInteger LIVE = new AtomicInteger();

  private final Deque<AutoCloseable> handles = new ArrayDeque<>();

  /** A new empty picture owned by this scope. */
  public Mat mat() {
    Natives.openCv();
    return own(new Mat());
  }

  /** Takes a picture that was made elsewhere. */
  public <M extends Mat> M own(M mat) {
    handles.push(mat::release);
    LIVE.incrementAndGet();
    return mat;
  }

  /** Takes any other handle. */
  public <T extends AutoCloseable> T own(T handle) {
    handles.push(handle);
    LIVE.incrementAndGet();
    return handle;
  }

  /** Lets everything go, also when one of the handles refuses; the first refusal is thrown. */
  @Override
  public void close() {
    RuntimeException refusal = null;
    while (!handles.isEmpty()) {
      AutoCloseable handle = handles.pop();
      LIVE.decrementAndGet();
      try {
        handle.close();
      } catch (Exception e) {
        if (refusal == null) {
          refusal = new IllegalStateException("A native handle doesn't close", e);
        }
      }
    }
    if (refusal != null) {
      throw refusal;
    }
  }

  /** How many handles are open in all scopes of this program. */
  public static int live() {
    return LIVE.get();
  }
}
