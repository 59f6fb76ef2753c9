package rakelight.spark;

import java.io.Serializable;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * What became of one photograph, or of one face.
 *
 * @param subject the photograph's address, or {@code marker MARKER, face FACE}
 * @param step the last stage it came to: {@code describe}, {@code reading} or {@code proposal}
 * @param outcome whether that was done now, had been done before, or why not
 * @param key of the derivation; empty where there is none
 * @param reason one line of why it failed; empty unless it did
 * @param millis how long the step took
 */
public record Row(
    String subject, String step, Outcome outcome, String key, String reason, long millis)
    implements Serializable {
  /** How a step ended. */
  public enum Outcome {
    MADE,
    THERE_BEFORE,
    FAILED
  }

  /** The rows as a table of tab-separated values with a header. */
  static String table(List<Row> rows) {
    return "subject\tstep\toutcome\tkey\treason\tmilliseconds\n"
        + rows.stream().map(row -> row.line() + "\n").collect(Collectors.joining());
  }

  private String line() {
    return String.join(
        "\t",
        cell(subject),
        step,
        outcome.name().toLowerCase(Locale.ROOT).replace('_', ' '),
        key,
        cell(reason),
        Long.toString(millis));
  }

  private static String cell(String text) {
    return text.replaceAll("[\\t\\r\\n]+", " ");
  }
}
