package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Finds service under arms, a war or an office at a place in the words of a reading. */
final class ServiceWords {
  private static final Pattern NUMBER = Pattern.compile("[a-z]{0,3}[0-9/]{3,9}");
  private static final int LONGEST_UNIT_WORDS = 9;
  private static final int LONGEST_WAR_WORDS = 6;

  static final Set<String> UNITS =
      PersonWords.words(
          "raf rn usn usa usmc rnvr rnas ramc rasc rfc rga rfa aef bef aif raaf rcaf usaf raoc reme asc "
              + "rafvr ric nzef rnzaf saaf wrns waaf ats cef csa csn");

  /** Service found, the word after it, and its weight in natural logarithms of odds. */
  record Found(int end, Detail.Service service, double weight) {}

  private static final Set<String> BEFORE_UNIT =
      PersonWords.words("late of the formerly in h.m. hm a soldier private member");

  private static final Set<String> WHO_SERVED =
      PersonWords.words(
          "soldier veteran patriot sailor officer drummer captain private survivor served fought");

  private final List<CarvedWord> words;

  ServiceWords(List<CarvedWord> words) {
    this.words = words;
  }

  /**
   * {@code CO. B / 3 SKER. INF.}, {@code PVT. 5 RIFLES}, {@code CIVIL WAR}, {@code FOR 31 YEARS
   * MINISTER}.
   *
   * @param afterName whether a name with a comma goes before, so that a bare office is believed
   */
  List<Found> at(int start, boolean afterName) {
    List<Found> found = new ArrayList<>();
    office(start, afterName).ifPresent(found::add);
    rank(start).ifPresent(found::add);
    numberedRank(start).ifPresent(found::add);
    ship(start).ifPresent(found::add);
    war(start).ifPresent(found::add);
    unit(start).ifPresent(found::add);
    return found;
  }

  /** {@code late Colour Serjeant} behind a name, or on a line of its own. */
  private Optional<Found> rank(int start) {
    int from = start + (words.get(start).is("late", "formerly") ? 1 : 0);
    int end = rankEnd(from);
    if (end == from || start == 0 || !words.get(from).isCapitalised()) {
      return Optional.empty();
    }
    boolean led = beginsLine(start) || words.get(start - 1).endsWith(",");
    boolean whole =
        end == words.size()
            || words.get(end).line() != words.get(end - 1).line()
            || words.get(end - 1).endsWith(",")
            || words.get(end).is("in", "of", "on");
    boolean captain = words.subList(from, end).stream().allMatch(w -> w.is("captain", "capt"));
    return captain || !led
        ? Optional.empty()
        : Optional.of(
            new Found(
                end,
                new Detail.Service(shown(from, end), "", "", ""),
                (whole ? 1.6 : -0.6) + 0.4 * (end - from)));
  }

  /** The word after a rank of one word or several, {@code Able Seaman}; the start where none is. */
  private int rankEnd(int from) {
    int end = from;
    boolean rank = false;
    while (end < words.size()
        && end - from < 4
        && words.get(end).line() == words.get(from).line()
        && (end == from || !words.get(end - 1).endsWith(","))
        && (PersonWords.RANKS.contains(words.get(end).folded())
            || words.get(end).in(BEFORE_RANK))) {
      rank |= PersonWords.RANKS.contains(words.get(end).folded());
      end++;
    }
    rank |=
        end > from + 1
            && words.get(end - 1).is("seaman", "officer", "leader", "observer", "master");
    return rank ? end : from;
  }

  static final Set<String> BEFORE_RANK =
      PersonWords.words(
          "lance company colour color staff flight able seaman leading ordinary squadron wing petty officer "
              + "warrant chief regimental quartermaster quarter troop battery s t pilot flying leader observer "
              + "first second 1st 2nd 2d chief brigade line");

  /** {@code 12345 PRIVATE}: a number only soldiers have, and a rank. */
  private Optional<Found> numberedRank(int start) {
    boolean number =
        words.get(start).hasFigure() && NUMBER.matcher(words.get(start).folded()).matches();
    if (!number || start + 1 >= words.size() || !beginsLine(start)) {
      return Optional.empty();
    }
    int end = start + 1;
    while (end < words.size()
        && end - start < 4
        && (PersonWords.RANKS.contains(words.get(end).folded())
            || words
                .get(end)
                .is(
                    "lance",
                    "company",
                    "staff",
                    "flight",
                    "able",
                    "seaman",
                    "leading",
                    "ordinary"))) {
      end++;
    }
    return end > start + 1
        ? Optional.of(new Found(end, new Detail.Service(shown(start + 1, end), "", "", ""), 4))
        : Optional.empty();
  }

  /** {@code of the ship Hope of Kelby}, {@code H.M.S. HECTOR}. */
  private Optional<Found> ship(int start) {
    int i = start;
    i += words.get(i).is("of", "late", "on", "in") ? 1 : 0;
    i += i < words.size() && words.get(i).is("board") ? 1 : 0;
    boolean royal =
        i + 1 < words.size()
            && words.get(i).is("his", "her", "hm")
            && words.get(i + 1).is("majestys", "majesties");
    i += royal ? 2 : 0;
    i += i < words.size() && words.get(i).is("of") ? 1 : 0;
    i += i < words.size() && words.get(i).is("the") ? 1 : 0;
    i += i + 1 < words.size() && words.get(i).is("good") ? 1 : 0;
    for (int k = i; k < Math.min(words.size() - 1, i + 4) && i > start; k++) {
      i = words.get(k).is("companys") ? k + 1 : i;
    }
    if (i + 1 >= words.size()
        || !words.get(i).in(PersonWords.SHIPS)
        || !words.get(i + 1).isCapitalised()
        || (i == start && !words.get(i).is("hms", "ss"))) {
      return Optional.empty();
    }
    int end = i + 2;
    while (end < words.size()
        && words.get(end).line() == words.get(i + 1).line()
        && (words.get(end).isCapitalised() || words.get(end).is("of"))
        && !PersonWords.NEVER_A_NAME.contains(
            words.get(end).folded().equals("of") ? "" : words.get(end).folded())) {
      end++;
    }
    return Optional.of(new Found(end, new Detail.Service("", shown(i, end), "", ""), 2.4));
  }

  private Optional<Found> unit(int start) {
    int i = start;
    while (i < words.size()
        && i - start < 4
        && words.get(i).in(BEFORE_UNIT)
        && !(words.get(i).is("private") && words.get(i).isCapitalised())) {
      i++;
    }
    boolean led = i > start && words.get(i - 1).is("the", "of", "in");
    if (i >= words.size()
        || !(beginsLine(start)
            || led
            || start == 0
            || words.get(start - 1).endsWith(",")
            || PersonWords.RANKS.contains(words.get(start - 1).folded())
            || (words.get(start).hasFigure()
                && words.get(start).folded().matches("[0-9]+(st|d|nd|rd|th)"))
            || words.get(start).is("royal", "co", "company")
            || words.get(start).in(UNITS))) {
      return Optional.empty();
    }
    String rank = "";
    int rankEnd = i - start <= 1 ? rankEnd(i) : i;
    if (rankEnd > i && rankEnd < words.size()) {
      rank = shown(i, rankEnd);
      i = rankEnd;
      while (i + 1 < words.size() && words.get(i).is("in", "of", "the")) {
        i++;
      }
    }
    int unitFrom = i;
    boolean company =
        i + 1 < words.size()
            && words.get(i).is("co", "compy", "company", "troop", "battery", "coy", "batty")
            && (words.get(i + 1).folded().length() <= 2
                || words.get(i + 1).hasFigure()
                || words.get(i + 1).isGap()
                || words.get(i + 1).is("of", "the"))
            && words.get(i).isCapitalised();
    i += company ? 2 : 0;
    while (company && i < words.size() && words.get(i).is("of", "the")) {
      i++;
    }
    int unitEnd = company ? unitFrom + 2 : i;
    boolean arm = false;
    boolean strong = false;
    int other = 0;
    for (int k = i; k < Math.min(words.size(), i + LONGEST_UNIT_WORDS); k++) {
      CarvedWord word = words.get(k);
      boolean inLine = word.line() == words.get(i).line();
      boolean link = word.is("of", "the", "&", "and", "own") && inLine;
      boolean plain =
          (word.isCapitalisedOrFigure() || link || word.isGap())
              && (link || isUnitWord(k) || PersonWords.ARMS.contains(word.folded()));
      if (!inLine || !plain) {
        break;
      }
      if (PersonWords.ARMS.contains(word.folded())
          && word.isCapitalised()
          && (words.get(i).isCapitalisedOrFigure() || words.get(i).isGap())
          && (k > i || !(PersonWords.WEAK_ARMS.contains(word.folded()) || word.is("corps")))) {
        unitEnd = k + 1;
        arm = true;
        strong |=
            !PersonWords.WEAK_ARMS.contains(word.folded())
                || (k > i + 1 && PersonWords.WEAK_ARMS.contains(words.get(k - 1).folded()));
      } else if (word.is("royal", "regular", "army", "us")
          || (word.hasFigure() || word.isGap())
              && word.folded().matches("[0-9?/]+(st|d|nd|rd|th)?")) {
        strong |= !word.is("army") || k > i && words.get(k - 1).is("us");
        other++;
      }
      if (word.endsWith(",")
          && arm
          && !(k + 1 < words.size() && PersonWords.ARMS.contains(words.get(k + 1).folded()))) {
        // "2nd Bn., Wexel Regt." goes on; another unit may follow.
        boolean more = false;
        for (int m = k + 1;
            m < Math.min(words.size(), k + 5) && words.get(m).line() == word.line();
            m++) {
          more |= PersonWords.ARMS.contains(words.get(m).folded());
        }
        if (!more) {
          break;
        }
      }
    }
    while (arm
        && unitEnd < words.size()
        && (words.get(unitEnd).isInitial()
            || (words.get(unitEnd).in(UNITS) && words.get(unitEnd).isAllCapitals()))
        && words.get(unitEnd).line() == words.get(unitEnd - 1).line()) {
      unitEnd++;
    }
    boolean letters =
        words.get(i < words.size() ? i : start).in(UNITS)
            && words.get(i < words.size() ? i : start).isAllCapitals();
    if (letters && !arm) {
      boolean line =
          beginsLine(start)
              && (i + 1 == words.size() || words.get(i + 1).line() != words.get(i).line());
      return Optional.of(
          new Found(i + 1, new Detail.Service(rank, shown(i, i + 1), "", ""), line ? 2.5 : 0.4));
    }
    int forces = forcesEnd(i);
    if (forces > i && !arm && !company) {
      return Optional.of(
          new Found(
              forces,
              new Detail.Service(rank, shown(i, forces), "", ""),
              3 + (rank.isEmpty() ? 0 : 2)));
    }
    boolean soldier =
        arm
            && unitEnd - unitFrom == 2
            && words.get(unitEnd - 1).is("soldier")
            && words.get(unitFrom).isAllCapitals();
    if (!company && !soldier && !(arm && (strong || other > 0))) {
      return Optional.empty();
    }
    boolean given = NameWords.isGiven(words.get(unitFrom)) && !words.get(unitFrom).is("royal");
    boolean toLineEnd =
        unitEnd == words.size() || words.get(unitEnd).line() != words.get(unitEnd - 1).line();
    double weight =
        (company ? 3 : 2.2)
            + (rank.isEmpty() ? 0 : 2)
            + (toLineEnd ? 0.6 : 0)
            + (given ? -2.5 : 0)
            + 0.35 * (unitEnd - unitFrom);
    return Optional.of(
        new Found(unitEnd, new Detail.Service(rank, shown(unitFrom, unitEnd), "", ""), weight));
  }

  private static final Set<List<String>> FORCES =
      Set.of(
          List.of("army"),
          List.of("navy"),
          List.of("air", "force"),
          List.of("marine", "corps"),
          List.of("army", "air", "forces"),
          List.of("coast", "guard"));

  /** The end of {@code US ARMY}, {@code US AIR FORCE}; the start where it is none. */
  private int forcesEnd(int i) {
    if (i + 1 >= words.size() || !words.get(i).is("us")) {
      return i;
    }
    int end = i;
    for (List<String> force : FORCES) {
      int to = i + 1 + force.size();
      if (to <= words.size()
          && to > end
          && words.subList(i + 1, to).stream().map(CarvedWord::folded).toList().equals(force)) {
        end = to;
      }
    }
    return end;
  }

  private static final Set<String> IN_UNITS =
      PersonWords.words(
          "us regt regiment corps army navy force royal first second third on life native");

  private boolean isUnitWord(int k) {
    String folded = words.get(k).folded();
    return !PersonWords.NEVER_A_NAME.contains(folded) || IN_UNITS.contains(folded);
  }

  /** {@code WORLD WAR I}, {@code WAR OF 1812}, {@code a soldier of the Revolution}. */
  private Optional<Found> war(int start) {
    int i = start;
    int from = start;
    boolean soldier = false;
    while (i < words.size()
        && i - start < LONGEST_WAR_WORDS
        && words.get(i).line() - words.get(start).line() <= (soldier ? 1 : 0)) {
      CarvedWord word = words.get(i);
      if (word.in(WHO_SERVED) && i - start < 3) {
        soldier = true;
        from = i + 1;
        i++;
        continue;
      }
      if ((PersonWords.WAR_WORDS.contains(word.folded())
              || PersonWords.WARS.contains(word.folded()))
          && word.isCapitalised()) {
        int end = i + 1;
        boolean of1812 =
            end + 1 < words.size()
                && words.get(end).is("of")
                && words.get(end + 1).folded().matches("1[789][0-9]{2}(-.*)?");
        boolean ofIndependence =
            end + 1 < words.size()
                && words.get(end).is("of")
                && words.get(end + 1).is("independence", "rebellion");
        boolean numbered = end < words.size() && words.get(end).is("i", "ii", "1", "2");
        end += of1812 || ofIndependence ? 2 : numbered ? 1 : 0;
        boolean bare =
            i == start && !of1812 && !ofIndependence && !PersonWords.WARS.contains(word.folded());
        if (bare && !soldier) {
          return Optional.empty();
        }
        while (from < i && words.get(from).is("of", "the", "in", "late") && from < i) {
          from++;
        }
        return Optional.of(
            new Found(end, new Detail.Service("", "", shown(from, end), ""), soldier ? 3.5 : 3));
      }
      if (!word.isCapitalised() && !word.is("the", "of", "in", "a", "late")) {
        return Optional.empty();
      }
      i++;
    }
    return Optional.empty();
  }

  /** {@code FOR 31 YEARS MINISTER / OF TARROW CHAPEL}, or an office after a name and comma. */
  private Optional<Found> office(int start, boolean afterName) {
    int i = start;
    boolean years = false;
    if (i + 3 < words.size()
        && (words.get(i).is("for")
            || words.get(i).isGap()
            || NumberWords.at(words, i).isPresent())) {
      int number = words.get(i).is("for") ? i + 1 : i;
      Optional<NumberWords.Found> count = NumberWords.at(words, number);
      int after =
          words.get(number).is("many") || words.get(number).isGap()
              ? number + 1
              : count.map(NumberWords.Found::end).orElse(-1);
      if (after > 0 && after + 1 < words.size() && words.get(after).is("years", "yrs")) {
        i = after + 1;
        years = true;
      }
    }
    while (i < words.size()
        && i - start < 8
        && words.get(i).is("the", "a", "late", "some", "time", "sometime")
        && i + 1 < words.size()) {
      i++;
    }
    boolean member =
        i + 2 < words.size()
            && words.get(i).is("mp")
            && words.get(i + 1).is("for")
            && words.get(i + 2).isCapitalised();
    if (member) {
      return Optional.of(new Found(i + 3, new Detail.Service("", "", "", shown(i, i + 3)), 3.5));
    }
    boolean led = i + 1 < words.size() && (beginsLine(i) || years) && words.get(i).isCapitalised();
    i += led && PersonWords.OFFICES.contains(words.get(i + 1).folded()) ? 1 : 0;
    boolean captain =
        i + 3 < words.size()
            && words.get(i).is("captain")
            && words.get(i + 1).is("of")
            && words.get(i + 2).is("the")
            && words.get(i + 3).isCapitalised();
    if (i >= words.size()
        || isFellowship(i)
        || !(captain || PersonWords.OFFICES.contains(words.get(i).folded()))) {
      return Optional.empty();
    }
    int end = i + 1;
    boolean of = end + 1 < words.size() && words.get(end).is("of", "in", "at");
    end += of ? 1 : 0;
    while (of
        && end < words.size()
        && (words.get(end).isCapitalised()
            || words.get(end).is("this", "the", "of", "&", "and")
            || words.get(end - 1).is("this", "the"))
        && words.get(end).line() == words.get(end - 1).line()) {
      end++;
    }
    if (!of && end < words.size() && words.get(end).is("here")) {
      end++;
      of = true;
    }
    return of || afterName || years
        ? Optional.of(
            new Found(end, new Detail.Service("", "", "", shown(start, end)), led ? 3.2 : 2.6))
        : Optional.empty();
  }

  /** {@code a member of the Baptist Church}, {@code Member of Co. D}: no office. */
  private boolean isFellowship(int i) {
    boolean fellowship = false;
    for (int k = i + 1; k < words.size() && words.get(k).line() == words.get(i).line(); k++) {
      fellowship |=
          words
              .get(k)
              .is(
                  "church",
                  "lodge",
                  "society",
                  "order",
                  "division",
                  "co",
                  "company",
                  "post",
                  "congregation",
                  "communion");
    }
    return fellowship && words.get(i).is("member");
  }

  private boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  private String shown(int from, int to) {
    return String.join(" ", words.subList(from, to).stream().map(CarvedWord::shown).toList());
  }
}
