package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A letter that somebody could settle, and what an answer would be worth.
 *
 * @param line number of its line in the proposal, from 1
 * @param slot its index among the line's slots, from 0
 * @param letter its number in the line as shown, from 1, spaces and nothings not counted; 0 where
 *     most probably nothing stands
 * @param field what it seems to be part of
 * @param gain bits of doubt that an answer would take away, language's lean allowed for, times the
 *     weight of the field; 0 or more
 */
public record Doubt(int line, int slot, int letter, Field field, double gain) {
  private static final Lexicon LEXICON = Lexicon.standard();

  /** Less than this isn't worth a person's time: a letter of a name at 0.99 has 0.08. */
  private static final double SMALLEST_GAIN = 0.1;

  /**
   * The letters of a proposal worth asking about, the worthiest first. In a line that can hardly be
   * read a person wouldn't see more either: those need other light (see {@link Visit}).
   */
  public static List<Doubt> of(Proposal proposal) {
    return of(proposal.lines().stream().filter(line -> line.lattice().readable()).toList());
  }

  static List<Doubt> of(List<ProposedLine> lines) {
    List<Doubt> doubts = new ArrayList<>();
    for (ProposedLine line : lines) {
      List<Slot> slots = line.lattice().slots();
      List<Field> fields = Field.of(line.lattice(), LEXICON);
      int letters = 0;
      for (int i = 0; i < slots.size(); i++) {
        boolean ink = !slots.get(i).best().isBlank();
        letters += ink ? 1 : 0;
        double gain = fields.get(i).weight() * bits(slots.get(i));
        if (gain >= SMALLEST_GAIN) {
          doubts.add(new Doubt(line.number(), i, ink ? letters : 0, fields.get(i), gain));
        }
      }
    }
    doubts.sort(
        Comparator.comparingDouble(Doubt::gain)
            .reversed()
            .thenComparingInt(Doubt::line)
            .thenComparingInt(Doubt::slot));
    return doubts;
  }

  /** The doubt of a slot in bits (Shannon's entropy), with the lean where there is one. */
  public static double bits(Slot slot) {
    return slot.alternatives().stream()
        .mapToDouble(Alternative::leant)
        .filter(p -> p > 0)
        .map(p -> -p * Math.log(p) / Math.log(2))
        .sum();
  }
}
