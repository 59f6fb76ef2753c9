package rakelight.ground;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.Json;
import rakelight.archive.Table;

/**
 * Positions of many markers: a {@link Table} or GeoJSON (RFC 7946).
 *
 * <p>Columns: {@code marker}; {@code latitude}, {@code longitude} and {@code error}; {@code tape},
 * such as {@code gate=12.40; corner=7.85}, and {@code side}; {@code row} and {@code place}; {@code
 * note}. Others are passed over. In GeoJSON a Point has these as properties, without the latitude
 * and the longitude; a Polygon has {@code plot}, its name.
 */
public record PositionFile(List<Entry> entries, List<Plot> plots) {
  private static final int MOST_FAULTS = 20;

  /**
   * What a file says of one marker.
   *
   * @param place in the file, for messages
   * @param at latitude, longitude and standard error in metres; empty where none are given
   */
  public record Entry(
      String place,
      String marker,
      List<Double> at,
      List<PositionStore.TapeWords> tapes,
      Optional<Boolean> left,
      Optional<RowPlace> row,
      boolean fromPlan,
      String note) {
    public Entry {
      at = List.copyOf(at);
      tapes = List.copyOf(tapes);
      if (marker.isEmpty()) {
        throw new IllegalArgumentException("it names no marker");
      }
      if (at.isEmpty() && tapes.isEmpty() && row.isEmpty()) {
        throw new IllegalArgumentException(
            "marker " + marker + " has neither latitude and longitude nor tape nor row and place");
      }
    }
  }

  public PositionFile {
    entries = List.copyOf(entries);
    plots = List.copyOf(plots);
  }

  /**
   * Reads the whole file.
   *
   * @param error standard error in metres where an entry gives none
   * @throws Table.RefusedException naming everything that can't be taken
   * @throws IOException if the file can't be read
   */
  public static PositionFile read(Path file, Optional<Double> error)
      throws IOException, Table.RefusedException {
    String text = Table.text(file);
    return text.stripLeading().startsWith("{")
        ? geoJson(text, file.toString(), error)
        : table(text, file.toString(), error);
  }

  private interface Cells {
    String get(String name);
  }

  static PositionFile table(String text, String file, Optional<Double> error)
      throws Table.RefusedException {
    List<Entry> entries = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    Table table = Table.parse(text, file);
    if (table.place("marker").isEmpty()) {
      throw new Table.RefusedException(
          List.of(file + ", line 1: the first line must name the columns, marker among them."));
    }
    table.requireRows(file);
    for (Table.Row row : table.rows()) {
      String place = file + ", line " + row.line();
      Cells cells = name -> table.cell(row, name);
      try {
        List<Double> at =
            cells.get("latitude").isEmpty() && cells.get("longitude").isEmpty()
                ? List.of()
                : List.of(
                    number(cells, "latitude"),
                    number(cells, "longitude"),
                    error(cells.get("error"), error));
        entries.add(entry(place, cells, at, false));
      } catch (IllegalArgumentException e) {
        problems.add(place + ": " + e.getMessage());
      }
    }
    return checked(entries, List.of(), problems, file);
  }

  private static PositionFile checked(
      List<Entry> entries, List<Plot> plots, List<String> problems, String file)
      throws Table.RefusedException {
    if (entries.isEmpty() && plots.isEmpty() && problems.isEmpty()) {
      problems.add(file + ": there is nothing in it.");
    }
    if (!problems.isEmpty()) {
      throw new Table.RefusedException(problems.subList(0, Math.min(MOST_FAULTS, problems.size())));
    }
    return new PositionFile(entries, plots);
  }

  private static Entry entry(String place, Cells cells, List<Double> at, boolean fromPlan) {
    List<PositionStore.TapeWords> tapes =
        Arrays.stream(cells.get("tape").split(";", -1))
            .filter(part -> !part.isBlank())
            .map(PositionStore.TapeWords::of)
            .toList();
    Optional<RowPlace> row =
        cells.get("row").isEmpty()
            ? Optional.empty()
            : Optional.of(new RowPlace(cells.get("row"), (int) number(cells, "place")));
    String note = cells.get("note");
    return new Entry(
        place, cells.get("marker"), at, tapes, side(cells.get("side")), row, fromPlan, note);
  }

  /**
   * Which side is meant.
   *
   * @return true for left
   * @throws IllegalArgumentException if it is neither
   */
  public static Optional<Boolean> side(String word) {
    return switch (word.toLowerCase(Locale.ROOT)) {
      case "" -> Optional.empty();
      case "left" -> Optional.of(true);
      case "right" -> Optional.of(false);
      default -> throw new IllegalArgumentException("the side is left or right, not " + word);
    };
  }

  private static double number(Cells cells, String name) {
    try {
      return Double.parseDouble(cells.get(name));
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          name + " must be a number, not '" + cells.get(name) + "'", e);
    }
  }

  private static double error(String cell, Optional<Double> otherwise) {
    try {
      return cell.isEmpty()
          ? otherwise.orElseThrow(
              () ->
                  new IllegalArgumentException(
                      "there is no standard error in metres; give a column or property error, or"
                          + " --error for all"))
          : Double.parseDouble(cell);
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("error must be metres, not '" + cell + "'", e);
    }
  }

  static PositionFile geoJson(String text, String file, Optional<Double> error)
      throws Table.RefusedException {
    List<Entry> entries = new ArrayList<>();
    List<Plot> plots = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    JsonNode root;
    try {
      root = Json.mapper().readTree(text);
    } catch (IOException e) {
      throw new Table.RefusedException(List.of(file + ": no JSON: " + e.getMessage()));
    }
    if (!root.path("type").asText().equals("FeatureCollection")) {
      problems.add(file + ": not a FeatureCollection of GeoJSON (RFC 7946).");
    }
    int number = 0;
    for (JsonNode feature : root.path("features")) {
      String place = file + ", feature " + ++number;
      JsonNode properties = feature.path("properties");
      JsonNode coordinates = feature.path("geometry").path("coordinates");
      Cells cells = name -> properties.path(name).asText("").strip();
      try {
        switch (feature.path("geometry").path("type").asText()) {
          case "Point" ->
              entries.add(
                  entry(
                      place,
                      cells,
                      List.of(
                          coordinates.path(1).asDouble(Double.NaN),
                          coordinates.path(0).asDouble(Double.NaN),
                          error(cells.get("error"), error)),
                      true));
          case "Polygon" -> {
            List<List<Double>> ring = new ArrayList<>();
            coordinates
                .path(0)
                .forEach(at -> ring.add(List.of(at.path(0).asDouble(), at.path(1).asDouble())));
            plots.add(new Plot(cells.get("plot"), ring));
          }
          case "LineString" -> {
            // A tie that `plan` drew: nothing that says where a marker stands.
          }
          default ->
              throw new IllegalArgumentException("only Points (markers) and Polygons (plots)");
        }
      } catch (IllegalArgumentException e) {
        problems.add(place + ": " + e.getMessage());
      }
    }
    return checked(entries, plots, problems, file);
  }
}
