package rakelight.samples;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Tab-separated tables: a header line, then one row a line, no quoting; a cell holds neither tab
 * nor line end.
 */
final class Tables {
  private Tables() {}

  static List<Map<String, String>> read(String resource) {
    try (InputStream in = Tables.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("Table " + resource + " is not on the class path");
      }
      return parse(new String(in.readAllBytes(), StandardCharsets.UTF_8), resource);
    } catch (IOException e) {
      throw new UncheckedIOException("Table " + resource + " can't be read", e);
    }
  }

  static List<Map<String, String>> parse(String text, String name) {
    List<String> lines = text.lines().toList();
    String[] header = lines.get(0).split("\t", -1);
    List<Map<String, String>> rows = new ArrayList<>();
    for (int n = 1; n < lines.size(); n++) {
      String[] cells = lines.get(n).split("\t", -1);
      if (cells.length != header.length) {
        throw new IllegalStateException(
            name
                + " line "
                + (n + 1)
                + ": "
                + cells.length
                + " cells, the header has "
                + header.length);
      }
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < header.length; i++) {
        row.put(header[i], cells[i]);
      }
      rows.add(row);
    }
    return rows;
  }

  static String cell(Map<String, String> row, String column) {
    String v = row.get(column);
    if (v == null) {
      throw new IllegalStateException(
          "Column " + column + " is missing; there are " + row.keySet());
    }
    return v;
  }

  static double number(Map<String, String> row, String column) {
    return Double.parseDouble(cell(row, column));
  }
}
