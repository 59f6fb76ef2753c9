package rakelight.person;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import rakelight.person.Statement.Kind;

/**
 * Finds what came to pass at a place in the words of a reading: the words for a birth, a death, a
 * burial or a marriage, what stands between them and the date (where, of what, how), and the date.
 */
final class EventWords {
  private static final int MOST_BETWEEN = 14;
  private static final int MOST_LINES = 3;

  private static final Set<String> LEADS =
      PersonWords.words(
          "at in near off from on of by to with during through while whilst after under aboard "
              + "between upon");

  private static final Set<String> BEFORE_VERB =
      PersonWords.words(
          "who was were having and hath has that qui quae unfortunately accidentally mortally "
              + "suddenly peacefully is where");

  private static final Set<String> DIED =
      PersonWords.words(
          "died dyed deceist deceisit deceased decd deceasd decest expired obt ob obiit obijt obit dy'd dyd diede "
              + "dide drownded occisus mortuus mortua decessit defunctus defuncta dec dcd decsd died:");

  private static final Set<String> BURIED =
      PersonWords.words(
          "buried buryed interred interrd bur interd entombed inhumed sepultus sepulta burd "
              + "cremated");

  private static final Set<String> OF_PARTING =
      PersonWords.words(
          "rest home life last breath soul spirit his her their course world for a better eternity "
              + "down to up the ghost earthly career time of tears vale god mortal immortality maker him "
              + "who into eternal heavenly peace days on earth this change blessed immortal be with "
              + "christ");

  private final List<CarvedWord> words;
  private final DateWords dates;
  private final AgeWords ages;

  EventWords(List<CarvedWord> words, DateWords dates, AgeWords ages) {
    this.words = words;
    this.dates = dates;
    this.ages = ages;
  }

  /** What a word or phrase says: kinds, and where it ends. */
  private record Phrase(Set<Kind> kinds, int end, boolean cause, boolean other) {}

  private static final Set<String> CAUSES =
      PersonWords.words(
          "lost drowned drownd drownded perished slain murdered killed shot crushed suffocated scalded burnt burned "
              + "killd stabbed electrocuted asphyxiated wounded struck wrecked shipwrecked run thrown poisoned");

  private static final Set<String> OTHER_EVENTS =
      PersonWords.words(
          "converted professed baptized baptised christened ordained confirmed joined enlisted emigrated "
              + "arrived settled immigrated graduated admitted appointed elected retired removed came erected "
              + "licensed instituted inducted rebuilt restored renewed opened founded dedicated");

  private static final Set<String> BETWEEN =
      PersonWords.words(
          "this life at on off sea was in the of his her their a an ye suddenly peacefully accidentally here "
              + "action by from with near while and after short long painful illness lingering severe through "
              + "board service active wounds received sustained battle during world mortal transitory for better "
              + "jesus christ lord faith fell full hope peace infancy residence home house son daughter to is that "
              + "which who be it unfortunately instantly "
              + "glorious resurrection triumphs happy eternity vale tears aboard bed sleep triumph firm "
              + "quietly rest into time earthly state being blessed dear city town parish county village hospital "
              + "field most truly very much our saviour consequence effects fever he she were had been up when "
              + "upon passage between bathing skating working quarry mine pit enemy foreign abroad france "
              + "whilst engaged line duty crossing river harbour voyage attempting save");

  /** The event that begins at a word, with the ways its words may end. */
  List<Clause> at(int start) {
    List<Clause> found = new ArrayList<>();
    Optional<Phrase> phrase = phrases(start);
    if (phrase.isEmpty()) {
      causeBehind(start, found);
      return found;
    }
    Phrase p = phrase.get();
    Optional<int[]> cause = Optional.empty();
    StringBuilder place = new StringBuilder();
    int causeFrom = p.cause() ? causeWord(start, p.end()) : -1;
    causeFrom = words.get(p.end() - 1).is("to") && isDisease(p.end()) ? p.end() : causeFrom;
    int i = p.end();
    int lastPlaceWord = -1;
    boolean led = isNamedPlace(p.end());
    boolean home = false;
    int lastLine = words.get(start).line();
    boolean unknown = false;
    while (i < words.size()
        && i - p.end() <= MOST_BETWEEN
        && words.get(i).line() - words.get(start).line() <= MOST_LINES) {
      List<DateWords.Found> several = dates.severalAt(i);
      Optional<DateWords.Found> date = dates.at(i);
      if (!several.isEmpty() || date.isPresent()) {
        List<DateWords.Found> all = several.isEmpty() ? List.of(date.get()) : several;
        int end = all.get(all.size() - 1).end();
        cause = causeFrom >= 0 ? Optional.of(new int[] {causeFrom, causeEnd(causeFrom, i)}) : cause;
        // Each word passed over would else be a clause of its own and bring its weight.
        double passed = 0.25 * (i - p.end()) - (unknown ? 0.8 : 0);
        // Whose home it was is nobody who died there.
        double sure = p.other() ? 3.4 : 4 + passed + (home ? 3 : 0);
        found.add(clause(p, start, end, sure, all, i, cause, place.toString()));
        return found;
      }
      Optional<AgeWords.Found> age = i > p.end() - 1 ? ages.at(i) : Optional.empty();
      if (age.isPresent() && age.get().said()) {
        break;
      }
      if (phrases(i).isPresent() && !phrases(i).get().cause()) {
        break;
      }
      CarvedWord word = words.get(i);
      boolean named = word.isCapitalised() && word.isLetters();
      boolean newLine = i > p.end() && word.line() != words.get(i - 1).line();
      boolean goesOn =
          i > p.end()
              && (leads(words.get(i - 1))
                  || words.get(i - 1).is("the", "a", "an", "this", "his", "her", "their", "ye")
                  || words.get(i - 1).endsWith(","));
      boolean anotherName = newLine && !goesOn && word.isCapitalised() && NameWords.isGiven(word);
      if (anotherName) {
        break;
      }
      led = leads(word) || (led && (!newLine || goesOn || home));
      home |= led && word.is("residence", "house", "home", "seat", "lodgings");
      boolean placeWord = i > 0 && (isPlaceLead(i - 1) || i - 1 == lastPlaceWord);
      boolean leadsCause =
          causeFrom < 0
              && !p.kinds().contains(Kind.BIRTH)
              && (leadsCause(i, p.end())
                  || (word.is("of") && i + 1 < words.size() && isDisease(i + 1))
                  || (word.is("in") && next(i, "childbed", "childbirth", "labour")));
      if (leadsCause) {
        causeFrom = i + 1;
      }
      if (word.is("who", "also", "likewise", "aged") || (word.line() > lastLine + 1)) {
        break;
      }
      if (placeWord && named && !PersonWords.NEVER_A_NAME.contains(word.folded())) {
        if (causeFrom < 0 || !inCause(causeFrom, i)) {
          place.append(place.length() > 0 ? " " : "").append(word.shown());
        }
        lastPlaceWord = i;
      } else if (placeWord
          && word.is("the", "st", "new", "&", "and", "of", "county", "parish")
          && i - 1 != lastPlaceWord) {
        lastPlaceWord = -1;
      } else if (word.in(BETWEEN) || (causeFrom >= 0 && i - causeFrom < 8)) {
        lastPlaceWord = -1;
      } else if (word.folded().isEmpty()) {
        lastPlaceWord = lastPlaceWord == i - 1 ? i : -1;
      } else {
        if (!p.other() && !led && (word.isCapitalised() || unknown)) {
          break;
        }
        unknown |= !led;
      }
      lastLine = word.line();
      i++;
    }
    addDateless(p, start, causeFrom, found);
    return found;
  }

  /** With no date: only what somebody died of is told, or nothing. */
  private void addDateless(Phrase p, int start, int causeFrom, List<Clause> found) {
    int end = p.end();
    if (causeFrom >= 0) {
      int stop = Math.max(causeEnd(causeFrom, words.size()), p.end());
      found.add(
          clause(
              p, start, stop, 1.2, List.of(), stop, Optional.of(new int[] {causeFrom, stop}), ""));
      return;
    }
    while (end < words.size()
        && words.get(end).in(BETWEEN)
        && words.get(end).line() == words.get(start).line()) {
      end++;
    }
    // A last "and" or "who" leads to what follows.
    while (end > p.end()
        && words.get(end - 1).is("and", "who", "to", "of", "at", "in", "he", "she", "when")) {
      end--;
    }
    double weight = p.other() ? -0.5 : words.get(start).folded().length() < 4 ? -1.5 : 0.4;
    found.add(clause(p, start, end, weight, List.of(), end, Optional.empty(), ""));
  }

  private Clause clause(
      Phrase p,
      int start,
      int end,
      double weight,
      List<DateWords.Found> all,
      int dateFrom,
      Optional<int[]> cause,
      String place) {
    if (p.other()) {
      return new Clause(Clause.Type.IGNORED, start, end, weight);
    }
    return new Clause(
        Clause.Type.EVENT,
        start,
        end,
        weight,
        new Clause.Event(
            List.copyOf(p.kinds()), all, dateFrom, cause, place.replaceAll("[,.;:]+$", "")));
  }

  /** {@code BORN WOLVERBRIDGE, ENGLAND, 1839}: a place behind the word for it. */
  private boolean isNamedPlace(int i) {
    return i < words.size()
        && words.get(i).line() == words.get(i - 1).line()
        && words.get(i).isCapitalised()
        && words.get(i).isLetters()
        && !PersonWords.NEVER_A_NAME.contains(words.get(i).folded())
        && !PersonWords.TITLES.contains(words.get(i).folded())
        && !NameWords.isGiven(words.get(i));
  }

  /** {@code died the 7th of June 1801, / of wounds received in action}. */
  private void causeBehind(int start, List<Clause> found) {
    boolean leads =
        start > 0
            && start + 1 < words.size()
            && words.get(start).is("of", "from", "by")
            && phrase(start - 1).isEmpty()
            && isDisease(start + 1);
    if (leads) {
      int end = causeEnd(start + 1, words.size());
      found.add(
          clause(
              new Phrase(Set.of(Kind.DEATH), start + 1, true, false),
              start,
              end,
              2 + 0.3 * (end - start),
              List.of(),
              end,
              Optional.of(new int[] {start + 1, end}),
              ""));
    }
  }

  /** Whether what follows says where or how it came to pass, whatever its words. */
  private static boolean leads(CarvedWord word) {
    return word.in(LEADS);
  }

  private static final Set<String> DISEASES =
      PersonWords.words(
          "cholera fever consumption smallpox dysentery scurvy apoplexy wounds typhus typhoid influenza childbirth "
              + "pneumonia diphtheria phthisis dropsy measles croup scarlatina yellow scarlet small paralysis sunstroke childbed "
              + "camp spotted asiatic bilious putrid brain distemper effects injuries gas exposure drowning "
              + "starvation exhaustion decline whooping asthma cancer tuberculosis meningitis malaria plague ague "
              + "palsy gangrene jaundice rheumatic heat hydrophobia convulsions quinsy pleurisy bronchitis enteric "
              + "erysipelas burns thirst hunger privation childbearing jungle");

  private boolean isDisease(int i) {
    if (i >= words.size()) {
      return false;
    }
    int at = i + (words.get(i).is("the", "a", "an") && i + 1 < words.size() ? 1 : 0);
    return words.get(at).in(DISEASES);
  }

  private boolean isPlaceLead(int i) {
    CarvedWord word = words.get(i);
    return word.is("at", "in", "near", "off", "to", "from", "on")
        || (word.is("the", "of", "st", "new")
            && i > 0
            && words
                .get(i - 1)
                .is(
                    "at", "in", "near", "off", "of", "city", "town", "parish", "county",
                    "village"));
  }

  private boolean inCause(int causeFrom, int i) {
    return words.subList(causeFrom, i).stream()
        .anyMatch(w -> w.is("river", "by", "in", "at", "near", "off"));
  }

  private int causeWord(int from, int to) {
    for (int i = from; i < to; i++) {
      if (words.get(i).in(CAUSES) || words.get(i).is("accidentally", "fell", "missing")) {
        return i;
      }
    }
    return from;
  }

  /** {@code of cholera}, {@code by a fall}, {@code from wounds}. */
  private boolean leadsCause(int i, int phraseEnd) {
    boolean lead =
        words.get(i).is("of", "by", "from")
            || (words.get(i).is("with") && isDisease(i + 1))
            || (words.get(i).is("after") && i == phraseEnd);
    return lead
        && i == phraseEnd
        && i + 1 < words.size()
        && !words.get(i).is("after")
        && !words.get(i + 1).is("this", "his", "her", "our")
        && dates.at(i + 1).isEmpty()
        && ages.at(i + 1).isEmpty();
  }

  /** {@code lost at sea}, {@code drowned in the River Wend}: where it was is part of it. */
  private boolean isWater(int i) {
    return words.get(i).in(CAUSES)
        && words
            .get(i)
            .is(
                "lost",
                "drowned",
                "drownd",
                "drownded",
                "wrecked",
                "shipwrecked",
                "perished",
                "slain",
                "killed")
        && !next(i, "by");
  }

  private boolean saysWhere(int i) {
    return words.get(i).is("in", "at", "near", "off")
        && i + 1 < words.size()
        && (words.get(i + 1).is("the", "this") || words.get(i + 1).isCapitalised());
  }

  /** Where the words of a cause end, at the latest before a date. */
  private int causeEnd(int from, int limit) {
    int i = from;
    int last = from;
    while (i < Math.min(limit, words.size()) && i - from < 12) {
      CarvedWord word = words.get(i);
      boolean stop =
          i > from
              && (word.is("aged", "who", "also", "age", "he", "she", "born", "died")
                  || (i - from > 0 && dates.at(i).isPresent())
                  || (word.is("on") && next(i, "his", "her", "their", "board", "passage"))
                  || (i - from > 1 && !isWater(from) && saysWhere(i))
                  || word.line() - words.get(from).line() > 1
                  || (word.line() > words.get(i - 1).line()
                      && (NameWords.isGiven(word)
                          || (i - from > 2 && saysWhere(i))
                          || (word.in(PersonWords.POSSESSORS)
                              && !words.get(i - 1).is("of", "by", "in", "with", "to"))))
                  || (word.line() > words.get(i - 1).line()
                      && limit >= words.size()
                      && !word.in(BETWEEN)
                      && !words.get(i - 1).in(BETWEEN)));
      if (stop) {
        break;
      }
      i++;
      last = i;
    }
    while (last > from + 1
        && words.get(last - 1).is("on", "in", "the", "at", "of", "and", "&", "upon", "a", "ye")) {
      last--;
    }
    return last;
  }

  /** The phrases that stand one after another, as in {@code born & died}. */
  private Optional<Phrase> phrases(int start) {
    int i = start;
    while (i < words.size() && words.get(i).in(BEFORE_VERB) && i - start < 4) {
      i++;
    }
    Optional<Phrase> first = phrase(i);
    if (first.isEmpty()) {
      return first;
    }
    boolean accident =
        i > start && words.subList(start, i).stream().anyMatch(w -> w.is("accidentally"));
    Phrase p = first.get();
    int end = p.end();
    Set<Kind> kinds = new LinkedHashSet<>(p.kinds());
    boolean cause = p.cause();
    if (end + 1 < words.size() && words.get(end).is("&", "and")) {
      Optional<Phrase> second = phrase(end + 1);
      if (second.isPresent() && !second.get().other() && !p.other()) {
        kinds.addAll(second.get().kinds());
        cause |= second.get().cause();
        end = second.get().end();
      }
    }
    return Optional.of(new Phrase(kinds, end, cause || accident && p.cause(), p.other()));
  }

  private Optional<Phrase> phrase(int i) {
    if (i >= words.size()) {
      return Optional.empty();
    }
    CarvedWord word = words.get(i);
    Set<Kind> death = Set.of(Kind.DEATH);
    if (word.is("lost") && next(i, "his", "her", "their") && next(i + 1, "life", "lives")) {
      return Optional.of(new Phrase(death, i + 3, true, false));
    }
    if (word.in(CAUSES)
        && !(word.is("run", "thrown", "struck") && !next(i, "over", "down", "from", "by"))) {
      return Optional.of(new Phrase(death, i + 1, true, false));
    }
    if (word.is("fell") && next(i, "a") && next(i + 1, "victim") && next(i + 2, "to")) {
      return Optional.of(new Phrase(death, i + 4, false, false));
    }
    if (word.is("fell")) {
      boolean asleep = next(i, "asleep", "a");
      boolean war = next(i, "in", "at", "on", "near");
      if (next(i, "from", "overboard", "down")) {
        return Optional.of(new Phrase(death, i + 2, true, false));
      }
      return asleep
          ? Optional.of(new Phrase(death, next(i, "asleep") ? i + 2 : i + 3, false, false))
          : war
              ? Optional.of(
                  new Phrase(death, i + 1, next(i, "in") && next(i + 1, "action", "battle"), false))
              : Optional.empty();
    }
    if (word.in(DIED) && !(word.is("dec") && isMonthHere(i))) {
      return Optional.of(new Phrase(death, i + 1, false, false));
    }
    if (word.folded().startsWith("depart") || word.is("dept")) {
      return word.folded().equals("departing")
          ? Optional.empty()
          : Optional.of(new Phrase(death, lifeEnd(i + 1), false, false));
    }
    if (word.is("missing")
        && (next(i, "presumed", "believed")
            || (next(i, "in") && next(i + 1, "action"))
            || (next(i, "and") && next(i + 1, "presumed", "believed")))) {
      int end = i + 1;
      while (end < words.size()
          && words
              .get(end)
              .is(
                  "and",
                  "presumed",
                  "believed",
                  "killed",
                  "drowned",
                  "lost",
                  "dead",
                  "in",
                  "action")
          && end - i < 6) {
        end++;
      }
      return Optional.of(new Phrase(death, end, true, false));
    }
    if ((word.is("d") || word.is("ob")) && isAbbreviation(i)) {
      return Optional.of(new Phrase(death, i + 1, false, false));
    }
    if (word.is("b", "d") && leadsPlaceAndDay(i)) {
      return Optional.of(
          new Phrase(word.is("b") ? Set.of(Kind.BIRTH) : death, i + 1, false, false));
    }
    if (word.is("b", "n") && isAbbreviation(i)) {
      return Optional.of(new Phrase(Set.of(Kind.BIRTH), i + 1, false, false));
    }
    boolean initial =
        i > 0 && words.get(i - 1).line() == word.line() && NameWords.isGiven(words.get(i - 1));
    if (word.is("m") && isAbbreviation(i) && word.endsWith(".") && !initial) {
      return Optional.of(new Phrase(Set.of(Kind.MARRIAGE), i + 1, false, false));
    }
    if (word.is("born", "borne", "natus", "nata", "birth", "né") && !next(i, "again")) {
      return Optional.of(new Phrase(Set.of(Kind.BIRTH), i + 1, false, false));
    }
    if (word.in(BURIED)) {
      return Optional.of(new Phrase(Set.of(Kind.BURIAL), i + 1, false, false));
    }
    if (word.is("laid") && next(i, "here")) {
      return Optional.of(new Phrase(Set.of(Kind.BURIAL), i + 2, false, false));
    }
    if (word.is("laid") && next(i, "in") && next(i + 1, "this") && next(i + 2, "grave", "tomb")) {
      return Optional.of(new Phrase(Set.of(Kind.BURIAL), i + 4, false, false));
    }
    if (word.is("married", "marrd", "wed", "marr", "espoused")) {
      return Optional.of(new Phrase(Set.of(Kind.MARRIAGE), i + 1, false, false));
    }
    if ((word.is("passed") && next(i, "away", "on", "peacefully", "over", "to", "from", "into"))
        || (word.is("entered", "entred") && next(i, "into", "rest", "upon"))
        || (word.is("called") && next(i, "home", "to", "away"))
        || (word.is("went") && next(i, "home", "to"))
        || (word.is("taken") && next(i, "from", "home", "away", "suddenly"))
        || (word.is("left") && next(i, "this"))
        || (word.is("gave")
            && next(i, "his", "her", "up")
            && next(i + 1, "life", "all", "young", "soul", "spirit", "the"))
        || (word.is("laid") && next(i, "down", "to"))
        || (word.is("exchanged") && next(i, "this", "time", "the"))
        || (word.is(
                "resigned",
                "breathed",
                "finished",
                "ended",
                "closed",
                "quitted",
                "yielded",
                "surrendered")
            && next(i, "his", "her", "this", "up", "their"))
        || (word.is("at") && next(i, "rest") && nextIsDate(i + 2))
        || (word.is("asleep", "rest", "rested", "sleeping") && nextIsDate(i + 1))) {
      int end = i + 2;
      if (word.is("asleep", "rest", "rested", "sleeping")) {
        end = i + 1;
      }
      while (end < words.size()
          && words.get(end).in(OF_PARTING)
          && dates.at(end).isEmpty()
          && end - i < 9) {
        end++;
      }
      return Optional.of(new Phrase(death, end, false, false));
    }
    if (word.is("joined") && next(i, "him", "her", "them")) {
      return Optional.of(new Phrase(death, i + 2, false, false));
    }
    if (word.is("bu", "fu") && next(i, "farw")) {
      return Optional.of(new Phrase(death, i + 2, false, false));
    }
    if (word.in(OTHER_EVENTS)) {
      return Optional.of(new Phrase(Set.of(), i + 1, false, true));
    }
    return Optional.empty();
  }

  /** Behind {@code departed}: the end of {@code this life} where a cause follows it. */
  private int lifeEnd(int i) {
    boolean cause =
        i + 2 < words.size() && words.get(i).is("this", "ye") && words.get(i + 2).is("by");
    return cause && words.get(i + 1).is("life") ? i + 2 : i;
  }

  private boolean isMonthHere(int i) {
    return dates.at(i).isPresent() || (i > 0 && dates.at(i - 1).isPresent());
  }

  private boolean nextIsDate(int i) {
    return i < words.size() && dates.at(i).isPresent();
  }

  /** A letter for its word: a date follows, or a colon or point stands after it. */
  private boolean isAbbreviation(int i) {
    CarvedWord word = words.get(i);
    boolean other = i > 0 && words.get(i - 1).folded().equals("a");
    // "ELLA B." with the date below is a name.
    other |=
        i > 0
            && i + 1 < words.size()
            && word.isCapitalised()
            && NameWords.isGiven(words.get(i - 1))
            && words.get(i - 1).line() == word.line()
            && words.get(i + 1).line() != word.line();
    boolean dateFollows = i + 1 < words.size() && dates.at(i + 1).isPresent() && !other;
    return dateFollows
        || (word.shown().matches("\\p{Ll}[.:].*")
            && i + 2 < words.size()
            && (dates.at(i + 2).isPresent()
                || words.get(i + 1).is("at", "in", "on", "of", "near", "here")));
  }

  /** {@code B. GRAHAMSFORD 3.3.1904}: a line of its own that ends in a full date. */
  private boolean leadsPlaceAndDay(int i) {
    CarvedWord word = words.get(i);
    boolean begins = i > 0 && words.get(i - 1).line() != word.line();
    for (int k = i + 2; begins && word.endsWith(".") && k < words.size() && k < i + 5; k++) {
      if (words.get(k).line() != word.line()) {
        return false;
      }
      if (dates.at(k).filter(d -> d.value().length() > 4).isPresent()) {
        return true;
      }
    }
    return false;
  }

  private boolean next(int i, String... forms) {
    return i + 1 < words.size() && words.get(i + 1).is(forms);
  }
}
