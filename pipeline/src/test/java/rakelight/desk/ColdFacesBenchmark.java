package rakelight.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import rakelight.finding.FoundLine;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.GivenProposal;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.Weathering;

/**
 * Faces of photographs of 24 megapixels that nobody has looked at yet, opened one after another as
 * the reading page does: what it needs to be used, the photograph as it is shown, the first strip
 * of the first line, all strips of all lines. Clock and processor time of the whole program, and
 * the memory it holds. Run it by {@code -Ddesk.cold=200} (faces).
 */
@EnabledIfSystemProperty(named = "desk.cold", matches = "\\d+")
class ColdFacesBenchmark {
  private static final int WIDTH_PX = 4100;
  private static final int HEADER_BYTES = 2;
  private static final OperatingSystemMXBean SYSTEM =
      ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);

  @TempDir Path folder;

  private long clock;
  private long processor;

  @Test
  void facesThatNobodyHasLookedAt() throws Exception {
    int faces = Integer.getInteger("desk.cold");
    SampleFace stone =
        StoneMaker.random(900, Material.SLATE, Weathering.LIGHT, Typeface.values()[0]);
    RenderedPhotograph shot = Renderer.render(stone, StoneMaker.view(stone, WIDTH_PX, 5), 1);
    Path shots = Files.createDirectories(folder.resolve("shots"));
    for (int i = 0; i < faces; i++) {
      Files.write(shots.resolve(i + ".jpg"), remarked(shot.jpeg(), "shot " + i));
    }
    try (OpenDesk desk = new OpenDesk(folder.resolve("archive"))) {
      new Ingest(desk.archive(), Credits.NONE, "Ada Fenn", new NoListener())
          .run(List.of(shots), Set.of());
      PhotoStore photos = new PhotoStore(desk.archive());
      List<String> ids = new ArrayList<>();
      for (Photograph photograph : photos.photographs()) {
        ids.add(propose(desk, photos, photograph, shot, ids.size() + 1));
      }
      Photograph first = photos.photographs().get(0);
      System.out.printf(
          "%.1f megapixels, %d lines%n",
          first.uprightWidthPx() * (double) first.uprightHeightPx() / 1e6, shot.lines().size());
      System.out.println("| face | usable | photograph | first strip | all strips | memory |");
      Visitor reader = desk.visitor("Ada Fenn");
      for (int i = 0; i < faces; i++) {
        look(reader, ids.get(i), i < 3 || (i + 1) % 20 == 0 ? i + 1 : 0);
      }
    }
  }

  private static String propose(
      OpenDesk desk, PhotoStore photos, Photograph photograph, RenderedPhotograph shot, int marker)
      throws Exception {
    Face face = photos.faceOf(String.valueOf(marker), "front", "Ada Fenn");
    photos.assign(photograph.id(), face.id(), Optional.empty(), "person", "Ada Fenn");
    List<FoundLine> found = new ArrayList<>();
    List<String> lines = new ArrayList<>();
    double left = WIDTH_PX;
    double right = 0;
    double top = photograph.uprightHeightPx();
    double bottom = 0;
    for (RenderedPhotograph.Line line : shot.lines()) {
      Polygon ribbon =
          new Polygon(
              line.polygon().stream().map(point -> new Point(point.getX(), point.getY())).toList());
      double length = new FoundLine(ribbon, 1, 1).lengthPx();
      found.add(new FoundLine(ribbon, ribbon.area() / length, 0.9));
      lines.add(line.asCut());
      for (Point point : ribbon.points()) {
        left = Math.min(left, point.x());
        right = Math.max(right, point.x());
        top = Math.min(top, point.y());
        bottom = Math.max(bottom, point.y());
      }
    }
    GivenProposal.of(
        desk.archive(),
        face.id(),
        photograph.source(),
        photograph.id(),
        Polygon.rectangle(left - 100, top - 100, right + 100, bottom + 100),
        found,
        lines);
    return face.id().toString();
  }

  private void look(Visitor reader, String face, int row) throws Exception {
    begin();
    JsonNode open = reader.get("/api/faces/" + face).json();
    String usable = since();
    reader.get(open.path("photographs").get(0).path("url").asText() + "?longest=1600");
    String photograph = since();
    boolean begun = false;
    String first = "";
    for (JsonNode line : open.path("lines")) {
      for (JsonNode strip : strips(line)) {
        reader.get(strip.path("url").asText());
        if (!begun) {
          first = since();
          begun = true;
        }
      }
    }
    if (row > 0) {
      System.out.printf(
          "| %d | %s | %s | %s | %s | %d MB |%n",
          row, usable, photograph, first, since(), residentMb());
    }
  }

  /** The strips of a line, those of lights first. */
  private static List<JsonNode> strips(JsonNode line) {
    List<JsonNode> strips = new ArrayList<>();
    line.path("parts").forEach(part -> part.path("strips").forEach(strips::add));
    strips.sort(Comparator.comparing(strip -> !strip.path("kind").asText().equals("light")));
    return strips;
  }

  private void begin() {
    clock = System.nanoTime();
    processor = SYSTEM.getProcessCpuTime();
  }

  /** Milliseconds by the clock and of the processor since the face was begun. */
  private String since() {
    return String.format(
        Locale.ROOT,
        "%d / %d",
        (System.nanoTime() - clock) / 1_000_000,
        (SYSTEM.getProcessCpuTime() - processor) / 1_000_000);
  }

  /** What the whole program holds, natives included; 0 where the system doesn't say. */
  private static long residentMb() throws Exception {
    Path status = Path.of("/proc/self/status");
    if (!Files.exists(status)) {
      return 0;
    }
    return Files.readAllLines(status).stream()
        .filter(line -> line.startsWith("VmRSS"))
        .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", "")) / 1024)
        .findFirst()
        .orElse(0);
  }

  /** The same picture in another file: with a comment segment after the JPEG's first marker. */
  private static byte[] remarked(byte[] jpeg, String remark) {
    byte[] text = remark.getBytes(StandardCharsets.US_ASCII);
    return ByteBuffer.allocate(jpeg.length + text.length + 4)
        .put(jpeg, 0, HEADER_BYTES)
        .put((byte) 0xff)
        .put((byte) 0xfe)
        .putShort((short) (text.length + 2))
        .put(text)
        .put(jpeg, HEADER_BYTES, jpeg.length - HEADER_BYTES)
        .array();
  }
}
