package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How much each voice counts when what was read is merged: fitted numbers, part of {@link Odds}.
 *
 * @param voices how much each recogniser counts, by its name; above 0, only ratios matter
 * @param viewExponent how much more a view counts that shows more of a line: its share of the
 *     letters seen by the best view, raised to this; 0 or more
 * @param unseenLetter how sure a voice counts that says nothing where another sees a letter, 0 to 1
 * @param unseenSpace the part of that which counts where the other sees a space: who doesn't see a
 *     space has hardly said that there is none; 0 to 1
 */
public record Weighing(
    Map<String, Double> voices, double viewExponent, double unseenLetter, double unseenSpace) {
  public Weighing {
    voices = Map.copyOf(voices);
    if (!(viewExponent >= 0 && unseenLetter >= 0 && unseenSpace >= 0)) {
      throw new IllegalArgumentException("Weights are 0 or more");
    }
  }

  double weight(String recogniser) {
    return Optional.ofNullable(voices.get(recogniser))
        .orElseThrow(() -> new IllegalStateException("The odds have no weight for " + recogniser));
  }

  /**
   * What somebody sees of a line on one picture.
   *
   * @param counts how much who sees it counts, above 0; only ratios matter
   */
  record View(LineLattice lattice, double counts) {}

  /** What all who saw the same stretch of stone on some pictures see together. */
  LineLattice merged(List<View> views) {
    double most = views.stream().mapToDouble(view -> view.lattice().lettersSeen()).max().orElse(0);
    List<LatticeMerger.Voice> speaking = new ArrayList<>();
    for (View view : views) {
      double share = most > 0 ? view.lattice().lettersSeen() / most : 0;
      double weight = view.counts() * Math.pow(share, viewExponent);
      if (share > 0 && weight > 0) {
        speaking.add(new LatticeMerger.Voice(view.lattice(), weight));
      }
    }
    speaking.sort(Comparator.comparingDouble(voice -> -voice.weight()));
    return speaking.isEmpty() ? views.get(0).lattice() : LatticeMerger.merged(speaking, this);
  }
}
