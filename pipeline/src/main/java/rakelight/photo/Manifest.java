package rakelight.photo;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoublePredicate;
import java.util.function.Predicate;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import rakelight.archive.ArchiveException;

/**
 * A table that says which file shows which face of which marker. Columns are described in
 * docs/photographs.md.
 *
 * @param file the table itself
 * @param unknownColumns names in its header that mean nothing here
 */
public record Manifest(Path file, List<Row> rows, List<String> unknownColumns) {
  private static final String FILE = "file";
  private static final String MARKER = "marker";
  private static final String FACE = "face";
  private static final String BEARING = "bearing";
  private static final String AZIMUTH = "light_azimuth";
  private static final String ELEVATION = "light_elevation";
  private static final String PHOTOGRAPHER = "photographer";
  private static final String CREDIT = "credit";
  private static final String RIGHTS = "rights";
  private static final String TAKEN = "taken";
  private static final Set<String> COLUMNS =
      Set.of(
          FILE,
          MARKER,
          FACE,
          BEARING,
          AZIMUTH,
          ELEVATION,
          PHOTOGRAPHER,
          CREDIT,
          RIGHTS,
          TAKEN,
          // For people; not used.
          "note");
  private static final int MOST_FAULTS_SHOWN = 20;

  public Manifest {
    rows = List.copyOf(rows);
    unknownColumns = List.copyOf(unknownColumns);
  }

  /**
   * One line.
   *
   * @param line in the table, from 1
   * @param file as written
   * @param marker number; empty for a photograph that shows no marker
   */
  public record Row(
      long line,
      String file,
      Optional<String> marker,
      String face,
      Optional<Double> bearingDegrees,
      Optional<Light> light,
      Credits credits,
      Optional<CaptureTime> taken) {}

  /**
   * Reads a table in UTF-8, its first line being the header.
   *
   * @throws ArchiveException with one line for each fault found, naming table and line
   */
  public static Manifest read(Path file) {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter(file))
            .setHeader()
            .setSkipHeaderRecord(true)
            .setIgnoreHeaderCase(true)
            .setTrim(true)
            .setIgnoreEmptyLines(true)
            .get();
    List<String> faults = new ArrayList<>();
    List<Row> rows = new ArrayList<>();
    Set<String> unknown = new TreeSet<>();
    try (Reader reader = withoutMark(Files.newBufferedReader(file, StandardCharsets.UTF_8));
        CSVParser parser = CSVParser.parse(reader, format)) {
      for (String name : parser.getHeaderNames()) {
        if (!COLUMNS.contains(name.toLowerCase(Locale.ROOT))) {
          unknown.add(name);
        }
      }
      for (String needed : List.of(FILE, MARKER)) {
        if (!parser.getHeaderMap().containsKey(needed)) {
          throw new ArchiveException(
              file + ":1: no column \"" + needed + "\". Name the columns in the first line.");
        }
      }
      Set<String> seen = new HashSet<>();
      for (CSVRecord record : parser) {
        long line = record.getRecordNumber() + 1;
        row(record, line, fault -> faults.add(file + ":" + line + ": " + fault))
            .ifPresent(rows::add);
        cell(record, FILE)
            .filter(name -> !seen.add(composed(name)))
            .ifPresent(name -> faults.add(file + ":" + line + ": a second line for " + name + "."));
      }
    } catch (java.nio.charset.MalformedInputException e) {
      throw new ArchiveException(file + ": not in UTF-8. Save it as CSV in UTF-8.", e);
    } catch (java.nio.file.NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such manifest.", e);
    } catch (IOException | IllegalArgumentException | UncheckedIOException e) {
      throw new ArchiveException(file + ": can't be read as CSV: " + e.getMessage(), e);
    }
    if (!faults.isEmpty()) {
      int more = faults.size() - MOST_FAULTS_SHOWN;
      throw new ArchiveException(
          String.join("\n", faults.subList(0, Math.min(faults.size(), MOST_FAULTS_SHOWN)))
              + (more > 0 ? "\n" + file + ": and " + more + " more faults." : ""));
    }
    return new Manifest(file, rows, new ArrayList<>(unknown));
  }

  /** Spreadsheets part cells by what is usual in their country; the first line shows by what. */
  private static char delimiter(Path file) {
    try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      String header = Optional.ofNullable(reader.readLine()).orElse("");
      return header.indexOf(',') >= 0
          ? ','
          : header.indexOf(';') >= 0 ? ';' : header.indexOf('\t') >= 0 ? '\t' : ',';
    } catch (IOException e) {
      return ','; // Told when the table itself is read.
    }
  }

  /** Text in composed form, so that names from different systems compare equal. */
  static String composed(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC);
  }

  private interface Faults {
    void add(String fault);
  }

  private static Optional<Row> row(CSVRecord record, long line, Faults faults) {
    if (!record.isConsistent()) {
      faults.add("it has " + record.size() + " cells, the header another number.");
      return Optional.empty();
    }
    Optional<String> file = cell(record, FILE);
    if (file.isEmpty()) {
      faults.add("no file named.");
      return Optional.empty();
    }
    Optional<Double> bearing =
        number(record, BEARING, v -> v >= 0 && v <= 360, "degrees from 0 to 360", faults);
    Optional<Double> azimuth =
        number(record, AZIMUTH, v -> v >= 0 && v <= 360, "degrees from 0 to 360", faults);
    Optional<Double> elevation =
        number(record, ELEVATION, v -> v >= 0 && v <= 90, "degrees from 0 to 90", faults);
    if (elevation.isPresent() && azimuth.isEmpty()) {
      faults.add("a light_elevation without a light_azimuth.");
    }
    return Optional.of(
        new Row(
            line,
            file.get(),
            cell(record, MARKER),
            cell(record, FACE).orElse(Face.FRONT),
            bearing,
            azimuth.map(degrees -> new Light(degrees, elevation)),
            new Credits(cell(record, PHOTOGRAPHER), cell(record, CREDIT), cell(record, RIGHTS)),
            taken(record, faults)));
  }

  private static Optional<Double> number(
      CSVRecord record, String column, DoublePredicate allowed, String rule, Faults faults) {
    Optional<String> text = cell(record, column);
    try {
      Optional<Double> value = text.map(Double::valueOf);
      if (value.isEmpty() || allowed.test(value.get())) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Told below.
    }
    faults.add(column + " must be " + rule + ": " + text.orElse(""));
    return Optional.empty();
  }

  private static Optional<CaptureTime> taken(CSVRecord record, Faults faults) {
    Optional<String> text = cell(record, TAKEN);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    String iso = text.get().replace(' ', 'T');
    try {
      OffsetDateTime time = OffsetDateTime.parse(iso);
      return Optional.of(
          new CaptureTime(time.toLocalDateTime(), Optional.of(time.getOffset()), "manifest"));
    } catch (DateTimeException e) {
      try {
        return Optional.of(new CaptureTime(LocalDateTime.parse(iso), Optional.empty(), "manifest"));
      } catch (DateTimeException alsoNot) {
        faults.add("taken must be a time such as 2024-05-01T10:20:30+01:00: " + text.get());
        return Optional.empty();
      }
    }
  }

  private static Optional<String> cell(CSVRecord record, String column) {
    return record.isSet(column)
        ? Optional.of(record.get(column).strip()).filter(Predicate.not(String::isEmpty))
        : Optional.empty();
  }

  /** Spreadsheets put a byte order mark in front. */
  private static Reader withoutMark(BufferedReader reader) throws IOException {
    reader.mark(1);
    if (reader.read() != '\uFEFF') {
      reader.reset();
    }
    return reader;
  }
}
