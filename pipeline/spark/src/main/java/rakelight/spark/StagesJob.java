package rakelight.spark;

import java.io.IOException;
import java.io.PrintStream;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.storage.StorageLevel;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.ArchiveException;
import rakelight.photo.Manifest;
import rakelight.reading.MergeFace;
import scala.Tuple2;

/**
 * Describes and reads every photograph of a folder, puts those of one face together, and writes the
 * derivations where {@code take-in} finds them. What is there already isn't made again, so a job
 * that was stopped goes on when it is started anew.
 */
@Command(
    name = "rakelight-stages",
    mixinStandardHelpOptions = true,
    description = "Reads photographs on a cluster; `rakelight take-in` takes what it writes.")
public final class StagesJob implements Callable<Integer> {
  static final String DESCRIBE = "describe";

  private static final String OUTCOMES = "outcomes.tsv";
  private static final int MOST_FAILURES_SHOWN = 20;
  private static final int MOST_TASKS = 20_000;

  @Option(
      names = "--photographs",
      required = true,
      paramLabel = "FOLDER",
      description = "The folder of photographs, anywhere Hadoop's file systems reach.")
  private String photographs = "";

  @Option(
      names = "--manifest",
      paramLabel = "FILE",
      description = "Which file shows which face of which marker, as for `ingest`; a local file.")
  private @Nullable Path manifest;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "FOLDER",
      description = "Where derivations and the list of what became of each are written.")
  private String to = "";

  private final PrintStream out;

  private StagesJob(PrintStream out) {
    this.out = out;
  }

  /** Runs the job under the master that {@code spark-submit} or {@code spark.master} names. */
  public static void main(String[] args) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    CommandLine command = new CommandLine(new StagesJob(out));
    command.setExecutionExceptionHandler(
        (e, line, parsed) -> {
          if (e instanceof ArchiveException) {
            line.getErr().println(e.getMessage());
            return CommandLine.ExitCode.SOFTWARE;
          }
          throw e;
        });
    int code = command.execute(args);
    if (code != 0) {
      System.exit(code);
    }
  }

  @Override
  public Integer call() throws IOException {
    try (SparkSession spark = SparkSession.builder().appName("rakelight stages").getOrCreate()) {
      List<Row> rows =
          run(
              JavaSparkContext.fromSparkContext(spark.sparkContext()),
              photographs,
              Optional.ofNullable(manifest),
              to);
      new Output(to).write(OUTCOMES, Row.table(rows));
      report(rows);
    }
    return 0;
  }

  /**
   * Runs the stages.
   *
   * @param photographs a folder
   * @param to where derivations go
   * @return a row for each photograph described and read and for each face merged, sorted by step
   *     and subject
   * @throws ArchiveException if the folder or the manifest can't be used
   */
  static List<Row> run(
      JavaSparkContext spark, String photographs, Optional<Path> manifest, String to) {
    List<String> files = Photographs.below(photographs);
    Map<String, Shot.OnFace> placed =
        manifest
            .map(file -> Photographs.placed(Manifest.read(file), photographs, files))
            .orElse(Map.of());
    List<Listed> listed = files.stream().map(file -> new Listed(file, placed.get(file))).toList();
    JavaRDD<Worker.Learned> learned =
        spark
            .parallelize(listed, tasks(listed.size()))
            .map(file -> Worker.describe(file.address(), file.face()))
            .persist(StorageLevel.MEMORY_AND_DISK());
    JavaRDD<Shot> shots =
        learned
            .flatMap(one -> one.shots().iterator())
            .mapToPair(shot -> new Tuple2<>(shot.digest(), shot))
            .reduceByKey(StagesJob::placing)
            .values()
            .persist(StorageLevel.MEMORY_AND_DISK());
    int read = tasks(shots.count());
    List<Row> rows = new ArrayList<>(learned.map(Worker.Learned::row).collect());
    // Dealt out by key and never in turn: what was dealt in turn Spark can't repeat where a machine
    // has died, and it ends the job.
    rows.addAll(
        shots
            .mapToPair(shot -> new Tuple2<>(shot.digest(), shot))
            .partitionBy(new HashPartitioner(read))
            .values()
            .map(shot -> new Worker(to).read(shot))
            .collect());
    JavaPairRDD<String, Iterable<Shot>> faces = shots.groupBy(Shot::subject, read);
    rows.addAll(faces.map(face -> new Worker(to).merge(face._1(), face._2())).collect());
    rows.sort(Comparator.comparing(Row::step).thenComparing(Row::subject));
    learned.unpersist();
    shots.unpersist();
    return rows;
  }

  /**
   * A file and where the manifest puts it.
   *
   * @param face null if the manifest doesn't say
   */
  private record Listed(String address, Shot.@Nullable OnFace face) implements Serializable {}

  /**
   * One photograph a task, as long as there aren't too many of them: one that takes long holds up
   * no other, and what is repeated when a machine dies is little.
   */
  private static int tasks(long photographs) {
    return (int) Math.max(1, Math.min(photographs, MOST_TASKS));
  }

  /**
   * The same bytes twice are one photograph; the last row of the manifest that places it counts.
   */
  private static Shot placing(Shot a, Shot b) {
    if (a.face() == null || b.face() == null) {
      return a.face() == null ? b : a;
    }
    return a.face().row() > b.face().row() ? a : b;
  }

  private void report(List<Row> rows) {
    Map<Row.Outcome, Integer> readings = new EnumMap<>(Row.Outcome.class);
    Map<Row.Outcome, Integer> merged = new EnumMap<>(Row.Outcome.class);
    for (Row row : rows) {
      if (!row.step().equals(DESCRIBE)) {
        (row.step().equals(MergeFace.KIND.name()) ? merged : readings)
            .merge(row.outcome(), 1, Integer::sum);
      }
    }
    out.println("Photographs: " + words(readings) + ".");
    out.println("Faces: " + words(merged) + ".");
    List<Row> failed = rows.stream().filter(row -> row.outcome() == Row.Outcome.FAILED).toList();
    failed.stream()
        .limit(MOST_FAILURES_SHOWN)
        .forEach(row -> out.println(row.subject() + ": " + row.reason()));
    if (failed.size() > MOST_FAILURES_SHOWN) {
      out.println("and " + (failed.size() - MOST_FAILURES_SHOWN) + " more: see " + OUTCOMES);
    }
    out.println("Take it in with: rakelight take-in ARCHIVE " + to);
  }

  private static String words(Map<Row.Outcome, Integer> counts) {
    return counts.getOrDefault(Row.Outcome.MADE, 0)
        + " read now, "
        + counts.getOrDefault(Row.Outcome.THERE_BEFORE, 0)
        + " before, "
        + counts.getOrDefault(Row.Outcome.FAILED, 0)
        + " not";
  }
}
