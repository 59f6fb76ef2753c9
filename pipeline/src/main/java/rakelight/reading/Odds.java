package rakelight.reading;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import rakelight.archive.Json;
import rakelight.archive.Sha256;

/**
 * The fitted numbers that turn what recognisers say into odds that can be believed. They lie in
 * {@code odds.json} beside the recogniser and are fitted anew by the command {@code calibrate}.
 *
 * <p>A slot is corrected in two steps. Whether a letter stands there at all: the log odds of that
 * are divided by {@code inkTemperature}. Which letter: each probability is raised to {@code 1 /
 * letterTemperature} and the letters share anew what the first step gave them (temperature scaling:
 * Guo, Pleiss, Sun and Weinberger, "On calibration of modern neural networks", ICML 2017). Neither
 * step changes the order of the letters; the first may raise nothing above a letter only where they
 * were even.
 *
 * <p>Voices that agree on several photographs are surer than their average: both temperatures are
 * divided by the number of photographs, raised to {@code viewsExponent}.
 *
 * <p>A word is right if all its letters are. Letters of one word fail together, so the product of
 * their probabilities is too small where they are sure, and where they aren't it is too large, as
 * whoever hardly sees a letter sees its neighbours hardly either. So the log odds of the product
 * are multiplied by {@code wordSlope} and {@code wordShift} is added (Platt, "Probabilistic outputs
 * for support vector machines", 1999; from memory).
 *
 * @param weighing how much each voice counts
 * @param letterTemperature above 0; 1 changes nothing, above 1 makes modest
 * @param inkTemperature likewise
 * @param viewsExponent 0 or more; 0 makes no difference between one photograph and several
 * @param wordSlope above 0; 1 changes nothing, above 1 makes bolder
 * @param wordShift 0 changes nothing, above 0 makes bolder
 * @param fittedOn the stones they were fitted on, and with which weights
 */
public record Odds(
    Weighing weighing,
    double letterTemperature,
    double inkTemperature,
    double viewsExponent,
    double wordSlope,
    double wordShift,
    String fittedOn) {
  private static final String FITTED = "/rakelight/reading/odds.json";

  /** Nothing corrected. */
  public static final Odds PLAIN =
      new Odds(new Weighing(Map.of(), 1.5, .5, .3), 1, 1, 0, 1, 0, "nothing");

  /** Below this a probability counts as this when its logarithm is taken. */
  private static final double SMALLEST = 1e-6;

  public Odds {
    if (!(viewsExponent >= 0 && letterTemperature > 0 && inkTemperature > 0 && wordSlope > 0)) {
      throw new IllegalArgumentException("Temperatures, exponents and slopes are above 0");
    }
  }

  /** Those that come with the program. */
  public static Odds fitted() {
    try (InputStream in = Odds.class.getResourceAsStream(FITTED)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks " + FITTED);
      }
      return Json.read(new String(in.readAllBytes(), StandardCharsets.UTF_8), Odds.class);
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read " + FITTED, e);
    }
  }

  /** The same weights, nothing corrected: what they are fitted anew on. */
  public Odds uncorrected() {
    return new Odds(weighing, 1, 1, 0, 1, 0, "nothing");
  }

  /** The same but for the odds of words. */
  public Odds withWords(double slope, double shift) {
    return new Odds(
        weighing, letterTemperature, inkTemperature, viewsExponent, slope, shift, fittedOn);
  }

  /**
   * The same line with odds corrected.
   *
   * @param photographs how many show it, at least 1
   */
  public LineLattice corrected(LineLattice raw, int photographs) {
    double boldness = Math.pow(photographs, viewsExponent);
    return new LineLattice(raw.slots().stream().map(slot -> corrected(slot, boldness)).toList());
  }

  private Slot corrected(Slot raw, double boldness) {
    double ink = raw.ink();
    double correctedInk =
        ink <= 0 || ink >= 1 ? ink : inverseLogit(logit(ink) * boldness / inkTemperature);
    double power = boldness / letterTemperature;
    Map<String, Double> weights = new LinkedHashMap<>();
    double sharpened =
        raw.alternatives().stream()
            .filter(a -> !a.text().isBlank())
            .mapToDouble(a -> Math.pow(a.p(), power))
            .sum();
    for (Alternative a : raw.alternatives()) {
      weights.put(
          a.text(),
          a.text().isBlank()
              ? a.p() * (1 - correctedInk) / Math.max(SMALLEST, 1 - ink)
              : correctedInk * Math.pow(a.p(), power) / sharpened);
    }
    return Slot.ofWeights(weights, 0, raw.from(), raw.to()).withSuperior(raw.superior());
  }

  /**
   * The words of a line with the probability that all of a word is right.
   *
   * @param corrected a line that {@link #corrected} gave
   */
  public List<Word> words(LineLattice corrected) {
    List<Word> words = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    double p = 1;
    for (Slot slot : corrected.slots()) {
      if (slot.best().equals(" ")) {
        // The word before and the word after both need the space.
        p *= slot.p();
        add(words, text, p);
        p = slot.p();
      } else {
        text.append(slot.best());
        p *= slot.p();
      }
    }
    add(words, text, p);
    return words;
  }

  private void add(List<Word> words, StringBuilder text, double p) {
    if (!text.isEmpty()) {
      words.add(new Word(text.toString(), inverseLogit(wordShift + wordSlope * logit(p))));
      text.setLength(0);
    }
  }

  /**
   * One word as the likeliest letters spell it.
   *
   * @param p that all its letters are right and its ends are where they are
   */
  public record Word(String text, double p) {}

  /** What a proposal depends on. */
  String digest() {
    return Sha256.of(Json.canonical(this)).hex();
  }

  /** The log odds of a probability, which counts as a millionth from either end at least. */
  public static double logit(double p) {
    return Math.log(Math.max(SMALLEST, p) / Math.max(SMALLEST, 1 - p));
  }

  private static double inverseLogit(double x) {
    return 1 / (1 + Math.exp(-x));
  }
}
