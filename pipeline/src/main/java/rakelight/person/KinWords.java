package rakelight.person;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Finds kinship at a place in the words of a reading: {@code wife of}, {@code his wife}, {@code
 * infant son of A. & B.} with the names that follow.
 */
final class KinWords {
  /**
   * One way to read a kinship.
   *
   * @param end the word after it
   * @param wordsEnd the word after the relation's own words, before any name
   * @param relation in one form: {@code daughter} for its short forms
   * @param names of those named, one for each
   * @param possessor {@code his}, {@code her}, {@code their} or empty
   * @param above whether those before are meant: {@code the above}
   * @param joined whether it goes on from a kinship before: {@code and daughter of}
   * @param counted whether it only counts them: {@code four of his children}
   * @param both whether it names one of those whose kin somebody is and points to another: {@code
   *     son of the above by Ann his wife}
   * @param of whether "of" or "to" leads to whose kin it is
   * @param weight in natural logarithms of odds
   */
  record Found(
      int end,
      int wordsEnd,
      String relation,
      List<NameWords.Bearer> names,
      String possessor,
      boolean above,
      boolean joined,
      boolean counted,
      boolean both,
      boolean of,
      double weight) {
    boolean isPlural() {
      return PersonWords.PLURALS.contains(relation);
    }

    /** The same said of those whom a word such as "their" points to. */
    Found pointing(String whose) {
      return new Found(
          end, wordsEnd, relation, names, whose, above, joined, counted, both, of, weight);
    }

    /** Whether it names or points to those whose kin somebody is. */
    boolean pointsBack() {
      return (names.isEmpty() || both) && (above || !possessor.isEmpty());
    }
  }

  private static final int MOST_WAYS = 5;

  private static final Set<String> LATIN_KIN =
      PersonWords.words(
          "uxor filius filia conjux conjunx coniux vidua relicta maritus filii pater mater uxoris "
              + "briod priod gwraig mab merch");

  private static final Set<String> BEFORE_NAMED =
      PersonWords.words(
          "the ye late above said aforesaid above-named abovenamed named aforesd abovesaid his her "
              + "former latter "
              + "their deceased foregoing first last first-named last-named sd aforementioned "
              + "abovementioned");

  private static final Set<String> COUNTS =
      PersonWords.words(
          "two three four five six seven eight nine ten eleven twelve several 2 3 4 5 6 7 8 9 all "
              + "some many");

  private final List<CarvedWord> words;
  private final NameWords names;

  KinWords(List<CarvedWord> words, NameWords names) {
    this.words = words;
    this.names = names;
  }

  /** The ways to read a kinship at a place. */
  List<Found> at(int start) {
    int i = start;
    boolean joined = false;
    if (words.get(i).is("and", "&", "but") && i + 1 < words.size()) {
      joined = true;
      i++;
    }
    boolean counted = false;
    if (isCount(i) && !(i > 0 && words.get(i - 1).in(PersonWords.POSSESSORS))) {
      int after = i + 1;
      after += after < words.size() && words.get(after).is("of") ? 1 : 0;
      if (after < words.size() && isAhead(after)) {
        counted = true;
        i = after;
      }
    }
    String possessor = "";
    boolean above = false;
    int first = i;
    while (i < words.size()
        && (words.get(i).in(PersonWords.KIN_BEFORE)
            || (i > first && words.get(i).is("and", "&") && leads(i + 1) && leads(i - 1))
            || (i > first && words.get(i).endsWith(",") && leads(i)))
        && !(isKin(i) && isRelationHere(i))) {
      if (words.get(i).in(PersonWords.POSSESSORS)) {
        possessor = possessor(i);
      }
      i++;
    }
    i -= i > first && !isKin(i) && isKin(i - 1) ? 1 : 0;
    if (!isKin(i)) {
      return List.of();
    }
    String relation = relation(words.get(i));
    int end = i + 1;
    if (PersonWords.CHILDREN.contains(relation)
        && end < words.size()
        && words.get(i).is("infant", "twin", "stillborn", "baby", "babe")
        && isKin(end)) {
      relation = relation(words.get(end));
      end++;
    }
    boolean latin = words.get(i).in(LATIN_KIN);
    List<Found> ways = new ArrayList<>();
    if (end + 1 < words.size() && words.get(end).is("in") && words.get(end + 1).is("law")) {
      relation += "-in-law";
      end += 2;
    }
    if (end + 2 < words.size()
        && words.get(end).is("of")
        && words.get(end + 1).is("that", "this")
        && words.get(end + 2).is("name")) {
      end += 3;
    }
    end = withFriend(end);
    boolean of =
        end < words.size()
            && words.get(end).is("of", "to", "off")
            && !(end + 1 < words.size() && words.get(end + 1).is("whom", "which"));
    if (of || (latin && possessor.isEmpty())) {
      int at = of ? end + 1 : end;
      ofNames(start, at, relation, possessor, joined, counted, ways);
      if (!ways.isEmpty() || of) {
        withOtherParent(ways);
        return ways;
      }
    }
    if (!possessor.isEmpty() || counted) {
      // "was buried with her babe" names nobody, and what follows isn't told of it.
      boolean with =
          start > 0
              && words.get(start - 1).is("with")
              && !(end < words.size() && names.mayBeName(end));
      ways.add(
          new Found(
              end,
              end,
              relation,
              List.of(),
              possessor,
              above,
              joined,
              counted,
              false,
              false,
              with ? -1 : counted ? 2.2 : 2));
    } else if (PersonWords.SPOUSES.contains(relation)
        && i > first
        && words.get(i - 1).is("first", "second", "third", "1st", "2nd", "2d", "3rd", "3d")) {
      ways.add(new Found(end, end, relation, List.of(), "", false, false, false, false, false, 1));
    } else if (PersonWords.CHILDREN.contains(relation)) {
      boolean infant =
          words.subList(first, end).stream()
              .anyMatch(w -> w.is("infant", "stillborn", "baby", "babe", "child", "infants"));
      boolean article = first > 0 && words.get(first - 1).is("an", "a", "also", "and", "&");
      ways.add(
          new Found(
              end,
              end,
              relation,
              List.of(),
              "",
              false,
              false,
              false,
              false,
              false,
              infant && article ? 0.8 : -0.5));
    }
    withOtherParent(ways);
    return ways;
  }

  /** The ways without and with the other parent: {@code by Hester his wife}, {@code and of ...}. */
  private void withOtherParent(List<Found> ways) {
    for (Found way : List.copyOf(ways)) {
      int at = way.end();
      boolean by = at < words.size() && words.get(at).is("by");
      boolean and = at + 1 < words.size() && words.get(at).is("and", "&");
      if (!PersonWords.CHILDREN.contains(way.relation()) || !(by || and)) {
        continue;
      }
      int from = at + 1;
      from += and && words.get(from).is("of") ? 1 : 0;
      from += from < words.size() && words.get(from).is("his", "her", "the") ? 1 : 0;
      while (from < words.size() && words.get(from).in(PersonWords.KIN_BEFORE)) {
        from++;
      }
      from += from < words.size() && words.get(from).is("wife", "husband") ? 1 : 0;
      if (from >= words.size()) {
        continue;
      }
      List<NameWords.Found> found = names.at(from);
      for (NameWords.Found f : found.subList(0, Math.min(MOST_WAYS, found.size()))) {
        int end = f.end();
        int kin = end;
        if (kin < words.size() && words.get(kin).in(PersonWords.POSSESSORS)) {
          kin++;
          while (kin < words.size()
              && words.get(kin).in(PersonWords.KIN_BEFORE)
              && !words.get(kin).in(PersonWords.KIN)) {
            kin++;
          }
        }
        boolean wife = kin < words.size() && kin > end && words.get(kin).in(PersonWords.SPOUSES);
        if (f.bearers().size() > 1 || (and && !wife)) {
          continue;
        }
        List<NameWords.Bearer> all = new ArrayList<>(way.names());
        all.addAll(f.bearers());
        ways.add(
            new Found(
                wife ? kin + 1 : end,
                way.wordsEnd(),
                way.relation(),
                all,
                way.possessor(),
                way.above(),
                way.joined(),
                way.counted(),
                way.pointsBack(),
                way.of(),
                way.weight() + f.weight() + (wife ? 5 : 1.5)));
      }
    }
  }

  private void ofNames(
      int start,
      int from,
      String relation,
      String possessor,
      boolean joined,
      boolean counted,
      List<Found> ways) {
    int at = from;
    boolean above = false;
    boolean parish = false;
    while (at < words.size() && words.get(at).in(BEFORE_NAMED)) {
      above |= !words.get(at).is("the", "ye", "late", "deceased");
      parish |= words.get(at).is("his", "her", "their");
      at++;
    }
    if (at < words.size() && !(at > from && words.get(at - 1).endsWith(","))) {
      List<NameWords.Found> found = names.at(at);
      for (NameWords.Found f : found.subList(0, Math.min(MOST_WAYS, found.size()))) {
        int more = f.bearers().size() - 1;
        double bonus = 1.4 + f.weight() + (more > 0 ? 0.6 + more : 0);
        ways.add(
            new Found(
                f.end(),
                from,
                relation,
                f.bearers(),
                possessor,
                above || f.above(),
                joined,
                counted,
                false,
                true,
                bonus));
      }
    }
    while (above
        && at < words.size()
        && words
            .get(at)
            .is(
                "children",
                "infants",
                "child",
                "infant",
                "persons",
                "couple",
                "brothers",
                "sisters")) {
      at++;
    }
    if (above && !parish) {
      ways.add(
          new Found(
              at, at, relation, List.of(), possessor, true, joined, counted, false, true, 2.2));
    } else if (ways.isEmpty()) {
      int end = Math.min(at, words.size());
      boolean gap = end < words.size() && words.get(end).isGap();
      ways.add(
          new Found(
              gap ? end + 1 : end,
              end,
              relation,
              List.of(),
              possessor,
              false,
              joined,
              counted,
              false,
              true,
              -0.3));
    }
  }

  /** Behind {@code sister and faithful helper}. */
  private int withFriend(int end) {
    int i = end;
    if (i < words.size() && words.get(i).is("and", "&")) {
      i++;
      while (i < words.size() && leads(i) && i - end < 3) {
        i++;
      }
      if (i > end + 1
          && i < words.size()
          && words.get(i).is("helper", "friend", "companion", "helpmate", "servant", "partner")) {
        return i + 1;
      }
    }
    return end;
  }

  private boolean isCount(int i) {
    return i < words.size() && words.get(i).in(COUNTS);
  }

  boolean isAhead(int start) {
    int i = start;
    while (i < words.size()
        && words.get(i).in(PersonWords.KIN_BEFORE)
        && !(isKin(i) && isRelationHere(i))) {
      i++;
    }
    return isKin(i) || (i > start && isKin(i - 1));
  }

  private boolean leads(int i) {
    return i < words.size() && words.get(i).in(PersonWords.KIN_BEFORE);
  }

  private boolean isKin(int i) {
    if (i < words.size() && isLetterForKin(i)) {
      return true;
    }
    if (i >= words.size() || !isKinWord(words.get(i))) {
      return false;
    }
    // "His family" are those named below; "erected by his family" and "Smith family" aren't.
    return !words.get(i).is("family", "issue")
        || (i > 0 && words.get(i - 1).in(PersonWords.POSSESSORS) && endsLine(i + 1))
        || (i + 2 < words.size() && words.get(i + 1).is("of") && words.get(i + 2).is("the"));
  }

  /** {@code w. of}, {@code s. of}, {@code d. of} and {@code Lady of}, behind a name. */
  private boolean isLetterForKin(int i) {
    return words.get(i).is("w", "s", "d", "lady")
        && i > 0
        && i + 2 < words.size()
        && words.get(i + 1).is("of")
        && words.get(i + 2).isCapitalised()
        && (words.get(i).is("lady") || !words.get(i).isCapitalised())
        && words.get(i - 1).isCapitalised();
  }

  private boolean endsLine(int to) {
    return to == words.size() || words.get(to).line() != words.get(to - 1).line();
  }

  private static boolean isKinWord(CarvedWord word) {
    return word.in(PersonWords.KIN) || PersonWords.KIN.contains(word.folded().replace("-", ""));
  }

  /** Whether a word that may also lead a relation, such as infant, is the relation itself. */
  private boolean isRelationHere(int i) {
    return !(i + 1 < words.size() && isKin(i + 1))
        && !words.get(i).is("twin", "baby")
        && !(leads(i + 1) && isAhead(i + 1));
  }

  private String possessor(int i) {
    return words.get(i).is("his", "ei") ? "his" : words.get(i).is("her") ? "her" : "their";
  }

  private static String relation(CarvedWord word) {
    for (String form : word.forms()) {
      if (PersonWords.KIN.contains(form)) {
        return relation(form);
      }
    }
    return relation(word.folded().replace("-", ""));
  }

  static String relation(String folded) {
    if (folded.startsWith("dau") && folded.length() < 8) {
      return folded.endsWith("s") ? "daughters" : "daughter";
    }
    return switch (folded) {
      case "relick", "relicta" -> "relict";
      case "w",
          "lady",
          "wifes",
          "uxoris",
          "gwraig",
          "wraig",
          "uxor",
          "conjux",
          "conjunx",
          "coniux" ->
          "wife";
      case "vidua" -> "widow";
      case "maritus", "husbands" -> "husband";
      case "filius", "mab", "s", "sonne", "sonn" -> "son";
      case "filia", "merch", "d", "doughter", "doghter" -> "daughter";
      case "filii", "bairns", "offspring", "family", "issue" -> "children";
      case "mum", "mom", "mummy", "mam", "mama" -> "mother";
      case "dad", "daddy", "papa" -> "father";
      case "nan", "nana", "nanna", "gran", "granny", "grandma" -> "grandmother";
      case "grandad", "granddad", "grandpa", "pop" -> "grandfather";
      case "pater" -> "father";
      case "mater" -> "mother";
      case "babe", "baby" -> "child";
      case "spous", "spovs", "spouss", "spows" -> "spouse";
      case "wyf", "wyfe" -> "wife";
      case "helpmate", "helpmeet", "partner", "companion", "bride", "briod", "priod" -> "spouse";
      default -> folded.endsWith("inlaw") ? folded.replace("inlaw", "-in-law") : folded;
    };
  }

  /** What a relation says of a sex. */
  static Optional<Sex> sexOf(String relation) {
    return PersonWords.WOMENS.contains(relation) && !relation.equals("spouse")
        ? Optional.of(Sex.WOMAN)
        : PersonWords.MENS.contains(relation) ? Optional.of(Sex.MAN) : Optional.empty();
  }

  /** Of whom "his" and "her" may be said. */
  enum Sex {
    MAN,
    WOMAN
  }
}
