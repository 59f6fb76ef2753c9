package rakelight.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * What it takes to hand on an archive in each format, each by a program of its own with the same
 * small heap: seconds of processor time, the most that was resident, and the most that the heap
 * held right after a collection. Arguments are an archive such as {@link PicturedGround} makes, an
 * empty folder, the heap in MB, and if need be the formats. Linux only.
 */
final class ExportBenchmark {
  private static final Pattern COLLECTED = Pattern.compile("->(\\d+)K\\(");
  private static final Pattern RESIDENT = Pattern.compile("VmHWM:\\s+(\\d+) kB");
  private static final List<String> EXPORTS =
      List.of("epidoc", "corpus", "tables", "gedcom", "iiif", "annotations", "sidecars");

  private ExportBenchmark() {}

  public static void main(String[] args) throws Exception {
    Path archive = Path.of(args[0]).toAbsolutePath();
    Path folder = Files.createDirectories(Path.of(args[1]).toAbsolutePath());
    List<String> wanted = Stream.of(args).skip(3).toList();
    System.out.println("| | s of processor | MB resident | MB of heap | MB written | |");
    for (Map.Entry<String, List<String>> format : formats(archive, folder).entrySet()) {
      if (wanted.isEmpty() || wanted.contains(format.getKey())) {
        run(format.getKey(), format.getValue(), folder, args[2]);
      }
    }
  }

  private static Map<String, List<String>> formats(Path archive, Path folder) {
    String from = archive.toString();
    Map<String, List<String>> formats = new LinkedHashMap<>();
    for (String export : EXPORTS) {
      List<String> command = new ArrayList<>(List.of("export", from, "--as-of", "2026-11-25"));
      command.addAll(List.of("--to", folder.resolve(export).toString()));
      if (!export.equals("epidoc")) {
        command.add("--" + export);
      }
      if (export.equals("iiif") || export.equals("annotations")) {
        command.addAll(List.of("--address", "https://x.example/"));
      }
      formats.put(export, command);
    }
    formats.put("geojson", List.of("plan", from, "--geojson", folder + "/plan.geojson"));
    formats.put(
        "book", List.of("book", from, "--as-of", "2026-11-25", "--to", folder + "/book.pdf"));
    formats.put("site", List.of("site", from, "--as-of", "2026-11-25", "--to", folder + "/site"));
    formats.put("backup", List.of("backup", from, folder + "/backup"));
    return formats;
  }

  private static void run(String format, List<String> arguments, Path folder, String heap)
      throws Exception {
    Path log = folder.resolve(format + ".gc");
    Path said = folder.resolve(format + ".txt");
    long before = size(folder);
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx" + heap + "m", "-XX:+UseSerialGC", "-Xlog:gc*:file=" + log));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.add(Rakelight.class.getName());
    command.addAll(arguments);
    Process process =
        new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(said.toFile()).start();
    long resident = 0;
    double seconds = 0;
    do {
      resident = Math.max(resident, resident(process.pid()));
      seconds =
          Math.max(
              seconds,
              process.info().totalCpuDuration().map(own -> own.toMillis() / 1e3).orElse(0.0));
    } while (!process.waitFor(200, TimeUnit.MILLISECONDS));
    System.out.printf(
        Locale.ROOT,
        "| %s | %.0f | %d | %.0f | %.0f | %s |%n",
        format,
        seconds,
        resident / 1024,
        collected(log),
        (size(folder) - before) / 1e6,
        process.exitValue() == 0 ? "" : "failed, see " + said);
  }

  /** The high-water mark, in kB; 0 once the process has ended. */
  private static long resident(long pid) {
    try {
      Matcher found = RESIDENT.matcher(Files.readString(Path.of("/proc/" + pid + "/status")));
      return found.find() ? Long.parseLong(found.group(1)) : 0;
    } catch (IOException ended) {
      return 0;
    }
  }

  /** The most that the heap held after a collection of all of it, in MB; of the young one, none. */
  private static double collected(Path log) throws IOException {
    double most = 0;
    for (String line : Files.readAllLines(log, StandardCharsets.UTF_8)) {
      Matcher found = COLLECTED.matcher(line);
      if (line.contains("Tenured:") && found.find()) {
        most = Math.max(most, Double.parseDouble(found.group(1)) / 1024);
      }
    }
    return most;
  }

  private static long size(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).mapToLong(file -> file.toFile().length()).sum();
    }
  }
}
