package rakelight.marker;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import rakelight.archive.ArchiveException;

/**
 * Descriptions in a table: CSV in UTF-8, the first line the columns' names: {@code marker} and any
 * of {@link DescriptionWords#FIELDS}. A cell left empty says nothing, {@code -} takes a field back.
 */
public record DescriptionFile(List<Row> rows) {
  private static final String MARKER = "marker";
  private static final String TAKEN_BACK = "-";

  /**
   * @param line of the file, from 1
   */
  public record Row(long line, String marker, DescriptionWords words) {}

  public DescriptionFile {
    rows = List.copyOf(rows);
  }

  /**
   * @throws ArchiveException if it isn't such a table, naming the line
   */
  public static DescriptionFile read(Path file) {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter(file))
            .setHeader()
            .setSkipHeaderRecord(true)
            .setTrim(true)
            .setIgnoreEmptyLines(true)
            .get();
    List<Row> rows = new ArrayList<>();
    try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8);
        CSVParser parser = CSVParser.parse(reader, format)) {
      Map<String, String> columns = columns(file, parser.getHeaderNames());
      for (CSVRecord record : parser) {
        long line = record.getRecordNumber() + 1;
        if (!record.isConsistent()) {
          throw new ArchiveException(
              file + ":" + line + ": has " + record.size() + " cells, the header another number.");
        }
        Map<String, String> said = new LinkedHashMap<>();
        columns.forEach(
            (column, field) -> {
              String cell = record.get(column);
              if (!field.equals(MARKER) && !cell.isEmpty()) {
                said.put(field, cell.equals(TAKEN_BACK) ? "" : cell);
              }
            });
        String marker =
            columns.entrySet().stream()
                .filter(column -> column.getValue().equals(MARKER))
                .map(column -> record.get(column.getKey()))
                .findFirst()
                .orElse("");
        if (marker.isEmpty()) {
          throw new ArchiveException(file + ":" + line + ": no marker named.");
        }
        rows.add(new Row(line, marker, new DescriptionWords(said)));
      }
    } catch (java.nio.charset.MalformedInputException e) {
      throw new ArchiveException(file + ": not in UTF-8. Save it as CSV in UTF-8.", e);
    } catch (java.nio.file.NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    } catch (IOException | IllegalArgumentException | UncheckedIOException e) {
      throw new ArchiveException(file + ": can't be read as CSV: " + e.getMessage(), e);
    }
    return new DescriptionFile(rows);
  }

  /** The field of each column, by the column's name as written. */
  private static Map<String, String> columns(Path file, List<String> names) {
    Map<String, String> columns = new LinkedHashMap<>();
    for (String name : names) {
      String field = name.replace("\uFEFF", "").toLowerCase(Locale.ROOT).replace('_', '-');
      if (!field.equals(MARKER) && !DescriptionWords.FIELDS.contains(field)) {
        throw new ArchiveException(
            file
                + ":1: no column is called “"
                + name
                + "”; there are marker, "
                + String.join(", ", DescriptionWords.FIELDS)
                + ".");
      }
      columns.put(name, field);
    }
    if (!columns.containsValue(MARKER)) {
      throw new ArchiveException(
          file + ":1: no column \"marker\". Name the columns in the first line.");
    }
    return columns;
  }

  private static char delimiter(Path file) throws UncheckedIOException {
    try (var lines = Files.lines(file, StandardCharsets.UTF_8)) {
      String header = lines.findFirst().orElse("");
      return header.indexOf(',') >= 0 ? ',' : header.indexOf(';') >= 0 ? ';' : '\t';
    } catch (IOException | UncheckedIOException e) {
      return ','; // Told when the table itself is read.
    }
  }
}
