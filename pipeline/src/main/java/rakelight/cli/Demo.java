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
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
    description =
        "Makes an archive of an invented burial ground and takes it from photographs to search.")
final class Demo implements Callable<Integer> {
  private static final String READER = "demo reader";
  private static final String PHOTOGRAPHS = "photographs";

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
    Samples.copyCommitted(first.resolve(PHOTOGRAPHS));
    partTables(first);
    List<Path> seasons = new ArrayList<>(List.of(first));
    if (!carriedOnly) {
      Path second = folder.resolve("second-season");
      say("Photographing the rest of the invented ground ...");
      Samples.ground().writeTo(second.resolve(PHOTOGRAPHS), WIDTH_PX, notCarried(), workers());
      partTables(second);
      seasons.add(second);
    }

    List<List<Object>> commands = new ArrayList<>();
    commands.add(
        List.of(
            "init",
            archive,
            "--ground",
            Samples.ground().name(),
            "--datum",
            Samples.ground().latitude() + "," + Samples.ground().longitude(),
            "--zone",
            Samples.ground().zone()));
    for (Path season : seasons) {
      commands.add(
          List.of(
              "ingest",
              archive,
              season.resolve(PHOTOGRAPHS),
              "--manifest",
              season.resolve("manifest.csv"),
              "--photographer",
              "the demo photographer",
              "--rights",
              "CC0-1.0"));
    }
    commands.add(List.of("propose", archive));
    for (Path season : seasons) {
      commands.add(List.of("confirm", archive, "--from", someReadings(season), "--reader", READER));
    }
    Samples.writeDescribed(folder);
    commands.add(
        List.of(
            "confirm",
            archive,
            "--from",
            folder.resolve("unphotographed.tsv"),
            "--new-markers",
            "--basis",
            "stone",
            "--date",
            "2026-06-20",
            "--reader",
            READER));
    commands.add(List.of("describe", archive, "--from", describedOf(seasons), "--reader", READER));
    commands.add(List.of("link", archive, "--from", linksOfMarkersIn(seasons), "--reader", READER));
    commands.add(List.of("index", archive));
    commands.add(List.of("search", archive, "name:quillan"));
    commands.add(List.of("search", archive, "initials:HQ"));
    commands.add(List.of("search", archive, "wife year:1840..1860"));
    commands.add(List.of("made", archive, "N08"));
    commands.add(List.of("check", archive));
    for (List<Object> command : commands) {
      int code = run(command);
      if (code != 0) {
        err().println("demo: stopped, because `" + command.get(0) + "` ended with " + code + ".");
        return code;
      }
    }

    PrintWriter out = spec.commandLine().getOut();
    out.println();
    out.println("Everything lies in " + folder.toAbsolutePath().normalize() + ":");
    out.println("  photographs and their truth  " + names(seasons));
    out.println("  the archive                  " + archive);
    out.println("Try next:");
    out.println("  proposals " + archive);
    out.println("  desk " + archive);
    out.println("  relief " + archive + " M04 --out " + folder.resolve("relief"));
    out.println("  read " + archive + " M04 --reader \"your name\"");
    out.println("  score " + archive + " " + first.resolve("truth.tsv"));
    return 0;
  }

  /** Runs one command as if typed, after showing it. */
  private int run(List<Object> words) {
    List<String> arguments = words.stream().map(Object::toString).toList();
    say(
        "$ rakelight "
            + arguments.stream()
                .map(word -> word.matches("[\\w./:,=-]+") ? word : "'" + word + "'")
                .collect(Collectors.joining(" ")));
    return Rakelight.commands(spec.commandLine().getOut(), err())
        .execute(arguments.toArray(String[]::new));
  }

  /** Moves manifest and truth out of the photographs' folder, to stand beside it. */
  private static void partTables(Path season) throws IOException {
    try (Stream<Path> files = Files.list(season.resolve(PHOTOGRAPHS))) {
      for (Path file : files.filter(f -> !f.toString().endsWith(".jpg")).toList()) {
        Files.move(file, season.resolve(file.getFileName().toString()));
      }
    }
  }

  private static Set<String> notCarried() {
    return Samples.ground().markers().stream()
        .map(SampleMarker::id)
        .filter(id -> !Samples.COMMITTED.contains(id))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** The readings of two markers of every three; the first of the three is left to the visitor. */
  private static Path someReadings(Path season) throws IOException {
    List<String> lines = Files.readAllLines(season.resolve("readings.tsv"));
    List<String> markers =
        lines.stream().skip(1).map(line -> line.split("\t", 2)[0]).distinct().toList();
    return table(
        season.resolve("readings-of-some.tsv"),
        lines,
        line -> markers.indexOf(line.split("\t", 2)[0]) % 3 != 0);
  }

  /** What those markers are that were photographed, or read without. */
  private Path describedOf(List<Path> seasons) throws IOException {
    Set<String> known = photographed(seasons);
    Files.readAllLines(folder.resolve("unphotographed.tsv"))
        .forEach(line -> known.add(line.split("\t", 2)[0]));
    return table(
        folder.resolve("described-of-known.csv"),
        Files.readAllLines(folder.resolve("described.csv")),
        line -> known.contains(line.split(",", 2)[0]));
  }

  private static Set<String> photographed(List<Path> seasons) throws IOException {
    Set<String> photographed = new TreeSet<>();
    for (Path season : seasons) {
      Files.readAllLines(season.resolve("manifest.csv")).stream()
          .skip(1)
          .forEach(line -> photographed.add(line.split(",", 3)[1]));
    }
    return photographed;
  }

  /** The links between markers that were photographed. */
  private static Path linksOfMarkersIn(List<Path> seasons) throws IOException {
    Set<String> photographed = photographed(seasons);
    Path first = seasons.get(0);
    return table(
        first.resolve("links-of-photographed.tsv"),
        Files.readAllLines(first.resolve("links.tsv")),
        line -> photographed.containsAll(List.of(line.split("\t", 3)).subList(0, 2)));
  }

  private static Path table(Path file, List<String> lines, Predicate<String> kept)
      throws IOException {
    List<String> rows = new ArrayList<>(lines.subList(0, 1));
    lines.stream().skip(1).filter(kept).forEach(rows::add);
    return Files.write(file, rows);
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
