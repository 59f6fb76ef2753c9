package rakelight.work;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.DerivationKey;
import rakelight.archive.ProposalId;
import rakelight.finding.FoundLine;
import rakelight.photo.Credits;
import rakelight.photo.Face;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.DrawnLines;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ReaderOnDemand;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.Weathering;

/**
 * Processor seconds from a line drawn on a photograph of 21 megapixels to what the machine reads
 * there, networks loaded and not. Not run with the tests; see docs/measurements.md.
 */
class LineDrawingBenchmark {
  private static final int WIDTH_PX = Integer.getInteger("rakelight.width", 4000);
  private static final int LINES = 6;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  @Test
  void drawnLines(@TempDir Path folder) throws Exception {
    SampleFace stone =
        StoneMaker.random(900, Material.SLATE, Weathering.LIGHT, Typeface.values()[0]);
    RenderedPhotograph shot = Renderer.render(stone, StoneMaker.view(stone, WIDTH_PX, 5), 1);
    try (WorkGround ground = new WorkGround(folder.resolve("archive"));
        ReaderOnDemand reader = new ReaderOnDemand()) {
      DrawnLines drawn = new DrawnLines(ground.archive(), reader);
      Path shots = Files.createDirectories(folder.resolve("shots"));
      Files.write(shots.resolve("stone.jpg"), shot.jpeg());
      new Ingest(ground.archive(), Credits.NONE, "Ada Fenn", new NoListener())
          .run(List.of(shots), Set.of());
      PhotoStore photos = new PhotoStore(ground.archive());
      Face face = photos.faceOf("12", "front", "Ada Fenn");
      Photograph photograph = photos.photographs().get(0);
      DerivationKey key = new DerivationKey("ab".repeat(32));
      Proposal proposal =
          new Proposal(
              ProposalId.of(face.id().value(), key),
              key,
              Optional.of(face.id()),
              List.of(
                  new FaceView(
                      photograph.id(),
                      Polygon.rectangle(0, 0, WIDTH_PX, WIDTH_PX),
                      Optional.of(Homography.identity()))),
              List.of(),
              List.of(),
              Instant.EPOCH);
      for (int i = 0; i < LINES; i++) {
        Polygon ribbon =
            new Polygon(
                shot.lines().get(i % shot.lines().size()).polygon().stream()
                    .map(p -> new Point(p.getX(), p.getY()))
                    .toList());
        double length = new FoundLine(ribbon, 1, 1).lengthPx();
        long begun = THREADS.getCurrentThreadCpuTime();
        Proposal mended =
            drawn.withLine(
                proposal,
                1,
                new FoundLine(ribbon, ribbon.area() / length, 1),
                "Ada Fenn",
                Instant.EPOCH);
        System.out.printf(
            Locale.ROOT,
            "| %s | %.2f s | %s |%n",
            i == 0 ? "networks loaded first" : "warm",
            (THREADS.getCurrentThreadCpuTime() - begun) / 1e9,
            mended.lines().get(0).text());
      }
    }
  }
}
