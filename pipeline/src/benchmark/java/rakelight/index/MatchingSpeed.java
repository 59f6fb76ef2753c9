package rakelight.index;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** How long it takes to hold one face against a query, whatever found the face. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
public class MatchingSpeed {
  private static final int FACES = 1000;

  @Param({"wrenashton", "name:\"Polly Tolbington\"", "wren?sh*"})
  public String query;

  private List<Entry> entries;
  private Matcher matcher;

  /** The faces and the query, understood once. */
  @Setup
  public void prepare() throws QueryException {
    entries = InventedFaces.of(FACES);
    matcher = new Matcher(Query.parse(query));
  }

  /** Time is by face. */
  @Benchmark
  @OperationsPerInvocation(FACES)
  public int facesHeldAgainstAQuery() {
    int hits = 0;
    for (Entry entry : entries) {
      hits += matcher.match(entry).isPresent() ? 1 : 0;
    }
    return hits;
  }
}
