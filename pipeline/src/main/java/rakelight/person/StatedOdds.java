package rakelight.person;

import java.util.List;

/**
 * How often a statement of these odds is right. The share of rows of clauses that hold it says how
 * sure the grammar is of itself; that is turned into what came true on invented stones, and falls
 * with the share of the face's letters that are in doubt.
 *
 * <p>Fitted on 600 invented stones whole, and with 10 and 20 per cent of letters lost or misread,
 * on 300 everyday stones, and lowered where 200 others at first sight came out less often; what is
 * told of generated stones is righter than it says. docs/measurements.md has the figures.
 */
final class StatedOdds {
  /** What the grammar says, and how often it was right on a face without doubt. */
  private static final double[][] RIGHT = {
    {0, 0},
    {0.35, 0.38},
    {0.45, 0.52},
    {0.55, 0.78},
    {0.65, 0.83},
    {0.75, 0.86},
    {0.86, 0.89},
    {0.94, 0.92},
    {0.985, 0.945},
    {0.9945, 0.958},
    {0.998, 0.97},
    {1, 0.977}
  };

  /** Where all letters are in doubt so much of what is told is wrong. */
  private static final double LOST_BY_DOUBT = 0.25;

  private final double doubt;

  StatedOdds(List<CarvedWord> words) {
    double signs = 1;
    double doubtful = 0;
    for (CarvedWord word : words) {
      signs += word.letters().size();
      doubtful += word.letters().stream().filter(letter -> letter.size() != 1).count();
    }
    doubt = doubtful / signs;
  }

  /** How often what the grammar holds for so likely, from 0 to 1, is right on this face. */
  double of(double likely) {
    int k = 1;
    while (k < RIGHT.length - 1 && likely > RIGHT[k][0]) {
      k++;
    }
    double share = (likely - RIGHT[k - 1][0]) / (RIGHT[k][0] - RIGHT[k - 1][0]);
    double right = RIGHT[k - 1][1] + share * (RIGHT[k][1] - RIGHT[k - 1][1]);
    return right * (1 - LOST_BY_DOUBT * doubt);
  }
}
