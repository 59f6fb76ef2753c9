package rakelight.reading;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * All that was said of one line before anything is merged: what weights are fitted on.
 *
 * @param byVoice for each photograph, the leading one first, what each recogniser says, by its name
 *     and the leading one first
 */
public record Heard(List<Map<String, LineLattice>> byVoice) {
  public Heard {
    byVoice =
        byVoice.stream().<Map<String, LineLattice>>map(said -> new LinkedHashMap<>(said)).toList();
  }

  /** How many photographs show the line. */
  public int photographs() {
    return byVoice.size();
  }

  /** Merged as a proposal merges it, the odds not corrected. */
  public LineLattice merged(Weighing weighing) {
    List<Weighing.View> views = new ArrayList<>();
    for (Map<String, LineLattice> said : byVoice) {
      said.forEach((name, lattice) -> views.add(new Weighing.View(lattice, weighing.weight(name))));
    }
    if (photographs() > 1) {
      return weighing.merged(views);
    }
    return LatticeMerger.merged(
        views.stream().map(v -> new LatticeMerger.Voice(v.lattice(), v.counts())).toList(),
        weighing);
  }
}
