package rakelight.survey;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import rakelight.archive.ArchiveException;

/**
 * What fashion says of when a marker was made, a row of a region's table.
 *
 * @param of what is seen: kind, form, material, lettering, emblem, or size
 * @param clue its term; of a size width and thickness in centimetres, {@code 33 x 10.2}
 * @param from the first likely year
 * @param to the last one; {@value #STILL} where it never ended
 * @param strict whether it can't be earlier, as with a patent or a law
 * @param source who says so
 */
public record DatingClue(String of, String clue, int from, int to, boolean strict, String source) {
  static final int STILL = 2030;

  private static final String HEADER = "of\tclue\tfrom\tto\tstrict\tsource";

  /** The regions whose tables the program brings; two of them hold everywhere. */
  public static final List<String> REGIONS =
      List.of(
          "alabama",
          "england",
          "galway",
          "georgia",
          "michigan",
          "new-england",
          "ohio",
          "ontario",
          "pennsylvania",
          "scotland",
          "texas");

  /** Those that hold everywhere, and those of some regions. */
  public static List<DatingClue> of(List<String> regions) {
    return Stream.concat(Stream.of("anywhere", "government"), regions.stream())
        .flatMap(region -> carried(region).stream())
        .toList();
  }

  /**
   * Those that hold everywhere, and those of a ground's regions.
   *
   * @param regions as a ground has them, parted by spaces
   * @throws ArchiveException if the program brings no table of one
   */
  public static List<DatingClue> ofGround(Optional<String> regions) {
    return of(
        regions.stream()
            .flatMap(names -> Arrays.stream(names.split("[\\s,]+", -1)))
            .filter(name -> !name.isEmpty())
            .toList());
  }

  private static List<DatingClue> carried(String region) {
    try (InputStream in = DatingClue.class.getResourceAsStream("made/" + region + ".tsv")) {
      if (in == null) {
        throw new ArchiveException(
            "No region is called “"
                + region
                + "”; there are "
                + String.join(", ", REGIONS)
                + ". A table of your own is given as a file (--table).");
      }
      BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      return parse(region + ".tsv", reader.lines().toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * A table of one's own, columns as those of the program's.
   *
   * @throws ArchiveException naming the line that can't be taken
   */
  public static List<DatingClue> read(Path file) {
    try {
      return parse(file.toString(), Files.readAllLines(file, StandardCharsets.UTF_8));
    } catch (CharacterCodingException e) {
      throw new ArchiveException(file + ": not in UTF-8. Save it as UTF-8.", e);
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (IOException e) {
      throw new ArchiveException(file + ": can't be read: " + e.getMessage(), e);
    }
  }

  private static List<DatingClue> parse(String file, List<String> lines) {
    if (lines.isEmpty() || !lines.get(0).replace("\uFEFF", "").equals(HEADER)) {
      throw new ArchiveException(
          file
              + ", line 1: the first line must name the columns of, clue, from, to, strict,"
              + " source.");
    }
    return Stream.iterate(1, line -> line < lines.size(), line -> line + 1)
        .filter(line -> !lines.get(line).isBlank())
        .map(line -> row(file + ", line " + (line + 1) + ": ", lines.get(line)))
        .toList();
  }

  private static DatingClue row(String place, String line) {
    String[] cells = line.split("\t", -1);
    try {
      int from = Integer.parseInt(cells[2]);
      int to = cells[3].isBlank() ? STILL : Integer.parseInt(cells[3]);
      if (cells.length != 6 || from > to || cells[5].isBlank()) {
        throw new NumberFormatException();
      }
      return new DatingClue(cells[0], cells[1], from, to, cells[4].equals("yes"), cells[5]);
    } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
      throw new ArchiveException(
          place + "needs six cells parted by tabs, two of them years in order, and a source.", e);
    }
  }
}
