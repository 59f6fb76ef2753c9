package rakelight.archive;

import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * A table that somebody brings: values parted by commas (RFC 4180), semicolons or tabs, whichever
 * the first line has, quoted where they hold one; UTF-8, with or without a byte order mark. The
 * first line names the columns. Other encodings are refused by name, or by the line and byte that
 * isn't UTF-8; they are never guessed, since a wrong guess makes other names.
 *
 * @param columns as the first line has them, without spaces around
 */
public record Table(List<String> columns, List<Row> rows) {
  private static final int MOST_PROBLEMS = 50;

  public Table {
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /**
   * A row.
   *
   * @param line on which it begins, from 1
   * @param cells without spaces around, as many as there are columns
   * @param given how many of them the file has; the others are empty
   */
  public record Row(long line, List<String> cells, int given) {
    public Row {
      cells = List.copyOf(cells);
    }
  }

  /** A file of which nothing is taken, with every reason. */
  public static final class RefusedException extends Exception {
    private final transient List<String> problems;

    /**
     * @param problems each with file and line, in the order of the file, and what to do; at least
     *     one
     */
    public RefusedException(List<String> problems) {
      super(String.join("\n", problems));
      this.problems = List.copyOf(problems);
    }

    RefusedException(String problem) {
      this(List.of(problem));
    }

    /** What is wrong, each with file and line. */
    public List<String> problems() {
      return problems;
    }
  }

  /** The place of a column, in whatever case it is written; the first of two of one name. */
  public Optional<Integer> place(String column) {
    for (int i = 0; i < columns.size(); i++) {
      if (columns.get(i).equalsIgnoreCase(column.strip())) {
        return Optional.of(i);
      }
    }
    return Optional.empty();
  }

  /**
   * Reads the whole file.
   *
   * @throws RefusedException if it isn't such a table
   * @throws IOException if it can't be read
   */
  public static Table read(Path file) throws IOException, RefusedException {
    return parse(text(file), file.toString());
  }

  /**
   * Reads the whole file; where cells are parted by tabs, quotes in them are signs like others.
   *
   * @throws RefusedException if it isn't such a table
   * @throws IOException if it can't be read
   */
  public static Table readVerbatim(Path file) throws IOException, RefusedException {
    return parse(text(file), file.toString(), true);
  }

  /** What a row has in a column; empty where there is no such column. */
  public String cell(Row row, String column) {
    return place(column).map(row.cells()::get).orElse("");
  }

  /**
   * Refuses a table without rows; readers do once they know their columns.
   *
   * @throws RefusedException if there is none
   */
  public void requireRows(String file) throws RefusedException {
    if (rows.isEmpty()) {
      throw new RefusedException(file + ": there is no row in it below the names of the columns.");
    }
  }

  /** What is wrong with a row that has fewer cells than there are columns, if it has. */
  public Optional<String> shortness(Row row) {
    return row.given() < columns.size()
        ? Optional.of("has " + row.given() + " columns, the first line " + columns.size())
        : Optional.empty();
  }

  /**
   * The text of a file in UTF-8, without a byte order mark.
   *
   * @throws RefusedException if it is in another encoding
   */
  public static String text(Path file) throws IOException, RefusedException {
    byte[] bytes = Files.readAllBytes(file);
    if (bytes.length >= 2 && (bytes[0] & 0xff) + (bytes[1] & 0xff) == 0xff + 0xfe) {
      throw new RefusedException(file + ": written in UTF-16. Save it as UTF-8.");
    }
    CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result = decoder.decode(in, out, true);
    if (result.isError()) {
      long line = 1;
      for (int i = 0; i < in.position(); i++) {
        line += bytes[i] == '\n' ? 1 : 0;
      }
      throw new RefusedException(
          String.format(
              Locale.ROOT,
              "%s, line %d: byte %02X isn't UTF-8; perhaps Windows-1252 or ISO 8859-1. Save it as"
                  + " UTF-8.",
              file,
              line,
              bytes[in.position()]));
    }
    String text = out.flip().toString();
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  /**
   * Reads a table from its text.
   *
   * @param file its name, for messages
   * @throws RefusedException if it isn't one
   */
  public static Table parse(String text, String file) throws RefusedException {
    return parse(text, file, false);
  }

  private static Table parse(String text, String file, boolean verbatim) throws RefusedException {
    String first = text.lines().filter(line -> !line.isBlank()).findFirst().orElse("");
    char delimiter = delimiter(first);
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter)
            .setQuote(verbatim && delimiter == '\t' ? null : Character.valueOf('"'))
            .setIgnoreEmptyLines(true)
            .get();
    List<String> problems = new ArrayList<>();
    List<String> columns = new ArrayList<>();
    List<Row> rows = new ArrayList<>();
    try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
      List<String> lines = text.lines().toList();
      int line = 1;
      for (CSVRecord record : parser) {
        while (line <= lines.size() && lines.get(line - 1).isEmpty()) {
          line++;
        }
        List<String> cells = new ArrayList<>();
        record.forEach(cell -> cells.add(cell.strip()));
        if (columns.isEmpty()) {
          columns.addAll(cells);
        } else if (cells.size() > columns.size()
            && cells.subList(columns.size(), cells.size()).stream().anyMatch(c -> !c.isEmpty())) {
          problems.add(
              file
                  + ", line "
                  + line
                  + ": has "
                  + cells.size()
                  + " columns, the first line "
                  + columns.size()
                  + (delimiter == '\t' ? "." : ". Put a cell with a comma in it in quotes."));
        } else if (cells.stream().anyMatch(cell -> !cell.isEmpty())) {
          int given = Math.min(cells.size(), columns.size());
          while (cells.size() < columns.size()) {
            cells.add("");
          }
          rows.add(new Row(line, cells.subList(0, columns.size()), given));
        }
        line = (int) parser.getCurrentLineNumber() + 1;
      }
    } catch (IOException | RuntimeException e) {
      throw new RefusedException(
          file + ": not values parted by commas or tabs as RFC 4180 has them: " + e.getMessage());
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems.subList(0, Math.min(MOST_PROBLEMS, problems.size())));
    }
    return new Table(columns, rows);
  }

  private static char delimiter(String first) {
    if (first.indexOf('\t') >= 0) {
      return '\t';
    }
    return first.indexOf(',') < 0 && first.indexOf(';') >= 0 ? ';' : ',';
  }
}
