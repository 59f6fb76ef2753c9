package rakelight.person;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;

/**
 * Statements of an English inscription, read from left to right: after the formula a name, then
 * what is said of that person until the next name. What fits no rule is left alone, so that a verse
 * or an unusual turn costs a statement and doesn't make a wrong one.
 *
 * <p>Limits: one language; a surname is the last of two words and more; emblems say nothing; burial
 * and marriage are only seen where a date follows their word.
 */
public final class Statements {

  private final List<CarvedWord> words;
  private final DateWords dates;
  private final AgeWords ages;
  private final List<Statement> found = new ArrayList<>();
  private final List<Integer> bareDates = new ArrayList<>();
  private int persons;
  private String familyName = "";

  private Statements(Inscription inscription, CalendarChange change) {
    words = CarvedWord.of(inscription);
    dates = new DateWords(words, change);
    ages = new AgeWords(words);
  }

  /** All statements of the reading, in its order. */
  public static List<Statement> of(Inscription inscription, CalendarChange change) {
    Statements statements = new Statements(inscription, change);
    statements.read();
    statements.giveYears();
    statements.giveSurnames();
    return List.copyOf(statements.found);
  }

  /** Whether a folded word is a title before a name or a suffix after it, such as Mr or Esq. */
  public static boolean isTitle(String folded) {
    return Lexicon.TITLES.contains(folded) || Lexicon.SUFFIXES.contains(folded);
  }

  private void read() {
    int i = 0;
    boolean afterFormula = true;
    while (i < words.size()) {
      int next = dated(i);
      next = next > i ? next : age(i);
      next = next > i ? next : service(i);
      next = next > i ? next : kin(i);
      next = next > i ? next : origin(i);
      next = next > i ? next : maker(i);
      if (next == i) {
        next = name(i, afterFormula || beginsLine(i));
      }
      boolean listGoesOn =
          next > i
              && !found.isEmpty()
              && last().kind() == Kind.NAME
              && words.get(next - 1).endsWith(",");
      if (next == i) {
        afterFormula =
            Lexicon.FORMULA_ENDS.contains(words.get(i).folded())
                || words.get(i).shown().equals("·");
        next = i + 1;
      } else {
        afterFormula = listGoesOn;
      }
      i = next;
    }
  }

  private Statement last() {
    return found.get(found.size() - 1);
  }

  /** Whether what follows is said of a person: a date, kinship, an age or the word for one. */
  private boolean factsFollow(int i) {
    return i < words.size()
        && (kinAhead(i)
            || trigger(words.get(i)).isPresent()
            || words.get(i).is("who", "aged")
            || dates.at(i).isPresent());
  }

  private boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  private void add(Kind kind, int from, int to, String value) {
    add(kind, persons, from, to, value);
  }

  private void add(Kind kind, int person, int from, int to, String value) {
    List<SignId> signs = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    boolean supplied = false;
    for (int i = from; i < to; i++) {
      CarvedWord word = words.get(i);
      if (i > from) {
        text.append(word.line() == words.get(i - 1).line() ? " " : " / ");
      }
      text.append(word.shown());
      signs.addAll(word.signs());
      supplied |= word.supplied();
    }
    Optional<String> reason =
        supplied ? Optional.of("letters supplied by the reader") : Optional.empty();
    found.add(
        new Statement(
            person,
            kind,
            words.get(from).line(),
            words.get(to - 1).line(),
            text.toString(),
            value,
            reason,
            signs));
  }

  /** A date with the word that says of what, a span of years, or a bare date: that of death. */
  private int dated(int start) {
    int i = start;
    Kind kind = Kind.DEATH;
    boolean triggered = false;
    while (i < words.size() && i - start < 8) {
      CarvedWord word = words.get(i);
      Optional<Kind> trigger = trigger(word);
      if (trigger.isPresent()) {
        kind = trigger.get();
        triggered = true;
        i++;
      } else if ((triggered && word.is("this", "life", "at", "on", "off", "sea", "was"))
          || word.is("who")) {
        i++;
      } else {
        break;
      }
    }
    int at = afterPlace(i);
    if (at >= words.size()) {
      return start;
    }
    if (!triggered && i == start) {
      int span = spanOfYears(start);
      if (span > start) {
        return span;
      }
    }
    Optional<DateWords.Found> date =
        triggered || beginsLine(start) || isAfterNameOrDate(start)
            ? dates.at(at)
            : Optional.empty();
    if (date.isEmpty() || (!triggered && persons == 0)) {
      return start;
    }
    if (!triggered) {
      takeFirstBareDateAsBirth();
      bareDates.add(found.size());
    }
    add(kind, start, date.get().end(), date.get().value());
    return date.get().end();
  }

  /** Of two days with no word to say of what, the first is that of birth. */
  private void takeFirstBareDateAsBirth() {
    for (int index : bareDates) {
      Statement first = found.get(index);
      boolean born = found.stream().anyMatch(s -> s.person() == persons && s.kind() == Kind.BIRTH);
      if (first.person() == persons && first.value().length() > 4 && !born) {
        found.set(index, first.withKind(Kind.BIRTH));
      }
    }
  }

  private boolean isAfterNameOrDate(int i) {
    return i > 0 && !found.isEmpty() && last().signs().contains(words.get(i - 1).signs().get(0));
  }

  private boolean placeAfterAt(int i) {
    return i > 0
        && i < words.size()
        && words.get(i).isCapitalised()
        && (words.get(i - 1).is("at", "on", "off")
            || (i > 1
                && words.get(i - 2).is("at", "on", "off")
                && words.get(i - 1).isCapitalised()))
        && MonthName.parse(words.get(i).folded()).isEmpty();
  }

  private int afterPlace(int i) {
    int at = i;
    while (placeAfterAt(at)) {
      at++;
    }
    return at;
  }

  private static Optional<Kind> trigger(CarvedWord word) {
    return switch (word.folded()) {
      case "died",
          "dyed",
          "departed",
          "decd",
          "deceased",
          "obt",
          "ob",
          "obiit",
          "lost",
          "drowned",
          "killed" ->
          Optional.of(Kind.DEATH);
      case "born" -> Optional.of(Kind.BIRTH);
      case "buried" -> Optional.of(Kind.BURIAL);
      case "married" -> Optional.of(Kind.MARRIAGE);
      default -> Optional.empty();
    };
  }

  /** {@code 1849 – 1911}, also with days, or with the second side never cut. */
  private int spanOfYears(int start) {
    Optional<DateWords.Found> birth = dates.at(start);
    if (birth.isEmpty() || persons == 0) {
      return start;
    }
    int dash = birth.get().end();
    if (dash >= words.size() || !words.get(dash).folded().equals("-")) {
      return start;
    }
    add(Kind.BIRTH, start, dash, birth.get().value());
    Optional<DateWords.Found> death =
        dash + 1 < words.size() ? dates.at(dash + 1) : Optional.empty();
    death.ifPresent(date -> add(Kind.DEATH, dash + 1, date.end(), date.value()));
    return death.map(DateWords.Found::end).orElse(dash + 1);
  }

  private int age(int start) {
    if (persons == 0) {
      return start;
    }
    Optional<AgeWords.Found> age = ages.at(start);
    age.ifPresent(f -> add(Kind.AGE, start, f.end(), f.value()));
    return age.map(AgeWords.Found::end).orElse(start);
  }

  /** {@code CO. B / 3 SKER. INF.}; a rank may lead it. */
  private int service(int start) {
    int office = office(start);
    if (office > start || persons == 0 || !beginsLine(start)) {
      return office;
    }
    int i = start;
    boolean company = words.get(i).is("co", "company", "troop", "battery") && i + 1 < words.size();
    i += company ? 2 : Lexicon.RANKS.contains(words.get(i).folded()) ? 1 : 0;
    int unitEnd = i;
    for (int k = i; k < Math.min(words.size(), i + 5); k++) {
      if (Lexicon.ARMS.contains(words.get(k).folded())
          && words.get(k).isCapitalised()
          && words.get(i).line() == words.get(k).line()
          && words.get(i).isCapitalisedOrFigure()) {
        unitEnd = k + 1;
      }
    }
    int end = unitEnd > i ? unitEnd : company ? i : start;
    if (end > start) {
      add(Kind.SERVICE, start, end, text(start, end));
    }
    return end;
  }

  /** {@code FOR 31 YEARS MINISTER / OF TARROW CHAPEL}, or an office after a name and comma. */
  private int office(int start) {
    int i = start;
    if (i + 3 < words.size() && words.get(i).is("for") && words.get(i + 2).is("years")) {
      i += 3;
    }
    boolean led = i + 1 < words.size() && beginsLine(i) && words.get(i).isCapitalised();
    i += led && Lexicon.OFFICES.contains(words.get(i + 1).folded()) ? 1 : 0;
    if (persons == 0 || !Lexicon.OFFICES.contains(words.get(i).folded())) {
      return start;
    }
    int end = i + 1;
    boolean of = end + 1 < words.size() && words.get(end).is("of");
    end += of ? 1 : 0;
    while (of
        && end < words.size()
        && words.get(end).isCapitalised()
        && words.get(end).line() == words.get(end - 1).line()) {
      end++;
    }
    boolean afterName = isAfterNameOrDate(start) && words.get(start - 1).endsWith(",");
    if (!of && !afterName) {
      return start;
    }
    add(Kind.SERVICE, start, end, text(start, end));
    return end;
  }

  private String text(int from, int to) {
    return words.subList(from, to).stream().map(CarvedWord::shown).collect(joining(" "));
  }

  /**
   * {@code wife of}, {@code his wife}, {@code infant son of A. & B.} with the names that follow.
   */
  private int kin(int start) {
    int i = start;
    while (i < words.size() && Lexicon.KIN_BEFORE.contains(words.get(i).folded())) {
      i++;
    }
    if (i >= words.size() || !Lexicon.KIN.contains(words.get(i).folded())) {
      return start;
    }
    String relation = words.get(i).folded().startsWith("dau") ? "daughter" : words.get(i).folded();
    boolean possessive = words.get(start).is("his", "her", "their");
    int end = i + 1;
    if (end < words.size() && words.get(end).is("of")) {
      end = kinNames(end + 1);
      String names = text(i + 2, end).replaceAll("[,;.]+$", "");
      add(Kind.KIN, start, end, relation + " of " + names);
      return end;
    }
    boolean unnamed = i == start + 1 && words.get(start).is("infant");
    if (unnamed && start > 0 && words.get(start - 1).is("and", "&", "also", "an")) {
      persons++;
      add(Kind.NAME, start, end, "|");
      return end;
    }
    if (!possessive || persons == 0 || !(isAfterNameOrDate(start) || beginsLine(start))) {
      return start;
    }
    add(Kind.KIN, start, end, relation + " of the person before");
    return end;
  }

  private int kinNames(int from) {
    int end = from;
    while (end < words.size()) {
      CarvedWord word = words.get(end);
      boolean link = word.is("&", "and", "the", "late", "above", "said") && !word.endsWith(",");
      boolean name = word.isCapitalised() && !Lexicon.NEVER_A_NAME.contains(word.folded());
      if (!link && !name) {
        break;
      }
      if (name && isMonthOrDay(end)) {
        break;
      }
      end++;
      if (word.endsWith(",") || (word.endsWith(".") && word.folded().length() > 5)) {
        break;
      }
      boolean complete =
          name
              && end - from >= 2
              && !words.get(end - 2).is("&", "and", "late")
              && !Lexicon.TITLES.contains(words.get(end - 2).folded())
              && !words.get(end - 2).isInitial();
      boolean goesOn = end < words.size() && words.get(end).is("&", "and");
      if (complete && !goesOn && end < words.size() && words.get(end).line() != word.line()) {
        break;
      }
    }
    return Math.max(end, Math.min(from + 1, words.size()));
  }

  private boolean isMonthOrDay(int i) {
    return dates.at(i).isPresent();
  }

  private int origin(int start) {
    if (found.isEmpty() || last().kind() != Kind.NAME) {
      return start;
    }
    int i = start + (words.get(start).is("late", "formerly", "native") ? 1 : 0);
    if (i >= words.size() || !words.get(i).is("of")) {
      return start;
    }
    int end = i + 1;
    while (end < words.size()
        && words.get(end).isCapitalised()
        && words.get(end).line() == words.get(i).line()
        && (end == i + 1 || !words.get(end - 1).endsWith(","))) {
      end++;
    }
    if (end == i + 1) {
      return start;
    }
    add(Kind.ORIGIN, start, end, text(i + 1, end).replaceAll("[,.;]+$", ""));
    return end;
  }

  private int maker(int start) {
    if (!beginsLine(start) || words.get(start).line() != words.get(words.size() - 1).line()) {
      return start;
    }
    int end = words.size();
    boolean signed =
        words.subList(start, end).stream().anyMatch(w -> w.is("sculpt", "sculp", "fecit", "sc"));
    if (signed) {
      add(Kind.MAKER, 0, start, end, text(start, end));
    }
    return signed ? end : start;
  }

  /** A run of capitalised words where a name may stand. */
  private int name(int start, boolean mayBegin) {
    if (!mayBegin || !mayBeName(start) || Lexicon.SUFFIXES.contains(words.get(start).folded())) {
      return start;
    }
    int end = start + 1;
    while (end < words.size()
        && words.get(end).line() == words.get(start).line()
        && mayBeName(end)
        && !words.get(end - 1).endsWith(",")
        && !words.get(end - 1).endsWith(";")) {
      end++;
    }
    boolean lineEnds = end == words.size() || words.get(end).line() != words.get(start).line();
    boolean wholeLine = beginsLine(start) && lineEnds;
    boolean afterFormula =
        start > 0 && Lexicon.FORMULA_ENDS.contains(words.get(start - 1).folded());
    boolean fresh = words.get(start).is("unknown", "baby") || isGivenName(start);
    boolean initials =
        words.subList(start, end).stream().allMatch(CarvedWord::isInitial) && end - start >= 2;
    boolean titled = Lexicon.TITLES.contains(words.get(start).folded());
    boolean inList =
        start > 0
            && (words.get(start - 1).endsWith(",") || words.get(start - 1).shown().equals("·"));
    boolean told =
        beginsLine(start)
            && ((factsFollow(end) && end - start <= 3)
                || (start == 0 && wholeLine && end - start >= 2 && end - start <= 4));
    boolean initialled = words.get(start).isInitial() && end - start >= 2 && lineEnds;
    if (!(afterFormula
        || fresh
        || initials
        || titled
        || initialled
        || (told && (end - start > 1 || !wholeLine || !familyName.isEmpty()))
        || (inList && !found.isEmpty() && last().kind() == Kind.NAME))) {
      if (wholeLine && end - start == 1) {
        return heading(start, end);
      }
      return start;
    }
    boolean unfinished = wholeLine && end - start == 1 && !words.get(start).is("unknown", "baby");
    if (unfinished && end < words.size() && continuesOnNextLine(end)) {
      int line = words.get(end).line();
      while (end < words.size() && words.get(end).line() == line) {
        end++;
      }
    }
    persons++;
    add(Kind.NAME, start, end, parts(start, end));
    return end;
  }

  /** A line of one unknown word: the family's name, or a given name when its facts follow. */
  private int heading(int start, int end) {
    if (!factsFollow(end)) {
      familyName = titleCase(words.get(start).folded());
      return start;
    }
    persons++;
    add(Kind.NAME, start, end, titleCase(words.get(start).folded()) + "|");
    return end;
  }

  private boolean continuesOnNextLine(int from) {
    int line = words.get(from).line();
    int i = from;
    boolean surname = false;
    while (i < words.size() && words.get(i).line() == line) {
      if (!mayBeName(i) || i - from > 2) {
        return false;
      }
      surname |= !isGivenName(i) && !words.get(i).isInitial();
      i++;
    }
    return surname;
  }

  private boolean mayBeName(int i) {
    CarvedWord word = words.get(i);
    boolean doubtful = word.folded().startsWith("?") && word.folded().matches("[a-z?]{3,}");
    return (word.isCapitalised() || doubtful)
        && word.folded().matches("[a-z?]+")
        && !Lexicon.NEVER_A_NAME.contains(word.folded())
        && !Lexicon.ARMS.contains(word.folded())
        && !Lexicon.OFFICES.contains(word.folded())
        && !(isMonth(word)
            && i + 1 < words.size()
            && words.get(i + 1).line() == word.line()
            && words.get(i + 1).folded().matches(".*[0-9].*"));
  }

  private static boolean isMonth(CarvedWord word) {
    return MonthName.parse(word.folded()).isPresent();
  }

  private boolean isGivenName(int i) {
    return isGivenName(words.get(i).folded());
  }

  private static boolean isGivenName(String folded) {
    return !GivenNames.known().nicknamesOf(folded).isEmpty()
        || !GivenNames.known().abbreviationsOf(folded).isEmpty();
  }

  private String parts(int from, int to) {
    List<String> parts = new ArrayList<>();
    int lastIndex = -1;
    for (int i = from; i < to; i++) {
      if (!Lexicon.TITLES.contains(words.get(i).folded())
          && !Lexicon.SUFFIXES.contains(words.get(i).folded())
          && !words.get(i).is("baby", "unknown")) {
        parts.add(titleCase(words.get(i).folded()));
        lastIndex = i;
      }
    }
    boolean kinFollows = to < words.size() && kinAhead(to);
    boolean onlyGiven =
        (parts.size() == 1 && (!Lexicon.TITLES.contains(words.get(from).folded()) || kinFollows))
            || (parts.size() > 1
                && (!familyName.isEmpty() || kinFollows)
                && (isGivenName(lastIndex)
                    || words.get(lastIndex).isInitial()
                    || isMonth(words.get(lastIndex)))
                && !initialsOnly(parts));
    if (parts.isEmpty()) {
      return "|";
    }
    if (onlyGiven || (parts.size() == 1 && isGivenName(lastIndex))) {
      return String.join(" ", parts) + "|";
    }
    return String.join(" ", parts.subList(0, parts.size() - 1)) + "|" + parts.get(parts.size() - 1);
  }

  private static boolean initialsOnly(List<String> parts) {
    return parts.stream().allMatch(part -> part.length() == 1);
  }

  private boolean kinAhead(int i) {
    return Lexicon.KIN.contains(words.get(i).folded())
        || Lexicon.KIN_BEFORE.contains(words.get(i).folded());
  }

  private static String titleCase(String folded) {
    return folded.isEmpty()
        ? ""
        : folded.substring(0, 1).toUpperCase(Locale.ROOT) + folded.substring(1);
  }

  /** Dates without a year take the next year carved on the face; said to be supplied. */
  private void giveYears() {
    String year = "";
    List<String> lentYears = new ArrayList<>();
    for (int i = found.size() - 1; i >= 0; i--) {
      Statement statement = found.get(i);
      if (statement.isDate() && statement.value().matches("[0-9]{4}.*")) {
        year = statement.value().substring(0, 4);
      } else if (statement.isDate() && statement.value().startsWith("--")) {
        Optional<String> value = dates.withYear(statement.value(), year);
        if (value.isPresent()) {
          lentYears.add(year);
          found.set(i, statement.withValue(value.get(), "year from the date that follows"));
        }
      }
    }
    found.removeIf(s -> s.isDate() && lentYears.contains(s.text()));
    found.removeIf(s -> s.isDate() && (s.value().isEmpty() || s.value().startsWith("--")));
  }

  /** A person named without surname takes that of the family or of the person before. */
  private void giveSurnames() {
    String before = familyName;
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      if (statement.kind() != Kind.NAME) {
        continue;
      }
      if (!statement.value().endsWith("|")) {
        before = statement.value().substring(statement.value().indexOf('|') + 1);
        continue;
      }
      Optional<String> fromKin = surnameFromKin(i);
      String surname = fromKin.orElse(before);
      if (!surname.isEmpty() && !statement.text().equalsIgnoreCase("unknown")) {
        String reason =
            fromKin.isPresent()
                ? "surname from the kin named"
                : familyName.isEmpty() ? "surname of the person before" : "surname of the face";
        found.set(i, statement.withValue(statement.value() + surname, reason));
        before = surname;
      }
    }
  }

  private Optional<String> surnameFromKin(int name) {
    int person = found.get(name).person();
    return found.stream()
        .filter(
            s ->
                (s.person() == person || s.value().startsWith("child"))
                    && s.kind() == Kind.KIN
                    && s.value().contains(" of "))
        .map(s -> s.value().substring(s.value().lastIndexOf(' ') + 1))
        .filter(s -> !isGivenName(NameForms.fold(s)))
        .filter(s -> s.matches("\\p{Lu}[\\p{L}’']{2,}"))
        .map(s -> titleCase(s.toLowerCase(Locale.ROOT)))
        .findFirst();
  }
}
