package rakelight.work;

import java.util.List;
import rakelight.reading.Doubt;
import rakelight.reading.Field;
import rakelight.reading.Proposal;

/**
 * How much the newest proposal of a face leaves open: what the order of the queue comes from.
 * Worked out once for each proposal, which never changes.
 *
 * @param proposed whether there is one
 * @param readable whether it has a line worth a look
 * @param letters doubtful letters
 * @param fieldLetters those of them that seem to belong to a name or a date
 * @param bits the doubt over all letters
 * @param gain what answers would be worth (see {@link Doubt})
 */
public record Stakes(
    boolean proposed, boolean readable, int letters, int fieldLetters, double bits, double gain) {
  static final Stakes NONE = new Stakes(false, false, 0, 0, 0, 0);

  static Stakes of(Proposal proposal) {
    List<Doubt> doubts = Doubt.of(proposal);
    List<Doubt> letters = doubts.stream().filter(doubt -> doubt.letter() > 0).toList();
    return new Stakes(
        true,
        proposal.readable(),
        letters.size(),
        (int)
            letters.stream()
                .filter(doubt -> doubt.field() == Field.NAME || doubt.field() == Field.DATE)
                .count(),
        proposal.lines().stream()
            .flatMap(line -> line.lattice().slots().stream())
            .mapToDouble(Doubt::bits)
            .sum(),
        doubts.stream().mapToDouble(Doubt::gain).sum());
  }

  /** In plain words. */
  String words() {
    if (!proposed) {
      return "nobody has read it yet";
    }
    if (!readable) {
      return "the machine could read nothing";
    }
    return switch (letters) {
      case 0 -> "no doubtful letter";
      case 1 -> "1 doubtful letter" + (fieldLetters == 1 ? ", in a name or a date" : "");
      default ->
          letters
              + " doubtful letters, "
              + (fieldLetters == 0 ? "none" : fieldLetters == letters ? "all" : fieldLetters)
              + " of them in names or dates";
    };
  }
}
