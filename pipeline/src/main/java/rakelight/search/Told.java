package rakelight.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.index.Entry;
import rakelight.index.Entry.Name;
import rakelight.index.Entry.YearSpan;
import rakelight.index.Word;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;
import rakelight.names.NameForms;
import rakelight.person.Detail;
import rakelight.person.Statement;
import rakelight.person.Statements;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * What the statements of a reading tell the index: which of its words are names, and what names are
 * lent to them; the years of its dates, also those that no four figures show, such as {@code
 * MDCCLXI}, the second year of 1731/2, or the birth worked out from death and age; ages, kin,
 * trade, service, place and cause.
 */
final class Told {
  /** How far a year that the stone doesn't give at that place is trusted; a choice. */
  private static final double SUPPLIED = 0.97;

  private static final Pattern YEARS_OF_AGE = Pattern.compile("P([0-9]{1,3})Y.*");

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

  private Map<SignId, Integer> wordOf() {
    Map<SignId, Integer> wordOf = new HashMap<>();
    for (int word = 0; word < words.words().size(); word++) {
      int[] place = words.signs().get(word);
      for (int sign = place[0]; sign <= place[1]; sign++) {
        wordOf.put(inscription.signs().get(sign).id(), word);
      }
    }
    return wordOf;
  }

  private List<Integer> wordsOf(Statement statement, Map<SignId, Integer> wordOf) {
    return statement.signs().stream()
        .filter(wordOf::containsKey)
        .map(wordOf::get)
        .distinct()
        .sorted()
        .toList();
  }

  /**
   * The words of each name, a title before or after it left off; parts of the name that stand
   * elsewhere, such as a husband's surname or the name borne at birth, are lent to it.
   *
   * @param before so many words stand on the faces before
   */
  List<Name> names(int before) {
    Map<SignId, Integer> wordOf = wordOf();
    List<Name> names = new ArrayList<>();
    for (Statement statement : statements) {
      if (statement.kind() == Statement.Kind.NAME) {
        List<Integer> own =
            wordsOf(statement, wordOf).stream().filter(word -> !isTitle(word)).toList();
        if (!own.isEmpty()) {
          int first = own.get(0);
          int last = own.get(own.size() - 1);
          names.add(
              new Name(
                  before + first,
                  before + last,
                  lent(statement, words.words().subList(first, last + 1))));
        }
      }
    }
    return names;
  }

  private static List<Word> lent(Statement name, List<Word> own) {
    String birth = name.detail(Detail.Name.class).map(Detail.Name::birthSurname).orElse("");
    List<Word> lent = new ArrayList<>();
    for (String part : (name.value() + " " + birth).split("[\\s|\\-]+", -1)) {
      String folded = NameForms.fold(part);
      boolean there =
          own.stream().flatMap(word -> word.ways().stream()).anyMatch(way -> way.matches(folded));
      if (!folded.isEmpty() && part.indexOf('?') < 0 && !there) {
        lent.add(Word.sure(part));
      }
    }
    return lent;
  }

  private boolean isTitle(int word) {
    return words.words().get(word).readings().keySet().stream().anyMatch(Statements::isTitle);
  }

  /** The years carved as four figures with what happened in them, and those of dates besides. */
  List<YearSpan> years(List<YearSpan> carved) {
    Map<String, String> events = new HashMap<>();
    Map<SignId, Integer> wordOf = wordOf();
    for (Statement statement : dates()) {
      for (int word : wordsOf(statement, wordOf)) {
        events.putIfAbsent(words.words().get(word).shown(), event(statement));
      }
    }
    List<YearSpan> years = new ArrayList<>();
    Set<Integer> known = new HashSet<>();
    for (YearSpan span : carved) {
      for (int year = span.from(); year <= span.to(); year++) {
        known.add(year);
      }
      years.add(
          new YearSpan(
              span.from(),
              span.to(),
              span.weight(),
              events.getOrDefault(span.shown(), ""),
              span.shown()));
    }
    for (Statement statement : dates()) {
      // Lost figures are left to the words, which know what else they may be.
      if (statement.value().matches("[0-9\\[{][^X]*")) {
        add(statement, known, years);
      }
    }
    return years;
  }

  private List<Statement> dates() {
    return statements.stream()
        .filter(
            statement ->
                switch (statement.kind()) {
                  case BIRTH, MARRIAGE, DEATH, BURIAL -> true;
                  default -> false;
                })
        .toList();
  }

  private static String event(Statement statement) {
    return switch (statement.kind()) {
      case BIRTH -> "born";
      case MARRIAGE -> "married";
      case DEATH -> "died";
      default -> "buried";
    };
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
        years.add(new YearSpan(year, year, trust / own.size(), event(statement), shown));
      }
    }
  }

  private static int year(Day day) {
    return Math.toIntExact(day.year());
  }

  /** Ages in whole years. */
  List<Entry.AgeSpan> ages() {
    List<Entry.AgeSpan> ages = new ArrayList<>();
    for (Statement statement : statements) {
      Matcher years = YEARS_OF_AGE.matcher(statement.value());
      if (statement.kind() == Statement.Kind.AGE && years.matches()) {
        int age = Integer.parseInt(years.group(1));
        ages.add(new Entry.AgeSpan(age, age, statement.text()));
      }
    }
    return ages;
  }

  /** What else is told, by field of the index. */
  Map<String, List<String>> facts() {
    Map<String, List<String>> facts = new LinkedHashMap<>();
    for (Statement statement : statements) {
      String text = statement.valueInWords();
      switch (statement.kind()) {
        case KIN -> add(facts, "kin", text);
        case OCCUPATION -> add(facts, "trade", text);
        case ORIGIN -> add(facts, "place", text);
        case CAUSE -> add(facts, "cause", text);
        case SERVICE -> {
          add(facts, "unit", text);
          statement
              .detail(Detail.Service.class)
              .map(Detail.Service::rank)
              .ifPresent(rank -> add(facts, "rank", rank));
        }
        default -> {}
      }
      statement
          .detail(Detail.Dated.class)
          .map(Detail.Dated::place)
          .ifPresent(place -> add(facts, "place", place));
    }
    return facts;
  }

  private static void add(Map<String, List<String>> facts, String field, String text) {
    if (!text.isBlank()) {
      facts.computeIfAbsent(field, key -> new ArrayList<>()).add(text);
    }
  }
}
