package rakelight.inscription;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.ProposalId;
import rakelight.archive.Table;
import rakelight.photo.Face;

/**
 * Readings to confirm, from a {@link Table} of lines in which every row has every column. Needed
 * are {@code marker}, {@code line} (from 1 for each face) and {@code text} (Leiden signs); {@code
 * face} is {@code front} where it is empty or missing; {@code proposal} may name the proposal whose
 * lines are counted; other columns are passed over. A face's lines may stand in any order. If a
 * face has only one row, its text may hold several lines parted by {@code |}.
 */
public record ReadingFile(List<Entry> entries) {
  private static final List<String> NEEDED = List.of("marker", "line", "text");

  /** One face's reading. */
  public record Entry(
      String marker, String face, Inscription inscription, Optional<ProposalId> proposal) {}

  private record Row(int number, String text, String proposal) {}

  private record FaceKey(String marker, String face) {}

  public ReadingFile {
    entries = List.copyOf(entries);
  }

  /**
   * Reads and checks the whole file.
   *
   * @throws Table.RefusedException naming every row that can't be taken
   * @throws IOException if the file can't be read
   */
  public static ReadingFile read(Path file) throws IOException, Table.RefusedException {
    Table table = Table.readVerbatim(file);
    List<String> missing = NEEDED.stream().filter(name -> table.place(name).isEmpty()).toList();
    if (!missing.isEmpty()) {
      throw new Table.RefusedException(
          List.of(
              file
                  + ", line 1: no column "
                  + String.join(", ", missing)
                  + ". The first line names the columns marker, face, line, text, parted by"
                  + " tabs."));
    }
    table.requireRows(file.toString());
    Map<Integer, String> problems = new TreeMap<>();
    Map<FaceKey, TreeMap<Integer, Row>> faces = new LinkedHashMap<>();
    for (Table.Row row : table.rows()) {
      int number = (int) row.line();
      Optional<String> shortness = table.shortness(row);
      if (shortness.isPresent()) {
        problems.put(number, shortness.get());
        continue;
      }
      String marker = table.cell(row, "marker");
      String named = table.cell(row, "face");
      String face = named.isEmpty() ? Face.FRONT : named;
      String line = table.cell(row, "line");
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
                    new Row(number, table.cell(row, "text"), table.cell(row, "proposal")));
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
      throw new Table.RefusedException(
          problems.entrySet().stream()
              .map(problem -> file + ", line " + problem.getKey() + ": " + problem.getValue())
              .toList());
    }
    return new ReadingFile(entries);
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
