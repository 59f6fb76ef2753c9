package rakelight.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import rakelight.archive.FaceId;
import rakelight.inscription.Break;
import rakelight.inscription.Comparison;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;

/**
 * How many letters a reader got wrong where the truth is known.
 *
 * @param letters judged
 * @param wrong other than the truth, missed, or put in where there is none
 */
public record ReaderError(int letters, int wrong) {
  public static final ReaderError NONE = new ReaderError(0, 0);

  /** 95 per cent of a normal distribution lie within so many deviations. */
  private static final double Z = 1.959964;

  /** The letters of one face. */
  public static ReaderError of(Inscription truth, Inscription reading) {
    Comparison comparison = Comparison.of(truth, reading);
    return new ReaderError(comparison.pairs().size(), comparison.differences().size());
  }

  /**
   * The letters of a face of which only some are known. Each line with such letters is held against
   * the line of the reading that has most of them; letters beside them aren't judged, nor spaces.
   *
   * @param known with gaps where nothing is known
   */
  public static ReaderError ofLetters(Inscription known, Inscription reading) {
    List<Inscription> read = lines(reading);
    ReaderError sum = NONE;
    for (Inscription line : lines(known)) {
      int letters = (int) line.signs().stream().filter(Letter.class::isInstance).count();
      int wrong =
          read.stream().mapToInt(candidate -> missed(line, candidate)).min().orElse(letters);
      sum = sum.plus(new ReaderError(letters, wrong));
    }
    return sum;
  }

  private static int missed(Inscription known, Inscription line) {
    return (int)
        Comparison.of(known, line).pairs().stream()
            .filter(pair -> pair.first().filter(said -> said.ink() instanceof Letter).isPresent())
            .filter(pair -> !pair.firstSays().equals(pair.secondSays()))
            .count();
  }

  private static List<Inscription> lines(Inscription inscription) {
    List<List<Sign>> lines = new ArrayList<>();
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Break || lines.isEmpty()) {
        lines.add(new ArrayList<>());
      }
      lines.get(lines.size() - 1).add(sign);
    }
    return lines.stream().map(signs -> new Inscription(signs, List.of())).toList();
  }

  /** The error of every reader who has signed a face of which anything is known. */
  public static Map<String, ReaderError> byReader(ReadingStore readings) {
    Map<FaceId, ReadingStore.Known> known = readings.known();
    Map<String, ReaderError> errors = new TreeMap<>();
    for (FaceReadings face : readings.all()) {
      ReadingStore.Known truth = known.get(face.versions().get(0).face());
      if (truth == null) {
        continue;
      }
      Set<String> readers =
          face.versions().stream().map(Reading::reader).collect(Collectors.toSet());
      for (String reader : readers) {
        face.by(reader)
            .map(Reading::inscription)
            .map(said -> truth.whole() ? of(truth.text(), said) : ofLetters(truth.text(), said))
            .ifPresent(error -> errors.merge(reader, error, ReaderError::plus));
      }
    }
    return errors;
  }

  public ReaderError plus(ReaderError other) {
    return new ReaderError(letters + other.letters, wrong + other.wrong);
  }

  /** The part that is wrong, 0 to 1; 0 without letters. */
  public double rate() {
    return letters == 0 ? 0 : (double) wrong / letters;
  }

  /** The lower end of the rate's 95 per cent interval (Wilson, JASA 22, 1927). */
  public double atLeast() {
    return letters == 0 ? 0 : Math.max(0, centre() - half());
  }

  /** The upper end. */
  public double atMost() {
    return letters == 0 ? 1 : Math.min(1, centre() + half());
  }

  /** In words, with the interval: {@code 2 of 140 known letters wrong, 1.4% (95%: 0.4 to 5.1)}. */
  public String told() {
    return String.format(
        Locale.ROOT,
        "%d of %d known letters wrong, %.1f%% (95%%: %.1f to %.1f)",
        wrong,
        letters,
        100 * rate(),
        100 * atLeast(),
        100 * atMost());
  }

  private double centre() {
    return (rate() + Z * Z / (2 * letters)) / (1 + Z * Z / letters);
  }

  private double half() {
    return Z
        * Math.sqrt(rate() * (1 - rate()) / letters + Z * Z / (4.0 * letters * letters))
        / (1 + Z * Z / letters);
  }
}
