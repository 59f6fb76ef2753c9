package rakelight.person;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rakelight.measure.KnownStone;
import rakelight.measure.KnownStones;
import rakelight.measure.StatementScore;

/**
 * Learns {@code clause-weights.tsv} from stones whose sense is known: {@code OUT EVERYDAY
 * FURTHER...}.
 *
 * <p>The best {@value #ROWS} rows of clauses over each stone are scored by what they would say. The
 * weights are those under which the expected loss, rows weighed as {@link LikeliestClauses} weighs
 * them, is least (minimum risk: Och, ACL 2003; steps by AdaGrad: Duchi, Hazan and Singer, JMLR 12,
 * 2011). Beside it an averaged perceptron (Collins, EMNLP 2002) is tried. It first tells how good
 * the best of the rows would be, and then what either wins on a round of everyday stones that was
 * left out, round by round. Rows are taken as sure, so the figures differ a little from those of
 * {@code score-statements}.
 */
final class LearnClauseWeights {
  private static final int ROWS = 40;
  private static final long SEED = 1851;

  // What is wrong with a row, in wrong or missing facts; choices.
  private static final double OF_VERSE = 0.3;
  private static final double OF_PHANTOM = 1;
  private static final double ON_WRONG_PERSON = 0.5;

  // Tried on rounds left out: rates .02, .05, .1; nearness .003 to 1; perceptron steps .005 to .1.
  private static final int EPOCHS = 6;
  private static final double RATE = 0.05;
  private static final double NEAR = 0.1;
  private static final double STEP = 0.05;
  private static final double MARGIN = 0.1;

  /** What takes words for those of a mourner, who may be living, isn't learned away. */
  private static final Pattern OF_MOURNERS = Pattern.compile("\t(ERECTED|MOURNERS|erected)(\t|$)");

  /** Smaller weights aren't kept. */
  private static final double LEAST = 0.02;

  /** A row of clauses: its weight by hand, its signs, and what it gets wrong. */
  private record Row(double byHand, int[] signs, double loss, double[] counts) {
    double score(double[] learned) {
      double score = byHand;
      for (int sign : signs) {
        score += learned[sign];
      }
      return score;
    }
  }

  /** A way to a clause: its weight, the clause before, and which of the ways to that one. */
  private record Link(double score, @Nullable Way before, int rank) {}

  /** A clause with the best ways to it. */
  private record Way(Clause clause, List<Link> best) {}

  private final Map<String, Integer> numbers = new HashMap<>();
  private final List<String> names = new ArrayList<>();

  private int number(String name) {
    return numbers.computeIfAbsent(
        name,
        n -> {
          names.add(n);
          return names.size() - 1;
        });
  }

  /** The best rows over so many words by the hand's weights. */
  private static List<List<Clause>> best(ClauseGrammar grammar, int words) {
    List<List<Way>> ending = new ArrayList<>();
    for (int i = 0; i <= words; i++) {
      ending.add(new ArrayList<>());
    }
    Way start = new Way(new Clause(Clause.Type.START, 0, 0, 0), List.of(new Link(0, null, 0)));
    ending.get(0).add(start);
    for (int i = 0; i < words; i++) {
      for (Clause clause : grammar.at(i)) {
        Way way = way(grammar, clause, ending.get(i));
        if (!way.best.isEmpty()) {
          ending.get(clause.to()).add(way);
        }
      }
    }
    Clause end = new Clause(Clause.Type.END, words, words + 1, 0);
    List<List<Clause>> rows = new ArrayList<>();
    for (Link link : way(grammar, end, ending.get(words)).best) {
      List<Clause> row = new ArrayList<>(List.of(end));
      for (Link at = link; at.before != null; at = at.before.best.get(at.rank)) {
        row.add(at.before.clause);
      }
      Collections.reverse(row);
      rows.add(row);
    }
    return rows;
  }

  private static Way way(ClauseGrammar grammar, Clause clause, List<Way> before) {
    List<Link> all = new ArrayList<>();
    for (Way one : before) {
      double by = grammar.follows(one.clause, clause) + clause.weight();
      for (int rank = 0; rank < one.best.size(); rank++) {
        all.add(new Link(one.best.get(rank).score + by, one, rank));
      }
    }
    all.sort(Comparator.comparingDouble(Link::score).reversed());
    return new Way(clause, List.copyOf(all.subList(0, Math.min(ROWS, all.size()))));
  }

  /** The best rows over a stone that say different things, the best first. */
  private List<Row> rows(KnownStone stone) {
    List<CarvedWord> words =
        WornWords.restored(BrokenWords.joined(CarvedWord.of(stone.inscription())));
    DateWords dates = new DateWords(words, stone.calendar());
    ClauseGrammar grammar = new ClauseGrammar(words, dates);
    ClauseSigns looks = new ClauseSigns(words);
    Map<List<Statement>, Row> different = new LinkedHashMap<>();
    for (List<Clause> row : best(grammar, words.size())) {
      List<Statement> told =
          new Resolution(
                  words,
                  dates,
                  row.subList(1, row.size() - 1).stream()
                      .map(clause -> new LikeliestClauses.Placed(clause, 1))
                      .toList(),
                  "")
              .statements();
      if (!different.containsKey(told)) {
        StatementScore score = new StatementScore();
        score.add(stone, told);
        different.put(told, row(row, grammar, looks, score));
      }
    }
    return List.copyOf(different.values());
  }

  private Row row(
      List<Clause> clauses, ClauseGrammar grammar, ClauseSigns looks, StatementScore score) {
    List<Integer> signs = new ArrayList<>();
    ClauseSigns.Each each =
        (looked, a, b, c, d) -> signs.add(number(String.join("\t", looked, a, b, c, d)));
    double byHand = 0;
    for (int i = 1; i < clauses.size(); i++) {
      byHand += grammar.follows(clauses.get(i - 1), clauses.get(i)) + clauses.get(i).weight();
      looks.of(clauses.get(i), each);
      looks.ofKinds(clauses.get(i - 1), clauses.get(i), each);
      looks.ofSaid(clauses.get(i - 1), clauses.get(i), each);
    }
    double[] counts = counts(score);
    double loss =
        counts[0]
            + counts[1]
            - 2 * counts[2]
            + OF_PHANTOM * counts[3]
            + ON_WRONG_PERSON * counts[4]
            + OF_VERSE * (counts[6] + counts[7] - 2 * counts[8]);
    return new Row(byHand, signs.stream().mapToInt(s -> s).toArray(), loss, counts);
  }

  /** Known, said, right; phantoms, facts on a wrong person, wholly right; the first of verse. */
  private static double[] counts(StatementScore score) {
    StatementScore.Row all = score.together();
    StatementScore.Row verse =
        score.rows().stream()
            .filter(row -> row.kind().equals(Optional.of(KnownStone.Kind.VERSE)))
            .findFirst()
            .orElse(new StatementScore.Row(Optional.empty(), 0, 0, 0));
    return new double[] {
      all.known(),
      all.said(),
      all.right(),
      score.phantoms(),
      score.onWrongPerson(),
      score.whollyRight(),
      verse.known(),
      verse.said(),
      verse.right()
    };
  }

  private double[] leastRisk(List<List<Row>> stones) {
    double[] learned = new double[names.size()];
    double[] squares = new double[names.size()];
    Random random = new Random(SEED);
    List<List<Row>> order = new ArrayList<>(stones);
    for (int epoch = 0; epoch < EPOCHS; epoch++) {
      Collections.shuffle(order, random);
      for (List<Row> rows : order) {
        gradient(rows, learned)
            .forEach(
                (sign, slope) -> {
                  double full = slope + NEAR * learned[sign];
                  squares[sign] += full * full;
                  learned[sign] -= RATE * full / (1e-2 + Math.sqrt(squares[sign]));
                });
      }
    }
    return learned;
  }

  /** How the expected loss grows with each weight. */
  private static Map<Integer, Double> gradient(List<Row> rows, double[] learned) {
    double[] share = rows.stream().mapToDouble(row -> row.score(learned)).toArray();
    double most = Arrays.stream(share).max().orElse(0);
    double sum = 0;
    double loss = 0;
    for (int r = 0; r < share.length; r++) {
      share[r] = Math.exp(share[r] - most);
      sum += share[r];
      loss += share[r] * rows.get(r).loss;
    }
    Map<Integer, Double> gradient = new HashMap<>();
    for (int r = 0; r < share.length; r++) {
      double slope = share[r] / sum * (rows.get(r).loss - loss / sum);
      if (Math.abs(slope) > 1e-6) {
        for (int sign : rows.get(r).signs) {
          gradient.merge(sign, slope, Double::sum);
        }
      }
    }
    return gradient;
  }

  private double[] perceptron(List<List<Row>> stones) {
    double[] learned = new double[names.size()];
    double[] total = new double[names.size()];
    Random random = new Random(SEED);
    List<List<Row>> order = new ArrayList<>(stones);
    int steps = 0;
    for (int epoch = 0; epoch < EPOCHS; epoch++) {
      Collections.shuffle(order, random);
      for (List<Row> rows : order) {
        Comparator<Row> heavier = Comparator.comparingDouble(row -> row.score(learned));
        Comparator<Row> better = Comparator.<Row>comparingDouble(row -> -row.loss);
        Row right = Collections.max(rows, better.thenComparing(heavier));
        Row said =
            Collections.max(
                rows, Comparator.comparingDouble(row -> row.score(learned) + MARGIN * row.loss));
        if (said.loss > right.loss) {
          step(right, STEP, steps, learned, total);
          step(said, -STEP, steps, learned, total);
        }
        steps++;
      }
    }
    for (int i = 0; i < learned.length; i++) {
      learned[i] -= total[i] / steps;
    }
    return learned;
  }

  private static void step(Row row, double by, int steps, double[] learned, double[] total) {
    for (int sign : row.signs) {
      learned[sign] += by;
      total[sign] += by * steps;
    }
  }

  private static double[] said(List<List<Row>> stones, Comparator<Row> better) {
    double[] sum = new double[9];
    for (List<Row> rows : stones) {
      double[] counts =
          rows.stream().reduce((a, b) -> better.compare(b, a) > 0 ? b : a).get().counts;
      for (int i = 0; i < sum.length; i++) {
        sum[i] += counts[i];
      }
    }
    return sum;
  }

  private static double[] said(List<List<Row>> stones, double[] learned) {
    return said(stones, Comparator.comparingDouble(row -> row.score(learned)));
  }

  private static void print(String what, double[] sum) {
    System.out.printf(
        Locale.ROOT,
        "| %s | %.3f | %.3f | %.0f | %.0f | %.0f | %.3f / %.3f |%n",
        what,
        sum[2] / sum[1],
        sum[2] / sum[0],
        sum[3],
        sum[4],
        sum[5],
        sum[8] / sum[7],
        sum[8] / sum[6]);
  }

  private void leaveOut(Map<String, List<List<Row>>> rounds, List<List<Row>> further) {
    Map<String, double[]> sums = new TreeMap<>();
    rounds.forEach(
        (round, stones) -> {
          List<List<Row>> others = new ArrayList<>(further);
          rounds.forEach((other, rows) -> others.addAll(other.equals(round) ? List.of() : rows));
          Map.of(
                  "as by hand",
                  new double[names.size()],
                  "least risk",
                  leastRisk(others),
                  "perceptron",
                  perceptron(others))
              .forEach(
                  (way, learned) ->
                      sums.merge(
                          way,
                          said(stones, learned),
                          (a, b) -> {
                            double[] sum = a.clone();
                            for (int i = 0; i < sum.length; i++) {
                              sum[i] += b[i];
                            }
                            return sum;
                          }));
        });
    sums.forEach(LearnClauseWeights::print);
  }

  private void write(Path to, double[] learned) throws IOException {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < learned.length; i++) {
      if (Math.abs(learned[i]) >= LEAST && !OF_MOURNERS.matcher(names.get(i)).find()) {
        lines.add(String.format(Locale.ROOT, "%s\t%.2f", names.get(i), learned[i]));
      }
    }
    Collections.sort(lines);
    lines.add(0, "# what is looked at, four words, weight: LearnClauseWeights");
    Files.write(to, lines, StandardCharsets.UTF_8);
    System.out.println(lines.size() - 1 + " weights of " + learned.length);
  }

  public static void main(String[] args) throws IOException {
    LearnClauseWeights learn = new LearnClauseWeights();
    Map<String, List<List<Row>>> rounds =
        KnownStones.read(Path.of(args[1])).stream()
            .collect(
                Collectors.groupingBy(
                    stone -> stone.id().substring(0, 2),
                    TreeMap::new,
                    Collectors.mapping(learn::rows, Collectors.toList())));
    List<List<Row>> all = new ArrayList<>();
    rounds.values().forEach(all::addAll);
    print("best row of everyday", said(all, Comparator.comparingDouble(row -> -row.loss)));
    List<List<Row>> further = new ArrayList<>();
    for (String file : List.of(args).subList(2, args.length)) {
      KnownStones.read(Path.of(file)).forEach(stone -> further.add(learn.rows(stone)));
    }
    all.addAll(further);
    learn.write(Path.of(args[0]), learn.leastRisk(all));
    learn.leaveOut(rounds, further);
  }
}
