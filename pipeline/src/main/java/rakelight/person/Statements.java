package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;
import rakelight.inscription.Inscription;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

/**
 * Statements of an English inscription. Its words are taken for clauses ({@link ClauseGrammar}),
 * the likeliest row of clauses over the whole face is found ({@link LikeliestClauses}), and each
 * fact is given to those it is about ({@link Resolution}). Every statement has its odds; those less
 * likely than {@link Statement#FACT} are proposals and only told where they are asked for.
 *
 * <p>Limits: English, with Latin epitaphs as far as name, day, year, age and kin go; emblems say
 * nothing.
 */
public final class Statements {
  /**
   * Of the grammar with its word lists. It changes whenever a reading may come to assert something
   * else, or a statement be written in another form.
   */
  static final int GRAMMAR = 7;

  private Statements() {}

  /** The statements of the reading that count as facts, in its order. */
  public static List<Statement> of(Inscription inscription, CalendarChange change) {
    return of(inscription, change, "");
  }

  /**
   * The same for a face of a marker whose other faces bear one surname.
   *
   * @param familyName that surname; empty where there is none
   */
  public static List<Statement> of(
      Inscription inscription, CalendarChange change, String familyName) {
    return of(inscription, change, familyName, List.of());
  }

  /**
   * The same, held to what people said of these words.
   *
   * @param corrections those that fit the reading
   */
  static List<Statement> of(
      Inscription inscription,
      CalendarChange change,
      String familyName,
      List<Correction.Said> corrections) {
    List<Statement> facts =
        withProposals(inscription, change, familyName, corrections).stream()
            .filter(s -> s.odds() >= Statement.FACT)
            .toList();
    return withReckoned(CorrectedClauses.corrected(facts, corrections));
  }

  /**
   * Facts with what is worked out from them, each behind the last of those it rests on: figures
   * that are lost and that the others leave little choice of, and births from death and age.
   */
  static List<Statement> withReckoned(List<Statement> facts) {
    List<Statement> all = behind(facts, KinAgreement.reckoned(facts));
    return behind(all, ReckonedBirth.of(all));
  }

  private static List<Statement> behind(List<Statement> facts, List<Statement> reckoned) {
    if (reckoned.isEmpty()) {
      return facts;
    }
    Map<Integer, List<Statement>> after = new HashMap<>();
    for (Statement value : reckoned) {
      int last = 0;
      for (int i = 0; i < facts.size(); i++) {
        Statement fact = facts.get(i);
        boolean restsOnIt =
            fact.persons().equals(value.persons()) && value.signs().containsAll(fact.signs());
        last = restsOnIt ? i : last;
      }
      after.computeIfAbsent(last, i -> new ArrayList<>()).add(value);
    }
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < facts.size(); i++) {
      all.add(facts.get(i));
      all.addAll(after.getOrDefault(i, List.of()));
    }
    return List.copyOf(all);
  }

  /**
   * All statements, also those too unlikely to be facts.
   *
   * @param familyName the surname on the marker's other faces; empty where there is none
   */
  public static List<Statement> withProposals(
      Inscription inscription, CalendarChange change, String familyName) {
    return withProposals(inscription, change, familyName, List.of());
  }

  private static List<Statement> withProposals(
      Inscription inscription,
      CalendarChange change,
      String familyName,
      List<Correction.Said> corrections) {
    List<CarvedWord> words = WornWords.restored(BrokenWords.joined(CarvedWord.of(inscription)));
    DateWords dates = new DateWords(words, change);
    CorrectedClauses grammar =
        new CorrectedClauses(new ClauseGrammar(words, dates), words, corrections);
    List<LikeliestClauses.Placed> row = LikeliestClauses.of(grammar, words.size());
    return new Resolution(words, dates, row, familyName).statements();
  }

  /**
   * Statements of the faces of one marker, in their order. A face that gives no surname takes the
   * one that all the others bear.
   */
  public static List<List<Statement>> ofFaces(List<Inscription> faces, CalendarChange change) {
    return ofFaces(faces, (face, familyName) -> of(face, change, familyName));
  }

  /**
   * The same for whatever holds an inscription.
   *
   * @param read gives the statements of one, given a surname that other faces bear or nothing
   */
  static <T> List<List<Statement>> ofFaces(
      List<T> faces, BiFunction<T, String, List<Statement>> read) {
    List<List<Statement>> all = new ArrayList<>();
    Set<String> surnames = new HashSet<>();
    for (T face : faces) {
      List<Statement> statements = read.apply(face, "");
      all.add(statements);
      surnames.addAll(surnames(statements));
    }
    if (surnames.size() == 1) {
      for (int i = 0; i < all.size(); i++) {
        if (surnames(all.get(i)).isEmpty()) {
          all.set(i, read.apply(faces.get(i), surnames.iterator().next()));
        }
      }
    }
    return List.copyOf(all);
  }

  private static Set<String> surnames(List<Statement> statements) {
    Set<String> surnames = new HashSet<>();
    for (Statement statement : statements) {
      statement.detail(Detail.Name.class).map(Detail.Name::surname).ifPresent(surnames::add);
      if (statement.kind() == Kind.FAMILY) {
        surnames.add(statement.value());
      }
    }
    surnames.remove("");
    return surnames;
  }

  /** Whether a folded word is a title before a name or a suffix after it, such as Mr or Esq. */
  public static boolean isTitle(String folded) {
    return PersonWords.TITLES.contains(folded) || PersonWords.SUFFIXES.contains(folded);
  }
}
