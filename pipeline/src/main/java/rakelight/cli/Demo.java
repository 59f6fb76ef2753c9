package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.samples.SampleMarker;
import rakelight.samples.Samples;

/** The whole job on the invented ground, by the commands a person would type. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description =
        "Makes an archive of an invented burial ground and takes it from photographs to search.")
final class Demo implements Callable<Integer> {
  private static final String READER = "demo reader";

  /** Width of the rendered pictures: letters of a small verse stay some twenty pixels high. */
  private static final int WIDTH_PX = 1100;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "FOLDER",
      defaultValue = "rakelight-demo",
      description = "An empty or new folder (default: ${DEFAULT-VALUE}).")
  private Path folder;

  @Option(
      names = "--carried-only",
      description = "Only the photographs that travel with the program; nothing is rendered.")
  private boolean carriedOnly;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    if (Files.exists(folder) && !isEmpty(folder)) {
      err().println("demo: " + folder + " isn't empty; name a new folder, or remove it first.");
      return 1;
    }
    Files.createDirectories(folder);
    Path archive = folder.resolve("archive");
    Path first = folder.resolve("first-season");
    Samples.copyCommitted(first);
    List<Path> seasons = new ArrayList<>(List.of(first));
    if (!carriedOnly) {
      Path second = folder.resolve("second-season");
      say("Photographing the rest of the invented ground ...");
      Samples.ground().writeTo(second, WIDTH_PX, notCarried(), workers());
      seasons.add(second);
    }

    run(
        "init",
        archive,
        "--ground",
        Samples.ground().name(),
        "--datum",
        Samples.ground().latitude() + "," + Samples.ground().longitude(),
        "--zone",
        Samples.ground().zone());
    for (Path season : seasons) {
      run(
          "ingest",
          archive,
          season,
          "--manifest",
          season.resolve("manifest.csv"),
          "--photographer",
          "the demo photographer",
          "--rights",
          "CC0-1.0");
    }
    run("propose", archive);
    for (Path season : seasons) {
      Path some = season.resolve("readings-of-some.tsv");
      Files.writeString(some, everySecondMarker(season.resolve("readings.tsv")));
      run("confirm", archive, "--from", some, "--reader", READER);
    }
    run("link", archive, "--from", links(seasons), "--reader", READER);
    run("index", archive);
    run("search", archive, "name:quillan");
    run("search", archive, "initials:\"H Q\"");
    run("search", archive, "year:1840..1860 wife");
    run("check", archive);

    PrintWriter out = spec.commandLine().getOut();
    out.println();
    out.println("Everything lies in " + folder.toAbsolutePath().normalize() + ":");
    out.println("  photographs and their truth  " + names(seasons));
    out.println("  the archive                  " + archive);
    out.println("Try next:");
    out.println("  proposals " + archive);
    out.println("  relief " + archive + " M04 --out " + folder.resolve("relief"));
    out.println("  read " + archive + " M04 --reader \"your name\"");
    out.println("  score " + archive + " " + first.resolve("truth.tsv"));
    return 0;
  }

  /** Runs one command as if typed, after showing it. */
  private void run(Object... words) {
    List<String> arguments = Stream.of(words).map(Object::toString).toList();
    say(
        "$ rakelight "
            + arguments.stream()
                .map(word -> word.matches("[\\w./:,=-]+") ? word : "'" + word + "'")
                .collect(Collectors.joining(" ")));
    int code =
        Rakelight.commands(spec.commandLine().getOut(), err())
            .execute(arguments.toArray(String[]::new));
    if (code != 0) {
      throw new CommandLine.ExecutionException(
          spec.commandLine(), "demo stopped: " + arguments.get(0) + " ended with " + code);
    }
  }

  private static Set<String> notCarried() {
    return Samples.ground().markers().stream()
        .map(SampleMarker::id)
        .filter(id -> !Samples.COMMITTED.contains(id))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** Rows of a table of readings for the first, third, fifth ... marker, with its header. */
  static String everySecondMarker(Path readings) throws IOException {
    List<String> lines = Files.readAllLines(readings);
    List<String> markers =
        lines.stream().skip(1).map(line -> line.split("\t", 2)[0]).distinct().toList();
    StringBuilder some = new StringBuilder(lines.get(0)).append('\n');
    for (String line : lines.subList(1, lines.size())) {
      if (markers.indexOf(line.split("\t", 2)[0]) % 2 == 0) {
        some.append(line).append('\n');
      }
    }
    return some.toString();
  }

  private static Path links(List<Path> seasons) {
    return seasons.get(seasons.size() - 1).resolve("links.tsv");
  }

  private static String names(List<Path> paths) {
    return paths.stream().map(Path::toString).collect(Collectors.joining(", "));
  }

  private static int workers() {
    return Math.max(1, Runtime.getRuntime().availableProcessors());
  }

  private static boolean isEmpty(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.findAny().isEmpty();
    }
  }

  private void say(String line) {
    PrintWriter out = spec.commandLine().getOut();
    out.println();
    out.println(line);
    out.flush();
  }

  private PrintWriter err() {
    return spec.commandLine().getErr();
  }
}
