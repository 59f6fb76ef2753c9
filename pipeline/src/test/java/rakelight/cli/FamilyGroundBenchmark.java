package rakelight.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** How long lists of families take on a large ground: arguments are a folder and lots. */
final class FamilyGroundBenchmark {
  private FamilyGroundBenchmark() {}

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    Path archive = folder.resolve("archive");
    if (!Files.exists(archive)) {
      Files.createDirectories(folder);
      FamilyGround.in(folder, 7, Integer.parseInt(args[1]), 0.3);
    }
    for (int i = 0; i < 3; i++) {
      long start = System.nanoTime();
      int rows = Ran.command("links", archive, "--standing", "proposed").outLines().size();
      System.out.printf(
          Locale.ROOT, "links, %d lines: %.2f s%n", rows, (System.nanoTime() - start) / 1e9);
    }
  }
}
