package rakelight.work;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import rakelight.photo.Face;

/** What comes next for a reader, on a ground of so many faces that a machine has read. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class QueueSpeed {
  private static final String[] LINES = {"In memory of", "HANNAH WREN", "who died 1834"};

  @Param({"200", "1000"})
  public int faces;

  private Path folder;
  private WorkGround ground;
  private Queue queue;
  private Face one;

  /** Makes the ground. */
  @Setup(Level.Trial)
  public void make() throws IOException {
    folder = Files.createTempDirectory("queue");
    ground = new WorkGround(folder.resolve("archive"));
    one = ground.face("0", LINES);
    for (int marker = 1; marker < faces; marker++) {
      ground.face(Integer.toString(marker), LINES);
    }
    queue = new Queue(ground.archive(), new Leases(Clock.systemUTC()));
  }

  /** Leaves nothing behind. */
  @TearDown(Level.Trial)
  public void delete() throws IOException {
    ground.close();
    try (Stream<Path> tree = Files.walk(folder)) {
      for (Path path : tree.sorted(Comparator.reverseOrder()).toList()) {
        path.toFile().setWritable(true);
        Files.delete(path);
      }
    }
  }

  /** Nothing has changed since the last time. */
  @Benchmark
  public Queue.Next whatComesNext() {
    return queue.next("Ada Fenn", Set.of(), Queue.Order.HARDEST);
  }

  /** One face has been read anew by a machine, the writing counted in. */
  @Benchmark
  public Queue.Next whatComesNextAfterANewProposal() {
    ground.propose(one, LINES);
    return queue.next("Ada Fenn", Set.of(), Queue.Order.HARDEST);
  }
}
