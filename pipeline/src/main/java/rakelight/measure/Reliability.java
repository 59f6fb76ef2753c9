package rakelight.measure;

import java.util.LinkedHashMap;
import java.util.Map;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;

/** What was said of letters and words and what came true, by kind of statement. */
final class Reliability {
  /** Bins of the calibration error; it depends on their number. */
  static final int BINS = 10;

  private final Odds odds;
  private final Map<String, Calibration> byKind = new LinkedHashMap<>();

  Reliability(Odds odds) {
    this.odds = odds;
    for (String kind : new String[] {"letters", "words", "a letter at all"}) {
      byKind.put(kind, new Calibration(BINS));
    }
  }

  /** Notes a line with corrected odds beside its truth. */
  void add(String truth, LineLattice corrected) {
    for (Judged judged : Judged.of(truth, corrected)) {
      if (judged.read()) {
        add("letters", judged.slot().p(), judged.right());
      }
      add("a letter at all", judged.slot().ink(), judged.ink());
    }
    for (Judged.JudgedWord word : Judged.words(truth, corrected, odds)) {
      add("words", word.word().p(), word.right());
    }
  }

  private void add(String kind, double p, boolean cameTrue) {
    Calibration calibration = byKind.get(kind);
    if (calibration != null) {
      calibration.add(Math.min(1, p), cameTrue);
    }
  }

  Map<String, Calibration> byKind() {
    return byKind;
  }
}
