package rakelight.reading;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import rakelight.finding.Network;
import rakelight.picture.GrayImage;

/**
 * The general text recogniser PP-OCR v4, trained on print and street signs, kept to the signs of
 * ASCII.
 *
 * <p>It drops most spaces. They are put back where two letters stand further apart than the letters
 * of this line usually do, as doubtful spaces.
 */
public final class PpOcrRecogniser implements Recogniser {
  private static final String WEIGHTS = "models/ch_PP-OCRv4_rec_infer.onnx";
  private static final String KEYS = "/models/ppocr_keys_v1.txt";
  private static final int HEIGHT_PX = 48;
  private static final int WIDTH_MULTIPLE_PX = 32;

  private final Network network = Network.ofResource(WEIGHTS);
  private final int[] classes;
  private final CtcDecoder decoder;

  public PpOcrRecogniser() {
    List<String> keys = new ArrayList<>(keys());
    keys.add(" ");
    List<String> letters = new ArrayList<>();
    List<Integer> ascii = new ArrayList<>(List.of(0));
    for (int i = 0; i < keys.size(); i++) {
      String key = keys.get(i);
      if (key.length() == 1 && key.charAt(0) < 0x7f && !letters.contains(key)) {
        letters.add(key);
        ascii.add(i + 1);
      }
    }
    classes = ascii.stream().mapToInt(Integer::intValue).toArray();
    decoder = new CtcDecoder(letters);
  }

  private static List<String> keys() {
    try (InputStream in = PpOcrRecogniser.class.getResourceAsStream(KEYS)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks " + KEYS);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read " + KEYS, e);
    }
  }

  @Override
  public String name() {
    return "ppocr-v4";
  }

  @Override
  public String digest() {
    return network.digest();
  }

  @Override
  public List<LineLattice> read(List<GrayImage> strips) {
    return StripBatches.run(strips, HEIGHT_PX, WIDTH_MULTIPLE_PX, this::readBatch);
  }

  private List<LineLattice> readBatch(StripBatches.Batch batch) {
    int n = batch.strips().size();
    return network.run(
        batch.values(0.5f, 0.5f, 3),
        new long[] {n, 3, HEIGHT_PX, batch.widthPx()},
        (values, shape) -> {
          int steps = (int) shape[1];
          int all = (int) shape[2];
          List<LineLattice> lattices = new ArrayList<>();
          for (int i = 0; i < n; i++) {
            int own = batch.stepsOf(i, steps);
            float[][] p = new float[own][classes.length];
            for (int t = 0; t < own; t++) {
              float sum = 0;
              for (int c = 0; c < classes.length; c++) {
                p[t][c] = values.get((i * steps + t) * all + classes[c]);
                sum += p[t][c];
              }
              for (int c = 0; c < classes.length; c++) {
                p[t][c] = sum > 0 ? p[t][c] / sum : c == 0 ? 1 : 0;
              }
            }
            lattices.add(Spaces.fromGaps(decoder.decode(p)));
          }
          return lattices;
        });
  }

  @Override
  public void close() {
    network.close();
  }
}
