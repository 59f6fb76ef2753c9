package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The decoder finds what {@code recogniser/finder/decode.py} finds, which is written another way
 * and measured with the network in training. Runs where Python 3 with NumPy is found.
 */
class LineDecoderOracleTest {
  private static final int DRAWINGS = 40;
  private static final int COLUMNS = 120;
  private static final int ROWS = 90;

  /** Reads maps, writes one row of numbers for each line: score, height, then its middle. */
  private static final String ORACLE =
      """
      import sys
      import numpy as np
      sys.path.insert(0, "recogniser")
      from finder.decode import decode
      file, rows, columns = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
      for maps in np.fromfile(file, ">f4").reshape(-1, 7, rows, columns):
          print("drawing")
          for line in decode(maps):
              print(line.score, line.height, *line.middle.ravel())
      """;

  @TempDir Path folder;

  @Test
  void theDecoderFindsTheLinesThatTheOracleFinds() throws Exception {
    assumeTrue(run("-c", "import numpy").isPresent(), "Python 3 with NumPy isn't found");
    List<float[]> drawings = new ArrayList<>();
    Path file = folder.resolve("maps");
    try (OutputStream out = Files.newOutputStream(file);
        DataOutputStream floats = new DataOutputStream(new BufferedOutputStream(out))) {
      for (int seed = 0; seed < DRAWINGS; seed++) {
        float[] drawing = drawing(new Random(seed));
        drawings.add(drawing);
        for (float value : drawing) {
          floats.writeFloat(value);
        }
      }
    }

    String answer =
        run("-c", ORACLE, file.toString(), Integer.toString(ROWS), Integer.toString(COLUMNS))
            .orElseThrow();

    String[] oracle = answer.split("drawing\n", -1);
    assertThat(oracle).hasSize(DRAWINGS + 1);
    int found = 0;
    for (int seed = 0; seed < DRAWINGS; seed++) {
      List<double[]> ours = ours(drawings.get(seed));
      List<double[]> theirs = oracle[seed + 1].lines().map(LineDecoderOracleTest::numbers).toList();
      assertThat(ours).as("lines of drawing %d", seed).hasSameSizeAs(theirs);
      for (int i = 0; i < ours.size(); i++) {
        assertThat(ours.get(i))
            .as("line %d of drawing %d: score, height, middle", i, seed)
            .containsExactly(theirs.get(i), within(0.01));
      }
      found += ours.size();
    }
    assertThat(found).isGreaterThan(DRAWINGS);
  }

  private static List<double[]> ours(float[] drawing) {
    return LineDecoder.inReadingOrder(
            LineDecoder.decode(new LineMaps(COLUMNS, ROWS, drawing.clone())))
        .stream()
        .map(
            line ->
                Stream.concat(
                        Stream.of(line.score(), line.heightPx()),
                        line.middle().stream().flatMap(p -> Stream.of(p.x(), p.y())))
                    .mapToDouble(Double::doubleValue)
                    .toArray())
        .toList();
  }

  private static double[] numbers(String row) {
    return Arrays.stream(row.split(" ", -1)).mapToDouble(Double::parseDouble).toArray();
  }

  /** Lines level, slanting and arched, with a rough core, now and then torn apart. */
  private static float[] drawing(Random dice) {
    float[] maps = new float[LineMaps.MAPS * COLUMNS * ROWS];
    int lines = 1 + dice.nextInt(4);
    double slant = Math.toRadians(dice.nextDouble() * 24 - 12);
    for (int line = 0; line < lines; line++) {
      double height = 12 + dice.nextDouble() * 12;
      double y = 40 + line * 80;
      double x = 30 + dice.nextDouble() * 60;
      double length = 80 + dice.nextDouble() * 250;
      double bend = dice.nextInt(3) == 0 ? (dice.nextDouble() - 0.5) / 100 : 0;
      double torn = dice.nextInt(3) == 0 ? length * dice.nextDouble() : -1;
      double angle = slant;
      for (double s = 0; s < length; s += 0.5) {
        x += 0.5 * Math.cos(angle);
        y += 0.5 * Math.sin(angle);
        angle += 0.5 * bend;
        if (Math.abs(s - torn) < 6) {
          continue;
        }
        for (double r = -height / 4; r <= height / 4; r += 1) {
          cell(maps, x - r * Math.sin(angle), y + r * Math.cos(angle), angle, height, dice);
        }
      }
    }
    return maps;
  }

  private static void cell(
      float[] maps, double x, double y, double angle, double height, Random dice) {
    int column = (int) Math.floor(x / 4);
    int row = (int) Math.floor(y / 4);
    if (column < 0 || column >= COLUMNS || row < 0 || row >= ROWS) {
      return;
    }
    double[] values = {
      0.3 + 0.69 * Math.sqrt(dice.nextDouble()),
      Math.log(height) + 0.05 * dice.nextGaussian(),
      Math.cos(angle) + 0.05 * dice.nextGaussian(),
      Math.sin(angle) + 0.05 * dice.nextGaussian(),
      dice.nextDouble(),
      dice.nextDouble()
    };
    for (int map = 0; map < values.length; map++) {
      maps[(map * ROWS + row) * COLUMNS + column] = (float) values[map];
    }
  }

  /** What Python prints, or empty where it isn't found or stops with an error. */
  private Optional<String> run(String... arguments) throws Exception {
    Path errors = folder.resolve("errors");
    List<String> command = new ArrayList<>(List.of("python3"));
    command.addAll(List.of(arguments));
    Process process;
    try {
      process = new ProcessBuilder(command).redirectError(errors.toFile()).start();
    } catch (IOException e) {
      return Optional.empty();
    }
    String printed =
        new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
            .replace("\r\n", "\n");
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    if (process.exitValue() != 0) {
      System.err.println(Files.readString(errors));
      return Optional.empty();
    }
    return Optional.of(printed);
  }
}
