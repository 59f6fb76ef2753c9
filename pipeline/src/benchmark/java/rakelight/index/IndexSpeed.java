package rakelight.index;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
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

/** The index on disk: a name searched among so many faces, and one face put anew. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class IndexSpeed {
  @Param({"1000", "10000"})
  public int faces;

  private Path folder;
  private List<Entry> entries;
  private SearchIndex index;
  private int next;

  /** Writes the index. */
  @Setup(Level.Trial)
  public void write() throws IOException {
    folder = Files.createTempDirectory("index");
    entries = InventedFaces.of(faces);
    IndexWriting writing = IndexWriting.open(folder, true).orElseThrow();
    try (writing) {
      entries.forEach(writing::put);
      writing.commit(1);
    }
    index = SearchIndex.open(folder);
  }

  /** Leaves nothing behind. */
  @TearDown(Level.Trial)
  public void delete() throws IOException {
    index.close();
    try (Stream<Path> tree = Files.walk(folder)) {
      for (Path path : tree.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  /** A surname nobody spelt so, and a rough year. */
  @Benchmark
  public Found aNameAndARoughYear() throws QueryException {
    return index.search("Hannah Wrenashtun year:1800..1820", 50);
  }

  /** A name of which letters are known. */
  @Benchmark
  public Found aPattern() throws QueryException {
    return index.search("wren?shton", 50);
  }

  /** One face confirmed anew: opened, put, committed, closed. */
  @Benchmark
  public void oneFacePutAnew() {
    IndexWriting writing = IndexWriting.open(folder, false).orElseThrow();
    try (writing) {
      writing.put(entries.get(next++ % entries.size()));
      writing.commit(next + 1L);
    }
  }
}
