package rakelight.person;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import rakelight.measure.KnownStone;
import rakelight.measure.KnownStones;
import rakelight.measure.StatementScore;

/**
 * Learns corrections to the weights of clauses from stones whose sense is known, and tells what
 * they win on stones left out.
 *
 * <pre>
 * oracle FILE...             how good the best of many rows of clauses would be
 * across FOLD FILE...        learns on all rounds of everyday stones but one, and tells of that one;
 *                            further files are learned from each time
 * </pre>
 */
final class LearnClauseWeights {
  private static final int ROWS = 40;
  private static final double LEAST = 0.02;
  private static final double OF_VERSE = 0.3;
  private static final double OF_PHANTOM = 1;
  private static final double ON_WRONG = 0.5;

  /** A row of clauses with its score by hand, its signs and what is wrong with what it says. */
  record Row(double byHand, int[] signs, double loss, double[] counts)
      implements java.io.Serializable {}

  private final Map<String, Integer> numbers = new HashMap<>();
  private final List<String> names = new ArrayList<>();

  private int number(String sign) {
    return numbers.computeIfAbsent(
        sign,
        s -> {
          names.add(s);
          return names.size() - 1;
        });
  }

  /** Signs by name, their parts parted by tabs. */
  private static final class Named {
    private final ClauseSigns signs;

    Named(List<CarvedWord> words) {
      signs = new ClauseSigns(words);
    }

    List<String> of(Clause c) {
      List<String> names = new ArrayList<>();
      signs.of(c, (looked, x, y, z, u) -> names.add(String.join("\t", looked, x, y, z, u)));
      return names;
    }

    List<String> of(Clause b, Clause c) {
      List<String> names = new ArrayList<>();
      signs.of(b, c, (looked, x, y, z, u) -> names.add(String.join("\t", looked, x, y, z, u)));
      return names;
    }
  }

  private record Link(double score, int before, int rank) {}

  private static final class Node {
    final Clause clause;
    final List<Link> best = new ArrayList<>();
    List<String> signs = List.of();
    double before = Double.NEGATIVE_INFINITY;
    double after = Double.NEGATIVE_INFINITY;

    Node(Clause clause) {
      this.clause = clause;
    }
  }

  private double weight(double[] w, List<String> signs) {
    double sum = 0;
    for (String sign : signs) {
      Integer n = numbers.get(sign);
      sum += n == null || n >= w.length ? 0 : w[n];
    }
    return sum;
  }

  /** The best rows over a stone, each with the odds its clauses have. */
  private List<List<LikeliestClauses.Placed>> rows(
      List<CarvedWord> words, DateWords dates, double[] w, int most, List<double[]> scores) {
    ClauseGrammar grammar = new ClauseGrammar(words, dates);
    Named features = new Named(words);
    List<Node> nodes = new ArrayList<>();
    List<List<Integer>> ending = new ArrayList<>();
    for (int i = 0; i <= words.size() + 1; i++) {
      ending.add(new ArrayList<>());
    }
    Node start = new Node(new Clause(Clause.Type.START, 0, 0, 0));
    start.best.add(new Link(0, -1, 0));
    start.before = 0;
    nodes.add(start);
    ending.get(0).add(0);
    List<Map<Integer, Double>> follows = new ArrayList<>();
    follows.add(Map.of());
    for (int i = 0; i <= words.size(); i++) {
      List<Clause> clauses =
          i < words.size()
              ? grammar.at(i)
              : List.of(new Clause(Clause.Type.END, words.size(), words.size() + 1, 0));
      for (Clause clause : clauses) {
        Node node = new Node(clause);
        double own = clause.weight() + (w.length > 0 ? weight(w, features.of(clause)) : 0);
        List<Link> all = new ArrayList<>();
        Map<Integer, Double> edge = new HashMap<>();
        for (int b : ending.get(i)) {
          Node before = nodes.get(b);
          double by = grammar.follows(before.clause, clause) + own;
          by += w.length > 0 ? weight(w, features.of(before.clause, clause)) : 0;
          edge.put(b, by);
          node.before = sum(node.before, before.before + by);
          for (int r = 0; r < before.best.size(); r++) {
            all.add(new Link(before.best.get(r).score() + by, b, r));
          }
        }
        all.sort((x, y) -> Double.compare(y.score(), x.score()));
        node.best.addAll(all.subList(0, Math.min(most, all.size())));
        if (!node.best.isEmpty()) {
          ending.get(Math.min(clause.to(), words.size() + 1)).add(nodes.size());
          nodes.add(node);
          follows.add(edge);
        }
      }
    }
    Node end = nodes.get(nodes.size() - 1);
    end.after = 0;
    for (int n = nodes.size() - 1; n > 0; n--) {
      Node node = nodes.get(n);
      for (Map.Entry<Integer, Double> e : follows.get(n).entrySet()) {
        Node before = nodes.get(e.getKey());
        before.after = sum(before.after, e.getValue() + node.after);
      }
    }
    Map<String, Double> share = new HashMap<>();
    for (Node node : nodes) {
      share.merge(
          node.clause.type() + "" + node.clause.to(),
          Math.exp(node.before + node.after - end.before),
          Double::sum);
    }
    List<List<LikeliestClauses.Placed>> rows = new ArrayList<>();
    for (Link link : end.best) {
      List<LikeliestClauses.Placed> row = new ArrayList<>();
      int at = link.before();
      int rank = link.rank();
      while (at > 0) {
        Node node = nodes.get(at);
        row.add(
            new LikeliestClauses.Placed(
                node.clause,
                Math.min(1, share.get(node.clause.type() + "" + node.clause.to()))));
        Link next = node.best.get(rank);
        at = next.before();
        rank = next.rank();
      }
      Collections.reverse(row);
      rows.add(row);
      scores.add(new double[] {link.score()});
    }
    return rows;
  }

  private static double sum(double a, double b) {
    if (a == Double.NEGATIVE_INFINITY) {
      return b;
    }
    if (b == Double.NEGATIVE_INFINITY) {
      return a;
    }
    double larger = Math.max(a, b);
    return larger + Math.log1p(Math.exp(Math.min(a, b) - larger));
  }

  private static StatementScore scored(KnownStone stone, List<Statement> statements) {
    StatementScore score = new StatementScore();
    score.add(stone, statements.stream().filter(s -> s.odds() >= Statement.FACT).toList());
    return score;
  }

  private static double loss(StatementScore score) {
    StatementScore.Row all = score.together();
    double loss = all.said() + all.known() - 2.0 * all.right();
    for (StatementScore.Row row : score.rows()) {
      if (row.kind().filter(k -> k == KnownStone.Kind.VERSE).isPresent()) {
        loss += OF_VERSE * (row.said() + row.known() - 2.0 * row.right());
      }
    }
    return loss + OF_PHANTOM * score.phantoms() + ON_WRONG * score.onWrongPerson();
  }

  private static double[] counts(StatementScore score) {
    StatementScore.Row all = score.together();
    double[] verse = new double[3];
    for (StatementScore.Row row : score.rows()) {
      if (row.kind().filter(k -> k == KnownStone.Kind.VERSE).isPresent()) {
        verse = new double[] {row.known(), row.said(), row.right()};
      }
    }
    return new double[] {
      all.known(), all.said(), all.right(), score.phantoms(), score.onWrongPerson(),
      score.whollyRight(), verse[0], verse[1], verse[2]
    };
  }

  private static List<CarvedWord> words(KnownStone stone) {
    return WornWords.restored(CarvedWord.of(stone.inscription()));
  }

  /** Several rows of a stone that say different things. */
  private List<Row> rows(KnownStone stone, double[] w, int most) {
    List<CarvedWord> words = words(stone);
    DateWords dates = new DateWords(words, stone.calendar());
    Named features = new Named(words);
    List<double[]> scores = new ArrayList<>();
    List<List<LikeliestClauses.Placed>> rows = rows(words, dates, w, most, scores);
    Map<String, Row> different = new LinkedHashMap<>();
    ClauseGrammar grammar = new ClauseGrammar(words, dates);
    for (int r = 0; r < rows.size(); r++) {
      List<LikeliestClauses.Placed> sure = new ArrayList<>();
      StringBuilder key = new StringBuilder();
      Map<Integer, Integer> signs = new TreeMap<>();
      double byHand = 0;
      Clause before = new Clause(Clause.Type.START, 0, 0, 0);
      List<Clause> clauses = new ArrayList<>();
      rows.get(r).forEach(p -> clauses.add(p.clause()));
      for (Clause c : clauses) {
        sure.add(new LikeliestClauses.Placed(c, 1));
        features.of(c).forEach(s -> signs.merge(number(s), 1, Integer::sum));
      }
      clauses.add(new Clause(Clause.Type.END, words.size(), words.size() + 1, 0));
      for (Clause c : clauses) {
        byHand += c.weight() + grammar.follows(before, c);
        features.of(before, c).forEach(s -> signs.merge(number(s), 1, Integer::sum));
        before = c;
      }
      List<Statement> told = new Resolution(words, dates, sure, "").statements();
      told.forEach(s -> key.append(s.kind()).append(s.persons()).append(s.value()).append(s.firstLine()));
      if (different.containsKey(key.toString())) {
        continue;
      }
      StatementScore score = scored(stone, told);
      int[] flat =
          signs.entrySet().stream()
              .flatMap(e -> Collections.nCopies(e.getValue(), e.getKey()).stream())
              .mapToInt(i -> i)
              .toArray();
      different.put(key.toString(), new Row(byHand, flat, loss(score), counts(score)));
    }
    return new ArrayList<>(different.values());
  }

  private void add(double[] sum, double[] counts) {
    for (int i = 0; i < counts.length; i++) {
      sum[i] += counts[i];
    }
  }

  private static void print(String what, double[] s) {
    System.out.printf(
        Locale.ROOT,
        "%-28s %.3f / %.3f, %3.0f phantoms, %3.0f on wrong, %4.0f wholly right, verse %.3f / %.3f; wrong %.0f, missed %.0f%n",
        what, s[2] / s[1], s[2] / s[0], s[3], s[4], s[5], s[8] / s[7], s[8] / s[6],
        s[1] - s[2], s[0] - s[2]);
    System.out.flush();
  }

  private void oracle(List<KnownStone> stones) {
    double[] asIs = new double[9];
    Map<Integer, double[]> best = new TreeMap<>();
    int[] most = {1, 2, 5, 10, 40, 120};
    for (KnownStone stone : stones) {
      StatementScore plain = new StatementScore();
      plain.add(stone);
      add(asIs, counts(plain));
      List<Row> rows = rows(stone, new double[0], 120);
      for (int n : most) {
        Row least = rows.get(0);
        for (Row row : rows.subList(0, Math.min(n, rows.size()))) {
          least = row.loss() < least.loss() ? row : least;
        }
        add(best.computeIfAbsent(n, k -> new double[9]), least.counts());
      }
    }
    print("as told", asIs);
    best.forEach((n, sum) -> print("best of " + n + " sayings", sum));
  }

  /** Least expected loss over the rows, from the hand's weights, kept near them. */
  private double[] leastRisk(List<List<Row>> stones, int epochs, double rate, double near, double scale) {
    double[] w = new double[names.size()];
    double[] squares = new double[names.size()];
    Random random = new Random(1851);
    List<List<Row>> order = new ArrayList<>(stones);
    for (int epoch = 0; epoch < epochs; epoch++) {
      Collections.shuffle(order, random);
      double risk = 0;
      for (List<Row> rows : order) {
        if (rows.size() < 2) {
          continue;
        }
        double[] p = shares(rows, w, scale);
        double mean = 0;
        for (int r = 0; r < p.length; r++) {
          mean += p[r] * rows.get(r).loss();
        }
        risk += mean;
        Map<Integer, Double> gradient = new HashMap<>();
        for (int r = 0; r < p.length; r++) {
          double g = scale * p[r] * (rows.get(r).loss() - mean);
          if (Math.abs(g) > 1e-6) {
            for (int s : rows.get(r).signs()) {
              gradient.merge(s, g, Double::sum);
            }
          }
        }
        gradient.forEach(
            (s, g) -> {
              double full = g + near * w[s];
              squares[s] += full * full;
              w[s] -= rate * full / (1e-2 + Math.sqrt(squares[s]));
            });
      }
      if (epoch == 0 || epoch == epochs - 1) {
        System.out.printf(Locale.ROOT, "  epoch %d: expected loss %.1f%n", epoch, risk);
      }
    }
    return w;
  }

  /** Averaged structured perceptron: towards the row with the least loss, by hand's score first. */
  private double[] perceptron(List<List<Row>> stones, int epochs, double rate, double margin) {
    double[] w = new double[names.size()];
    double[] total = new double[names.size()];
    Random random = new Random(1851);
    List<List<Row>> order = new ArrayList<>(stones);
    long steps = 0;
    for (int epoch = 0; epoch < epochs; epoch++) {
      Collections.shuffle(order, random);
      for (List<Row> rows : order) {
        double least = rows.stream().mapToDouble(Row::loss).min().orElse(0);
        Row right = null;
        Row said = null;
        double rightScore = 0;
        double saidScore = 0;
        for (Row row : rows) {
          double score = score(row, w);
          if (row.loss() <= least && (right == null || score > rightScore)) {
            right = row;
            rightScore = score;
          }
          double augmented = score + margin * (row.loss() - least);
          if (said == null || augmented > saidScore) {
            said = row;
            saidScore = augmented;
          }
        }
        if (said != right && right != null && said != null) {
          for (int s : right.signs()) {
            w[s] += rate;
            total[s] += rate * steps;
          }
          for (int s : said.signs()) {
            w[s] -= rate;
            total[s] -= rate * steps;
          }
        }
        steps++;
      }
    }
    for (int i = 0; i < w.length; i++) {
      w[i] -= total[i] / steps;
    }
    return w;
  }

  private static double score(Row row, double[] w) {
    double score = row.byHand();
    for (int s : row.signs()) {
      score += s < w.length ? w[s] : 0;
    }
    return score;
  }

  private static double[] shares(List<Row> rows, double[] w, double scale) {
    double[] p = new double[rows.size()];
    double most = Double.NEGATIVE_INFINITY;
    for (int r = 0; r < p.length; r++) {
      p[r] = scale * score(rows.get(r), w);
      most = Math.max(most, p[r]);
    }
    double sum = 0;
    for (int r = 0; r < p.length; r++) {
      p[r] = Math.exp(p[r] - most);
      sum += p[r];
    }
    for (int r = 0; r < p.length; r++) {
      p[r] /= sum;
    }
    return p;
  }

  /** What is told of stones with such weights, as it is told to people. */
  private double[] told(List<KnownStone> stones, double[] w) {
    double[] sum = new double[9];
    for (KnownStone stone : stones) {
      List<CarvedWord> words = words(stone);
      DateWords dates = new DateWords(words, stone.calendar());
      List<LikeliestClauses.Placed> row = rows(words, dates, w, 1, new ArrayList<>()).get(0);
      add(sum, counts(scored(stone, new Resolution(words, dates, row, "").statements())));
    }
    return sum;
  }

  private double[] reranked(List<List<Row>> stones, double[] w) {
    double[] sum = new double[9];
    for (List<Row> rows : stones) {
      Row best = rows.get(0);
      double most = score(best, w);
      for (Row row : rows) {
        double score = score(row, w);
        if (score > most) {
          best = row;
          most = score;
        }
      }
      add(sum, best.counts());
    }
    return sum;
  }

  private static void apart(List<List<Row>> all, LearnClauseWeights learn, List<List<Row>> fresh) {
    List<List<Row>> everyday = all.subList(0, 600);
    print("by hand", learn.reranked(fresh, new double[0]));
    for (double near : new double[] {0.01, 0.1, 0.3}) {
      for (double rate : new double[] {0.02, 0.05}) {
        String way = "risk near " + near + " rate " + rate;
        print(way, learn.reranked(fresh, learn.leastRisk(all, 6, rate, near, 1)));
      }
    }
    print("everyday risk .1 .03", learn.reranked(fresh, learn.leastRisk(everyday, 6, .03, .1, 1)));
    print("everyday risk 1 .03", learn.reranked(fresh, learn.leastRisk(everyday, 6, .03, 1, 1)));
    for (double rate : new double[] {0.005, 0.02, 0.05}) {
      print("perceptron " + rate, learn.reranked(fresh, learn.perceptron(all, 4, rate, 0.1)));
      print("everyday perceptron " + rate, learn.reranked(fresh, learn.perceptron(everyday, 4, rate, 0.1)));
    }
  }

  private void across(List<List<Row>> all) {
    List<List<Row>> everyday = all.subList(0, 600);
    Map<Integer, List<List<Row>>> rounds = new TreeMap<>();
    for (int i = 0; i < everyday.size(); i++) {
      rounds.computeIfAbsent(i / 100, k -> new ArrayList<>()).add(everyday.get(i));
    }
    List<List<Row>> further = all.subList(600, all.size());
    Map<String, double[]> sums = new LinkedHashMap<>();
    for (int k : rounds.keySet()) {
      List<List<Row>> learned = new ArrayList<>();
      rounds.forEach((other, of) -> learned.addAll(other == k ? List.of() : of));
      List<List<Row>> with = new ArrayList<>(learned);
      with.addAll(further);
      Map<String, double[]> ways = new LinkedHashMap<>();
      ways.put("by hand", new double[0]);
      for (double near : new double[] {0.01, 0.1}) {
        for (double rate : new double[] {0.02, 0.05}) {
          ways.put("risk near " + near + " rate " + rate, leastRisk(with, 6, rate, near, 1));
        }
      }
      ways.put("everyday only, risk .01 .05", leastRisk(learned, 6, .05, .01, 1));
      ways.put("everyday only, risk .03 .05", leastRisk(learned, 6, .05, .03, 1));
      for (double rate : new double[] {0.005, 0.02}) {
        ways.put("perceptron " + rate, perceptron(with, 6, rate, 0.1));
        ways.put("everyday, perceptron " + rate, perceptron(learned, 6, rate, 0.1));
      }
      for (Map.Entry<String, double[]> way : ways.entrySet()) {
        add(
            sums.computeIfAbsent(way.getKey(), n -> new double[9]),
            reranked(rounds.get(k), way.getValue()));
      }
    }
    sums.forEach(LearnClauseWeights::print);
  }

  private void learn(String to, String from) throws Exception {
    List<List<Row>> all = load(from, this);
    double[] w = leastRisk(all, 6, .05, .1, 1);
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < w.length; i++) {
      if (Math.abs(w[i]) >= LEAST) {
        lines.add(String.format(Locale.ROOT, "%s\t%.2f", names.get(i), w[i]));
      }
    }
    Collections.sort(lines);
    lines.add(0, "# what is looked at, up to four words, weight: LearnClauseWeights");
    java.nio.file.Files.write(Path.of(to), lines);
    System.out.println(lines.size() + " of " + w.length);
  }

  @SuppressWarnings("unchecked")
  private static List<List<Row>> load(String file, LearnClauseWeights learn) throws Exception {
    try (var in = new java.io.ObjectInputStream(new java.io.BufferedInputStream(new java.io.FileInputStream(file)))) {
      learn.names.addAll((List<String>) in.readObject());
      for (int i = 0; i < learn.names.size(); i++) {
        learn.numbers.put(learn.names.get(i), i);
      }
      return (List<List<Row>>) in.readObject();
    }
  }

  private void save(String file, List<KnownStone> stones) throws IOException {
    List<List<Row>> rows = new ArrayList<>();
    for (KnownStone stone : stones) {
      rows.add(rows(stone, new double[0], ROWS));
    }
    try (var out = new java.io.ObjectOutputStream(new java.io.BufferedOutputStream(new java.io.FileOutputStream(file)))) {
      out.writeObject(new ArrayList<>(names));
      out.writeObject(rows);
    }
  }

  private static List<KnownStone> read(List<String> files) throws IOException {
    List<KnownStone> stones = new ArrayList<>();
    for (String file : files) {
      stones.addAll(KnownStones.read(Path.of(file)));
    }
    return stones;
  }

  public static void main(String[] args) throws Exception {
    List<String> files = Arrays.asList(args).subList(1, args.length);
    LearnClauseWeights learn = new LearnClauseWeights();
    switch (args[0]) {
      case "oracle" -> learn.oracle(read(files));
      case "rows" -> learn.save(args[1], read(files.subList(1, files.size())));
      case "learn" -> learn.learn(args[1], args[2]);
      case "across" -> learn.across(load(args[1], learn));
      case "apart" -> {
        var all = load(args[1], learn);
        LearnClauseWeights other = new LearnClauseWeights();
        List<List<Row>> fresh = new ArrayList<>();
        for (List<Row> rows : load(args[2], other)) {
          fresh.add(
              rows.stream()
                  .map(r -> new Row(r.byHand(), Arrays.stream(r.signs()).map(n -> learn.number(other.names.get(n))).toArray(), r.loss(), r.counts()))
                  .toList());
        }
        apart(all, learn, fresh);
      }
      default -> throw new IllegalArgumentException(args[0]);
    }
  }
}
