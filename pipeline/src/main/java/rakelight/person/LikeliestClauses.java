package rakelight.person;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * The likeliest row of clauses over the words of a face, and of each clause the odds that it is
 * right: the share of all rows that hold one of its kind with the same end, each row weighed by its
 * clauses and by how they follow each other (the forward and backward sums over the lattice of
 * clauses).
 */
final class LikeliestClauses {
  /** A clause of the row, with its odds, above 0 to 1. */
  record Placed(Clause clause, double odds) {}

  private static final double NONE = Double.NEGATIVE_INFINITY;

  /** A clause in the lattice with the sums over the rows that end with it and that go on. */
  private static final class Node {
    private final Clause clause;
    private double best = NONE;
    private int bestBefore = -1;
    private double before = NONE;
    private double after = NONE;

    /** The weight of this one behind each that ends where it begins. */
    private double[] behind = {};

    Node(Clause clause) {
      this.clause = clause;
    }
  }

  private LikeliestClauses() {}

  /** The row over all words. */
  static List<Placed> of(CorrectedClauses grammar, int words) {
    List<Node> nodes = new ArrayList<>();
    List<List<Integer>> ending = new ArrayList<>();
    for (int i = 0; i <= words + 1; i++) {
      ending.add(new ArrayList<>());
    }
    Node start = new Node(new Clause(Clause.Type.START, 0, 0, 0));
    start.best = 0;
    start.before = 0;
    nodes.add(start);
    ending.get(0).add(0);
    for (int i = 0; i <= words; i++) {
      List<Clause> clauses =
          i < words ? grammar.at(i) : List.of(new Clause(Clause.Type.END, words, words + 1, 0));
      for (Clause clause : clauses) {
        Node node = new Node(clause);
        node.behind = new double[ending.get(i).size()];
        for (int k = 0; k < node.behind.length; k++) {
          int b = ending.get(i).get(k);
          Node before = nodes.get(b);
          double follows = grammar.follows(before.clause, clause) + clause.weight();
          node.behind[k] = follows;
          if (before.best + follows > node.best) {
            node.best = before.best + follows;
            node.bestBefore = b;
          }
          node.before = sum(node.before, before.before + follows);
        }
        if (node.bestBefore >= 0) {
          ending.get(Math.min(clause.to(), words + 1)).add(nodes.size());
          nodes.add(node);
        }
      }
    }
    backward(nodes, ending);
    return row(nodes);
  }

  private static void backward(List<Node> nodes, List<List<Integer>> ending) {
    nodes.get(nodes.size() - 1).after = 0;
    for (int n = nodes.size() - 1; n > 0; n--) {
      Node node = nodes.get(n);
      for (int k = 0; k < node.behind.length; k++) {
        Node before = nodes.get(ending.get(node.clause.from()).get(k));
        before.after = sum(before.after, node.behind[k] + node.after);
      }
    }
  }

  private static List<Placed> row(List<Node> nodes) {
    Node end = nodes.get(nodes.size() - 1);
    List<Placed> row = new ArrayList<>();
    int at = end.bestBefore;
    while (at > 0) {
      Clause clause = nodes.get(at).clause;
      double odds = 0;
      for (Node other : nodes) {
        boolean same = other.clause.type() == clause.type() && other.clause.to() == clause.to();
        odds += same ? Math.exp(other.before + other.after - end.before) : 0;
      }
      row.add(new Placed(clause, Math.min(1, odds)));
      at = nodes.get(at).bestBefore;
    }
    Collections.reverse(row);
    return row;
  }

  /** The logarithm of the sum of two numbers given by their logarithms. */
  private static double sum(double a, double b) {
    if (a == NONE) {
      return b;
    }
    if (b == NONE) {
      return a;
    }
    double larger = Math.max(a, b);
    return larger + Math.log1p(Math.exp(Math.min(a, b) - larger));
  }
}
