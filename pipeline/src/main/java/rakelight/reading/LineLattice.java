package rakelight.reading;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What one line may say: its slots from left to right. */
public record LineLattice(List<Slot> slots) {
  /** A letter is shown as sure from this probability on; below it, as doubtful. */
  public static final double SURE = 0.9;

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

  /** The mean probability of the likeliest letters, 0 where there are none. */
  public double sureness() {
    return slots.stream()
        .filter(slot -> !slot.best().isBlank())
        .mapToDouble(Slot::p)
        .average()
        .orElse(0);
  }
}
