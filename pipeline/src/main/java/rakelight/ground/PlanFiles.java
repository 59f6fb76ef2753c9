package rakelight.ground;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan.Placed;
import rakelight.marker.Caution;

/** A plan as GeoJSON (RFC 7946) and as a drawing (SVG). */
public final class PlanFiles {
  private static final double MARGIN_METRES = 3;

  /** One metre of the ground in the drawing's units. */
  private static final double UNITS = 40;

  private static final double[] BARS_METRES = {1, 2, 5, 10, 20, 50, 100, 200, 500};

  private PlanFiles() {}

  /**
   * Markers as Points, plots as Polygons, ties as LineStrings; longitude before latitude, to seven
   * decimals (about a centimetre). {@code position --from} reads it back.
   */
  public static String geoJson(GroundPlan plan) {
    ObjectNode root = Json.mapper().createObjectNode().put("type", "FeatureCollection");
    ArrayNode features = root.putArray("features");
    for (Plot plot : plan.plots()) {
      ObjectNode feature = feature(features, "Polygon");
      ArrayNode ring = ((ObjectNode) feature.path("geometry")).putArray("coordinates").addArray();
      counterClockwise(plot.boundary())
          .forEach(corner -> at(ring.addArray(), corner.get(1), corner.get(0)));
      feature.putObject("properties").put("plot", plot.name());
    }
    Map<MarkerId, Placed> byId = new HashMap<>();
    for (Placed placed : plan.markers()) {
      byId.put(placed.marker().id(), placed);
      MarkerPosition position = placed.position();
      ObjectNode feature = feature(features, "Point");
      at(
          ((ObjectNode) feature.path("geometry")).putArray("coordinates"),
          position.latitudeDegrees(),
          position.longitudeDegrees());
      ObjectNode properties =
          feature
              .putObject("properties")
              .put("marker", placed.marker().number())
              .put("kind", placed.kind().label())
              .put("error", position.errorMetres())
              .put("basis", position.basis().label())
              .put("words", position.words());
      placed.row().ifPresent(in -> properties.put("row", in.row()).put("place", in.place()));
      placed.family().ifPresent(name -> properties.put("family", name));
      placed.plots().forEach(properties.withArray("plots")::add);
    }
    for (GroundPlan.Tie tie : plan.ties()) {
      Placed from = byId.get(tie.from().id());
      Placed to = byId.get(tie.to().id());
      if (from != null && to != null) {
        ObjectNode feature = feature(features, "LineString");
        ArrayNode line = ((ObjectNode) feature.path("geometry")).putArray("coordinates");
        for (Placed end : List.of(from, to)) {
          at(line.addArray(), end.position().latitudeDegrees(), end.position().longitudeDegrees());
        }
        feature
            .putObject("properties")
            .put("from", tie.from().number())
            .put("to", tie.to().number())
            .put("toPerson", tie.called())
            .put("standing", tie.isConfirmed() ? "confirmed" : "proposed")
            .put("probability", tie.probability());
      }
    }
    return Json.text(root);
  }

  /** An outer ring as RFC 7946, section 3.1.6, wants it, whichever way it was drawn. */
  private static List<List<Double>> counterClockwise(List<List<Double>> ring) {
    double twiceTheArea = 0;
    for (int i = 0; i + 1 < ring.size(); i++) {
      twiceTheArea +=
          ring.get(i).get(0) * ring.get(i + 1).get(1) - ring.get(i + 1).get(0) * ring.get(i).get(1);
    }
    if (twiceTheArea > 0) {
      return ring;
    }
    List<List<Double>> turned = new ArrayList<>(ring);
    Collections.reverse(turned);
    return turned;
  }

  private static ObjectNode feature(ArrayNode features, String type) {
    ObjectNode feature = features.addObject().put("type", "Feature");
    feature.putObject("geometry").put("type", type);
    return feature;
  }

  private static void at(ArrayNode coordinates, double latitude, double longitude) {
    coordinates.add(Math.round(longitude * 1e7) / 1e7).add(Math.round(latitude * 1e7) / 1e7);
  }

  /**
   * The plan as a drawing, north up: squares name persons, circles are footstones, rings others;
   * ties are lines, dashed while they are proposed.
   */
  public static String svg(GroundPlan plan) {
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
    if (plan.markers().isEmpty()) {
      west = 0;
      east = 0;
      south = 0;
      north = 0;
    }
    double left = west - MARGIN_METRES;
    double top = north + MARGIN_METRES;
    double wide = (east - west + 2 * MARGIN_METRES) * UNITS;
    double high = (north - south + 3 * MARGIN_METRES) * UNITS;
    StringBuilder svg = new StringBuilder();
    add(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" role=\"img\""
            + " aria-labelledby=\"title desc\" font-family=\"sans-serif\" font-size=\"16\">",
        wide,
        high);
    svg.append("<title id=\"title\">Plan of ").append(escaped(plan.ground())).append("</title>");
    add(
        svg,
        "<desc id=\"desc\">%d markers, north up. Squares name persons, filled circles are"
            + " footstones, rings are other markers; lines tie footstones to the stones that name"
            + " their persons, dashed while that is proposed. %s</desc>",
        plan.markers().size(),
        Caution.LOOK_ONLY);
    for (Plot plot : plan.plots()) {
      svg.append("<polygon fill=\"none\" stroke=\"#666\" points=\"");
      for (List<Double> corner : plot.boundary()) {
        Spot at = plan.plane().spot(corner.get(1), corner.get(0));
        add(svg, "%.1f,%.1f ", x(at, left), y(at, top));
      }
      svg.append("\"><title>plot ").append(escaped(plot.name())).append("</title></polygon>");
    }
    Map<MarkerId, Placed> byId = new HashMap<>();
    plan.markers().forEach(placed -> byId.put(placed.marker().id(), placed));
    for (GroundPlan.Tie tie : plan.ties()) {
      Placed from = byId.get(tie.from().id());
      Placed to = byId.get(tie.to().id());
      if (from != null && to != null) {
        add(
            svg,
            "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#234\"%s><title>%s,"
                + " %s %.2f</title></line>",
            x(from.at(), left),
            y(from.at(), top),
            x(to.at(), left),
            y(to.at(), top),
            tie.isConfirmed() ? "" : " stroke-dasharray=\"6 5\"",
            escaped(tie.called()),
            tie.isConfirmed() ? "confirmed" : "proposed",
            tie.probability());
      }
    }
    for (Placed placed : plan.markers()) {
      marker(svg, placed, x(placed.at(), left), y(placed.at(), top));
    }
    bar(svg, wide, high);
    return svg.append("</svg>\n").toString();
  }

  private static void marker(StringBuilder svg, Placed placed, double x, double y) {
    svg.append("<g>");
    switch (placed.kind()) {
      case NAMES_PERSONS ->
          add(
              svg,
              "<rect x=\"%.1f\" y=\"%.1f\" width=\"16\" height=\"16\" fill=\"#111\"/>",
              x - 8,
              y - 8);
      case FOOTSTONE -> add(svg, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"6\" fill=\"#111\"/>", x, y);
      case OTHER ->
          add(svg, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"7\" fill=\"#fff\" stroke=\"#111\"/>", x, y);
    }
    add(
        svg,
        "<text x=\"%.1f\" y=\"%.1f\">%s</text><title>%s, %s, give or take %s m</title></g>",
        x + 11,
        y - 9,
        escaped(placed.marker().number()),
        escaped(placed.marker().number()),
        placed.kind().label(),
        MarkerPosition.metres(placed.position().errorMetres()));
  }

  /** A bar of about a fifth of the width, and north. */
  private static void bar(StringBuilder svg, double wide, double high) {
    double bar = BARS_METRES[0];
    for (double each : BARS_METRES) {
      bar = each * UNITS <= Math.max(UNITS, wide / 5) ? each : bar;
    }
    double y = high - UNITS;
    add(
        svg,
        "<path d=\"M20 %.1f v-8 M20 %.1f h%.1f v-8\" stroke=\"#111\" stroke-width=\"2\""
            + " fill=\"none\"/><text x=\"20\" y=\"%.1f\">%.0f m</text>",
        y,
        y,
        bar * UNITS,
        y + 20,
        bar);
    double x = wide - 30;
    add(
        svg,
        "<path d=\"M%.1f %.1f l7 24 l-7 -6 l-7 6 z\" fill=\"#111\"/><text x=\"%.1f\" y=\"%.1f\""
            + " text-anchor=\"middle\">N</text>",
        x,
        y - 30,
        x,
        y + 16);
  }

  private static double x(Spot at, double left) {
    return (at.eastMetres() - left) * UNITS;
  }

  private static double y(Spot at, double top) {
    return (top - at.northMetres()) * UNITS;
  }

  private static void add(StringBuilder svg, String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
