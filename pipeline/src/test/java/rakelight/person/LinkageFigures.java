package rakelight.person;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * How right proposals are on invented grounds.
 *
 * @param known true pairs on different faces, of mentions that have a name
 * @param odds of each proposal, and whether it is right
 */
record LinkageFigures(int known, List<Judged> odds) {
  private static final int BINS = 10;

  /** A proposal beside the truth. */
  record Judged(double probability, boolean right, Linkage.Pair pair) {}

  static LinkageFigures of(InventedFamilies ground) {
    People people = ground.people();
    Set<Set<MentionId>> known = known(people.mentions(), ground.truth());
    List<Judged> odds = new ArrayList<>();
    for (Linkage.Pair pair : people.proposals(List.of())) {
      Set<MentionId> both = Set.of(pair.one().id(), pair.other().id());
      odds.add(new Judged(pair.probability(), known.contains(both), pair));
    }
    return new LinkageFigures(known.size(), odds);
  }

  static LinkageFigures of(InventedFamilies.Setting setting, long firstSeed, long lastSeed) {
    int known = 0;
    List<Judged> odds = new ArrayList<>();
    for (long seed = firstSeed; seed <= lastSeed; seed++) {
      LinkageFigures one = of(InventedFamilies.of(setting, seed));
      known += one.known();
      odds.addAll(one.odds());
    }
    return new LinkageFigures(known, odds);
  }

  static Set<Set<MentionId>> known(List<Mention> mentions, Map<MentionId, Integer> truth) {
    Set<Set<MentionId>> known = new HashSet<>();
    for (int i = 0; i < mentions.size(); i++) {
      for (int j = i + 1; j < mentions.size(); j++) {
        MentionId one = mentions.get(i).id();
        MentionId other = mentions.get(j).id();
        boolean same = truth.get(one) != null && truth.get(one).equals(truth.get(other));
        if (same && !one.face().equals(other.face())) {
          known.add(Set.of(one, other));
        }
      }
    }
    return known;
  }

  int right() {
    return (int) odds.stream().filter(Judged::right).count();
  }

  double precision() {
    return right() / (double) Math.max(1, odds.size());
  }

  double recall() {
    return right() / (double) known;
  }

  /** By how much the odds of tenths are off the share that is right, weighed by their number. */
  double calibrationError() {
    double off = 0;
    for (int bin = 0; bin < BINS; bin++) {
      int tenth = bin;
      List<Judged> own =
          odds.stream()
              .filter(o -> Math.min(BINS - 1, (int) (o.probability() * BINS)) == tenth)
              .toList();
      double said = own.stream().mapToDouble(Judged::probability).sum();
      off += Math.abs(said - own.stream().filter(Judged::right).count());
    }
    return off / Math.max(1, odds.size());
  }

  /** Of the proposals more likely than not. */
  private LinkageFigures likely() {
    return new LinkageFigures(known, odds.stream().filter(o -> o.probability() >= 0.5).toList());
  }

  String words() {
    return String.format(
        Locale.ROOT,
        "%d true pairs, %d proposed, precision %.3f, recall %.3f, calibration error %.3f; from even"
            + " odds on precision %.3f, recall %.3f",
        known,
        odds.size(),
        precision(),
        recall(),
        calibrationError(),
        likely().precision(),
        likely().recall());
  }
}
