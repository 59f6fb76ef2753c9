package rakelight.measure;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * The cheapest way from a reference to a hypothesis by substitution, deletion and insertion, each
 * at cost one (Levenshtein). Among equally cheap ways the one that keeps pairs together is taken:
 * match or substitution before deletion before insertion, from the end.
 *
 * @param steps from the first unit of either text to the last
 */
public record Alignment(List<Step> steps) {

  /** What happened to one unit. */
  public enum Kind {
    MATCH,
    SUBSTITUTION,
    DELETION,
    INSERTION
  }

  /**
   * One step of the way.
   *
   * @param kind what happened
   * @param referenceIndex index in the reference; -1 for an insertion
   * @param hypothesisIndex index in the hypothesis; -1 for a deletion
   */
  public record Step(Kind kind, int referenceIndex, int hypothesisIndex) {}

  public Alignment {
    steps = List.copyOf(steps);
  }

  /** Aligns two sequences; quadratic in time and memory, meant for lines of an inscription. */
  public static <T> Alignment of(List<T> reference, List<T> hypothesis) {
    int n = reference.size();
    int m = hypothesis.size();
    int[][] cost = new int[n + 1][m + 1];
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= m; j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int pair =
            cost[i - 1][j - 1] + (reference.get(i - 1).equals(hypothesis.get(j - 1)) ? 0 : 1);
        cost[i][j] = Math.min(pair, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
      }
    }
    List<Step> steps = new ArrayList<>();
    int i = n;
    int j = m;
    while (i > 0 || j > 0) {
      if (i > 0 && j > 0) {
        boolean same = reference.get(i - 1).equals(hypothesis.get(j - 1));
        if (cost[i][j] == cost[i - 1][j - 1] + (same ? 0 : 1)) {
          i--;
          j--;
          steps.add(new Step(same ? Kind.MATCH : Kind.SUBSTITUTION, i, j));
          continue;
        }
      }
      if (i > 0 && cost[i][j] == cost[i - 1][j] + 1) {
        i--;
        steps.add(new Step(Kind.DELETION, i, -1));
      } else {
        j--;
        steps.add(new Step(Kind.INSERTION, -1, j));
      }
    }
    Collections.reverse(steps);
    return new Alignment(steps);
  }

  /** Counts the steps as an error rate over the reference. */
  public ErrorRate errors() {
    int substitutions = count(Kind.SUBSTITUTION);
    int deletions = count(Kind.DELETION);
    int matches = count(Kind.MATCH);
    return new ErrorRate(
        substitutions, deletions, count(Kind.INSERTION), matches + substitutions + deletions);
  }

  private int count(Kind kind) {
    return (int) steps.stream().filter(step -> step.kind() == kind).count();
  }
}
