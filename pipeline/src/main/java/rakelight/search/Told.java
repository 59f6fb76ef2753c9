package rakelight.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import rakelight.index.Entry.NameSpan;
import rakelight.index.Entry.YearSpan;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;
import rakelight.person.Statement;
import rakelight.person.Statements;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * What the statements of a reading tell the index: which of its words are names, and the years of
 * its dates that no four figures show, such as {@code MDCCLXI}, the second year of 1731/2, or the
 * birth worked out from death and age.
 */
final class Told {
  /** How far a year that the stone doesn't give at that place is trusted; a choice. */
  private static final double SUPPLIED = 0.97;

  private final List<Statement> statements;
  private final Inscription inscription;
  private final Words words;

  /**
   * @param statements of that inscription
   */
  Told(Inscription inscription, Words words, List<Statement> statements) {
    this.inscription = inscription;
    this.words = words;
    this.statements = List.copyOf(statements);
  }

  /** The words of each name, a title before or after it left off. */
  List<NameSpan> names() {
    Map<SignId, Integer> wordOf = new HashMap<>();
    for (int word = 0; word < words.words().size(); word++) {
      int[] place = words.signs().get(word);
      for (int sign = place[0]; sign <= place[1]; sign++) {
        wordOf.put(inscription.signs().get(sign).id(), word);
      }
    }
    List<NameSpan> names = new ArrayList<>();
    for (Statement statement : statements) {
      if (statement.kind() == Statement.Kind.NAME) {
        List<Integer> own =
            statement.signs().stream()
                .filter(wordOf::containsKey)
                .map(wordOf::get)
                .distinct()
                .sorted()
                .filter(word -> !isTitle(word))
                .toList();
        if (!own.isEmpty()) {
          names.add(new NameSpan(own.get(0), own.get(own.size() - 1)));
        }
      }
    }
    return names;
  }

  private boolean isTitle(int word) {
    return words.words().get(word).readings().keySet().stream().anyMatch(Statements::isTitle);
  }

  /** Years of dates besides those carved as four figures. */
  List<YearSpan> yearsBesides(List<YearSpan> carved) {
    Set<Integer> known = new HashSet<>();
    for (YearSpan span : carved) {
      for (int year = span.from(); year <= span.to(); year++) {
        known.add(year);
      }
    }
    List<YearSpan> years = new ArrayList<>();
    for (Statement statement : statements) {
      boolean date =
          switch (statement.kind()) {
            case BIRTH, MARRIAGE, DEATH, BURIAL -> true;
            default -> false;
          };
      // Lost figures are left to the words, which know what else they may be.
      if (date && statement.value().matches("[0-9\\[{][^X]*")) {
        add(statement, known, years);
      }
    }
    return years;
  }

  private static void add(Statement statement, Set<Integer> known, List<YearSpan> years) {
    Edtf date = Edtf.parse(statement.value());
    if (date.earliest().isEmpty() || date.latest().isEmpty()) {
      return;
    }
    int from = year(date.earliest().get());
    int to = year(date.latest().get());
    Set<Integer> own = new HashSet<>();
    for (int year = from; year <= to; year++) {
      if (date.mayTouch(new Day(year, 1, 1), new Day(year, 12, 31))) {
        own.add(year);
      }
    }
    double trust = statement.supplied().isPresent() ? SUPPLIED : 1;
    // A worn year leaves many open; one that is worked out stands out from them.
    boolean reckoned = statement.isReckoned();
    String shown =
        reckoned
            ? statement.kind().name().toLowerCase(Locale.ROOT)
                + statement.standingInWords(", ", ",")
            : statement.text();
    for (int year = from; year <= to; year++) {
      if (own.contains(year) && (known.add(year) || reckoned)) {
        years.add(new YearSpan(year, year, trust / own.size(), shown));
      }
    }
  }

  private static int year(Day day) {
    return Math.toIntExact(day.year());
  }
}
