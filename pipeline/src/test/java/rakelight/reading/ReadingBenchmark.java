package rakelight.reading;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import rakelight.finding.LaidLine;
import rakelight.finding.LineFinder;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.samples.Material;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.Weathering;

/**
 * Processor time of decoding, finding and reading one photograph as it lies, of 12 megapixels where
 * none are given ({@code -Drakelight.photographs=FOLDER} of JPEG files). One thread works, so that
 * its own processor time is all there is; other work on the machine hardly counts. Not run with the
 * tests; see docs/measurements.md.
 */
class ReadingBenchmark {
  private static final int RENDERED = 4;
  private static final int ROUNDS = 3;
  private static final int WIDTH_PX = 3000;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  @Test
  void processorTimeOfOnePhotograph() throws Exception {
    List<byte[]> files = photographs();
    try (MachineReader reader = MachineReader.standard()) {
      LineFinder finder = reader.finders().get(0);
      List<double[]> rounds = new ArrayList<>();
      int lines = 0;
      double megapixels = 0;
      // The first round warms the program up and isn't counted.
      for (int round = 0; round <= ROUNDS; round++) {
        lines = 0;
        megapixels = 0;
        double[] seconds = new double[3];
        for (byte[] file : files) {
          long start = THREADS.getCurrentThreadCpuTime();
          GrayImage picture = Picture.upright(file, 1);
          long decoded = THREADS.getCurrentThreadCpuTime();
          var found = finder.find(picture);
          long done = THREADS.getCurrentThreadCpuTime();
          reader.readLines(picture, found.lines().stream().map(LaidLine::own).toList());
          long read = THREADS.getCurrentThreadCpuTime();
          seconds[0] += (decoded - start) / 1e9 / files.size();
          seconds[1] += (done - decoded) / 1e9 / files.size();
          seconds[2] += (read - done) / 1e9 / files.size();
          lines += found.lines().size();
          megapixels += picture.widthPx() * (double) picture.heightPx() / 1e6 / files.size();
        }
        if (round > 0) {
          rounds.add(seconds);
        }
      }
      rounds.sort((a, b) -> Double.compare(a[0] + a[1] + a[2], b[0] + b[1] + b[2]));
      double[] median = rounds.get(rounds.size() / 2);
      System.out.printf(
          Locale.ROOT,
          "%d photographs of %.1f megapixels, %d lines: decoding %.2f s, finding %.2f s, reading"
              + " %.2f s, together %.2f s of processor time each%n",
          files.size(),
          megapixels,
          lines,
          median[0],
          median[1],
          median[2],
          median[0] + median[1] + median[2]);
    }
  }

  private static List<byte[]> photographs() throws Exception {
    List<byte[]> files = new ArrayList<>();
    String folder = System.getProperty("rakelight.photographs", "");
    if (!folder.isEmpty()) {
      try (Stream<Path> paths = Files.list(Path.of(folder))) {
        for (Path path : paths.filter(p -> p.toString().endsWith(".jpg")).sorted().toList()) {
          files.add(Files.readAllBytes(path));
        }
      }
      return files;
    }
    for (int i = 0; i < RENDERED; i++) {
      SampleFace face =
          StoneMaker.random(
              5210000 + i,
              Material.values()[i % Material.values().length],
              Weathering.LIGHT,
              Typeface.values()[i % Typeface.values().length]);
      files.add(
          Renderer.render(face, StoneMaker.view(face, WIDTH_PX, 5210000 + i), 5210000 + i).jpeg());
    }
    return files;
  }
}
