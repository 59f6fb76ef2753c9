package rakelight.reading;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import rakelight.finding.Network;
import rakelight.picture.GrayImage;

/**
 * The project's own recogniser, trained on rendered stone alone.
 *
 * <p>Beside the weights lies a description: {@code characters} (class i is the i-th of them, class
 * 0 the blank), {@code superiors} (the classes after these: letters cut small and high), {@code
 * height} of a strip in pixels, {@code stride} in pixels from one step to the next, and, where a
 * width must be a multiple of something else, {@code widthMultiple}. The network takes grey 0 to 1
 * and gives logits by step and class.
 */
public final class CarvedLetters implements Recogniser {
  private static final String WEIGHTS = "rakelight/reading/carved-letters.onnx";
  private static final String DESCRIPTION = "/rakelight/reading/carved-letters.json";

  private final Network network;
  private final CtcDecoder decoder;
  private final int heightPx;
  private final int widthMultiplePx;

  public CarvedLetters() {
    JsonNode description = description();
    heightPx = description.path("height").asInt();
    int stride = description.path("stride").asInt();
    widthMultiplePx = description.path("widthMultiple").asInt(stride);
    String characters = description.path("characters").asText();
    if (heightPx < 1 || widthMultiplePx < 1 || characters.isEmpty()) {
      throw new IllegalStateException(
          DESCRIPTION + " must give characters, height and stride, not " + description);
    }
    decoder = new CtcDecoder(signs(characters), signs(description.path("superiors").asText("")));
    network = Network.ofResource(WEIGHTS);
  }

  private static List<String> signs(String text) {
    return text.codePoints().mapToObj(Character::toString).toList();
  }

  private static JsonNode description() {
    try (InputStream in = CarvedLetters.class.getResourceAsStream(DESCRIPTION)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks " + DESCRIPTION);
      }
      return new ObjectMapper().readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read " + DESCRIPTION, e);
    }
  }

  @Override
  public String name() {
    return "carved-letters";
  }

  @Override
  public String digest() {
    return network.digest();
  }

  @Override
  public List<LineLattice> read(List<GrayImage> strips) {
    // Batches share widths of eight steps, so that few strips run alone.
    return StripBatches.run(strips, heightPx, 8 * widthMultiplePx, this::readBatch);
  }

  private List<LineLattice> readBatch(StripBatches.Batch batch) {
    int n = batch.strips().size();
    long[] shape = {n, 1, heightPx, batch.widthPx()};
    return network.run(
        batch.values(0, 1, 1),
        shape,
        (logits, outShape) -> {
          int steps = (int) outShape[1];
          int classes = (int) outShape[2];
          List<LineLattice> lattices = new ArrayList<>();
          for (int i = 0; i < n; i++) {
            int own = batch.stepsOf(i, steps);
            float[][] p = new float[own][classes];
            for (int t = 0; t < own; t++) {
              logits.get((i * steps + t) * classes, p[t]);
              softmax(p[t]);
            }
            lattices.add(decoder.decode(p));
          }
          return lattices;
        });
  }

  private static void softmax(float[] values) {
    float most = Float.NEGATIVE_INFINITY;
    for (float v : values) {
      most = Math.max(most, v);
    }
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) Math.exp(values[i] - most);
      sum += values[i];
    }
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) (values[i] / sum);
    }
  }

  @Override
  public void close() {
    network.close();
  }
}
