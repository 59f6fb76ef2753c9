package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;

/**
 * A letter the reader leaves open, with the weight he gives it.
 *
 * @param percent 1 to 99; the candidates of a letter sum to 100
 */
public record Candidate(String text, int percent) {
  public Candidate {
    Letter.requireOneLetter(text);
    if (percent < 1 || percent > 99) {
      throw new IllegalArgumentException(
          "weight of a candidate must be 1 to 99 per cent, got " + percent);
    }
  }

  /** Candidates of which none is favoured; what doesn't divide goes to the first ones. */
  public static List<Candidate> equally(List<String> texts) {
    List<Candidate> candidates = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      int share = 100 / texts.size() + (i < 100 % texts.size() ? 1 : 0);
      candidates.add(new Candidate(texts.get(i), share));
    }
    return candidates;
  }
}
