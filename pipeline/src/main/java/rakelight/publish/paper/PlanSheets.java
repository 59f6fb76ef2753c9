package rakelight.publish.paper;

import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntFunction;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.ground.GroundPlan.Placed;
import rakelight.ground.Plot;
import rakelight.ground.Spot;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.publish.paper.Paper.Cut;
import rakelight.publish.paper.Paper.Part;

/**
 * The plan on paper, at scale: a page with the whole ground and where each sheet lies, the sheets
 * (A4, north up, sheets without a marker left out), and an index of names. Lengths are millimetres
 * of the paper unless they say metres.
 */
public final class PlanSheets {
  /** The largest and the smallest scale, as what a metre of the ground is divided by. */
  public static final int LARGEST_SCALE = 20;

  public static final int SMALLEST_SCALE = 5000;

  /** A footstone's number can just be read beside the next one's. */
  public static final int USUAL_SCALE = 200;

  private static final float POINTS = Paper.POINTS;
  private static final float MARGIN = 15;
  private static final float HEAD = 30;
  private static final float FOOT = 26;
  private static final float WIDE = PDRectangle.A4.getWidth() / POINTS;
  private static final float HIGH = PDRectangle.A4.getHeight() / POINTS;
  private static final float MAP_WIDE = WIDE - 2 * MARGIN;
  private static final float MAP_HIGH = HIGH - HEAD - FOOT;

  /** Room for symbols and numbers at the edges of the ground. */
  private static final float EDGE = 8;

  private static final float HALF_SYMBOL = 1.3f;
  private static final int INDEX_COLUMNS = 3;
  private static final float INDEX_LINE = 4.2f;
  private static final double[] BARS_METRES = {0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500};
  private static final String KEY =
      "Squares name persons, discs are footstones, rings are others or not read. Lines lead from"
          + " footstones to the stones that name whose they are, dashed while that is proposed."
          + " Thin lines are rows.";

  private final Paper paper;
  private final String notice;
  private final IntFunction<String> numbers;
  private final GroundPlan plan;
  private final int scale;
  private final double west;
  private final double north;
  private final int columns;
  private final int rows;

  /** Sheets by their place in the grid, row by row from the north-west. */
  private final Map<Integer, Integer> sheets = new LinkedHashMap<>();

  /**
   * @param notice what stands beside the scale on the first page
   * @param numbers what stands at the foot of a page of the document, counted from 1
   */
  PlanSheets(Paper paper, GroundPlan plan, int scale, String notice, IntFunction<String> numbers) {
    this.paper = paper;
    this.numbers = numbers;
    this.notice = notice;
    this.plan = plan;
    this.scale = scale;
    double edge = metres(EDGE);
    this.west =
        plan.markers().stream().mapToDouble(p -> p.at().eastMetres()).min().orElse(0) - edge;
    this.north =
        plan.markers().stream().mapToDouble(p -> p.at().northMetres()).max().orElse(0) + edge;
    double east = plan.markers().stream().mapToDouble(p -> p.at().eastMetres()).max().orElse(0);
    double south = plan.markers().stream().mapToDouble(p -> p.at().northMetres()).min().orElse(0);
    this.columns = (int) Math.max(1, Math.ceil((east + edge - west) / metres(MAP_WIDE)));
    this.rows = (int) Math.max(1, Math.ceil((north - south + edge) / metres(MAP_HIGH)));
    for (int place = 0; place < columns * rows; place++) {
      int at = place;
      if (plan.markers().stream().anyMatch(placed -> place(placed) == at)) {
        sheets.put(place, sheets.size() + 1);
      }
    }
  }

  /**
   * Writes a PDF.
   *
   * @param scale 200 for one to two hundred
   * @return how many sheets there are beside the first page and the index
   * @throws IllegalArgumentException if the scale is out of range
   */
  public static int write(GroundPlan plan, int scale, OutputStream out) throws IOException {
    if (scale < LARGEST_SCALE || scale > SMALLEST_SCALE) {
      throw new IllegalArgumentException(
          "a plan's scale is a number from "
              + LARGEST_SCALE
              + " to "
              + SMALLEST_SCALE
              + ", 200 for 1:200");
    }
    try (Paper paper = new Paper("Plan of " + plan.ground())) {
      PlanSheets sheets =
          new PlanSheets(
              paper,
              plan,
              scale,
              ", then an index of names. Complete and confidential: it may name the living.",
              page -> "");
      sheets.draw();
      sheets.index();
      paper.save(out);
      return sheets.sheets.size();
    }
  }

  /** How many sheets there are beside the page with the whole ground. */
  int count() {
    return sheets.size();
  }

  private double metres(double millimetres) {
    return millimetres * scale / 1000;
  }

  private int place(Placed placed) {
    int column = (int) ((placed.at().eastMetres() - west) / metres(MAP_WIDE));
    int row = (int) ((north - placed.at().northMetres()) / metres(MAP_HIGH));
    return Math.min(rows - 1, row) * columns + Math.min(columns - 1, column);
  }

  /** The whole ground, then the sheets; the first of these pages. */
  PrintedPage draw() throws IOException {
    PrintedPage first = whole();
    for (Map.Entry<Integer, Integer> sheet : sheets.entrySet()) {
      sheet(sheet.getKey(), sheet.getValue());
    }
    return first;
  }

  /** A view of the ground on a page: what lies at its left lower corner, and how large. */
  private record View(double westMetres, double southMetres, double millimetresAMetre) {
    float x(Spot at) {
      return (float) (MARGIN + (at.eastMetres() - westMetres) * millimetresAMetre);
    }

    float y(Spot at) {
      return (float) (FOOT + (at.northMetres() - southMetres) * millimetresAMetre);
    }
  }

  private PrintedPage whole() throws IOException {
    double wideMetres = columns * metres(MAP_WIDE);
    double highMetres = rows * metres(MAP_HIGH);
    double size = Math.min(MAP_WIDE / wideMetres, (MAP_HIGH - 20) / highMetres);
    View view = new View(west, north - highMetres, size);
    PrintedPage leaf = page("The whole ground with where each sheet lies");
    PDPageContentStream page = leaf.shapes();
    text(leaf, 18, "Plan of " + plan.ground(), MARGIN, HIGH - 20);
    text(
        leaf,
        9,
        sheets.size() + (sheets.size() == 1 ? " sheet" : " sheets") + " at 1:" + scale + notice,
        MARGIN,
        HIGH - 27);
    clip(page);
    page.setNonStrokingColor(0f);
    for (Placed placed : plan.markers()) {
      square(page, view.x(placed.at()), view.y(placed.at()), 0.35f);
      page.fill();
    }
    page.restoreGraphicsState();
    page.setLineWidth(0.5f);
    for (Map.Entry<Integer, Integer> sheet : sheets.entrySet()) {
      int column = sheet.getKey() % columns;
      int row = sheet.getKey() / columns;
      float x = (float) (MARGIN + column * metres(MAP_WIDE) * size);
      float y = (float) (FOOT + (rows - 1 - row) * metres(MAP_HIGH) * size);
      float wide = (float) (metres(MAP_WIDE) * size);
      float high = (float) (metres(MAP_HIGH) * size);
      page.addRect(x * POINTS, y * POINTS, wide * POINTS, high * POINTS);
      page.stroke();
      float letters = Math.max(3, Math.min(11, wide));
      text(
          leaf,
          letters,
          String.valueOf(sheet.getValue()),
          x + letters / 9,
          y + high - letters / 2.4f);
    }
    foot(leaf, size);
    float y = HIGH - 35;
    for (String line : paper.wrapped(Cut.PLAIN, 8, KEY, WIDE - 2 * MARGIN - 12)) {
      text(leaf, 8, line, MARGIN, y);
      y -= 4;
    }
    return leaf;
  }

  private void sheet(int place, int number) throws IOException {
    int column = place % columns;
    int row = place / columns;
    double size = 1000.0 / scale;
    View view =
        new View(west + column * metres(MAP_WIDE), north - (row + 1) * metres(MAP_HIGH), size);
    PrintedPage leaf = page("Sheet " + number + " of the plan, 1:" + scale);
    PDPageContentStream page = leaf.shapes();
    text(leaf, 14, plan.ground() + ", sheet " + number + " of " + sheets.size(), MARGIN, HIGH - 17);
    text(leaf, 9, "1:" + scale + neighbours(column, row), MARGIN, HIGH - 24);
    clip(page);
    lines(leaf, view);
    page.setLineWidth(0.8f);
    for (Placed placed : plan.markers()) {
      float x = view.x(placed.at());
      float y = view.y(placed.at());
      if (x > MARGIN - 5 && x < WIDE - MARGIN + 5 && y > FOOT - 5 && y < HIGH - HEAD + 5) {
        marker(leaf, placed, x, y);
      }
    }
    page.restoreGraphicsState();
    page.setLineWidth(0.5f);
    page.addRect(MARGIN * POINTS, FOOT * POINTS, MAP_WIDE * POINTS, MAP_HIGH * POINTS);
    page.stroke();
    foot(leaf, size);
  }

  private String neighbours(int column, int row) {
    List<String> words = new ArrayList<>();
    Object[][] sides = {{"north", 0, -1}, {"east", 1, 0}, {"south", 0, 1}, {"west", -1, 0}};
    for (Object[] side : sides) {
      int x = column + (int) side[1];
      int y = row + (int) side[2];
      Integer sheet = x < 0 || x >= columns || y < 0 ? null : sheets.get(y * columns + x);
      if (sheet != null) {
        words.add(side[0] + " of it sheet " + sheet);
      }
    }
    return words.isEmpty() ? "" : "; " + String.join(", ", words);
  }

  private void lines(PrintedPage leaf, View view) throws IOException {
    PDPageContentStream page = leaf.shapes();
    page.setStrokingColor(0.6f);
    page.setLineWidth(0.4f);
    Map<MarkerId, Spot> spots = plan.spots();
    for (List<Marker> row : plan.rows().values()) {
      path(
          page,
          view,
          row.stream()
              .map(Marker::id)
              .filter(spots::containsKey)
              .map(id -> Optional.ofNullable(spots.get(id)).orElseThrow())
              .toList());
    }
    page.setLineDashPattern(new float[] {6, 2}, 0);
    for (Plot plot : plan.plots()) {
      List<Spot> ring =
          plot.boundary().stream().map(c -> plan.plane().spot(c.get(1), c.get(0))).toList();
      path(page, view, ring);
      text(leaf, 7, "plot " + plot.name(), view.x(ring.get(0)) + 1, view.y(ring.get(0)) - 4);
    }
    page.setStrokingColor(0.2f);
    for (GroundPlan.Tie tie : plan.ties()) {
      Spot from = spots.get(tie.from().id());
      Spot to = spots.get(tie.to().id());
      if (from != null && to != null) {
        page.setLineDashPattern(tie.isConfirmed() ? new float[0] : new float[] {2, 2}, 0);
        path(page, view, List.of(from, to));
      }
    }
    page.setLineDashPattern(new float[0], 0);
    page.setStrokingColor(0f);
  }

  private static void path(PDPageContentStream page, View view, List<Spot> spots)
      throws IOException {
    for (int i = 0; i < spots.size(); i++) {
      float x = view.x(spots.get(i)) * POINTS;
      float y = view.y(spots.get(i)) * POINTS;
      if (i == 0) {
        page.moveTo(x, y);
      } else {
        page.lineTo(x, y);
      }
    }
    if (!spots.isEmpty()) {
      page.stroke();
    }
  }

  private void marker(PrintedPage leaf, Placed placed, float x, float y) throws IOException {
    PDPageContentStream page = leaf.shapes();
    page.setNonStrokingColor(0f);
    switch (placed.kind()) {
      case NAMES_PERSONS -> {
        square(page, x, y, HALF_SYMBOL);
        page.fill();
      }
      case FOOTSTONE -> {
        circle(page, x, y, HALF_SYMBOL * 0.85f);
        page.fill();
      }
      case OTHER -> {
        circle(page, x, y, HALF_SYMBOL);
        page.stroke();
      }
    }
    text(leaf, 7, placed.marker().number(), x + HALF_SYMBOL + 0.5f, y + 0.6f);
  }

  private static void square(PDPageContentStream page, float x, float y, float half)
      throws IOException {
    page.addRect((x - half) * POINTS, (y - half) * POINTS, 2 * half * POINTS, 2 * half * POINTS);
  }

  /** By four cubic curves, off by less than a thousandth of the radius. */
  private static void circle(PDPageContentStream page, float xMm, float yMm, float radiusMm)
      throws IOException {
    float x = xMm * POINTS;
    float y = yMm * POINTS;
    float r = radiusMm * POINTS;
    float k = 0.5523f * r;
    page.moveTo(x + r, y);
    page.curveTo(x + r, y + k, x + k, y + r, x, y + r);
    page.curveTo(x - k, y + r, x - r, y + k, x - r, y);
    page.curveTo(x - r, y - k, x - k, y - r, x, y - r);
    page.curveTo(x + k, y - r, x + r, y - k, x + r, y);
    page.closePath();
  }

  private void index() throws IOException {
    Map<MarkerId, Integer> sheetOf = new LinkedHashMap<>();
    plan.markers().forEach(p -> sheetOf.put(p.marker().id(), sheets.getOrDefault(place(p), 0)));
    float columnWide = MAP_WIDE / INDEX_COLUMNS;
    int perColumn = (int) ((HIGH - HEAD - 14) / INDEX_LINE);
    PrintedPage leaf = page("");
    text(leaf, 14, "Names, with marker and sheet", MARGIN, HIGH - 20);
    int at = 0;
    for (GroundPlan.Named named : plan.names()) {
      if (at == perColumn * INDEX_COLUMNS) {
        leaf = page("");
        at = 0;
      }
      Integer sheet = sheetOf.get(named.marker().id());
      String line =
          named.name()
              + "  "
              + named.marker().number()
              + (sheet == null ? ", no place known" : ", " + sheet);
      text(
          leaf,
          8,
          fitting(line, columnWide - 3, 8),
          MARGIN + at / perColumn * columnWide,
          HIGH - HEAD - at % perColumn * INDEX_LINE);
      at++;
    }
  }

  /**
   * @param figure what the page shows, for those who don't see it; empty for text
   */
  private PrintedPage page(String figure) throws IOException {
    PrintedPage leaf = paper.leaf();
    paper.outside(
        () -> {
          text(leaf, 8, Caution.LOOK_ONLY, MARGIN, 8);
          text(leaf, 8, numbers.apply(paper.pages()), WIDE - MARGIN - 6, 8);
        });
    paper.begin(figure.isEmpty() ? Part.PARAGRAPH : Part.FIGURE, figure);
    return leaf;
  }

  private static void clip(PDPageContentStream page) throws IOException {
    page.saveGraphicsState();
    page.addRect(MARGIN * POINTS, FOOT * POINTS, MAP_WIDE * POINTS, MAP_HIGH * POINTS);
    page.clip();
  }

  /** North and a bar of round metres. */
  private void foot(PrintedPage leaf, double millimetresAMetre) throws IOException {
    PDPageContentStream page = leaf.shapes();
    double bar = BARS_METRES[0];
    for (double each : BARS_METRES) {
      bar = each * millimetresAMetre <= MAP_WIDE / 3 ? each : bar;
    }
    float end = (float) (MARGIN + bar * millimetresAMetre);
    page.setLineWidth(0.8f);
    page.moveTo(MARGIN * POINTS, 19 * POINTS);
    page.lineTo(MARGIN * POINTS, 17 * POINTS);
    page.lineTo(end * POINTS, 17 * POINTS);
    page.lineTo(end * POINTS, 19 * POINTS);
    page.stroke();
    text(leaf, 8, (bar < 1 ? "0.5" : String.format(Locale.ROOT, "%.0f", bar)) + " m", end + 2, 17);
    float x = WIDE - MARGIN - 4;
    page.setNonStrokingColor(0f);
    page.moveTo(x * POINTS, (HIGH - 14) * POINTS);
    page.lineTo((x + 2) * POINTS, (HIGH - 22) * POINTS);
    page.lineTo(x * POINTS, (HIGH - 20.5f) * POINTS);
    page.lineTo((x - 2) * POINTS, (HIGH - 22) * POINTS);
    page.closePath();
    page.fill();
    text(leaf, 9, "N", x - 1.2f, HIGH - 26);
  }

  private String fitting(String text, float room, float size) throws IOException {
    String shown = text;
    int space = text.indexOf("  ");
    for (int kept = space - 1; width(shown, size) > room && kept > 4; kept--) {
      shown = text.substring(0, kept) + "…" + text.substring(space);
    }
    return shown;
  }

  private float width(String text, float size) throws IOException {
    return paper.width(Cut.PLAIN, size, text);
  }

  private static void text(PrintedPage leaf, float size, String text, float x, float y)
      throws IOException {
    leaf.text(Cut.PLAIN, size, text, x, y);
  }
}
