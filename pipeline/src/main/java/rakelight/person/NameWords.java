package rakelight.person;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.calendar.MonthName;

/**
 * Finds the ways in which the words at a place may be a name, or names joined by "and", each with a
 * weight in natural logarithms of odds. A name may run over one line end.
 *
 * <p>Limits: a surname is one word, or one after a particle (de, van, O', Mac); the weights are
 * choices, no source.
 */
final class NameWords {
  /** Somebody named among others: which words, and the parts of the name. */
  record Bearer(int from, int to, Detail.Name name, boolean onlyGiven) {}

  /**
   * One way to read names.
   *
   * @param end the word after them
   * @param above whether somebody spoken of before is meant: {@code the said}
   */
  record Found(int end, List<Bearer> bearers, boolean above, double weight) {
    Found {
      bearers = List.copyOf(bearers);
    }
  }

  private static final int MOST_WORDS = 6;
  private static final int MOST_WAYS = 8;
  private static final int MOST_JOINED = 6;

  private static final Set<String> PARTICLES =
      PersonWords.words("de la du van von der den le o mac mc fitz ap ab st");

  /** Given names that are more often something else. */
  private static final Set<String> VIRTUES =
      PersonWords.words(
          "faith hope charity grace mercy love peace joy patience comfort rose lily pearl violet dawn may june "
              + "constant content experience silence wait desire pleasant royal relief august april iris olive ruby "
              + "hazel heather ivy daisy submit purchase unity honour honor earnest christian mark job will josh "
              + "gen col ex jordan israel col don col may dean gay");

  private static final Set<String> PLACES =
      PersonWords.words(
          "county parish town city church chapel street village island isle shire farm house hall state");

  private static final Set<String> NAMELESS = PersonWords.words("baby unknown");

  private static final Pattern INITIALS = Pattern.compile("(\\p{Lu}\\.)+\\p{Lu}?[.,]?");
  private static final Set<String> GIVEN = GivenNames.known().all();

  private static final Set<String> ABOVE =
      PersonWords.words(
          "above said aforesaid named late abovenamed above-named abovesaid aforesd sd "
              + "aforementioned abovementioned same");

  private final List<CarvedWord> words;
  private final boolean mixedCase;
  private final Map<String, Boolean> givenByPattern = new HashMap<>();
  private final Map<Integer, List<Found>> found = new HashMap<>();
  private final Map<Integer, List<Found>> singles = new HashMap<>();

  NameWords(List<CarvedWord> words) {
    this.words = words;
    long capitals = words.stream().filter(CarvedWord::isAllCapitals).count();
    long small =
        words.stream().filter(w -> w.shown().codePoints().anyMatch(Character::isLowerCase)).count();
    mixedCase = capitals > 0 && small > 0;
  }

  /** Also as cut before U and J had signs of their own: {@code Iohn}, {@code Svsanna}. */
  static boolean isGiven(CarvedWord word) {
    String folded = word.folded();
    GivenNames known = GivenNames.known();
    return word.given()
        || known.isKnown(folded)
        || (folded.startsWith("i") && known.isKnown("j" + folded.substring(1)))
        || (folded.indexOf('v') > 0 && known.isKnown(folded.replace('v', 'u')));
  }

  /** Whether a folded word is a given name and seldom a surname or another word. */
  static boolean isPlainlyGiven(String folded) {
    return GivenNames.known().isKnown(folded)
        && (!VIRTUES.contains(folded) || GIRLS.contains(folded));
  }

  private static final Set<String> GIRLS =
      PersonWords.words(
          "rose lily pearl violet may grace hope faith iris olive ruby hazel heather ivy daisy");

  /**
   * Whether names have a sign that they are names, whatever stands around them: a given name that
   * is known, initials or a title.
   */
  boolean isSigned(Found names) {
    Bearer first = names.bearers().get(0);
    int i = first.from();
    while (i + 1 < first.to()
        && (words.get(i).is("the", "above", "said", "aforesaid", "late", "named", "little")
            || isTitleHere(i))) {
      i++;
    }
    CarvedWord word = words.get(i);
    return !first.name().titles().isEmpty()
        || names.above()
        || isGiven(word)
        || word.isInitial()
        || areInitials(word)
        || word.isGap()
        || word.in(NAMELESS);
  }

  /** Whether a word may be part of a name. */
  boolean mayBeName(int i) {
    CarvedWord word = words.get(i);
    boolean doubtful = word.folded().startsWith("?") && word.folded().length() > 2;
    boolean letters = word.isLetters();
    boolean annoDomini =
        word.folded().equals("a")
            && i + 2 < words.size()
            && words.get(i + 1).folded().equals("d")
            && words.get(i + 2).folded().matches("1[0-9?]{3}");
    return (word.isCapitalised() || doubtful)
        && !annoDomini
        && letters
        && !word.isGap()
        && (!PersonWords.NEVER_A_NAME.contains(word.folded())
            || (word.isInitial() && word.shown().indexOf('.') == 1))
        && !PersonWords.PLURALS.contains(word.folded())
        && !isMonthOfDate(i);
  }

  private static final Pattern DAY_IN_FIGURES = Pattern.compile("[0-9?]{1,2}(st|d|nd|rd|th)?");

  private boolean isMonthOfDate(int i) {
    CarvedWord word = words.get(i);
    if (MonthName.parse(word.folded()).isEmpty()) {
      return false;
    }
    boolean lineEnds = i + 1 < words.size() && words.get(i + 1).line() != word.line();
    if (lineEnds && i > 0 && isGiven(words.get(i - 1)) && words.get(i - 1).line() == word.line()) {
      return false;
    }
    boolean figureAfter =
        i + 1 < words.size() && (words.get(i + 1).hasFigure() || words.get(i + 1).is("ye", "the"));
    boolean figureBefore =
        i > 0
            && (words.get(i - 1).folded().equals("day")
                || DAY_IN_FIGURES.matcher(words.get(i - 1).folded()).matches());
    return figureAfter || figureBefore;
  }

  boolean isParticle(int i) {
    return PARTICLES.contains(words.get(i).folded());
  }

  private static boolean areInitials(CarvedWord word) {
    return word.folded().length() <= 3
        && word.shown().indexOf('.') > 0
        && INITIALS.matcher(word.shown()).matches();
  }

  /** The ways to read names at a place, the likeliest first. */
  List<Found> at(int start) {
    List<Found> known = found.get(start);
    if (known == null) {
      known = find(start);
      found.put(start, known);
    }
    return known;
  }

  /** Two names on one line with no word between, over two columns of dates. */
  Optional<Found> sideBySide(int from, int to) {
    Optional<Found> best = Optional.empty();
    for (int second = from + 1; second < to; second++) {
      int middle = second;
      if (!isGiven(words.get(second)) || words.get(second - 1).is("&", "and")) {
        continue;
      }
      Optional<Found> left = single(from).stream().filter(f -> f.end() == middle).findFirst();
      Optional<Found> right = single(second).stream().filter(f -> f.end() == to).findFirst();
      if (left.isPresent() && right.isPresent()) {
        List<Bearer> both = new ArrayList<>(left.get().bearers());
        both.addAll(right.get().bearers());
        double weight =
            (ofBothSexes(left.get()) || ofBothSexes(right.get()) ? -3 : 0)
                + left.get().weight()
                + right.get().weight()
                - 0.4 * Math.abs(to - second - second + from);
        if (best.isEmpty() || weight > best.get().weight()) {
          best = Optional.of(new Found(to, both, false, weight));
        }
      }
    }
    return best;
  }

  /** Of an abbreviation what all that it stands for are of. */
  private static boolean isOf(String folded, Predicate<String> sex) {
    Set<String> full = GivenNames.known().abbreviationsOf(folded);
    return sex.test(folded) || (!full.isEmpty() && full.stream().allMatch(sex));
  }

  private static boolean ofBothSexes(Found names) {
    GivenNames known = GivenNames.known();
    Detail.Name name = names.bearers().get(0).name();
    List<String> given =
        List.of(NameForms.fold(name.given() + " " + name.surname()).split(" ", -1));
    return given.stream().anyMatch(n -> isOf(n, known::isMans))
        && given.stream().anyMatch(n -> isOf(n, known::isWomans));
  }

  /** {@code ANDREW MARGARET & JEAN}: given names of both sexes are those of several. */
  private List<Found> severalGiven(List<Found> ways) {
    List<Found> several = new ArrayList<>();
    for (Found way : ways) {
      Bearer bearer = way.bearers().get(0);
      int count = bearer.to() - bearer.from();
      boolean plain = bearer.onlyGiven() && count == bearer.name().given().split(" ", -1).length;
      if (way.bearers().size() > 1 || count < 2 || !plain || !ofBothSexes(way)) {
        continue;
      }
      List<Bearer> each = new ArrayList<>();
      for (int i = bearer.from(); i < bearer.to(); i++) {
        if (isGiven(words.get(i))) {
          each.add(new Bearer(i, i + 1, name(i, i + 1, i + 1, List.of(), List.of()), true));
        }
      }
      if (each.size() == count) {
        several.add(new Found(way.end(), each, way.above(), way.weight() + 0.6));
      }
    }
    return several;
  }

  private List<Found> find(int start) {
    List<Found> ways = new ArrayList<>(single(start));
    ways.addAll(severalGiven(ways));
    List<Found> open = new ArrayList<>(ways);
    for (int joined = 1; joined < MOST_JOINED && !open.isEmpty(); joined++) {
      List<Found> longer = new ArrayList<>();
      for (Found first : open) {
        longer.addAll(join(first));
      }
      longer.sort(Comparator.comparingDouble(f -> -f.weight()));
      open = longer.subList(0, Math.min(longer.size(), MOST_WAYS));
      ways.addAll(open);
    }
    ways.sort(Comparator.comparingDouble(f -> -f.weight()));
    return ways;
  }

  private List<Found> join(Found first) {
    List<Found> longer = new ArrayList<>();
    int at = first.end();
    boolean comma = words.get(at - 1).endsWith(",");
    boolean and = at < words.size() && words.get(at).is("&", "and", "et", "ac");
    if (at + 1 >= words.size() || !(and || comma)) {
      return longer;
    }
    int from = and ? at + 1 : at;
    for (Found next : single(from)) {
      Bearer last = next.bearers().get(next.bearers().size() - 1);
      if (next.above()
          || (last.name().given().isEmpty() && last.name().titles().isEmpty())
          || (comma && !and && (!isListed(next.end()) || !isSigned(next)))) {
        continue;
      }
      List<Bearer> all = new ArrayList<>();
      Bearer mr = first.bearers().get(0);
      boolean couple =
          mr.to() == mr.from() + 1
              && words.get(mr.from()).in(BEFORE_MRS)
              && words.get(from).is("mrs")
              && !last.name().surname().isEmpty();
      if (couple) {
        // "Mr. & Mrs. F. Smith": the given name is his.
        Detail.Name hers = last.name();
        List<String> title = List.of(words.get(mr.from()).shown());
        all.add(
            new Bearer(
                mr.from(),
                mr.to(),
                new Detail.Name(hers.given(), hers.surname(), "", title, hers.suffixes()),
                false));
        all.add(
            new Bearer(
                from,
                last.to(),
                new Detail.Name("", hers.surname(), "", hers.titles(), List.of()),
                false));
        longer.add(new Found(next.end(), all, first.above(), next.weight() + 4));
        continue;
      }
      for (Bearer bearer : first.bearers()) {
        boolean lends = bearer.onlyGiven() && !last.onlyGiven();
        all.add(
            lends
                ? new Bearer(
                    bearer.from(),
                    bearer.to(),
                    bearer.name().withSurname(last.name().surname()),
                    true)
                : bearer);
      }
      all.addAll(next.bearers());
      boolean initials =
          all.get(0).onlyGiven()
              && all.get(0).name().given().matches("\\p{L}( \\p{L})+")
              && last.name().surname().length() > 1;
      double agree =
          initials ? 4.2 : all.get(0).onlyGiven() ? (last.onlyGiven() ? 0.4 : 0.7) : -0.4;
      longer.add(new Found(next.end(), all, first.above(), first.weight() + next.weight() + agree));
    }
    return longer;
  }

  private static final Set<String> BEFORE_MRS =
      PersonWords.words("mr major capt captain dr rev revd lieut lt col colonel sir sergt serjt");

  /** Whether a list goes on after a comma: another name, or "and". */
  private boolean isListed(int end) {
    return end < words.size()
        && (words.get(end).is("&", "and") || words.get(end - 1).endsWith(","));
  }

  private List<Found> single(int start) {
    List<Found> known = singles.get(start);
    if (known == null) {
      known = findSingle(start);
      singles.put(start, known);
    }
    return known;
  }

  private List<Found> findSingle(int start) {
    List<Found> ways = new ArrayList<>();
    int i = start;
    boolean above = false;
    if (words.get(i).is("the", "ye") && i + 1 < words.size() && leadsTitle(i + 1)) {
      i++;
    }
    while (i < words.size() && words.get(i).in(ABOVE)) {
      above |= !words.get(i).is("late");
      i++;
    }
    List<String> titles = new ArrayList<>();
    if (i + 1 < words.size() && words.get(i).is("little") && words.get(i).isCapitalised()) {
      i++;
    }
    while (i < words.size() && isTitleHere(i)) {
      titles.add(words.get(i).shown());
      i++;
    }
    if (i >= words.size()) {
      return ways;
    }
    if (words.get(i).in(NAMELESS) && words.get(i).isCapitalised()) {
      ways.add(nameless(start, i, titles));
    }
    surnameFirst(start, titles).ifPresent(ways::add);
    int crossed = 0;
    for (int n = 1; n <= MOST_WORDS && i + n <= words.size(); n++) {
      int last = i + n - 1;
      if (!mayBeName(last)) {
        break;
      }
      crossed += n > 1 && words.get(last).line() != words.get(last - 1).line() ? 1 : 0;
      if (crossed > 1 && !(crossed == 2 && areOneToALine(i, last))) {
        break;
      }
      addWays(start, i, n, crossed, above, titles, ways);
      if (ends(last)) {
        break;
      }
    }
    ways.sort(Comparator.comparingDouble(f -> -f.weight()));
    return ways.size() > MOST_WAYS ? new ArrayList<>(ways.subList(0, MOST_WAYS)) : ways;
  }

  /** {@code THOMAS / HENRY / ALDERWICK}: given names and one more, each on a line of its own. */
  private boolean areOneToALine(int from, int last) {
    boolean apart = last - from == 2 && isGiven(words.get(from)) && isGiven(words.get(from + 1));
    for (int k = from; apart && k <= last; k++) {
      apart =
          (k == 0 || words.get(k - 1).line() != words.get(k).line())
              && (k + 1 == words.size() || words.get(k + 1).line() != words.get(k).line());
    }
    return apart && !isGiven(words.get(last)) && !isOtherWord(words.get(last));
  }

  /** {@code MILLER, Rosetta}: on a line that begins with the surname. */
  private Optional<Found> surnameFirst(int start, List<String> titles) {
    boolean begins = start == 0 || words.get(start - 1).line() != words.get(start).line();
    boolean surname =
        begins
            && titles.isEmpty()
            && start + 1 < words.size()
            && words.get(start).shown().endsWith(",")
            && mayBeName(start)
            && !isGiven(words.get(start))
            && !isOtherWord(words.get(start))
            && !words.get(start).isInitial()
            && isGiven(words.get(start + 1))
            && mayBeName(start + 1)
            && words.get(start + 1).line() == words.get(start).line();
    if (!surname) {
      return Optional.empty();
    }
    int end = start + 2;
    while (end < words.size()
        && !words.get(end - 1).endsWith(",")
        && words.get(end).line() == words.get(start).line()
        && mayBeName(end)) {
      end++;
    }
    boolean last = end == words.size() || words.get(end).line() != words.get(start).line();
    if (!last && !words.get(end - 1).endsWith(",")) {
      return Optional.empty();
    }
    Detail.Name given = name(start + 1, end, end, titles, List.of());
    Detail.Name whole = given.withSurname(titleCase(words.get(start).folded()));
    return Optional.of(new Found(end, List.of(new Bearer(start, end, whole, false)), false, 3.4));
  }

  private Found nameless(int start, int i, List<String> titles) {
    boolean surname =
        i + 1 < words.size()
            && mayBeName(i + 1)
            && words.get(i + 1).line() == words.get(i).line()
            && !isGiven(words.get(i + 1));
    int end = surname ? i + 2 : i + 1;
    Detail.Name name = new Detail.Name("", surname ? shownName(i + 1) : "", "", titles, List.of());
    return new Found(end, List.of(new Bearer(start, end, name, !surname)), false, 0.8);
  }

  private boolean leadsTitle(int i) {
    return words
            .get(i)
            .is(
                "above",
                "said",
                "aforesaid",
                "late",
                "abovenamed",
                "above-named",
                "abovesaid",
                "aforementioned",
                "abovementioned")
        || words.get(i).in(PersonWords.TITLES);
  }

  private boolean isTitleHere(int i) {
    CarvedWord word = words.get(i);
    boolean suffixToo = word.is("sr", "ma", "st");
    return PersonWords.TITLES.contains(word.folded().replace("-", ""))
        && word.isCapitalised()
        && !suffixToo
        && i + 1 < words.size()
        && (mayBeName(i + 1) || PersonWords.TITLES.contains(words.get(i + 1).folded()))
        && !(isGiven(word) && word.folded().length() > 3 && !word.endsWith("."))
        && words.get(i + 1).line() - word.line() <= 1;
  }

  /** Whether nothing of the name can follow this word. */
  private boolean ends(int i) {
    CarvedWord word = words.get(i);
    boolean stop =
        word.endsWith(".") && word.folded().length() > 5 && !isGiven(word) && !areInitials(word);
    return word.endsWith(",")
        || word.endsWith(";")
        || word.endsWith(":") && word.folded().length() > 4 && !isGiven(word)
        || stop;
  }

  private void addWays(
      int start, int i, int n, int crossed, boolean above, List<String> titles, List<Found> ways) {
    int end = i + n;
    List<String> suffixes = new ArrayList<>();
    while (end < words.size() && (isSuffix(end) || (n > 1 && isPostNominal(end)))) {
      suffixes.add(words.get(end).shown());
      end++;
    }
    if (n > 1
        && end + 1 < words.size()
        && words.get(end - 1).endsWith(",")
        && words.get(end).isInitial()
        && words.get(end + 1).isInitial()
        && words.get(end + 1).line() == words.get(end).line()) {
      suffixes.add(words.get(end).shown() + " " + words.get(end + 1).shown());
      end += 2;
    }
    if (end + 1 < words.size()
        && words.get(end).is("the")
        && (words.get(end + 1).is("elder", "younger", "third")
            || (words.get(end + 1).is("1st", "2nd", "2d", "first", "second")
                && words.get(end + 1).endsWith(",")))) {
      suffixes.add(words.get(end).shown() + " " + words.get(end + 1).shown());
      end += 2;
    }
    double bonus = (titles.isEmpty() ? 0 : 0.8) + (suffixes.isEmpty() ? 0 : 0.6) - 0.9 * crossed;
    bonus += above ? 0.5 : 0;
    int particle = i + n - 2;
    boolean withParticle = n >= 3 && PARTICLES.contains(words.get(particle).folded());
    int surnameFrom = withParticle ? particle : i + n - 1;
    double given = 0;
    for (int k = i; k < i + n; k++) {
      given += k == i ? asGiven(k, n > 1) : asMiddle(k);
    }
    Detail.Name onlyGiven = name(i, i + n, i + n, titles, suffixes);
    if (!(titles.size() > 0 && n == 1 && !isGiven(words.get(i)))) {
      // Several given names in a row may as well end in a surname.
      double doubt = n == 1 ? 0 : -0.3 * (n - 1) - 0.3;
      ways.add(
          new Found(
              end,
              List.of(new Bearer(start, end, onlyGiven, true)),
              above,
              given + bonus + doubt - 0.6));
    }
    if (n >= 2) {
      double weight = 0;
      for (int k = i; k < surnameFrom; k++) {
        weight += k == i ? asGiven(k, true) : asMiddle(k);
      }
      weight += asSurname(i + n - 1) - (n > 4 ? 1 : 0);
      ways.add(
          new Found(
              end,
              List.of(new Bearer(start, end, name(i, surnameFrom, i + n, titles, suffixes), false)),
              above,
              weight + bonus - 0.4));
    } else {
      double alone = asSurname(i) + (titles.isEmpty() ? -2.2 : 0.2);
      ways.add(
          new Found(
              end,
              List.of(new Bearer(start, end, name(i, i, i + 1, titles, suffixes), false)),
              above,
              alone + bonus));
    }
  }

  /** {@code P.P.}, {@code M.R.C.V.S.} behind a surname, whatever they stand for. */
  private boolean isPostNominal(int i) {
    return areInitials(words.get(i))
        && !words.get(i).in(ServiceWords.UNITS)
        && words.get(i).folded().length() > 1
        && words.get(i - 1).line() == words.get(i).line()
        && words.get(i - 1).folded().length() > 2
        && !isGiven(words.get(i - 1));
  }

  private boolean isSuffix(int i) {
    CarvedWord word = words.get(i);
    boolean sameLine = words.get(i - 1).line() == word.line();
    boolean month =
        !sameLine && word.is("jun", "sen") && i + 1 < words.size() && words.get(i + 1).hasFigure();
    return !month
        && PersonWords.SUFFIXES.contains(word.folded())
        && word.isCapitalised()
        && (sameLine || word.folded().length() > 2 || (areInitials(word) && isLine(i)))
        && !(word.is("ma", "am", "sen", "ii", "iii", "i") && !word.isAllCapitals());
  }

  private boolean isLine(int i) {
    return i + 1 == words.size() || words.get(i + 1).line() != words.get(i).line();
  }

  private double asGiven(int i, boolean more) {
    CarvedWord word = words.get(i);
    double caps = mixedCase && word.isAllCapitals() ? 0.4 : 0;
    if (isGiven(word)) {
      return VIRTUES.contains(word.folded()) ? virtue(word, more) + caps : 2 + caps;
    }
    if (PersonWords.SUFFIXES.contains(word.folded()) && word.folded().length() > 1) {
      return -2.5;
    }
    if (word.isInitial() || areInitials(word)) {
      return more ? 0.9 : -0.6;
    }
    if (word.isDoubtful()) {
      return mayBeGiven(word) ? 1.1 + caps : -0.2;
    }
    if (isOtherWord(word)) {
      return -3.5;
    }
    return (word.endsWith(".") && word.folded().length() < 6 ? 0 : -0.4) + caps;
  }

  /** A virtue alone is seldom a name, but for those that girls often bore. */
  private static double virtue(CarvedWord word, boolean more) {
    return more || GIRLS.contains(word.folded()) ? 0.7 : -0.7;
  }

  private double asMiddle(int i) {
    CarvedWord word = words.get(i);
    double caps = mixedCase && word.isAllCapitals() ? 0.4 : 0;
    if (word.isInitial() || (areInitials(word) && !PersonWords.SUFFIXES.contains(word.folded()))) {
      return 0.6;
    }
    boolean suffix = PersonWords.SUFFIXES.contains(word.folded()) && word.folded().length() > 1;
    return caps
        - (suffix ? 2 : 0)
        + (inCapitalsBehindSmall(i) ? -1 : 0)
        + (isGiven(word) ? 0.8 : isOtherWord(word) ? -2.5 : word.isDoubtful() ? -0.3 : -0.7);
  }

  /** {@code Edward HOPE}: capitals mark the surname. */
  private boolean inCapitalsBehindSmall(int i) {
    return i > 0
        && words.get(i).isAllCapitals()
        && words.get(i - 1).line() == words.get(i).line()
        && isGiven(words.get(i - 1))
        && !words.get(i - 1).isAllCapitals();
  }

  private double asSurname(int i) {
    CarvedWord word = words.get(i);
    double caps = mixedCase && word.isAllCapitals() ? 0.4 : 0;
    if (word.isInitial()) {
      boolean allInitials = i > 0 && words.get(i - 1).isInitial();
      return allInitials ? 0.9 : -0.3;
    }
    if (PersonWords.SUFFIXES.contains(word.folded()) || areInitials(word)) {
      return -3;
    }
    if (isGiven(word) && inCapitalsBehindSmall(i)) {
      return 1 + caps;
    }
    if (isGiven(word)) {
      return caps - (i > 0 && words.get(i - 1).line() != word.line() ? 1.2 : 0.2);
    }
    boolean sameLine = i > 0 && words.get(i - 1).line() == word.line();
    if (isOtherWord(word)) {
      boolean trade = PersonWords.OCCUPATIONS.contains(word.folded());
      return (trade ? (sameLine ? 0.4 : -0.4) : -2.2) + caps;
    }
    return 0.8 + caps;
  }

  private static boolean isOtherWord(CarvedWord word) {
    String folded = word.folded();
    return PersonWords.OCCUPATIONS.contains(folded)
        || PersonWords.TITLES.contains(folded)
        || PersonWords.CONDITIONS.contains(folded)
        || PersonWords.ARMS.contains(folded)
        || PersonWords.COMFORT.contains(folded)
        || PersonWords.FORMULA.contains(folded)
        || PersonWords.SPEECH.contains(folded)
        || PersonWords.KIN.contains(folded)
        || PersonWords.OFFICES.contains(folded)
        || PersonWords.MAKERS.contains(folded)
        || PersonWords.WAR_WORDS.contains(folded)
        || PLACES.contains(folded)
        || PersonWords.OCCUPATIONS.contains(folded.replace("-", ""));
  }

  /** Whether a half-lost word may be a known given name. */
  private boolean mayBeGiven(CarvedWord word) {
    return givenByPattern.computeIfAbsent(
        word.folded(),
        folded -> {
          Pattern pattern = Pattern.compile(folded.replace("?", "[a-z]").replace("…", "[a-z]*"));
          return GIVEN.stream().anyMatch(name -> pattern.matcher(name).matches());
        });
  }

  private Detail.Name name(
      int from, int surnameFrom, int to, List<String> titles, List<String> suffixes) {
    List<String> given = new ArrayList<>();
    for (int i = from; i < surnameFrom; i++) {
      given.add(shownName(i));
    }
    List<String> surname = new ArrayList<>();
    for (int i = surnameFrom; i < to; i++) {
      surname.add(shownName(i));
    }
    return new Detail.Name(
        String.join(" ", given), String.join(" ", surname), "", titles, suffixes);
  }

  /** A word of a name: {@code J.W.} are two initials. */
  private String shownName(int i) {
    CarvedWord word = words.get(i);
    if (areInitials(word) && word.folded().length() > 1) {
      return String.join(" ", word.folded().toUpperCase(Locale.ROOT).split("", -1));
    }
    return titleCase(word.folded());
  }

  /** A folded word with a capital in front. */
  static String titleCase(String folded) {
    return folded.isEmpty()
        ? ""
        : folded.substring(0, 1).toUpperCase(Locale.ROOT) + folded.substring(1);
  }

  /** Whether two names may be one person's: alike, short for each other, or a part missing. */
  static boolean mayBeSame(Detail.Name one, Detail.Name other) {
    return sameGiven(NameForms.fold(one.given()), NameForms.fold(other.given()))
        && (one.surname().isEmpty()
            || other.surname().isEmpty()
            || NameForms.fold(one.surname()).equals(NameForms.fold(other.surname())));
  }

  private static boolean sameGiven(String one, String other) {
    if (one.equals(other)) {
      return true;
    }
    if (one.isEmpty() || other.isEmpty()) {
      return false;
    }
    boolean initial =
        (one.length() <= 2 || other.length() <= 2) && one.charAt(0) == other.charAt(0);
    return initial
        || GivenNames.known().abbreviationsOf(one).contains(other)
        || GivenNames.known().nicknamesOf(one).contains(other);
  }
}
