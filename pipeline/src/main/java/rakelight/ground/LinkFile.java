package rakelight.ground;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Links to confirm, from a table: UTF-8, columns parted by tabs, the first line their names: {@code
 * from} (a marker), {@code type} (a kind of link), {@code to} (a marker for footstones, else a
 * person in words); {@code note} may be missing, other columns are passed over.
 */
public record LinkFile(List<Row> rows) {
  /**
   * One link.
   *
   * @param line of the file, from 1
   */
  public record Row(int line, String from, Link.Kind kind, String to, String note) {}

  /** A file of which nothing is taken, with every reason. */
  public static final class RefusedException extends Exception {
    private final transient List<String> problems;

    RefusedException(List<String> problems) {
      super(String.join("\n", problems));
      this.problems = List.copyOf(problems);
    }

    /** What is wrong, each with file and line, in the order of the file. */
    public List<String> problems() {
      return problems;
    }
  }

  public LinkFile {
    rows = List.copyOf(rows);
  }

  /**
   * Reads the whole file.
   *
   * @throws RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static LinkFile read(Path file) throws IOException, RefusedException {
    List<String> lines = lines(file);
    List<String> columns = lines.isEmpty() ? List.of() : cells(lines.get(0));
    if (!columns.containsAll(List.of("from", "type", "to"))) {
      throw new RefusedException(
          List.of(file + ", line 1: the first line must name the columns from, type, to."));
    }
    List<Row> rows = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    for (int i = 1; i < lines.size(); i++) {
      if (lines.get(i).isBlank()) {
        continue;
      }
      List<String> cells = cells(lines.get(i));
      String place = file + ", line " + (i + 1) + ": ";
      if (cells.size() != columns.size()) {
        problems.add(place + "has " + cells.size() + " columns, the first line " + columns.size());
        continue;
      }
      String from = cells.get(columns.indexOf("from"));
      String to = cells.get(columns.indexOf("to"));
      String type = cells.get(columns.indexOf("type"));
      Optional<Link.Kind> kind = Link.Kind.of(type);
      if (from.isEmpty() || to.isEmpty()) {
        problems.add(place + "a link needs from and to");
      } else if (kind.isEmpty()) {
        problems.add(place + "no such link as “" + type + "”; there are " + kinds());
      } else {
        int note = columns.indexOf("note");
        rows.add(new Row(i + 1, from, kind.get(), to, note < 0 ? "" : cells.get(note)));
      }
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return new LinkFile(rows);
  }

  /** The kinds of link, for messages. */
  public static String kinds() {
    return String.join(", ", Arrays.stream(Link.Kind.values()).map(Link.Kind::label).toList());
  }

  private static List<String> cells(String line) {
    return Arrays.stream(line.split("\t", -1)).map(String::strip).toList();
  }

  private static List<String> lines(Path file) throws IOException, RefusedException {
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
              .toString();
      return (text.startsWith("\uFEFF") ? text.substring(1) : text).lines().toList();
    } catch (CharacterCodingException e) {
      throw new RefusedException(List.of(file + ": not UTF-8. Save it as UTF-8."));
    }
  }
}
