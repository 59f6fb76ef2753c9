package rakelight.measure;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.Standing;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * What photographs really say: a table with columns file, line and text (Leiden signs) and, where
 * known, as_cut (all that was cut), legibility, material and light; beside it, where known, {@code
 * boxes.tsv} with columns file, line and polygon ({@code x,y x,y ...} in upright full-size pixels).
 */
public final class Truth {
  private static final CSVFormat TABLE =
      CSVFormat.TDF
          .builder()
          .setHeader()
          .setSkipHeaderRecord(true)
          .setQuote(null)
          .setIgnoreSurroundingSpaces(false)
          .get();

  private Truth() {}

  /**
   * Reads a table of truth and the boxes beside it.
   *
   * @throws IOException naming file, row and fault if a column is missing or a cell can't be read
   */
  public static List<TruthLine> read(Path table) throws IOException {
    Map<String, Polygon> boxes = boxes(table.resolveSibling("boxes.tsv"));
    List<TruthLine> lines = new ArrayList<>();
    for (CSVRecord row : rows(table, List.of("file", "line", "text"))) {
      Inscription seen = seen(table, row);
      TruthLine line =
          new TruthLine(
              row.get("file"),
              number(table, row),
              seen(seen),
              CutLetter.of(seen, cell(row, "as_cut").strip()),
              cell(row, "legibility"),
              cell(row, "material"),
              cell(row, "light"),
              Optional.empty());
      Polygon box = boxes.get(key(row.get("file"), line.line()));
      lines.add(box == null ? line : line.withBox(box));
    }
    return lines;
  }

  /** The letters of an inscription that can be seen, one string per line. */
  static String seen(Inscription inscription) {
    return inscription.signs().stream()
        .map(sign -> seen(inscription, sign))
        .collect(Collectors.joining())
        .replaceAll(" +", " ")
        .strip();
  }

  private static String seen(Inscription inscription, Sign sign) {
    if (sign instanceof Space) {
      return " ";
    }
    if (sign instanceof Letter letter
        && letter.standing() != Standing.SUPPLIED
        && letter.standing() != Standing.SEEN_EARLIER
        && inscription.spansOver(letter.id()).stream().noneMatch(Span::isUncut)) {
      return letter.text();
    }
    return "";
  }

  private static Inscription seen(Path table, CSVRecord row) throws IOException {
    try {
      return Leiden.parse(row.get("text"));
    } catch (LeidenException e) {
      throw fault(table, row, String.valueOf(e.getMessage()));
    }
  }

  private static Map<String, Polygon> boxes(Path table) throws IOException {
    Map<String, Polygon> boxes = new HashMap<>();
    if (!Files.exists(table)) {
      return boxes;
    }
    for (CSVRecord row : rows(table, List.of("file", "line", "polygon"))) {
      try {
        List<Point> corners =
            Stream.of(row.get("polygon").split(" "))
                .map(corner -> corner.split(","))
                .map(xy -> new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])))
                .toList();
        boxes.put(key(row.get("file"), number(table, row)), new Polygon(corners));
      } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
        throw fault(table, row, "polygon must be x,y x,y ..., got “" + row.get("polygon") + "”");
      }
    }
    return boxes;
  }

  private static List<CSVRecord> rows(Path table, List<String> needed) throws IOException {
    try (CSVParser parser = CSVParser.parse(table, StandardCharsets.UTF_8, TABLE)) {
      for (String column : needed) {
        if (!parser.getHeaderMap().containsKey(column)) {
          throw new IOException(
              table + ": no column “" + column + "”; needed are " + String.join(", ", needed));
        }
      }
      List<CSVRecord> rows = parser.getRecords();
      for (CSVRecord row : rows) {
        if (!row.isConsistent()) {
          throw fault(table, row, "has " + row.size() + " cells, the header has another number");
        }
      }
      return rows;
    }
  }

  private static int number(Path table, CSVRecord row) throws IOException {
    try {
      return Integer.parseInt(row.get("line"));
    } catch (NumberFormatException e) {
      throw fault(table, row, "line must be a whole number, got “" + row.get("line") + "”");
    }
  }

  private static IOException fault(Path table, CSVRecord row, String what) {
    return new IOException(table + ", row " + (row.getRecordNumber() + 1) + ": " + what);
  }

  private static String cell(CSVRecord row, String column) {
    return row.isMapped(column) ? row.get(column) : "";
  }

  private static String key(String file, int line) {
    return file + "\t" + line;
  }
}
