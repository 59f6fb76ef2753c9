package rakelight.finding;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OnnxValue;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Sha256;
import rakelight.picture.NativeScope;
import rakelight.picture.Natives;

/**
 * A trained network with one input and one output, run on the processor by ONNX Runtime.
 *
 * <p>One session serves all threads and each run uses the thread that calls it, so that a run's
 * result doesn't depend on how many cores there are. Input memory is kept per thread, working
 * memory in the session's arena: asking the system for it anew for every layer costs a third of the
 * time and, with two workers, twice the memory.
 */
public final class Network implements AutoCloseable {
  private final NativeScope scope = new NativeScope();
  private final String digest;
  private final ThreadLocal<ByteBuffer> inputMemory =
      ThreadLocal.withInitial(() -> ByteBuffer.allocateDirect(0));
  private byte[] weights;
  private @Nullable Loaded loaded;

  private record Loaded(OrtEnvironment environment, OrtSession session, String inputName) {}

  private Network(byte[] weights) {
    this.weights = weights;
    this.digest = Sha256.of(weights).hex();
  }

  /** Loads the network on its first run: who only asks for its digest needs no native library. */
  private synchronized Loaded loaded() {
    Loaded before = loaded;
    if (before != null) {
      return before;
    }
    Natives.onnxRuntime();
    try {
      OrtEnvironment environment = OrtEnvironment.getEnvironment();
      OrtSession session;
      try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
        options.setIntraOpNumThreads(1);
        options.setInterOpNumThreads(1);
        options.setCPUArenaAllocator(true);
        options.setMemoryPatternOptimization(false);
        session = scope.own(environment.createSession(weights, options));
      }
      Natives.requireOurs("libonnxruntime");
      Loaded now = new Loaded(environment, session, session.getInputNames().iterator().next());
      loaded = now;
      weights = new byte[0];
      return now;
    } catch (OrtException e) {
      throw new IllegalStateException("ONNX Runtime refuses a network: " + e.getMessage(), e);
    }
  }

  /** A network that lies beside the classes. */
  public static Network ofResource(String path) {
    try (InputStream in = Network.class.getClassLoader().getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks the network " + path);
      }
      return new Network(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read the network " + path, e);
    }
  }

  /** SHA-256 of the weights, in hexadecimal. */
  public String digest() {
    return digest;
  }

  /** Reads what a run gave while it is there. */
  public interface FromOutput<T> {
    /**
     * @param values lent for the call
     * @param shape of the values, outermost first
     */
    T read(FloatBuffer values, long[] shape);
  }

  /**
   * Runs the network once.
   *
   * @param input values of the input; copied
   * @param shape of the input, outermost first
   */
  public <T> T run(float[] input, long[] shape, FromOutput<T> wanted) {
    Loaded network = loaded();
    FloatBuffer memory = memory(input.length);
    memory.put(input).flip();
    try (NativeScope run = new NativeScope()) {
      OnnxTensor tensor = run.own(OnnxTensor.createTensor(network.environment(), memory, shape));
      OrtSession.Result result =
          run.own(network.session().run(Map.of(network.inputName(), tensor)));
      OnnxValue output = result.get(0);
      if (!(output instanceof OnnxTensor values)) {
        throw new IllegalStateException("The network gives no tensor but " + output.getInfo());
      }
      return wanted.read(values.getFloatBuffer(), values.getInfo().getShape());
    } catch (OrtException e) {
      throw new IllegalStateException("A run of a network failed: " + e.getMessage(), e);
    }
  }

  private FloatBuffer memory(int floats) {
    ByteBuffer buffer = inputMemory.get();
    if (buffer.capacity() < floats * Float.BYTES) {
      buffer = ByteBuffer.allocateDirect(floats * Float.BYTES).order(ByteOrder.nativeOrder());
      inputMemory.set(buffer);
    }
    FloatBuffer view = buffer.clear().asFloatBuffer();
    view.limit(floats);
    return view;
  }

  @Override
  public void close() {
    inputMemory.remove();
    scope.close();
  }
}
