package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** All that is written for the public, on 25 November 2026, of an archive of signed readings. */
record PublicDoors(Map<String, String> texts) {
  private static final String DAY = "2026-11-25";

  /**
   * @param readings rows of marker, face, line and text in Leiden signs, without a heading
   */
  static PublicDoors of(Path folder, List<String> readings) throws IOException {
    Path archive = folder.resolve("archive");
    Path table = folder.resolve("readings.tsv");
    Files.write(
        table,
        Stream.concat(Stream.of("marker\tface\tline\ttext"), readings.stream()).toList(),
        StandardCharsets.UTF_8);
    run("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    run("confirm", archive, "--new-markers", "--from", table, "--reader", "Ada Penrose");
    Path out = folder.resolve("out");
    Map<String, String> texts = new TreeMap<>();
    texts.put(
        "export",
        run("export", archive, "--to", out, "--as-of", DAY, "--tables", "--gedcom", "--corpus"));
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        texts.put(file.getFileName().toString(), file.getFileName() + Files.readString(file));
      }
    }
    for (String command : List.of("statements", "persons")) {
      texts.put(command, run(command, archive, "--public", "--as-of", DAY));
      texts.put(command + " json", run(command, archive, "--public", "--as-of", DAY, "--json"));
    }
    for (String list : List.of("roll", "deaths")) {
      texts.put(list, run(list, archive, "--as-of", DAY));
      texts.put(list + " json", run(list, archive, "--as-of", DAY, "--json"));
    }
    return new PublicDoors(texts);
  }

  /** What the file of a marker's edition says, empty where there is none. */
  String edition(String marker) {
    return texts.entrySet().stream()
        .filter(door -> door.getKey().startsWith(marker + "-"))
        .map(Map.Entry::getValue)
        .findFirst()
        .orElse("");
  }

  static String around(String text, int at) {
    return text.substring(Math.max(0, at - 60), Math.min(text.length(), at + 40))
        .replace('\n', ' ');
  }

  private static String run(Object... command) {
    Ran ran = Ran.command(command);
    assertThat(ran.code()).as(ran.err()).isZero();
    return ran.out();
  }
}
