package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.ground.GroundPlan.Placed;
import rakelight.ground.Plot;
import rakelight.ground.Spot;
import rakelight.marker.Marker;
import rakelight.work.FaceState;

/**
 * The plan drawn once, in metres east and south: one path for all markers of a kind and a state, so
 * that five thousand are a few elements. The page's script draws the same at any size.
 *
 * @param viewBox left, top, width and height
 * @param paths the markers, by what they are
 * @param rows a line for each row
 * @param plots a ring for each plot, with its name
 */
public record PlanDrawing(String viewBox, List<Path> paths, String rows, List<Path> plots) {
  /** Some screens are as wide as this; the symbols are so large on them. */
  private static final double WIDE_PX = 800;

  private static final double SYMBOL_PX = 4.5;
  private static final double MARGIN_METRES = 3;

  /**
   * @param how class of the element
   * @param d as SVG has it
   * @param words what it is
   */
  public record Path(String how, String d, String words) {}

  static PlanDrawing of(GroundPlan plan, Map<Marker, FaceState> states) {
    double west = Double.MAX_VALUE;
    double east = -Double.MAX_VALUE;
    double south = Double.MAX_VALUE;
    double north = -Double.MAX_VALUE;
    for (Placed placed : plan.markers()) {
      west = Math.min(west, placed.at().eastMetres());
      east = Math.max(east, placed.at().eastMetres());
      south = Math.min(south, placed.at().northMetres());
      north = Math.max(north, placed.at().northMetres());
    }
    double wide = east - west + 2 * MARGIN_METRES;
    double high = north - south + 2 * MARGIN_METRES;
    double symbol = Math.max(wide, high * 4 / 3) / WIDE_PX * SYMBOL_PX;
    Map<String, StringBuilder> paths = new TreeMap<>();
    for (Placed placed : plan.markers()) {
      String how =
          placed.kind().label().replace(' ', '-')
              + " "
              + how(states.getOrDefault(placed.marker(), FaceState.NO_PHOTOGRAPH));
      shape(
          paths.computeIfAbsent(how, h -> new StringBuilder()),
          placed.kind(),
          placed.at().eastMetres(),
          -placed.at().northMetres(),
          symbol);
    }
    StringBuilder rows = new StringBuilder();
    Map<MarkerId, Spot> spots = plan.spots();
    plan.rows()
        .values()
        .forEach(
            row -> {
              String to = "M";
              for (Marker marker : row) {
                Spot at = spots.get(marker.id());
                if (at != null) {
                  add(rows, to, at.eastMetres(), -at.northMetres());
                  to = "L";
                }
              }
            });
    List<Path> plots = new ArrayList<>();
    for (Plot plot : plan.plots()) {
      StringBuilder ring = new StringBuilder();
      String to = "M";
      for (List<Double> corner : plot.boundary()) {
        Spot at = plan.plane().spot(corner.get(1), corner.get(0));
        add(ring, to, at.eastMetres(), -at.northMetres());
        to = "L";
      }
      plots.add(new Path("boundary", ring + "Z", "plot " + plot.name()));
    }
    return new PlanDrawing(
        String.format(
            Locale.ROOT,
            "%.2f %.2f %.2f %.2f",
            west - MARGIN_METRES,
            -north - MARGIN_METRES,
            wide,
            high),
        paths.entrySet().stream()
            .map(one -> new Path(one.getKey(), one.getValue().toString(), ""))
            .toList(),
        rows.toString(),
        plots);
  }

  /** Filled where all is read, hollow where it isn't, dashed where there is nothing to read. */
  static String how(FaceState state) {
    return state == FaceState.SETTLED
        ? "solid"
        : state == FaceState.NO_PHOTOGRAPH ? "dashed" : "hollow";
  }

  private static void shape(
      StringBuilder d, GroundPlan.Kind kind, double x, double y, double half) {
    switch (kind) {
      case NAMES_PERSONS -> {
        add(d, "M", x - half, y - half);
        add(d, "h", 2 * half);
        add(d, "v", 2 * half);
        add(d, "h", -2 * half).append('z');
      }
      case FOOTSTONE -> {
        add(d, "M", x + 0.8 * half, y);
        add(d, "a", 0.8 * half, 0.8 * half, 0).append(" 1 0 0 .01z");
      }
      case OTHER -> {
        add(d, "M", x, y - 1.2 * half);
        add(d, "l", half, 1.2 * half);
        add(d, "l", -half, 1.2 * half);
        add(d, "l", -half, -1.2 * half).append('z');
      }
    }
  }

  /** To a centimetre; a formatter would take most of the page's time. */
  private static StringBuilder add(StringBuilder d, String command, double... values) {
    d.append(command);
    for (int i = 0; i < values.length; i++) {
      long hundredths = Math.round(values[i] * 100);
      d.append(i == 0 ? "" : " ")
          .append(hundredths < 0 ? "-" : "")
          .append(Math.abs(hundredths) / 100);
      long rest = Math.abs(hundredths) % 100;
      d.append(rest == 0 ? "" : rest < 10 ? ".0" + rest : "." + rest);
    }
    return d;
  }
}
