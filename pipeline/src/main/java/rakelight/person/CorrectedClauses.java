package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import rakelight.inscription.SignId;
import rakelight.person.Clause.Type;
import rakelight.person.Correction.What;
import rakelight.person.Statement.Kind;

/**
 * What the grammar puts forward at each word, with what was learned added to its weights, held to
 * what people said: words that are said to be a name or verse are that and nothing else, and those
 * that are said not to be aren't.
 */
final class CorrectedClauses {
  private static final int TYPES = Type.values().length;

  private final ClauseGrammar grammar;
  private final ClauseSigns signs;
  private final ClauseWeights learned;

  /** What was learned of two kinds at a word, worked out once; NaN where it wasn't yet. */
  private final double[] kinds = new double[TYPES * TYPES];

  private int kindsAt = -1;
  private final List<Held> held = new ArrayList<>();

  /**
   * Words from one to before another.
   *
   * @param only the one clause that they are; empty where some kinds are ruled out
   */
  private record Held(int from, int to, Optional<Clause> only, Set<Type> not) {
    boolean touches(Clause clause) {
      return clause.from() < to && from < clause.to();
    }

    boolean allows(Clause clause) {
      return !touches(clause) || (only.isEmpty() && !not.contains(clause.type()));
    }
  }

  /**
   * @param corrections those that fit the reading of these words
   */
  CorrectedClauses(
      ClauseGrammar grammar, List<CarvedWord> words, List<Correction.Said> corrections) {
    this.grammar = grammar;
    signs = new ClauseSigns(words);
    learned = ClauseWeights.known();
    for (Correction.Said said : corrections) {
      Set<SignId> signs = new HashSet<>(said.signIds());
      int from = 0;
      while (from < words.size() && words.get(from).signs().stream().noneMatch(signs::contains)) {
        from++;
      }
      int to = from;
      while (to < words.size() && words.get(to).signs().stream().anyMatch(signs::contains)) {
        to++;
      }
      if (from < to) {
        hold(said, from, to);
      }
    }
  }

  private void hold(Correction.Said said, int from, int to) {
    switch (said.what()) {
      case NAME -> held.add(new Held(from, to, Optional.of(name(said, from, to)), Set.of()));
      case VERSE ->
          held.add(new Held(from, to, Optional.of(new Clause(Type.VERSE, from, to, 0)), Set.of()));
      case NOT_VERSE ->
          held.add(new Held(from, to, Optional.empty(), Set.of(Type.VERSE, Type.SCRIPTURE)));
      case NOT_SO -> {
        if (said.kind().filter(Kind.NAME::equals).isPresent()) {
          held.add(new Held(from, to, Optional.empty(), Set.of(Type.PERSON)));
        }
      }
      case BELONGS -> {}
    }
  }

  private static Clause name(Correction.Said said, int from, int to) {
    Detail.Name name =
        new Detail.Name(
            said.given().orElse(""), said.surname().orElse(""), "", List.of(), List.of());
    NameWords.Bearer bearer = new NameWords.Bearer(from, to, name, name.surname().isEmpty());
    NameWords.Found found = new NameWords.Found(to, List.of(bearer), false, 0);
    return new Clause(Type.PERSON, from, to, 0, new Clause.Names(found));
  }

  /** Every clause that may begin at a word. */
  List<Clause> at(int i) {
    List<Clause> allowed = new ArrayList<>();
    for (Clause clause : grammar.at(i)) {
      if (held.stream().allMatch(one -> one.allows(clause))) {
        allowed.add(clause.heavier(learned.of(signs, clause)));
      }
    }
    for (Held one : held) {
      if (one.from() == i) {
        one.only().ifPresent(allowed::add);
      }
    }
    return allowed;
  }

  double follows(Clause before, Clause after) {
    if (after.from() != kindsAt) {
      Arrays.fill(kinds, Double.NaN);
      kindsAt = after.from();
    }
    int pair = before.type().ordinal() * TYPES + after.type().ordinal();
    if (Double.isNaN(kinds[pair])) {
      kinds[pair] = learned.ofKinds(signs, before, after);
    }
    return grammar.follows(before, after) + kinds[pair] + learned.ofSaid(signs, before, after);
  }

  /** What is said of words once it is known of whom, held to what people said of statements. */
  static List<Statement> corrected(List<Statement> statements, List<Correction.Said> corrections) {
    List<Statement> all = new ArrayList<>(statements);
    for (Correction.Said said : corrections) {
      if (said.what() == What.NOT_SO) {
        all.removeIf(statement -> isMeant(said, statement));
      } else if (said.what() == What.BELONGS) {
        all.stream()
            .filter(s -> s.kind() == Kind.NAME)
            .filter(s -> said.of().filter(of -> of == s.signs().get(0).number()).isPresent())
            .findFirst()
            .ifPresent(
                name -> all.replaceAll(s -> isMeant(said, s) ? s.withPersons(name.persons()) : s));
      }
    }
    return all;
  }

  private static boolean isMeant(Correction.Said said, Statement statement) {
    return said.kind().filter(kind -> kind == statement.kind()).isPresent()
        && said.signIds().equals(statement.signs());
  }
}
