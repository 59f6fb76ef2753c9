package rakelight.samples;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** The way in: the invented ground, and the few photographs of it that travel with the program. */
public final class Samples {
  /** Markers whose photographs are carried along, so that a demonstration can start at once. */
  public static final Set<String> COMMITTED =
      Set.of("M04", "M07", "M11", "M13", "M15", "M16", "M20", "M21", "M27", "M30", "M33", "M37");

  /** Width in pixels of the carried photographs. */
  public static final int COMMITTED_WIDTH_PX = 1400;

  private static final String PHOTOGRAPHS = "/rakelight/samples/photographs/";
  private static final List<String> TABLES =
      List.of(
          "manifest.csv",
          "truth.tsv",
          "boxes.tsv",
          "readings.tsv",
          "markers.tsv",
          "persons.tsv",
          "links.tsv",
          "statements.tsv");

  private Samples() {}

  /** The invented ground. */
  public static SampleGround ground() {
    return SampleGround.load();
  }

  /**
   * Copies the carried photographs, their manifest and their truth into a folder, which is made if
   * need be.
   */
  public static void copyCommitted(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (String name : TABLES) {
      Files.write(folder.resolve(name), bytes(name));
    }
    for (String name : committedFiles()) {
      Files.write(folder.resolve(name), bytes(name));
    }
  }

  /**
   * Writes what the ground's markers are, by kind, form, material, parts with their lean, size and
   * origin ({@code described.csv}), and what stands on those of which there is no photograph
   * ({@code unphotographed.tsv}).
   */
  public static void writeDescribed(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (String name : List.of("described.csv", "unphotographed.tsv")) {
      Files.write(folder.resolve(name), carried(SampleGround.TABLES + name));
    }
  }

  /** Names of the carried photographs. */
  public static List<String> committedFiles() {
    Set<String> names = new TreeSet<>();
    new String(bytes("manifest.csv"), StandardCharsets.UTF_8)
        .lines()
        .skip(1)
        .forEach(l -> names.add(l.split(",")[0]));
    return new ArrayList<>(names);
  }

  /** A carried file by name. */
  public static byte[] bytes(String name) {
    return carried(PHOTOGRAPHS + name);
  }

  private static byte[] carried(String name) {
    try (InputStream in = Samples.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalArgumentException("No carried sample is called " + name);
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException("Carried sample " + name + " can't be read", e);
    }
  }
}
