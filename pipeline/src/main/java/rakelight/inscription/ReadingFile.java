package rakelight.inscription;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.ProposalId;
import rakelight.photo.Face;

/**
 * Readings to confirm, from a table of lines: UTF-8, columns parted by tabs, the first line their
 * names. Needed are {@code marker}, {@code line} (from 1 for each face) and {@code text} (Leiden
 * signs); {@code face} is {@code front} where it is empty or missing; {@code proposal} may name the
 * proposal whose lines are counted; other columns are passed over. A face's lines may stand in any
 * order. If a face has only one row, its text may hold several lines parted by {@code |}.
 */
public record ReadingFile(List<Entry> entries) {
  private static final List<String> NEEDED = List.of("marker", "line", "text");

  /** One face's reading. */
  public record Entry(
      String marker, String face, Inscription inscription, Optional<ProposalId> proposal) {}

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

  private record Row(int number, String text, String proposal) {}

  private record FaceKey(String marker, String face) {}

  public ReadingFile {
    entries = List.copyOf(entries);
  }

  /**
   * Reads and checks the whole file.
   *
   * @throws RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static ReadingFile read(Path file) throws IOException, RefusedException {
    List<String> lines = lines(file);
    List<String> columns = Arrays.asList(lines.get(0).split("\t", -1));
    List<String> missing = NEEDED.stream().filter(name -> !columns.contains(name)).toList();
    if (!missing.isEmpty()) {
      throw new RefusedException(
          List.of(
              file
                  + ", line 1: no column "
                  + String.join(", ", missing)
                  + ". The first line names the columns marker, face, line, text, parted by"
                  + " tabs."));
    }
    Map<Integer, String> problems = new TreeMap<>();
    Map<FaceKey, TreeMap<Integer, Row>> faces = new LinkedHashMap<>();
    for (int i = 1; i < lines.size(); i++) {
      if (lines.get(i).isBlank()) {
        continue;
      }
      String[] cells = lines.get(i).split("\t", -1);
      int number = i + 1;
      if (cells.length != columns.size()) {
        problems.put(number, "has " + cells.length + " columns, the first line " + columns.size());
        continue;
      }
      String marker = cell(columns, cells, "marker");
      String named = cell(columns, cells, "face");
      String face = named.isEmpty() ? Face.FRONT : named;
      String line = cell(columns, cells, "line");
      if (marker.isEmpty()) {
        problems.put(number, "no marker number");
      } else if (!line.matches("[1-9][0-9]{0,3}")) {
        problems.put(number, "“" + line + "” isn't the number of a line, from 1");
      } else {
        Row earlier =
            faces
                .computeIfAbsent(new FaceKey(marker, face), key -> new TreeMap<>())
                .putIfAbsent(
                    Integer.parseInt(line),
                    new Row(
                        number, cell(columns, cells, "text"), cell(columns, cells, "proposal")));
        if (earlier != null) {
          problems.put(
              number,
              "marker "
                  + marker
                  + ", face "
                  + face
                  + " has line "
                  + line
                  + " already, in line "
                  + earlier.number()
                  + " of the file");
        }
      }
    }
    List<Entry> entries = new ArrayList<>();
    faces.forEach((key, rows) -> entry(key, rows, problems).ifPresent(entries::add));
    if (!problems.isEmpty()) {
      throw new RefusedException(
          problems.entrySet().stream()
              .map(problem -> file + ", line " + problem.getKey() + ": " + problem.getValue())
              .toList());
    }
    return new ReadingFile(entries);
  }

  private static List<String> lines(Path file) throws IOException, RefusedException {
    byte[] bytes = Files.readAllBytes(file);
    if (bytes.length == 0) {
      throw new RefusedException(List.of(file + ": empty"));
    }
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return (text.startsWith("\uFEFF") ? text.substring(1) : text).lines().toList();
    } catch (CharacterCodingException e) {
      throw new RefusedException(
          List.of(file + ": not UTF-8. Save it as UTF-8, so that the signs come through."));
    }
  }

  private static String cell(List<String> columns, String[] cells, String name) {
    int at = columns.indexOf(name);
    return at < 0 ? "" : cells[at].strip();
  }

  private static Optional<Entry> entry(
      FaceKey key, TreeMap<Integer, Row> rows, Map<Integer, String> problems) {
    String place = "marker " + key.marker() + ", face " + key.face();
    List<Row> inOrder = List.copyOf(rows.values());
    boolean sound = true;
    if (rows.lastKey() != rows.size()) {
      int gap = 1;
      while (rows.containsKey(gap)) {
        gap++;
      }
      problems.putIfAbsent(inOrder.get(inOrder.size() - 1).number(), place + " has no line " + gap);
      sound = false;
    }
    for (Row row : inOrder) {
      sound &= parses(place, row, inOrder.size() == 1, problems);
    }
    Optional<ProposalId> proposal = Optional.empty();
    for (Row row : inOrder) {
      if (!row.proposal().isEmpty()) {
        try {
          proposal = Optional.of(ProposalId.of(row.proposal()));
        } catch (IllegalArgumentException e) {
          problems.putIfAbsent(row.number(), "“" + row.proposal() + "” isn't a proposal's id");
          sound = false;
        }
      }
    }
    if (!sound) {
      return Optional.empty();
    }
    try {
      String text = String.join("\n", inOrder.stream().map(Row::text).toList());
      return Optional.of(new Entry(key.marker(), key.face(), Leiden.parse(text), proposal));
    } catch (LeidenException e) {
      Row row = inOrder.get(Math.min(e.line(), inOrder.size()) - 1);
      problems.putIfAbsent(row.number(), place + ": " + e.getMessage());
      return Optional.empty();
    }
  }

  /**
   * Looks at one row by itself, so that every bad row of a face is named. A sign that stays open at
   * the end of a row may close in the next; the whole face is looked at later.
   */
  private static boolean parses(
      String place, Row row, boolean onlyRow, Map<Integer, String> problems) {
    String alone = row.text().startsWith("|") ? row.text().substring(1) : row.text();
    try {
      int lines = Leiden.parse(alone).lines().size();
      if (lines > 1 && !onlyRow) {
        problems.putIfAbsent(
            row.number(),
            place + ": a line begins within the text; give each line a row, or the face one row");
        return false;
      }
      return true;
    } catch (LeidenException e) {
      boolean maySpanRows = !onlyRow && isUnbalanced(alone);
      if (!maySpanRows) {
        problems.putIfAbsent(row.number(), place + ": " + e.getMessage());
      }
      return maySpanRows;
    }
  }

  private static boolean isUnbalanced(String text) {
    return count(text, "[({<〚⟦⟨⸢⌈«`") != count(text, "])}>〛⟧⟩⸣⌉»´");
  }

  private static long count(String text, String signs) {
    return text.codePoints().filter(sign -> signs.indexOf(sign) >= 0).count();
  }
}
