package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.Table;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.publish.paper.PlanSheets;

class PlanFilesTest {
  private static final Marker STONE = new Marker(MarkerId.next(), "15 <A&B>", List.of());
  private static final Marker FOOTSTONE = new Marker(MarkerId.next(), "16", List.of());

  private static GroundPlan.Placed placed(Marker marker, GroundPlan.Kind kind, double latitude) {
    GroundPlane plane = new GroundPlane(54.1, -3.2);
    return new GroundPlan.Placed(
        marker,
        kind,
        new MarkerPosition(
            marker.id(),
            latitude,
            -3.2,
            0.4,
            MarkerPosition.Basis.TAPE,
            "",
            Optional.empty(),
            Optional.empty()),
        plane.spot(latitude, -3.2),
        Optional.of(new RowPlace("3", 2)),
        List.of(),
        Optional.of("Harrow"));
  }

  private static final GroundPlan PLAN =
      new GroundPlan(
          "Thornbeck",
          new GroundPlane(54.1, -3.2),
          List.of(
              placed(STONE, GroundPlan.Kind.NAMES_PERSONS, 54.1),
              placed(FOOTSTONE, GroundPlan.Kind.FOOTSTONE, 54.10005)),
          List.of(),
          Map.of(),
          List.of(
              new Plot(
                  "north",
                  List.of(
                      List.of(-3.2, 54.1),
                      List.of(-3.1, 54.1),
                      List.of(-3.1, 54.2),
                      List.of(-3.2, 54.1)))),
          List.of(),
          List.of(new GroundPlan.Tie(FOOTSTONE, STONE, "Hannah Harrow", false, 0.8)),
          List.of(new GroundPlan.Named("Harrow, Hannah", STONE)));

  @Test
  void whatIsWrittenIsReadBackAsPositions() throws Table.RefusedException {
    PositionFile read = PositionFile.geoJson(PlanFiles.geoJson(PLAN), "plan", Optional.empty());
    assertThat(read.entries())
        .extracting(PositionFile.Entry::marker)
        .containsExactly("15 <A&B>", "16");
    assertThat(read.entries().get(1).at()).containsExactly(54.10005, -3.2, 0.4);
    assertThat(read.entries().get(1).row()).contains(new RowPlace("3", 2));
    assertThat(read.plots()).extracting(Plot::name).containsExactly("north");
  }

  @Test
  void geoJsonHasLongitudeFirstAndTiesWithTheirStanding() {
    JsonNode plan = Json.read(PlanFiles.geoJson(PLAN), JsonNode.class);
    JsonNode tie = plan.path("features").get(3);
    assertThat(tie.path("geometry").path("type").asText()).isEqualTo("LineString");
    assertThat(tie.path("geometry").path("coordinates").get(0).get(0).asDouble()).isEqualTo(-3.2);
    assertThat(tie.path("properties").path("standing").asText()).isEqualTo("proposed");
  }

  /** RFC 7946: sections 3.1.1 (positions), 3.1.6 (rings), 4 (longitude, then latitude). */
  @Test
  void plotsAreClosedRingsThatRunCounterClockwiseHoweverTheyWereDrawn() {
    List<List<Double>> drawn = PLAN.plots().get(0).boundary();
    List<List<Double>> turned = new ArrayList<>(drawn);
    Collections.reverse(turned);
    for (List<List<Double>> boundary : List.of(drawn, turned)) {
      GroundPlan plan =
          new GroundPlan(
              "Thornbeck",
              PLAN.plane(),
              PLAN.markers(),
              List.of(),
              Map.of(),
              List.of(new Plot("north", boundary)),
              List.of(),
              PLAN.ties(),
              List.of());
      JsonNode features = Json.read(PlanFiles.geoJson(plan), JsonNode.class).path("features");
      JsonNode ring = features.at("/0/geometry/coordinates/0");
      assertThat(ring).hasSizeGreaterThanOrEqualTo(4);
      assertThat(ring.get(ring.size() - 1)).isEqualTo(ring.get(0));
      double turn = 0;
      for (int i = 0; i + 1 < ring.size(); i++) {
        JsonNode a = ring.get(i);
        JsonNode b = ring.get(i + 1);
        turn +=
            (b.get(0).asDouble() - a.get(0).asDouble())
                * (b.get(1).asDouble() + a.get(1).asDouble());
      }
      assertThat(turn).as("clockwise where positive").isNegative();
      for (JsonNode feature : features) {
        positions(feature.path("geometry").path("coordinates"));
      }
    }
  }

  private static void positions(JsonNode coordinates) {
    if (coordinates.get(0).isArray()) {
      coordinates.forEach(PlanFilesTest::positions);
      return;
    }
    assertThat(coordinates).hasSize(2);
    assertThat(coordinates.get(0).asDouble()).isBetween(-180.0, 180.0);
    assertThat(coordinates.get(1).asDouble()).isBetween(-90.0, 90.0);
  }

  @Test
  void theDrawingIsWellFormedNorthUpAndDashesWhatIsOnlyProposed() throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    Document svg =
        factory.newDocumentBuilder().parse(new InputSource(new StringReader(PlanFiles.svg(PLAN))));
    double stone = attribute(svg, "rect", "y") + 8;
    double footstone = attribute(svg, "circle", "cy");
    assertThat(stone - footstone).as("5.57 m at 40 units").isBetween(222.0, 223.0);
    assertThat(
            svg.getElementsByTagName("line")
                .item(0)
                .getAttributes()
                .getNamedItem("stroke-dasharray"))
        .isNotNull();
    assertThat(svg.getElementsByTagName("text").item(0).getTextContent()).isEqualTo("15 <A&B>");
  }

  private static double attribute(Document svg, String element, String name) {
    return Double.parseDouble(
        svg.getElementsByTagName(element)
            .item(0)
            .getAttributes()
            .getNamedItem(name)
            .getNodeValue());
  }

  /** The texts of a page with where they begin, in millimetres from the left and the top. */
  private static Map<String, float[]> texts(byte[] pdf, int page) throws IOException {
    Map<String, float[]> texts = new HashMap<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      PDFTextStripper stripper =
          new PDFTextStripper() {
            @Override
            protected void writeString(String text, List<TextPosition> letters) {
              float mm = 25.4f / 72;
              texts.put(
                  text,
                  new float[] {letters.get(0).getXDirAdj() * mm, letters.get(0).getYDirAdj() * mm});
            }
          };
      stripper.setStartPage(page);
      stripper.setEndPage(page);
      stripper.getText(document);
    }
    return texts;
  }

  private static double[] at(Map<String, float[]> texts, String text) {
    float[] at = Optional.ofNullable(texts.get(text)).orElseThrow();
    return new double[] {at[0], at[1]};
  }

  @Test
  void onPaperTwoMarkersAreAsFarApartAsTheScaleSays() throws IOException {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    assertThat(PlanSheets.write(PLAN, 50, pdf)).isEqualTo(1);
    Map<String, float[]> sheet = texts(pdf.toByteArray(), 2);
    double metres = GroundPlane.metres(54.1, -3.2, 54.10005, -3.2);
    assertThat(at(sheet, "15 <A&B>")[1] - at(sheet, "16")[1])
        .isCloseTo(metres * 1000 / 50, within(0.05));
    assertThat(sheet).containsKeys("N", "1:50", Caution.LOOK_ONLY);
    assertThat(at(sheet, "2 m")[0] - at(sheet, "1:50")[0])
        .as("the bar, and 2 mm to its words")
        .isCloseTo(2000 / 50 + 2, within(0.05));
    assertThat(texts(pdf.toByteArray(), 3).keySet())
        .anyMatch(line -> line.contains("Harrow, Hannah") && line.contains("15 <A&B>, 1"));
  }

  @Test
  void aLargerScaleTakesMoreSheetsAndOneThatIsNoneIsRefused() throws IOException {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    assertThat(PlanSheets.write(PLAN, 20, pdf)).isEqualTo(2);
    assertThat(texts(pdf.toByteArray(), 2).keySet())
        .anyMatch(line -> line.contains("1:20; south of it sheet 2"));
    assertThatThrownBy(() -> PlanSheets.write(PLAN, 3, pdf))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
