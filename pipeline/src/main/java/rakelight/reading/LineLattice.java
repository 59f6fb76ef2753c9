package rakelight.reading;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What one line may say: its slots from left to right. */
public record LineLattice(List<Slot> slots) {
  /** A letter is shown as sure from this probability on; below it, as doubtful. */
  public static final double SURE = 0.9;

  /** A line can be read if it has this many letters ... */
  private static final int FEWEST_LETTERS = 3;

  /** ... of which at least this share is expected to be right. */
  private static final double SMALLEST_SHARE_RIGHT = 0.5;

  public LineLattice {
    slots = List.copyOf(slots);
  }

  /** The likeliest alternative of every slot, with single spaces. */
  public String best() {
    return joined(Slot::best);
  }

  /** What language leans to, with single spaces: no evidence, to be shown apart. */
  public String leaning() {
    return joined(Slot::leaning);
  }

  private String joined(Function<Slot, String> text) {
    return slots.stream().map(text).collect(Collectors.joining()).replaceAll(" +", " ").strip();
  }

  /** Whether it is worth a look: some letters, half of which can be expected to be right. */
  public boolean readable() {
    return letters() >= FEWEST_LETTERS && sureness() >= SMALLEST_SHARE_RIGHT;
  }

  /** How many letters the likeliest reading has, spaces not counted. */
  public int letters() {
    return (int) best().codePoints().filter(c -> c != ' ').count();
  }

  /**
   * The sum of the probabilities of the likeliest letters: how much of the line was seen. The
   * surest of several views of a line is the one where this is largest.
   */
  public double lettersSeen() {
    return slots.stream().filter(slot -> !slot.best().isBlank()).mapToDouble(Slot::p).sum();
  }

  /**
   * Letters expected to be right less those expected to be wrong: of several readings of one line
   * cut out differently, the best has most. Guesses add nothing to it, unlike to {@link
   * #lettersSeen}.
   */
  double surplus() {
    return slots.stream()
        .filter(slot -> !slot.best().isBlank())
        .mapToDouble(slot -> 2 * slot.p() - 1)
        .sum();
  }

  /** The mean probability of the likeliest letters, 0 where there are none. */
  public double sureness() {
    return slots.stream()
        .filter(slot -> !slot.best().isBlank())
        .mapToDouble(Slot::p)
        .average()
        .orElse(0);
  }
}
