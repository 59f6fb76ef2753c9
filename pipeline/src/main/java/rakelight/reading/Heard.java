package rakelight.reading;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * All that was said of one line before anything is merged: what weights are fitted on.
 *
 * @param pictures that on which the line was found first
 */
public record Heard(List<Picture> pictures) {
  /**
   * One photograph, or the shape of all of them lit anew.
   *
   * @param litFrom where the new light stands, such as "the left"; empty for a photograph
   * @param byVoice what each recogniser says, the leading one first
   */
  public record Picture(Optional<String> litFrom, Map<String, LineLattice> byVoice) {
    public Picture {
      byVoice = new LinkedHashMap<>(byVoice);
    }

    boolean isRelit() {
      return litFrom.isPresent();
    }
  }

  public Heard {
    pictures = List.copyOf(pictures);
  }

  /** How many photographs show the line. */
  public int photographs() {
    return (int) pictures.stream().filter(picture -> !picture.isRelit()).count();
  }

  /** What some of the pictures alone say. */
  public Heard of(Predicate<Picture> these) {
    return new Heard(pictures.stream().filter(these).toList());
  }

  /** Merged as a proposal merges it, the odds not corrected; nothing is said without a picture. */
  public LineLattice merged(Weighing weighing) {
    List<Weighing.View> views = new ArrayList<>();
    for (Picture picture : pictures) {
      picture
          .byVoice()
          .forEach(
              (name, lattice) ->
                  views.add(new Weighing.View(lattice, picture.isRelit(), weighing.weight(name))));
    }
    if (pictures.size() > 1) {
      return weighing.merged(views);
    }
    return LatticeMerger.merged(
        views.stream().map(v -> new LatticeMerger.Voice(v.lattice(), v.counts())).toList(),
        weighing);
  }
}
