package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import rakelight.person.Clause.Type;
import rakelight.person.calendar.RomanNumeral;

/**
 * The clauses that the words of a face may be, each with its weight, and how well one clause
 * follows another. {@link LikeliestClauses} finds the best row of them over the whole face.
 *
 * <p>The weights are natural logarithms of odds, set by hand on invented stones; no source.
 */
final class ClauseGrammar {
  private static final int MOST_NAME_WAYS = 6;

  /** Who set up a stone is named on top, and what he did soon after his name. */
  private static final int MOST_BEFORE_ERECTOR = 6;

  private static final int MOST_BEFORE_ERECTED = 8;

  /** So many words on a line are speech, whatever they are. */
  private static final int RUNNING_WORDS = 5;

  private static final Set<String> OTHERWISE =
      PersonWords.words("nee formerly als alias otherwise aka born geb geboren geborne geborene");

  private static final Set<String> BEFORE_TRADE =
      PersonWords.words(
          "a an the late by trade some time sometime formerly retired master was were head chief "
              + "also both faithful respected");

  private static final Set<String> BEFORE_PLACE =
      PersonWords.words("the this city town parish county village in of same ye");

  private static final Set<String> OF_NO_MAKER =
      PersonWords.words("sisters his her their wife daughter children died born erected who aged");

  private static final Set<String> OF_A_STONE =
      PersonWords.words(
          "this stone monument is was tomb the and tablet memorial cross headstone here lair");

  private static final Set<String> HOW_MISSED =
      PersonWords.words(
          "sadly deeply sorely dearly greatly much ever always lovingly and so very fondly forever "
              + "will be is was by truly gone not never but too survived leaving leaves from");

  private static final Set<String> BEFORE_NAME =
      PersonWords.words(
          "memory remembrance iacet jacet est sepultus sacrum that rip ihs hse ms soul s e p body");

  private final List<CarvedWord> words;
  private final DateWords dates;
  private final AgeWords ages;
  private final NameWords names;
  private final KinWords kins;
  private final ServiceWords services;
  private final EventWords events;

  ClauseGrammar(List<CarvedWord> words, DateWords dates) {
    this.words = words;
    this.dates = dates;
    ages = new AgeWords(words);
    names = new NameWords(words);
    kins = new KinWords(words, names);
    services = new ServiceWords(words);
    events = new EventWords(words, dates, ages);
  }

  /** Every clause that may begin at a word. */
  List<Clause> at(int i) {
    List<Clause> found = new ArrayList<>();
    found.add(other(i));
    formula(i, found);
    heading(i, found);
    persons(i, found);
    pronoun(i, found);
    for (KinWords.Found kin : kins.at(i)) {
      found.add(new Clause(Type.KIN, i, kin.end(), kin.weight(), new Clause.Kin(kin)));
    }
    found.addAll(events.at(i));
    dated(i, found);
    age(i, found);
    maiden(i, found);
    service(i, found);
    occupation(i, found);
    origin(i, found);
    order(i, found);
    removal(i, found);
    maker(i, found);
    erected(i, found);
    erector(i, found);
    mourners(i, found);
    verse(i, found);
    scripture(i, found);
    ditto(i, found);
    return found;
  }

  boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  boolean endsLine(int to) {
    return to == words.size() || words.get(to).line() != words.get(to - 1).line();
  }

  private static boolean opens(CarvedWord word, String signs) {
    return !word.shown().isEmpty() && signs.indexOf(word.shown().charAt(0)) >= 0;
  }

  private int lineEnd(int from) {
    int to = from;
    while (to < words.size() && words.get(to).line() == words.get(from).line()) {
      to++;
    }
    return to;
  }

  private Clause other(int i) {
    CarvedWord word = words.get(i);
    double weight;
    if (word.folded().isEmpty() || word.isGap()) {
      weight = -0.2;
    } else if (word.hasFigure()) {
      weight = -2.2;
    } else {
      weight = word.isCapitalised() ? -1.8 : -1.3;
    }
    return new Clause(Type.OTHER, i, i + 1, weight);
  }

  private static final Set<String> ABBREVIATED =
      Set.of(
          "rip", "ihs", "hse", "ms", "hms", "vr", "csa", "gar", "dom", "amdg", "lds", "sttl",
          "afsd", "jhs", "hic", "hj", "hi", "sm", "ix");

  /** End the name of whoever keeps the ground. */
  private static final String[] BODIES = {
    "board",
    "cemetery",
    "churchyard",
    "commission",
    "council",
    "society",
    "trust",
    "association",
    "railway",
    "railroad",
    "company",
    "department"
  };

  /** Prayers, which name nobody who lies here. */
  private static final List<List<String>> PRAYERS =
      Stream.of(
              "holy mary mother of god",
              "holy mary",
              "blessed virgin mary",
              "jesus mary and joseph",
              "jesus mary joseph",
              "sacred heart of jesus",
              "immaculate heart of mary",
              "jesu mercy",
              "jesus mercy",
              "mary help",
              "lady help",
              "ora pro nobis")
          .map(prayer -> List.of(prayer.split(" ", -1)))
          .toList();

  private void prayer(int i, List<Clause> found) {
    for (List<String> prayer : PRAYERS) {
      int k = 0;
      while (k < prayer.size()
          && i + k < words.size()
          && words.get(i + k).folded().equals(prayer.get(k))) {
        k++;
      }
      if (k == prayer.size()) {
        found.add(new Clause(Type.IGNORED, i, i + k, 5 + k));
        return;
      }
    }
  }

  /** {@code servant to Mr. Bole}: who employed somebody is nobody who lies here. */
  private void employer(int i, List<Clause> found) {
    boolean employed =
        i > 0
            && i + 1 < words.size()
            && words.get(i).is("to", "with")
            && (isTrade(i - 1) || words.get(i - 1).is("remarried"))
            && words.get(i - 1).line() == words.get(i).line();
    if (employed) {
      for (NameWords.Found way : names.at(i + 1)) {
        if (way.bearers().stream().noneMatch(NameWords.Bearer::onlyGiven)) {
          found.add(new Clause(Type.IGNORED, i, way.end(), 4 + way.weight()));
        }
      }
    }
  }

  private void formula(int i, List<Clause> found) {
    CarvedWord word = words.get(i);
    prayer(i, found);
    employer(i, found);
    boolean event =
        word.is("departed", "died")
            && events.at(i).stream()
                .anyMatch(c -> c.content() instanceof Clause.Event e && !e.dates().isEmpty());
    if (word.in(PersonWords.FORMULA) && !event) {
      double weight = word.isDoubtful() ? 0.1 : 0.3;
      found.add(new Clause(Type.FORMULA, i, i + 1, weight));
    }
    if (beginsLine(i)) {
      int end = lineEnd(i);
      StringBuilder letters = new StringBuilder();
      for (int k = i; k < end; k++) {
        letters.append(words.get(k).folded());
      }
      if (ABBREVIATED.contains(letters.toString()) && end - i <= 4) {
        found.add(new Clause(Type.FORMULA, i, end, 5));
      }
      int onTop = i == 0 && end < words.size() ? initialsAndYearEnd(end) : i;
      if (onTop > i) {
        found.add(new Clause(Type.IGNORED, i, onTop, 6));
      }
      if (end - i > 1 && words.get(end - 1).is(BODIES) && !word.is("the")) {
        found.add(new Clause(Type.IGNORED, i, end, (i == 0 ? 4 : 2) + 0.5 * (end - i)));
      }
      // A line in brackets or quotes tells how he was called.
      boolean called =
          i > 0
              && end - i < 4
              && opens(word, "(“\"'‘")
              && words.get(end - 1).shown().matches(".*[)”\"'’][,.]?");
      if (called) {
        found.add(new Clause(Type.IGNORED, i, end, 5 + end - i));
      }
    }
  }

  /** {@code W. M. 1746} on top of a stone that says who it is below. */
  private int initialsAndYearEnd(int end) {
    boolean initials = words.get(0).isInitial();
    for (CarvedWord word : words.subList(0, end)) {
      initials &= word.folded().length() < 2 || word.folded().matches("1[5-9][0-9]{2}|&");
    }
    // The year may have a line of its own below the initials.
    int year =
        end + 1 < words.size()
                && lineEnd(end) == end + 1
                && words.get(end).folded().matches("1[5-9][0-9]{2}")
                && end > 1
            ? end + 1
            : end;
    boolean alone = end < 5 && year == end && words.get(end).is("here", "in", "sacred");
    return initials && (alone || words.get(year - 1).hasFigure()) ? year : 0;
  }

  /** A surname on a line of its own over persons, or {@code THE SMITH FAMILY}. */
  private void heading(int i, List<Clause> found) {
    int end = lineEnd(i);
    if (!beginsLine(i) || end - i > 3) {
      return;
    }
    int at = i;
    at += words.get(at).is("the") && at + 1 < end ? 1 : 0;
    boolean family = words.get(end - 1).is("family", "families", "vault", "plot", "lot", "burial");
    int last = family ? end - 1 : end;
    if (last - at != 1 || !names.mayBeName(at)) {
      return;
    }
    if (words.get(at).is("unknown", "baby", "infant")) {
      return;
    }
    boolean given = NameWords.isGiven(words.get(at));
    boolean followed = end < words.size();
    double weight =
        (given ? (i == 0 && (standOverRows(end) || isBorneBelow(at)) ? 3.5 : -0.6) : 0.9)
            + (family ? 2 : 0)
            + (i == 0 ? 0.4 : 0);
    weight -= isWordOfOtherKind(at) ? 2.2 : 0;
    weight -= PersonWords.TITLES.contains(words.get(at).folded()) ? 2 : 0;
    weight += followed ? 0 : 0.3;
    found.add(new Clause(Type.HEADING, i, end, weight, new Clause.Valued(at, last)));
  }

  /** Whether two lines and more below hold given names alone and then a figure: a family's rows. */
  private boolean standOverRows(int from) {
    int rows = 0;
    int i = from;
    while (i < words.size()) {
      int end = lineEnd(i);
      int figure = i;
      while (figure < end && !words.get(figure).hasFigure() && dates.at(figure).isEmpty()) {
        figure++;
      }
      boolean dated =
          figure < end
              || (end < words.size() && (words.get(end).hasFigure() || dates.at(end).isPresent()));
      boolean own = false;
      boolean other = figure - i > 3;
      for (int k = i; k < figure; k++) {
        own |= NameWords.isGiven(words.get(k));
        other |= !NameWords.isGiven(words.get(k)) && !words.get(k).isInitial();
      }
      own &= !other;
      rows += dated && own ? 1 : 0;
      i = end;
    }
    return rows > 1;
  }

  /** Whether the word is a surname further down, as in {@code LEE / ALEXANDER LEE}. */
  private boolean isBorneBelow(int at) {
    for (int k = at + 2; k < words.size(); k++) {
      if (words.get(k).folded().equals(words.get(at).folded())
          && !beginsLine(k)
          && (NameWords.isGiven(words.get(k - 1)) || words.get(k - 1).isInitial())) {
        return true;
      }
    }
    return false;
  }

  private boolean isWordOfOtherKind(int i) {
    String folded = words.get(i).folded();
    return PersonWords.OCCUPATIONS.contains(folded)
        || PersonWords.KIN.contains(folded)
        || PersonWords.TITLES.contains(folded)
        || PersonWords.CONDITIONS.contains(folded)
        || PersonWords.COMFORT.contains(folded)
        || PersonWords.SPEECH.contains(folded)
        || PersonWords.ARMS.contains(folded);
  }

  private void persons(int i, List<Clause> found) {
    if (words.get(i).isGap()) {
      boolean mayStand =
          beginsLine(i)
              || words.get(i - 1).in(PersonWords.FORMULA_ENDS)
              || words.get(i - 1).in(PersonWords.KIN);
      if (!mayStand) {
        return;
      }
      int next = i + 1;
      while (next < words.size()
          && words.get(next).isGap()
          && words.get(next).line() == words.get(i).line()) {
        next++;
      }
      boolean line = beginsLine(i) && endsLine(next);
      boolean looked =
          i == 0
              || words.get(i - 1).in(PersonWords.FORMULA_ENDS)
              || words.get(i - 1).in(PersonWords.KIN);
      boolean figure =
          next == i + 1
              && words.get(i).folded().length() < 3
              && words.get(i).folded().indexOf('…') < 0;
      if (figure && !line) {
        return;
      }
      Detail.Name unnamed = new Detail.Name("", "", "", List.of(), List.of());
      NameWords.Found gap =
          new NameWords.Found(
              next,
              List.of(new NameWords.Bearer(i, next, unnamed, true)),
              false,
              line ? (looked ? -0.4 : -3) : -1);
      found.add(new Clause(Type.PERSON, i, next, gap.weight(), new Clause.Names(gap)));
      return;
    }
    if (i > 0
        && (words.get(i - 1).in(PersonWords.SHIPS) && !beginsLine(i)
            || words.get(i - 1).is("in", "at", "near", "from", "off", "apud", "this")
            || (words.get(i - 1).is("de") && !beginsLine(i))
            || (words.get(i - 1).is("to")
                && i > 1
                && (isTrade(i - 2) || words.get(i - 2).is("married", "remarried", "marrd")))
            || isOfHousehold(i))) {
      return;
    }
    if (beginsLine(i) && (spansOn(lineEnd(i)) == 2 || areTwoColumns(lineEnd(i)))) {
      names
          .sideBySide(i, lineEnd(i))
          .ifPresent(
              two ->
                  found.add(
                      new Clause(
                          Type.PERSON, i, two.end(), two.weight() + 3, new Clause.Names(two))));
    }
    // A name in quotes behind "in the" is that of a ship.
    boolean quoted = opens(words.get(i), "“\"'‘") && !beginsLine(i);
    if (quoted && words.get(i - 1).is("the")) {
      return;
    }
    List<NameWords.Found> ways = names.at(i);
    for (NameWords.Found way : ways.subList(0, Math.min(MOST_NAME_WAYS, ways.size()))) {
      double weight = way.weight() - 0.6;
      boolean begins = beginsLine(i);
      boolean led =
          i > 0 && (words.get(i - 1).endsWith(",") || words.get(i - 1).shown().equals("·"));
      weight += begins ? 0.4 : led ? 0 : -0.6;
      weight += i > 0 && words.get(i - 1).shown().equals("·") ? 1.2 : 0;
      boolean nameless = way.end() == i + 1 && words.get(i).is("baby", "unknown");
      weight += nameless && begins && endsLine(i + 1) ? 1.2 : 0;
      boolean ends = endsLine(way.end()) || words.get(way.end() - 1).endsWith(",");
      weight += ends ? 0.4 : 0;
      weight += way.end() == i + 1 && isSetApart(i) ? 2 : 0;
      found.add(new Clause(Type.PERSON, i, way.end(), weight, new Clause.Names(way)));
    }
  }

  /** {@code and THEODOSIA, who died}: one word in capitals among small letters, and one more. */
  private boolean isSetApart(int i) {
    return i > 0
        && i + 1 < words.size()
        && words.get(i - 1).in(PersonWords.JOINS)
        && words.get(i).isAllCapitals()
        && words.get(i).folded().length() > 3
        && words.get(i + 1).is("who", "died", "aged", "born")
        && !words.get(i + 1).isAllCapitals();
  }

  /** {@code servant in the family of}: whose family it was is nobody who lies here. */
  private boolean isOfHousehold(int i) {
    return i > 3
        && words.get(i - 1).is("of")
        && words.get(i - 2).is("family")
        && words.get(i - 3).is("the")
        && words.get(i - 4).is("in", "to", "with", "by");
  }

  /** Whether two lines hold two whole dates each: births, and deaths below them. */
  private boolean areTwoColumns(int from) {
    return from < words.size() && datesOn(from) == 2 && datesOn(lineEnd(from)) == 2;
  }

  /** How many dates make up a line; none where there is anything else. */
  private int datesOn(int from) {
    int i = from;
    int count = 0;
    while (i < words.size() && words.get(i).line() == words.get(from).line()) {
      Optional<DateWords.Found> date = dates.at(i).filter(d -> d.value().length() > 4);
      if (date.isEmpty()) {
        return 0;
      }
      count++;
      i = date.get().end();
    }
    return count;
  }

  /** How many spans of years make up a line. */
  private int spansOn(int from) {
    int i = from;
    int spans = 0;
    while (i < words.size() && words.get(i).line() == words.get(from).line()) {
      List<Clause> dated = new ArrayList<>();
      dated(i, dated);
      int at = i;
      Optional<Clause> span =
          dated.stream().filter(c -> c.type() == Type.SPAN && c.to() > at).findFirst();
      if (span.isEmpty() && !words.get(i).is("&", "and")) {
        return 0;
      }
      spans += span.isPresent() ? 1 : 0;
      i = span.map(Clause::to).orElse(i + 1);
    }
    return spans;
  }

  /** {@code He}, {@code the latter}: whom the next facts are of. */
  private void pronoun(int i, List<Clause> found) {
    CarvedWord word = words.get(i);
    boolean capital = word.isCapitalised() || (i > 0 && words.get(i - 1).is("and", "&"));
    if (word.is("he", "she", "hee", "shee") && (capital || beginsLine(i))) {
      found.add(new Clause(Type.PRONOUN, i, i + 1, 0.3, new Clause.Text(word.folded())));
    }
    if (i + 1 < words.size()
        && word.is("the")
        && words
            .get(i + 1)
            .is("former", "latter", "first", "second", "husband", "wife", "father", "mother")) {
      found.add(
          new Clause(Type.PRONOUN, i, i + 2, 0.5, new Clause.Text(words.get(i + 1).folded())));
    }
    if (word.is("himself", "herself") && i > 0 && words.get(i - 1).is("of", "also", "and", "&")) {
      found.add(new Clause(Type.PRONOUN, i, i + 1, 2, new Clause.Text(word.folded())));
    }
    if (word.is("they", "both")) {
      found.add(new Clause(Type.PRONOUN, i, i + 1, 0.3, new Clause.Text("they")));
    }
  }

  private void dated(int i, List<Clause> found) {
    Optional<DateWords.Found> date = dates.at(i);
    if (date.isEmpty()) {
      return;
    }
    DateWords.Found first = date.get();
    if (isOfAnotherEvent(i)) {
      found.add(new Clause(Type.IGNORED, i, first.end(), 4));
      return;
    }
    int dash = first.end();
    if (dash < words.size() && words.get(dash).folded().equals("-") || isTo(dash)) {
      Optional<DateWords.Found> death =
          dash + 1 < words.size() ? dates.at(dash + 1) : Optional.empty();
      boolean open =
          death.isEmpty()
              && (endsLine(dash + 1)
                  || (dash + 1 < words.size()
                      && (words.get(dash + 1).is("&", "and")
                          || words.get(dash + 1).folded().matches("(19|20)[…?]+")
                          || words.get(dash + 1).isGap()
                          || words.get(dash + 1).folded().isEmpty())));
      boolean ofOffice = i > 0 && words.get(i - 1).is("from", "between");
      if (ofOffice && death.isPresent()) {
        found.add(new Clause(Type.IGNORED, i, death.get().end(), 5));
        return;
      }
      if (death.isPresent() || (open && words.get(dash).folded().equals("-"))) {
        int end = death.map(DateWords.Found::end).orElse(dash + 1);
        found.add(new Clause(Type.SPAN, i, end, 4.2, new Clause.Span(first, dash + 1, death)));
      }
    }
    List<DateWords.Found> several = dates.severalAt(i);
    List<DateWords.Found> all = several.isEmpty() ? List.of(first) : several;
    boolean year = first.value().length() <= 4;
    double weight = (year ? 1 : 2.4) + (beginsLine(i) ? 0.4 : 0);
    found.add(
        new Clause(
            Type.DATE,
            i,
            all.get(all.size() - 1).end(),
            weight,
            new Clause.Event(List.of(), all, i, Optional.empty(), "")));
  }

  /** Words of what befalls people besides; a date behind them is neither birth nor death. */
  private static final Set<String> OTHER_EVENTS =
      PersonWords.words(
          "emigrated arrived settled came landed sailed enlisted joined ordained installed inducted "
              + "elected appointed retired settler");

  private static final int MOST_BETWEEN = 8;

  /** {@code EMIGRATED 1832}, {@code arrived in this Colony 1839}. */
  private boolean isOfAnotherEvent(int i) {
    for (int k = i - 1; k >= 0 && i - k <= MOST_BETWEEN; k--) {
      CarvedWord word = words.get(k);
      if (OTHER_EVENTS.contains(word.folded())) {
        return true;
      }
      if (word.in(PersonWords.MONTHS_AND_EVENTS)
          || word.hasFigure()
          || word.endsWith(".")
          || word.is("aged", "age", "also", "and", "&", "who", "born", "died")
          || word.line() < words.get(i).line() - 1) {
        return false;
      }
    }
    return i + 1 < words.size() && words.get(i + 1).is("settler", "settlers");
  }

  private boolean isTo(int i) {
    return i + 1 < words.size()
        && words.get(i).is("to")
        && i > 0
        && words.get(i - 1).folded().matches(".*[0-9]{4}")
        && words.get(i + 1).isCapitalisedOrFigure();
  }

  /** {@code PHYSICIAN IN THIS TOWN 46 YEARS}: how long he was one, and no age. */
  private boolean isOfTrade(int i, int end) {
    if (!endsLine(end) || beginsLine(i) || words.get(i).is("aged", "age", "a", "ae", "at")) {
      return false;
    }
    int from = i;
    while (!beginsLine(from)) {
      from--;
    }
    boolean dated = false;
    for (int k = from; k < i; k++) {
      dated |= words.get(k).hasFigure() || words.get(k).endsWith(",");
    }
    return !dated && isOffice(from);
  }

  private void age(int i, List<Clause> found) {
    Optional<AgeWords.Found> served = ages.at(i).filter(a -> isOfTrade(i, a.end()));
    if (served.isPresent()) {
      found.add(new Clause(Type.IGNORED, i, served.get().end(), 3.2));
      return;
    }
    ages.at(i)
        .ifPresent(
            age ->
                found.add(
                    new Clause(
                        Type.AGE, i, age.end(), age.said() ? 3.2 : 0.6, new Clause.Aged(age))));
  }

  /** {@code née JONES}, {@code formerly JONES}, {@code alias JONES}, {@code or JONES}. */
  private void maiden(int i, List<Clause> found) {
    CarvedWord word = words.get(i);
    if (word.is("in") && i + 2 < words.size() && words.get(i + 1).is("religion")) {
      found.add(new Clause(Type.IGNORED, i, lineEnd(i), 5));
      return;
    }
    int at = i + 1;
    boolean maiden =
        word.in(OTHERWISE) || (word.is("or") && i > 0 && words.get(i - 1).isCapitalised());
    if (word.is("maiden") && at < words.size() && words.get(at).is("name", "surname")) {
      maiden = true;
      at++;
    }
    if (!maiden || at >= words.size() || !names.mayBeName(at)) {
      return;
    }
    boolean given = NameWords.isGiven(words.get(at));
    if (word.is("born") && beginsLine(i)) {
      return;
    }
    boolean strong = !word.is("or", "born", "otherwise");
    int to = at + 1;
    while (to < words.size() && names.isParticle(to - 1) && names.mayBeName(to)) {
      to++;
    }
    double weight = (strong ? 3 : 0.6) - (given ? 1 : 0);
    found.add(new Clause(Type.MAIDEN, i, to, weight, new Clause.Valued(at, to)));
  }

  private void service(int i, List<Clause> found) {
    boolean afterComma = i > 0 && words.get(i - 1).endsWith(",");
    services
        .at(i, afterComma)
        .forEach(
            f ->
                found.add(
                    new Clause(
                        isCrew(i) ? Type.IGNORED : Type.SERVICE,
                        i,
                        f.end(),
                        f.weight(),
                        new Clause.Serving(f.service()))));
  }

  /** Whether it is a whole crew that is spoken of, and nobody by name. */
  private boolean isCrew(int i) {
    for (int k = Math.max(0, i - 3); k < i; k++) {
      if (words.get(k).is("crew", "passengers", "men")) {
        return true;
      }
    }
    return false;
  }

  /** {@code Mariner}, {@code a mason in Kelby}, {@code 41 years schoolmaster here}. */
  private void occupation(int i, List<Clause> found) {
    int at = i;
    boolean years = false;
    if (at + 2 < words.size()
        && (words.get(at).is("for")
            || NumberWords.at(words, at).isPresent()
            || words.get(at).isGap())) {
      int number = words.get(at).is("for") ? at + 1 : at;
      boolean upwards =
          number + 1 < words.size()
              && words.get(number).is("upwards", "many", "nearly", "over", "above");
      number += upwards && words.get(number + 1).is("of") ? 2 : 0;
      Optional<NumberWords.Found> count = NumberWords.at(words, number);
      boolean many = number < words.size() && words.get(number).is("many");
      many |= number < words.size() && words.get(number).isGap();
      int after = many ? number + 1 : count.map(NumberWords.Found::end).orElse(-1);
      if (after > 0 && after + 1 < words.size() && words.get(after).is("years", "yrs")) {
        at = after + 1;
        years = true;
      }
    }
    int compoundFrom = -1;
    int lead = at;
    while (at < words.size() && at - lead < 3 && words.get(at).in(BEFORE_TRADE)) {
      at++;
    }
    if (at < words.size()
        && PersonWords.CONDITIONS.contains(words.get(at).folded())
        && (endsLine(at + 1) || words.get(at).endsWith(","))
        && (beginsLine(i) || words.get(i - 1).endsWith(","))) {
      found.add(new Clause(Type.IGNORED, i, at + 1, 2.4));
    }
    if (at >= words.size() || !(isTrade(at) || looksLikeTrade(at))) {
      int next = at;
      // "Parish Clerk", "Fustian Manufacturer": two words that are all of a line or a phrase.
      int title = titleOnLine(i);
      if (title > i) {
        found.add(new Clause(Type.OCCUPATION, i, title, 2.4, new Clause.Valued(i, title)));
      }
      boolean compound =
          next + 1 < words.size()
              && isTrade(next + 1)
              && words.get(next).isCapitalised()
              && words.get(next).isLetters()
              && words.get(next + 1).line() == words.get(next).line()
              && (led(next) || years)
              && endsPhrase(next + 2)
              && !words.get(next).endsWith(",")
              && !NameWords.isGiven(words.get(next))
              && !words.get(next).isInitial()
              && !PersonWords.NEVER_A_NAME.contains(words.get(next).folded());
      if (!compound) {
        return;
      }
      at = next + 1;
      compoundFrom = next;
    }
    int valueFrom = Math.min(compoundFrom < 0 ? at : compoundFrom, firstOf(lead, at));
    boolean shaped = !isTrade(at);
    int end = at + 1;
    boolean follows = i > 0 && (words.get(i - 1).endsWith(",") || !beginsLine(i));
    boolean led = lead < at || years;
    boolean wholeLine = beginsLine(i);
    double weight = -0.4;
    weight += i > 0 && words.get(i - 1).endsWith(",") ? 2.2 : 0;
    weight += wholeLine ? 1.6 : 0;
    weight += led && words.get(lead).is("a", "an", "by", "late") ? 1 : 0;
    weight += years ? 2.4 : 0;
    weight -= !shaped ? 0 : words.get(at).folded().matches(".*(man|ist|wright)") ? 0.6 : 1.4;
    weight -= follows && !words.get(at).endsWith(",") && !led && !endsLine(at + 1) ? 0.4 : 0;
    int tail = end;
    if (tail < words.size()
        && words.get(tail).in(PersonWords.SUFFIXES)
        && words.get(tail).line() == words.get(at).line()
        && words.get(tail).isAllCapitals()) {
      tail++;
    }
    found.add(
        new Clause(
            Type.OCCUPATION, i, tail, weight, new Clause.Valued(years ? i : valueFrom, tail)));
    boolean second =
        tail + 1 < words.size()
            && words.get(tail).is("&", "and")
            && isTrade(tail + 1)
            && words.get(tail + 1).line() == words.get(at).line();
    if (second) {
      found.add(
          new Clause(
              Type.OCCUPATION,
              i,
              tail + 2,
              weight + 2.4,
              new Clause.Valued(years ? i : valueFrom, tail + 2)));
    }
    // Where he worked is part of what is said of it: "mason in Kelby", "schoolmaster here".
    if (tail < words.size()
        && words.get(tail).is("here", "in", "at", "of")
        && words.get(tail).line() == words.get(at).line()) {
      int to = tail + 1;
      while (to < words.size()
          && (words.get(to).isCapitalised()
              || words.get(to).is("this", "the", "of")
              || (words.get(to - 1).is("this", "the") && words.get(to).is("parish", "town")))
          && words.get(to).line() == words.get(tail).line()
          && !PersonWords.MONTHS_AND_EVENTS.contains(words.get(to).folded())) {
        to++;
      }
      boolean here = words.get(tail).is("here");
      if (here || to > tail + 1) {
        found.add(
            new Clause(
                Type.OCCUPATION,
                i,
                here ? tail + 1 : to,
                weight + 1.2,
                new Clause.Valued(years ? i : valueFrom, tail)));
      }
    }
  }

  /** The end of a line that is an office whole, {@code ASSISTANT LOCO. SUPERINTENDENT}. */
  private int titleOnLine(int i) {
    int end = lineEnd(i);
    boolean office =
        i > 0
            && beginsLine(i)
            && end - i > 1
            && end - i < 5
            && (PersonWords.OFFICES.contains(words.get(end - 1).folded())
                || isTrade(end - 1)
                || words.get(end - 1).is("driver", "gunner", "operator", "navigator", "stoker"));
    for (int k = i; k < end && office; k++) {
      office =
          words.get(k).isCapitalised()
              && words.get(k).isLetters()
              && !words.get(k).isInitial()
              && !NameWords.isGiven(words.get(k))
              && !PersonWords.NEVER_A_NAME.contains(words.get(k).folded());
    }
    return office ? end : i;
  }

  /** Whether a phrase begins: a line, or behind a comma or "a", "late". */
  private boolean led(int i) {
    return beginsLine(i)
        || words.get(i - 1).endsWith(",")
        || words.get(i - 1).is("a", "an", "late", "the", "years");
  }

  /** Whether a phrase ends: a line, a comma, or where somebody worked follows. */
  private boolean endsPhrase(int to) {
    return endsLine(to)
        || words.get(to - 1).endsWith(",")
        || words.get(to).is("of", "in", "at", "to", "who", "&", "and", "here");
  }

  private static final Pattern LIKE_A_TRADE =
      Pattern.compile("\\p{L}{3,}(man|men|er|or|ist|wright|ician|ess|mate|ary)");

  private static final Pattern MADE_UP_TRADE =
      Pattern.compile(
          ".*(maker|monger|keeper|wright|smith|dresser|founder|seller|binder|layer|cutter|dealer"
              + "|finisher|manufacturer|worker|driver|burner|drawer|master|turner|grinder|weaver"
              + "|spinner|trader|holder|mistress)");

  private boolean isTrade(int i) {
    CarvedWord word = words.get(i);
    String folded = word.folded();
    boolean dashed = folded.indexOf('-') > 0;
    boolean called =
        i + 2 < words.size()
            && i > 0
            && words.get(i - 1).is("late", "sometime", "formerly")
            && words.get(i + 1).is("of", "in", "at", "to")
            && words.get(i + 2).isCapitalisedOrFigure()
            && folded.length() > 4
            && word.isLetters()
            && !PersonWords.NEVER_A_NAME.contains(folded)
            && !NameWords.isGiven(word);
    if (called) {
      return true;
    }
    boolean known = PersonWords.OCCUPATIONS.contains(dashed ? folded.replace("-", "") : folded);
    boolean plain = dashed || !word.isCapitalised();
    return known || (plain && folded.length() > 6 && MADE_UP_TRADE.matcher(folded).matches());
  }

  /** Whether a word that isn't known has the shape of a trade and a phrase to itself. */
  private boolean looksLikeTrade(int i) {
    CarvedWord word = words.get(i);
    return i > 0
        && led(i)
        && endsPhrase(i + 1)
        && LIKE_A_TRADE.matcher(word.folded()).matches()
        && !NameWords.isGiven(word)
        && !isWordOfOtherKind(i)
        && !PersonWords.OFFICES.contains(word.folded())
        && !PersonWords.NEVER_A_NAME.contains(word.folded())
        && !PersonWords.MONTHS_AND_EVENTS.contains(word.folded());
  }

  /** "master" and the like are part of a trade, "a" and "late" aren't. */
  private int firstOf(int lead, int at) {
    int from = at;
    while (from > lead && words.get(from - 1).is("master", "head", "chief")) {
      from--;
    }
    return from;
  }

  /** {@code of Kelby}, {@code a native of Kelby}, and a place set off by commas. */
  private void origin(int i, List<Clause> found) {
    int at = i;
    boolean native1 = false;
    if (words
        .get(at)
        .is("late", "formerly", "now", "both", "all", "natives", "native", "resident", "then")) {
      native1 = words.get(at).is("native", "natives");
      at++;
    } else if (words.get(at).is("a", "an")
        && at + 1 < words.size()
        && words.get(at + 1).is("native", "resident", "inhabitant", "parishioner", "citizen")) {
      native1 = true;
      at += 2;
    } else if (words.get(at).is("who")
        && at + 3 < words.size()
        && words.get(at + 1).is("was")
        && words.get(at + 2).is("a")
        && words.get(at + 3).is("native")) {
      native1 = true;
      at += 4;
    }
    boolean of =
        at < words.size() && (words.get(at).is("of") || (words.get(at).is("from") && at == i));
    int from = of ? at + 1 : at;
    if (!of && (native1 || at > i || words.get(i).is("in"))) {
      return;
    }
    boolean afterComma = i > 0 && words.get(i - 1).endsWith(",");
    boolean afterTrade = i > 0 && isTrade(i - 1) && !beginsLine(i);
    if (!of && !afterComma && !afterTrade && !(beginsLine(i) && i > 0)) {
      return;
    }
    boolean parish = false;
    int start = from;
    while (from < words.size()
        && words.get(from).in(BEFORE_PLACE)
        && words.get(from).line() - words.get(i).line() <= 1) {
      parish |= words.get(from).is("city", "town", "parish", "county", "village", "this");
      from++;
    }
    boolean ofNoPlace =
        from > start
            && from < words.size()
            && words.get(from - 1).is("this")
            && words
                .get(from)
                .is("school", "church", "chapel", "stone", "ground", "yard", "institution");
    if (ofNoPlace) {
      return;
    }
    if (from > start
        && words.get(from - 1).is("parish", "town", "city", "village")
        && words.get(start).is("this")) {
      found.add(new Clause(Type.ORIGIN, i, from, 1.4, new Clause.Valued(start, from)));
      return;
    }
    int end = from;
    boolean number =
        !of
            && from + 1 < words.size()
            && words.get(from).folded().matches("[0-9]{1,3}[a-z]?")
            && isPlaceWord(from + 1)
            && words.get(from + 1).line() == words.get(from).line();
    end += number ? 1 : 0;
    while (end < words.size()
        && words.get(end).line() == words.get(from).line()
        && isPlaceWord(end)
        && end - from < 5) {
      end++;
      if (!of && !number && words.get(end - 1).endsWith(",") && end - from >= 2) {
        break;
      }
    }
    boolean dotted = end > from && words.get(from).shown().matches("(\\p{Lu}\\.){2,}.*");
    boolean quoted = end > from && opens(words.get(from), "“\"'‘(\\");
    if (dotted || (quoted && !of)) {
      return;
    }
    int county = Math.max(countyEnd(end), townshipEnd(end));
    if (of && county > end) {
      found.add(new Clause(Type.ORIGIN, i, county, 4.5, new Clause.Valued(start, end)));
    }
    for (int to = end; to > from; to--) {
      double weight = of ? 1.1 : afterComma || afterTrade ? 0.1 : -0.6;
      weight += native1 ? 2 : 0;
      weight += parish ? 0.6 : 0;
      weight += endsLine(to) || words.get(to - 1).endsWith(",") ? 0.8 : -0.4;
      weight -= NameWords.isGiven(words.get(from)) ? (of ? 1 : 2) : 0;
      weight -=
          PersonWords.ARMS.contains(words.get(to - 1).folded())
                  || PersonWords.WAR_WORDS.contains(words.get(to - 1).folded())
              ? 3
              : 0;
      weight -= (isWordOfOtherKind(from) || isOffice(from) || isOffice(to - 1)) && !of ? 2.5 : 0;
      weight -= PersonWords.SHIPS.contains(words.get(from).folded()) ? 2 : 0;
      weight += 0.15 * (to - from);
      found.add(new Clause(Type.ORIGIN, i, to, weight, new Clause.Valued(start, to)));
    }
  }

  private boolean isOffice(int i) {
    return isTrade(i) || PersonWords.OFFICES.contains(words.get(i).folded());
  }

  /** The end of {@code in this County}, {@code in the County of Clonmere}; else the start. */
  private int countyEnd(int i) {
    if (i + 2 >= words.size()
        || !words.get(i).is("in")
        || !words.get(i + 1).is("this", "the", "ye", "said")) {
      return i;
    }
    if (words.get(i + 2).is("east", "west") && i + 3 < words.size()) {
      return words.get(i + 3).is("indies") ? i + 4 : i;
    }
    if (!words
        .get(i + 2)
        .is(
            "county",
            "parish",
            "town",
            "city",
            "shire",
            "co",
            "state",
            "province",
            "colony",
            "isle",
            "island",
            "neighbourhood")) {
      return i;
    }
    int end = i + 3;
    if (end + 1 < words.size() && words.get(end).is("of") && words.get(end + 1).isCapitalised()) {
      end++;
      int line = words.get(end).line();
      while (end < words.size() && words.get(end).line() == line && isPlaceWord(end)) {
        end++;
      }
    }
    return end;
  }

  /** The end of {@code Township of North Wannock} behind a comma; else the start. */
  private int townshipEnd(int i) {
    int at = i - 1;
    if (at < 1
        || i + 1 >= words.size()
        || !words.get(at - 1).endsWith(",")
        || !words.get(at).is("township", "county", "parish", "state", "province", "barony", "town")
        || !words.get(i).is("of")) {
      return i;
    }
    int end = i + 1;
    while (end < words.size() && words.get(end).line() == words.get(i).line() && isPlaceWord(end)) {
      end++;
    }
    return end;
  }

  private boolean isPlaceWord(int i) {
    CarvedWord word = words.get(i);
    boolean small =
        word.is("of", "on", "upon", "by", "in", "the", "near", "&")
            && i + 1 < words.size()
            && words.get(i + 1).isCapitalised()
            && words.get(i + 1).line() == word.line()
            && i > 0
            && words.get(i - 1).isCapitalised();
    boolean street = word.is("st") && i > 0 && words.get(i - 1).line() == word.line();
    return (word.isCapitalised()
            && word.isLetters()
            && (street || !PersonWords.NEVER_A_NAME.contains(word.folded()))
            && dates.at(i).isEmpty()
            && !PersonWords.MONTHS_AND_EVENTS.contains(word.folded()))
        || (small && !PersonWords.NEVER_A_NAME.contains(words.get(i + 1).folded()));
  }

  /** {@code First interred}, {@code 2nd burial}. */
  private void order(int i, List<Clause> found) {
    if (i + 1 >= words.size()
        || !words.get(i + 1).is("interred", "interrd", "buried", "burial", "interment")) {
      return;
    }
    String place =
        switch (words.get(i).folded()) {
          case "first", "1st" -> "1";
          case "second", "2nd", "2d" -> "2";
          case "third", "3rd", "3d" -> "3";
          case "fourth", "4th" -> "4";
          case "fifth", "5th" -> "5";
          default -> "";
        };
    if (!place.isEmpty()) {
      found.add(new Clause(Type.ORDER, i, i + 2, 4, new Clause.Text(place)));
    }
  }

  /** {@code Removed from the Old Chapel Yard / by his grandsons, 1902}. */
  private void removal(int start, List<Clause> found) {
    boolean said =
        beginsLine(start)
            && words.get(start).is("removed", "reinterred", "reinterrd", "reburied", "moved")
            && start + 1 < words.size()
            && words.get(start + 1).is("from", "to", "here", "in");
    if (!said) {
      return;
    }
    int end = start;
    int line = words.get(start).line();
    while (end < words.size()
        && (words.get(end).line() == line
            || (words.get(end).line() == line + 1
                && (words.get(end).is("by", "in", "to", "from")
                    || words.get(end - 1).line() == line + 1)))) {
      end++;
    }
    found.add(new Clause(Type.REMOVAL, start, end, 6 + 0.3 * (end - start)));
  }

  private static final Pattern POINTED_INITIALS = Pattern.compile("(\\p{Lu}\\.)+,?");

  /** At the foot or on top: {@code I. Pask, sculpt.}, {@code Tull & Son, Tarrow}. */
  private void maker(int start, List<Clause> found) {
    if (!beginsLine(start)) {
      return;
    }
    int end = lineEnd(start);
    boolean lastLine = end == words.size();
    boolean firstLine = start == 0;
    if (end - start > 9) {
      return;
    }
    List<CarvedWord> line = words.subList(start, end);
    boolean figures = line.stream().anyMatch(w -> w.hasFigure());
    boolean signed = false;
    for (int k = 0; k < line.size(); k++) {
      CarvedWord w = line.get(k);
      boolean trade =
          w.in(PersonWords.MAKERS) && (k > 0 || w.is("cut", "made", "fecit", "sculpsit"));
      signed |= trade;
    }
    boolean firm = false;
    for (int k = 1; k + 1 < line.size(); k++) {
      firm |=
          line.get(k).is("&", "and")
              && line.get(k - 1).isCapitalised()
              && line.get(k + 1).is("son", "sons", "co", "bros", "brothers", "coy", "company")
              && line.stream().noneMatch(w -> w.is("of", "his", "her"));
    }
    boolean initial =
        line.get(0).isInitial() || POINTED_INITIALS.matcher(line.get(0).shown()).matches();
    boolean placed = line.size() >= 3 && line.get(line.size() - 2).endsWith(",");
    if (!signed && !firm && !(initial && placed)) {
      return;
    }
    boolean comma = line.size() >= 3 && line.stream().anyMatch(w -> w.endsWith(","));
    boolean capitals =
        line.stream()
            .filter(w -> !w.in(PersonWords.FORMULA))
            .allMatch(w -> w.isCapitalised() || w.in(PersonWords.MAKERS) || w.folded().isEmpty());
    boolean kin = line.stream().anyMatch(w -> w.in(OF_NO_MAKER));
    double weight = -4;
    if (signed && capitals && !kin) {
      weight = comma || line.get(line.size() - 1).in(PersonWords.MAKERS) || initial ? 3.5 : 1;
    } else if (firm && !kin && (placed || line.size() <= 4)) {
      weight = 3.5;
    } else if (initial && placed && capitals && !kin && line.size() <= 4 && !figures) {
      weight = lastLine ? 2.4 : 0.4;
    }
    if (weight > -4) {
      weight += 1.1 * (end - start);
      weight += lastLine ? 1 : firstLine ? -1 : end + 4 >= words.size() ? 0.4 : -1.5;
      weight -= figures ? 1.5 : 0;
      found.add(new Clause(Type.MAKER, start, end, weight));
    }
  }

  /** {@code JOHN SMITH of Kelby / erected this stone}. */
  private void erector(int start, List<Clause> found) {
    if (!beginsLine(start) || start > MOST_BEFORE_ERECTOR) {
      return;
    }
    List<NameWords.Found> ways = names.at(start);
    for (NameWords.Found way : ways.subList(0, Math.min(MOST_NAME_WAYS, ways.size()))) {
      int at = way.end();
      while (at < words.size()
          && at - way.end() < MOST_BEFORE_ERECTED
          && !words.get(at).in(PersonWords.SETTING_UP)
          && !isFormulaAhead(at)
          && dates.at(at).isEmpty()) {
        at++;
      }
      boolean stone =
          at + 2 < words.size()
              && words.get(at).in(PersonWords.SETTING_UP)
              && words.get(at + 1).is("this", "the", "here")
              && words
                  .get(at + 2)
                  .is(
                      "stone",
                      "monument",
                      "tomb",
                      "headstone",
                      "cross",
                      "memorial",
                      "tablet",
                      "to");
      if (stone) {
        found.add(
            new Clause(
                Type.ERECTED,
                start,
                at + 3,
                6 + way.weight() + 0.4 * (at + 3 - way.end()),
                new Clause.Valued(start, way.end())));
      }
    }
  }

  /** {@code Erected by John Smith of Kelby}, {@code this stone is placed by his wife ELSIE}. */
  private void erected(int start, List<Clause> found) {
    int i = start;
    while (i < words.size() && i - start < 5 && words.get(i).in(OF_A_STONE)) {
      i++;
    }
    if (i >= words.size() || !words.get(i).in(PersonWords.SETTING_UP)) {
      return;
    }
    i++;
    while (i < words.size() && words.get(i).is("up", "here", "1st", "and", "lovingly")) {
      i++;
    }
    if (i >= words.size() || !words.get(i).is("by")) {
      return;
    }
    namedBy(start, i + 1, Type.ERECTED, 8, found);
  }

  /** {@code sadly missed by Sharon, Darren and baby Kylie}, {@code by his loving wife ELSIE}. */
  private void mourners(int start, List<Clause> found) {
    int i = start;
    boolean said = false;
    while (i < words.size()
        && i - start < 7
        && (words.get(i).in(HOW_MISSED) || words.get(i).in(PersonWords.MOURNING))) {
      said |= words.get(i).in(PersonWords.MOURNING) || words.get(i).is("survived");
      if (words.get(i).is("by", "from", "leaving", "leaves")) {
        i++;
        break;
      }
      i++;
    }
    if (i == start
        || i >= words.size()
        || !words.get(i - 1).is("by", "from", "leaving", "leaves")) {
      return;
    }
    if (!said
        && !words.get(i - 1).is("leaving", "leaves")
        && !(beginsLine(start) && isMourner(i))) {
      return;
    }
    namedBy(start, i, Type.MOURNERS, said ? 5 : 1, found);
  }

  private boolean isMourner(int i) {
    return words.get(i).is("his", "her", "their", "the", "all", "loving") && kinNear(i);
  }

  private boolean kinNear(int i) {
    for (int k = i; k < Math.min(words.size(), i + 5); k++) {
      if (words.get(k).in(PersonWords.KIN)
          || words
              .get(k)
              .is("family", "friends", "mum", "dad", "nan", "comrades", "pals", "mates")) {
        return true;
      }
    }
    return false;
  }

  private static final Set<String> MOURNERS_WORDS =
      PersonWords.words(
          "his her their the all and & loving sorrowing beloved bereaved family friends friend comrades mum dad mam nan "
              + "grandad grandma grandchildren great baby little affectionate surviving disconsolate widowed dear devoted "
              + "whole entire relatives relations members of crew shipmates pupils parishioners congregation few sisters "
              + "two three four five six seven eight nine ten many his large circle who us both a an only afflicted heartbroken "
              + "inhabitants people townspeople subscribers subscription public voluntary schoolfellows scholars sunday school "
              + "lodge employees workmen fellow officers brother men society mates pals staff neighbours");

  /** Whoever follows "by": kin words and names, to where something else begins. */
  private void namedBy(int start, int from, Type type, double weight, List<Clause> found) {
    int i = from;
    while (i < words.size() && i - from < 40) {
      CarvedWord word = words.get(i);
      boolean kin = word.in(PersonWords.KIN) || word.in(MOURNERS_WORDS);
      if (kin) {
        i++;
        continue;
      }
      boolean afterComma = i > from && words.get(i - 1).endsWith(",");
      boolean place = i > from && words.get(i - 1).is("of", "in", "at") && !kin;
      if (place) {
        i--;
        break;
      }
      boolean trade = PersonWords.OCCUPATIONS.contains(word.folded()) && afterComma;
      boolean stop =
          trade
              || (type == Type.ERECTED
                  && afterComma
                  && !NameWords.isGiven(word)
                  && !word.isInitial())
              || isFormulaAhead(i)
              || !names.mayBeName(i)
                  && !PersonWords.TITLES.contains(word.folded())
                  && !word.isGap();
      if (stop) {
        break;
      }
      // Names go on over a line end only after "and" or a comma, or where none has come yet.
      boolean newLine = i > from && word.line() != words.get(i - 1).line();
      boolean open =
          i > from
              && (words.get(i - 1).is("and", "&", "his", "her", "the")
                  || words.get(i - 1).endsWith(",")
                  || words.get(i - 1).in(PersonWords.KIN)
                  || words.get(i - 1).in(MOURNERS_WORDS));
      boolean givenBefore = i > from && NameWords.isGiven(words.get(i - 1)) && i - 1 > from - 1;
      if (newLine && !open && !(type == Type.ERECTED && givenBefore && !NameWords.isGiven(word))) {
        break;
      }
      i++;
    }
    if (i > from) {
      int end = i;
      while (end > from + 1 && words.get(end - 1).is("and", "&", "the", "of")) {
        end--;
      }
      found.add(
          new Clause(type, start, end, weight + mourned(from, end), new Clause.Valued(from, end)));
    }
  }

  private double mourned(int from, int to) {
    double weight = 0;
    for (int i = from; i < to; i++) {
      CarvedWord word = words.get(i);
      boolean plain = word.in(PersonWords.KIN) || word.in(MOURNERS_WORDS);
      weight += plain ? 0.5 : NameWords.isGiven(word) ? 2.2 : 1.4;
    }
    return weight;
  }

  private boolean isFormulaAhead(int i) {
    return words.get(i).in(PersonWords.MEMORY)
        || (words.get(i).is("in", "to")
            && i + 1 < words.size()
            && words
                .get(i + 1)
                .is("memory", "loving", "the", "remembrance", "fond", "affectionate"))
        || words.get(i).is("sacred", "who", "died", "aged", "also");
  }

  private static final Set<String> EVENT_VERBS =
      PersonWords.words(
          "departed died born aged buried interred deceased obiit erected memory native killed drowned murdered "
              + "accidentally accident wounds wounded perished slain shipwrecked");

  /** Words by which a line tells of somebody's life or of the stone, and is no verse. */
  private static final Pattern PROSE =
      Pattern.compile(
          "(whose|whom|after|leaving|having|during|where he|where she|and buried) .*"
              + "|who (?!dies?\\b|sleeps?\\b|loves?\\b|trusts?\\b|lives?\\b|in\\b|could\\b|would\\b).*"
              + "|(in|and) (the )?[0-9]+(st|d|nd|rd|th)? .*|(a |an )?natives? .*"
              + "|.*\\b(year|years|yrs) of (his|her|age|their|a)\\b.*"
              + "|.*\\bof (his|her) (ministry|religious|age|incumbency|reign)\\b.*"
              + "|.*\\b(mark|token|tribute|testimony|testimonial|expression) of\\b.*"
              + "|.*\\b(this|the same|hac in) (parish|town|township|place|city|county|village|station|church"
              + "|district|colony|island|villa)\\b.*"
              + "|.*\\b(survived|fortified|rites|caused|erected|settlers?|residence|extensive|practice"
              + "|remains|interred|memoriam|remembrance|service|killed|inst|ult|posterity|esteem|regard"
              + "|attempt|gold fields|justices|lyeth|lyes|his body|raised|scattered|left a (wife|widow)|were laid|remaines|ashes|hujus|annos|denati)\\b.*"
              + "|.*\\b(to the|in) (loving |sacred )?memory of\\b.*"
              + "|.*\\b(many|several|[0-9]+|twenty|thirty|forty|fifty) (years|yrs)\\b.*|age (not )?(un)?known"
              + "|here (lyes|lyeth|lieth|ly|in hope|rest in hope)\\b.*|to mourn (their|his|her)( irreparable)? loss"
              + "|.*\\bto bemoan\\b.*|.*\\bhopes? of an?\\b.*|one of (the|his|her|ye)\\b.*"
              + "|(he|she) (served|was (one|born|buried|the))\\b.*|love and respect"
              + "|of (the )?same|in (the )?.*\\b(mine|pit|shaft|quarry|court|factory|colliery)\\b.*"
              + "|which (he|she) .*"
              + "|(judge|religious|member|founder|clerk|master) of .*|.*\\bby her side");

  /** Kin as they are called on a line of their own over or under a name. */
  private static final Set<String> CALLED =
      PersonWords.words(
          "a an my our his her their the to and & of dear dearest dearly loving loved beloved devoted "
              + "darling precious tender affectionate kind good best little own wonderful much only "
              + "grandad grandma granddad nan nana nanna gran granny taid nain friend auntie aunty pop "
              + "grannie grandpa");

  /** {@code A DEAR MUM AND NAN}, {@code MY DEAR HUSBAND}: who the one named above or below was. */
  private boolean isCalled(int start, int end) {
    boolean kin = false;
    for (int i = start; i < end; i++) {
      boolean relation = words.get(i).in(PersonWords.KIN);
      kin |= relation;
      if (!relation && !words.get(i).in(CALLED)) {
        return false;
      }
    }
    return kin && !words.get(end - 1).is("dear", "dearest", "beloved", "loved", "of", "to", "own");
  }

  private boolean isProse(int start, int end) {
    if (end < words.size() && isCalled(start, end)) {
      return true;
    }
    StringBuilder line = new StringBuilder();
    for (int i = start; i < end; i++) {
      line.append(i == start ? "" : " ").append(words.get(i).folded());
    }
    return PROSE.matcher(line).matches();
  }

  /** A line of verse or words of comfort. */
  private void verse(int start, List<Clause> found) {
    if (!beginsLine(start)) {
      return;
    }
    int end = lineEnd(start);
    double weight = -0.9;
    int known = 0;
    boolean speech = false;
    for (int i = start; i < end; i++) {
      CarvedWord word = words.get(i);
      String folded = word.folded();
      if (folded.isEmpty() || word.isGap()) {
        continue;
      }
      if (word.hasFigure()) {
        weight -= 2.5;
        continue;
      }
      known += folded.length() > 1 ? 1 : 0;
      boolean kinship =
          PersonWords.KIN.contains(folded) && i + 1 < end && words.get(i + 1).is("of", "to");
      weight -= kinship ? 2 : 0;
      weight -= EVENT_VERBS.contains(folded) ? 1.3 : 0;
      boolean running = PersonWords.SPEECH.contains(folded);
      boolean comfort = PersonWords.COMFORT.contains(folded);
      boolean small = !word.isCapitalised();
      speech |= running || comfort;
      if (running && comfort) {
        weight += 0.6;
      } else if (running) {
        weight += 0.45;
      } else if (comfort) {
        weight += 0.6;
      } else if (NameWords.isGiven(word)) {
        weight -= 0.7;
      } else {
        weight += small ? 0.5 : word.isAllCapitals() ? -0.1 : -0.5;
      }
    }
    boolean enough = known >= 2 && (speech || known >= RUNNING_WORDS);
    boolean ofKin =
        PersonWords.KIN.contains(words.get(end - 1).folded())
            && words.get(start).is("and", "&", "also", "his", "her", "their", "infant");
    weight -= ofKin ? 1.5 : 0;
    boolean quoted = opens(words.get(start), "“\"'‘");
    weight += quoted ? 1.5 : 0;
    boolean goesOn = end < words.size() && words.get(end - 1).is("of", "who");
    if (goesOn && !quoted) {
      return;
    }
    if (enough && isProse(start, end)) {
      found.add(new Clause(Type.IGNORED, start, end, weight));
    } else if (enough || quoted) {
      found.add(new Clause(Type.VERSE, start, end, weight));
    }
  }

  /** Before books of scripture of which there are several. */
  private static final Set<String> OF_BOOKS = Set.of("1", "2", "3", "i", "ii", "1st", "2nd", "2d");

  /** {@code Rev. xiv. 13}, {@code 2 Tim. iv. 7}. */
  private void scripture(int start, List<Clause> found) {
    int i = start + (OF_BOOKS.contains(words.get(start).folded()) ? 1 : 0);
    if (i + 1 >= words.size()
        || !PersonWords.SCRIPTURE.contains(words.get(i).folded())
        || words.get(i + 1).line() != words.get(i).line()) {
      return;
    }
    int chapter = i + 1 + (words.get(i + 1).is("chap", "ch", "chapter", "c") ? 1 : 0);
    if (chapter >= words.size()
        || !isChapter(words.get(chapter))
        || isYearLike(words.get(chapter))) {
      return;
    }
    int end = chapter + 1;
    while (end < words.size()
        && words.get(end).line() == words.get(start).line()
        && (words.get(end).is("v", "ver", "verse", "verses", "-", "&", "and", "vs", "vv")
            || isChapter(words.get(end)))) {
      end++;
    }
    boolean span = words.subList(chapter, end).stream().anyMatch(ClauseGrammar::isYearLike);
    if (endsLine(end) && !span) {
      found.add(new Clause(Type.SCRIPTURE, start, end, 4.5));
    }
  }

  private static boolean isYearLike(CarvedWord word) {
    return word.folded().matches("1[5-9][0-9?]{2}.*");
  }

  private static boolean isChapter(CarvedWord word) {
    String plain = word.folded();
    return plain.matches("[0-9]{1,3}|[0-9]{1,3}[0-9-]{1,7}")
        || word.shown().matches("[0-9]{1,3}[:.][0-9]{1,3}[0-9,.-]*")
        || RomanNumeral.parse(plain).orElse(999) <= 150;
  }

  private static final Set<String> DITTO_MARKS = Set.of("\"", "”", "“", "„", "″", "''", ",,");

  /** {@code "}, {@code do.}: as in the row above. */
  private void ditto(int i, List<Clause> found) {
    CarvedWord word = words.get(i);
    boolean mark =
        word.shown().length() < 6 && (word.is("do", "ditto") || DITTO_MARKS.contains(word.shown()));
    if (!mark) {
      return;
    }
    found.add(new Clause(Type.DITTO, i, i + 1, 1.5));
    int number = i + 1;
    boolean age =
        number < words.size()
            && words.get(number).folded().matches("[0-9]{1,2}")
            && words.get(number).line() == words.get(i).line();
    if (age) {
      int end = number + 1;
      boolean unit =
          end < words.size()
              && words.get(end).line() == words.get(i).line()
              && words.get(end).folded().isEmpty();
      String value = "P" + Integer.parseInt(words.get(number).folded()) + "Y";
      AgeWords.Found aged =
          new AgeWords.Found(
              end,
              value,
              Optional.of(CarvedLife.WornAge.ofYears(Worn.of(words.get(number).folded()))),
              true);
      found.add(new Clause(Type.AGE, i, unit ? end + 1 : end, 3.5, new Clause.Aged(aged)));
    }
  }

  /** How well a clause follows another, in natural logarithms of odds. */
  double follows(Clause before, Clause after) {
    double weight = 0;
    Type b = before.type();
    switch (after.type()) {
      case PERSON -> weight += personAfter(before, after);
      case KIN -> {
        boolean points = after.content() instanceof Clause.Kin k && k.kin().joined();
        if (points && !before.is(Type.PERSON, Type.KIN)) {
          weight -= 0.6;
        }
        weight +=
            b == Type.PERSON || b == Type.FORMULA || b == Type.KIN || b == Type.MAIDEN ? 0.6 : 0;
        weight -= b == Type.VERSE ? 1 : 0;
        weight += b == Type.PERSON && isGivenOnly(before) ? 0.6 : 0;
        weight +=
            before.is(Type.SPAN, Type.DATE, Type.EVENT, Type.AGE) && beginsLine(after.from())
                ? 0.3
                : 0;
        if (b == Type.PERSON
            && before.content() instanceof Clause.Names n
            && n.names().bearers().size() > 1
            && after.content() instanceof Clause.Kin k
            && !k.kin().possessor().isEmpty()
            && !k.kin().isPlural()) {
          weight -= 2.5;
        }
      }
      case EVENT, DATE, SPAN, AGE -> {
        boolean aboutSomebody =
            before.is(
                Type.PERSON,
                Type.KIN,
                Type.EVENT,
                Type.DATE,
                Type.AGE,
                Type.SPAN,
                Type.MAIDEN,
                Type.SERVICE,
                Type.OCCUPATION,
                Type.ORIGIN,
                Type.PRONOUN,
                Type.CAUSE,
                Type.DITTO);
        weight += aboutSomebody ? 0.7 : 0;
        weight -= b == Type.VERSE ? 2.6 : b == Type.MAKER ? 8 : 0;
        weight -= after.type() == Type.DATE && isDateless(before) ? 3 : 0;
        weight -= after.type() == Type.DATE && !aboutSomebody ? 1 : 0;
        weight -= after.type() == Type.AGE && !aboutSomebody && b != Type.FORMULA ? 1 : 0;
        if (after.type() == Type.AGE
            && after.content() instanceof Clause.Aged a
            && !a.age().said()
            && !before.is(Type.DATE, Type.EVENT, Type.PERSON, Type.DITTO, Type.KIN)) {
          weight -= 1.5;
        }
      }
      case MAIDEN -> weight += b == Type.PERSON ? 0.8 : b == Type.KIN ? -0.4 : -2;
      case OCCUPATION, ORIGIN, SERVICE -> {
        boolean afterName =
            before.is(
                Type.PERSON,
                Type.MAIDEN,
                Type.SERVICE,
                Type.OCCUPATION,
                Type.ORIGIN,
                Type.KIN,
                Type.ERECTED);
        boolean afterFacts =
            after.type() == Type.SERVICE
                && before.is(Type.SPAN, Type.DATE, Type.AGE, Type.EVENT)
                && beginsLine(after.from());
        afterFacts |=
            after.type() == Type.OCCUPATION
                && before.is(Type.SPAN, Type.DATE, Type.EVENT)
                && beginsLine(after.from())
                && endsLine(after.to())
                && PersonWords.OCCUPATIONS.contains(words.get(after.from()).folded());
        weight += afterName ? 0.9 : afterFacts ? 0 : -0.6;
        weight -= after.type() == Type.ORIGIN && !afterName ? 1.2 : 0;
        weight -= after.type() == Type.OCCUPATION && !afterName && !afterFacts ? 0.6 : 0;
        weight -= b == Type.VERSE || b == Type.START ? 1.2 : 0;
        weight -= wantsSurname(before, after) && mayBeSurname(after) ? 3 : 0;
        weight -= after.type() == Type.ORIGIN && before.is(Type.ORIGIN, Type.OTHER) ? 3 : 0;
        weight -= b == Type.KIN && after.type() != Type.ORIGIN ? 0.5 : 0;
      }
      case VERSE -> {
        weight += b == Type.VERSE ? 0.6 : 0;
        weight -= b == Type.START ? 1.5 : 0;
        weight -= b == Type.FORMULA ? 0.9 : b == Type.PERSON || b == Type.KIN ? 1.6 : 0;
        weight += before.is(Type.DATE, Type.AGE, Type.EVENT, Type.SPAN, Type.SCRIPTURE) ? 0.3 : 0;
      }
      case HEADING ->
          weight += b == Type.START ? 0.8 : b == Type.FORMULA ? -1 : b == Type.VERSE ? -1 : -0.2;
      case PRONOUN -> weight -= b == Type.VERSE ? 1 : 0;
      case MAKER -> weight -= b == Type.FORMULA ? 3 : 0;
      case FORMULA ->
          weight -=
              before.is(Type.ERECTED, Type.PERSON) && words.get(after.from()).is("of") ? 2 : 0;
      case DITTO -> weight += before.is(Type.PERSON, Type.DATE, Type.AGE) ? 1 : -1.5;
      case SCRIPTURE -> weight += b == Type.VERSE ? 0.4 : 0;
      default -> {}
    }
    if (b == Type.PERSON) {
      weight += afterPerson(before, after) - (isAnd(after) ? 1 : 0);
    } else if (b == Type.HEADING) {
      weight +=
          after.type() == Type.PERSON
              ? 1
              : after.is(Type.FORMULA, Type.END, Type.ERECTED) ? 0.5 : -2.6;
    } else if (b == Type.KIN && isAnd(after)) {
      weight -= before.content() instanceof Clause.Kin k && namesGivenOnly(k.kin()) ? 2.5 : 1.4;
    } else if (b == Type.KIN && after.type() == Type.OTHER) {
      weight -= 0.4;
    } else if (b == Type.PRONOUN) {
      weight += after.is(Type.EVENT, Type.DATE) ? 1 : -1;
    } else if (b == Type.FORMULA && after.type() == Type.OTHER) {
      weight -= 0.3;
    }
    return weight;
  }

  private static boolean isGivenOnly(Clause c) {
    return c.content() instanceof Clause.Names n
            && n.names().bearers().size() == 1
            && (n.names().bearers().get(0).onlyGiven()
                || n.names().bearers().get(0).name().given().isEmpty())
        || c.content() instanceof Clause.Kin k && namesGivenOnly(k.kin());
  }

  /**
   * Whether a name is likelier to go on: it ends in a given name, or the word is a surname here.
   */
  private boolean wantsSurname(Clause person, Clause after) {
    if (isGivenOnly(person)) {
      return true;
    }
    if (person.type() != Type.PERSON || after.to() - after.from() > 1) {
      return false;
    }
    String word = words.get(after.from()).folded();
    boolean again = words.stream().filter(w -> w.folded().equals(word)).count() > 1;
    return again || NameWords.isPlainlyGiven(words.get(person.to() - 1).folded());
  }

  /** Whether a trade or a place may as well be the surname of the one before. */
  private boolean mayBeSurname(Clause c) {
    return c.type() == Type.OCCUPATION
        || (c.type() == Type.ORIGIN
            && beginsLine(c.from())
            && !words.get(c.from()).is("of", "late", "formerly", "from", "a", "native"));
  }

  private static boolean isDateless(Clause c) {
    return c.type() == Type.EVENT && c.content() instanceof Clause.Event e && e.dates().isEmpty();
  }

  private boolean isAnd(Clause c) {
    return c.type() == Type.FORMULA && words.get(c.from()).is("and", "&");
  }

  private static boolean namesGivenOnly(KinWords.Found kin) {
    return !kin.names().isEmpty() && kin.names().get(kin.names().size() - 1).onlyGiven();
  }

  /**
   * A name goes well where a name is looked for. Elsewhere it needs a sign of its own, such as a
   * given name that is known; without one, what stands behind a name is a trade or a place.
   */
  private double personAfter(Clause before, Clause after) {
    boolean above = after.content() instanceof Clause.Names n && n.names().above();
    boolean unsigned = after.content() instanceof Clause.Names n && !names.isSigned(n.names());
    double sign =
        !unsigned
            ? 0
            : switch (before.type()) {
              case PERSON, MAIDEN, OCCUPATION, ORIGIN, SERVICE -> -2.5;
              case KIN, HEADING -> 0;
              case START -> -1.2;
              case FORMULA -> leadsName(before.to() - 1) ? 0 : -1;
              default -> -1.2;
            };
    boolean runsOn =
        before.type() == Type.PERSON
            && !beginsLine(after.from())
            && !words.get(after.from() - 1).endsWith(",");
    // A place, trade or unit goes on to what befell him; who is named then needs a line to himself.
    boolean leftBare = before.is(Type.OCCUPATION, Type.ORIGIN, Type.SERVICE) && !above;
    return sign - (runsOn ? 2 : 0) - (leftBare ? 0.8 : 0) + afterThat(before, after, above);
  }

  private double afterThat(Clause before, Clause after, boolean above) {
    return switch (before.type()) {
      case FORMULA ->
          words.get(before.to() - 1).is("and", "&") ? 0.8 : leadsName(before.to() - 1) ? 1.6 : 0.1;
      case START -> beginsLine(after.from()) ? 0.8 : 0;
      case HEADING -> 0.9;
      case KIN -> afterKin(((Clause.Kin) before.content()).kin(), after);
      case VERSE, SCRIPTURE, MAKER -> -0.9 + (above ? 0.5 : 0);
      case PERSON -> -0.5;
      case ERECTED -> -0.8;
      case OTHER -> -0.6;
      case SPAN, DATE, AGE, EVENT, ORDER -> beginsLine(after.from()) ? 0.4 : -0.4;
      case SERVICE -> beginsLine(after.from()) ? 0.5 : 0;
      default -> 0;
    };
  }

  /**
   * A name goes well behind {@code his wife}; behind {@code wife of John} it may be his surname.
   */
  private double afterKin(KinWords.Found kin, Clause after) {
    double given = after.type() == Type.PERSON && isGivenOnly(after) ? 0.6 : 0;
    if (kin.names().isEmpty()) {
      return kin.above() && kin.of() ? -2 : 0.9 + given;
    }
    if (!beginsLine(after.from())) {
      return -2.5;
    }
    NameWords.Bearer last = kin.names().get(kin.names().size() - 1);
    boolean open = last.onlyGiven() && last.to() == kin.end();
    return (kin.isPlural() ? 0.9 : -0.4) + (open ? -1.8 : 0) + given;
  }

  private boolean leadsName(int i) {
    boolean ofAThing =
        words.get(i).is("of")
            && !beginsLine(i)
            && !words.get(i - 1).in(PersonWords.FORMULA)
            && !words.get(i - 1).in(PersonWords.MEMORY);
    if (ofAThing) {
      return false;
    }
    return words.get(i).in(PersonWords.FORMULA_ENDS)
        || words.get(i).in(PersonWords.JOINS)
        || words.get(i).in(BEFORE_NAME);
  }

  private static double afterPerson(Clause person, Clause after) {
    boolean unnamed =
        person.content() instanceof Clause.Names n
            && n.names().bearers().stream()
                .allMatch(b -> b.name().given().isEmpty() && b.name().surname().isEmpty());
    return switch (after.type()) {
      case EVENT, DATE, SPAN, KIN, AGE -> unnamed ? 1.4 : 1;
      case MAIDEN, SERVICE, OCCUPATION, ORIGIN, CAUSE, DITTO -> 0.4;
      case FORMULA -> (unnamed ? -0.8 : 0) - (isGivenOnly(person) ? 0.5 : 0);
      case END, PERSON, ERECTED, MOURNERS, REMOVAL, ORDER, IGNORED -> unnamed ? -0.8 : 0;
      case VERSE, SCRIPTURE, MAKER -> unnamed ? -1.5 : -0.3;
      case OTHER -> -1.2;
      default -> -0.4;
    };
  }
}
