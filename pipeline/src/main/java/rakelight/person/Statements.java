package rakelight.person;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;
import rakelight.names.GivenNames;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;
import rakelight.person.calendar.MonthName;
import rakelight.person.calendar.RomanNumeral;

/**
 * Statements of an English inscription, read from left to right: after the formula a name, then
 * what is said of that person until the next name. What fits no rule is left alone, so that an
 * unusual turn costs a statement and doesn't make a wrong one; lines after the names that hold no
 * fact are verse.
 *
 * <p>Limits: one language; a surname is the last of two words and more; emblems say nothing; burial
 * and marriage are only seen where a date follows their word.
 */
public final class Statements {
  /**
   * Of the grammar with its word lists. It changes whenever a reading may come to assert something
   * else, or a statement be written in another form.
   */
  static final int GRAMMAR = 1;

  private static final int MOST_TRIGGERS = 8;

  /** So many words on a line are speech, whatever they are. */
  private static final int RUNNING_WORDS = 5;

  private final List<CarvedWord> words;
  private final DateWords dates;
  private final AgeWords ages;
  private final KinWords kins;
  private final ServiceWords services;
  private final List<Statement> found = new ArrayList<>();
  private final List<Integer> bareDates = new ArrayList<>();

  /** Kinship that stands before the name it is of, by its index in {@link #found}. */
  private final List<Integer> waiting = new ArrayList<>();

  /** Persons who bear no surname of others: a ship's boy. */
  private final Set<Integer> alone = new HashSet<>();

  private int persons;
  private String familyName;

  /** The surname borne on other faces. */
  private final String lent;

  private Statements(Inscription inscription, CalendarChange change, String familyName) {
    words = CarvedWord.of(inscription);
    dates = new DateWords(words, change);
    ages = new AgeWords(words);
    kins = new KinWords(words, dates);
    services = new ServiceWords(words);
    this.familyName = familyName;
    lent = familyName;
  }

  /** All statements of the reading, in its order. */
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
    Statements statements = new Statements(inscription, change, familyName);
    statements.read();
    statements.finish();
    return List.copyOf(statements.found);
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
    }
    surnames.remove("");
    return surnames;
  }

  /** Whether a folded word is a title before a name or a suffix after it, such as Mr or Esq. */
  public static boolean isTitle(String folded) {
    return PersonWords.TITLES.contains(folded) || PersonWords.SUFFIXES.contains(folded);
  }

  private void read() {
    int i = 0;
    boolean afterFormula = true;
    while (i < words.size()) {
      int next = scripture(i);
      next = next > i ? next : removal(i);
      next = next > i ? next : dated(i);
      next = next > i ? next : age(i);
      next = next > i ? next : order(i);
      next = next > i ? next : service(i);
      next = next > i ? next : kin(i);
      next = next > i ? next : origin(i);
      next = next > i ? next : occupation(i);
      next = next > i ? next : cause(i);
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
            PersonWords.FORMULA_ENDS.contains(words.get(i).folded())
                || words.get(i).shown().equals("·");
        next = i + 1;
      } else {
        afterFormula = listGoesOn;
      }
      i = next;
    }
  }

  private void finish() {
    waiting.forEach(this::giveToLast);
    giveToAll();
    giveYears();
    giveSurnames();
    giveKin();
    verse();
    found.sort(Comparator.comparingInt(s -> place(s)));
  }

  /** Where it begins, by words. */
  private int place(Statement statement) {
    SignId first = statement.signs().get(0);
    for (int i = 0; i < words.size(); i++) {
      if (words.get(i).signs().contains(first)) {
        return i;
      }
    }
    return words.size();
  }

  private Statement last() {
    return found.get(found.size() - 1);
  }

  /** Whether what follows is said of a person: a date, kinship, an age or the word for one. */
  private boolean factsFollow(int i) {
    return i < words.size()
        && (kins.isAhead(i)
            || trigger(words.get(i)).isPresent()
            || words.get(i).is("who", "aged")
            || dates.at(i).isPresent());
  }

  private boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  private void add(Kind kind, int from, int to, String value, Optional<Detail> detail) {
    add(kind, persons == 0 ? List.of() : List.of(persons), from, to, value, detail);
  }

  private void add(
      Kind kind, List<Integer> about, int from, int to, String value, Optional<Detail> detail) {
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
            about,
            kind,
            words.get(from).line(),
            words.get(to - 1).line(),
            text.toString(),
            value,
            detail,
            reason,
            signs));
  }

  /** A date with the word that says of what, a span of years, or a bare date: that of death. */
  private int dated(int start) {
    int i = start;
    Kind kind = Kind.DEATH;
    boolean triggered = false;
    while (i < words.size() && i - start < MOST_TRIGGERS) {
      CarvedWord word = words.get(i);
      Optional<Kind> trigger = trigger(word);
      if (trigger.isPresent()) {
        kind = trigger.get();
        triggered = true;
        i++;
      } else if ((triggered
              && word.is("this", "life", "at", "on", "off", "sea", "was", "in", "action"))
          || word.is("who")) {
        i++;
      } else if (triggered && word.is("of", "by") && causeEnd(i) > i) {
        i = causeEnd(i);
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
        triggered || beginsLine(start) || isAfterStatement(start) ? dates.at(at) : Optional.empty();
    if (date.isEmpty() && at > i) {
      at = i;
      date = triggered ? dates.at(at) : date;
    }
    if (date.isEmpty() || (!triggered && persons == 0)) {
      return start;
    }
    nameTheUnnamed();
    if (!triggered) {
      takeFirstBareDateAsBirth();
      bareDates.add(found.size());
    }
    addCause(start, at);
    add(kind, start, date.get().end(), date.get().value(), Optional.of(date.get().detail()));
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

  private boolean isAfterStatement(int i) {
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
        && MonthName.parse(words.get(i).folded()).isEmpty()
        && dates.at(i).isEmpty();
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
          "deceasd",
          "expired",
          "obt",
          "ob",
          "obiit",
          "lost",
          "drowned",
          "drownd",
          "perished",
          "slain",
          "murdered",
          "killed" ->
          Optional.of(Kind.DEATH);
      case "born" -> Optional.of(Kind.BIRTH);
      case "buried", "interred", "interrd" -> Optional.of(Kind.BURIAL);
      case "married" -> Optional.of(Kind.MARRIAGE);
      default -> Optional.empty();
    };
  }

  private static boolean tellsCause(CarvedWord word) {
    return word.is("lost", "drowned", "drownd", "perished", "slain", "murdered", "killed");
  }

  /** Where {@code of smallpox}, {@code by the fall of a tree} ends; the start where it is none. */
  private int causeEnd(int start) {
    int i = start + 1;
    while (i < words.size()
        && i - start <= 7
        && words.get(i).line() <= words.get(start).line() + 1
        && words.get(i).folded().matches("[a-z]+")
        && !words.get(i).is("in", "on", "aged", "who", "at")
        && dates.at(i).isEmpty()) {
      i++;
    }
    boolean dateFollows = i < words.size() && dates.at(i).isPresent();
    return i > start + 1 && dateFollows ? i : start;
  }

  private void addCause(int from, int to) {
    for (int i = from; i < to; i++) {
      boolean ofIllness = words.get(i).is("of", "by") && i > from && causeEnd(i) > i;
      if (tellsCause(words.get(i)) || ofIllness) {
        int begin = ofIllness ? i + 1 : i;
        add(
            Kind.CAUSE,
            begin,
            to,
            text(begin, to).replaceAll("( on)?[,.;]*$", ""),
            Optional.empty());
        return;
      }
    }
  }

  /** {@code LOST AT SEA} with no date. */
  private int cause(int start) {
    if (!tellsCause(words.get(start))
        || persons == 0
        || !(beginsLine(start) || isAfterStatement(start))
        || (!beginsLine(start) && last().kind() == Kind.KIN)) {
      return start;
    }
    int end = start + 1;
    while (end < words.size()
        && words.get(end).line() == words.get(start).line()
        && words.get(end).is("at", "in", "on", "off", "the", "sea", "action", "battle", "by")) {
      end++;
    }
    int afterPlace = afterPlace(end);
    if (afterPlace == start + 1) {
      return start;
    }
    add(Kind.CAUSE, start, afterPlace, text(start, afterPlace), Optional.empty());
    return afterPlace;
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
    add(Kind.BIRTH, start, dash, birth.get().value(), Optional.of(birth.get().detail()));
    Optional<DateWords.Found> death =
        dash + 1 < words.size() ? dates.at(dash + 1) : Optional.empty();
    death.ifPresent(
        date -> add(Kind.DEATH, dash + 1, date.end(), date.value(), Optional.of(date.detail())));
    return death.map(DateWords.Found::end).orElse(dash + 1);
  }

  private int age(int start) {
    if (persons == 0) {
      return start;
    }
    Optional<AgeWords.Found> age = ages.at(start);
    if (age.isPresent()) {
      nameTheUnnamed();
      add(Kind.AGE, start, age.get().end(), age.get().value(), age.get().detail());
    }
    return age.map(AgeWords.Found::end).orElse(start);
  }

  /** {@code First interred}, {@code 2nd burial}. */
  private int order(int start) {
    boolean said =
        persons > 0
            && start + 1 < words.size()
            && words.get(start + 1).is("interred", "interrd", "buried", "burial", "interment");
    if (!said) {
      return start;
    }
    String place =
        switch (words.get(start).folded()) {
          case "first", "1st" -> "1";
          case "second", "2nd", "2d" -> "2";
          case "third", "3rd", "3d" -> "3";
          case "fourth", "4th" -> "4";
          case "fifth", "5th" -> "5";
          default -> "";
        };
    if (place.isEmpty() || dates.at(start).isPresent()) {
      return start;
    }
    add(Kind.ORDER, start, start + 2, place, Optional.empty());
    return start + 2;
  }

  private int service(int start) {
    if (persons == 0) {
      return start;
    }
    boolean afterName = isAfterStatement(start) && words.get(start - 1).endsWith(",");
    Optional<ServiceWords.Found> service = services.at(start, afterName);
    service.ifPresent(
        f -> add(Kind.SERVICE, start, f.end(), text(start, f.end()), Optional.of(f.service())));
    return service.map(ServiceWords.Found::end).orElse(start);
  }

  /** {@code Mariner} after a name or a place and a comma. */
  private int occupation(int start) {
    boolean told =
        persons > 0
            && PersonWords.OCCUPATIONS.contains(words.get(start).folded())
            && isAfterStatement(start)
            && words.get(start - 1).endsWith(",")
            && (last().kind() == Kind.NAME || last().kind() == Kind.ORIGIN);
    if (told) {
      add(Kind.OCCUPATION, start, start + 1, text(start, start + 1), Optional.empty());
    }
    return told ? start + 1 : start;
  }

  private String text(int from, int to) {
    return String.join(" ", words.subList(from, to).stream().map(CarvedWord::shown).toList());
  }

  /** Kinship of the person named before, or, where none is, of the one named next. */
  private int kin(int start) {
    Optional<KinWords.Found> kin = kins.at(start);
    if (kin.isEmpty() || (start > 0 && words.get(start - 1).is("by", "from", "for"))) {
      return start;
    }
    KinWords.Found f = kin.get();
    if (persons == 0 && !f.possessor().isEmpty()) {
      return start;
    }
    boolean joined =
        start > 0 && words.get(start - 1).is("also", "and", "&", "of", "likewise", "an", "a");
    boolean after = isAfterStatement(start);
    boolean infant = f.names().isEmpty() && f.possessor().isEmpty() && !f.above();
    if (infant) {
      if (!joined) {
        return start;
      }
      persons++;
      add(Kind.NAME, start, f.end(), "|", Optional.of(unnamed()));
      return f.end();
    }
    boolean afterDate = after && last().isDate() || after && last().kind() == Kind.AGE;
    boolean nameFollows = f.end() < words.size() && mayBeName(f.end()) && isGivenName(f.end());
    boolean before =
        persons > 0
            && !joined
            && (after || (beginsLine(start) && !f.names().isEmpty()))
            && !(f.possessor().isEmpty() ? false : afterDate && nameFollows);
    if (!before && !joined && !beginsLine(start) && !f.isPlural() && persons > 0) {
      return start;
    }
    List<Integer> about = !before ? List.of() : f.isPlural() ? withoutKin() : List.of(persons);
    String value = f.relation() + (f.named().isEmpty() ? "" : " of " + f.named());
    Detail detail = new Detail.Kinship(f.relation(), f.names(), meant(f, before));
    if (!before) {
      waiting.add(found.size());
    }
    add(Kind.KIN, about, start, f.end(), value, Optional.of(detail));
    return f.end();
  }

  private List<Integer> withoutKin() {
    List<Integer> without = new ArrayList<>();
    for (int p = 1; p <= persons; p++) {
      int person = p;
      if (found.stream().noneMatch(s -> s.kind() == Kind.KIN && s.persons().contains(person))) {
        without.add(person);
      }
    }
    return without;
  }

  /** Whom {@code his}, {@code their} or {@code the above} means, by number. */
  private List<Integer> meant(KinWords.Found kin, boolean before) {
    int person = before ? persons - 1 : persons;
    if (person < 1 || (kin.possessor().isEmpty() && !kin.above())) {
      return List.of();
    }
    Optional<Detail.Kinship> marriage = marriageOf(person);
    boolean husbandKnown = marriage.isPresent() && !marriage.get().persons().isEmpty();
    return switch (kin.possessor()) {
      case "his" -> husbandKnown ? marriage.get().persons() : List.of(person);
      case "their" -> {
        List<Integer> both = new ArrayList<>(List.of(person));
        marriage.ifPresent(m -> both.addAll(m.persons()));
        yield both.stream().sorted().toList();
      }
      default -> List.of(person);
    };
  }

  private Optional<Detail.Kinship> marriageOf(int person) {
    return found.stream()
        .filter(s -> s.kind() == Kind.KIN && s.persons().contains(person))
        .flatMap(s -> s.detail(Detail.Kinship.class).stream())
        .filter(Detail.Kinship::isMarriage)
        .findFirst();
  }

  private static Detail.Name unnamed() {
    return new Detail.Name("", "", "", List.of(), List.of());
  }

  /** {@code Also his wife / died 1843}: somebody without a name, known by the kinship alone. */
  private void nameTheUnnamed() {
    for (int index : List.copyOf(waiting)) {
      Statement kin = found.get(index);
      boolean plural =
          kin.detail(Detail.Kinship.class)
              .filter(k -> PersonWords.PLURALS.contains(k.relation()))
              .isPresent();
      if (!plural && persons > 0 && index == found.size() - 1) {
        persons++;
        found.add(
            new Statement(
                List.of(persons),
                Kind.NAME,
                kin.firstLine(),
                kin.lastLine(),
                kin.text(),
                "|",
                Optional.of(unnamed()),
                Optional.empty(),
                kin.signs()));
        found.set(index, kin.withPersons(List.of(persons)));
        waiting.remove((Integer) index);
      }
    }
  }

  private void giveToLast(int index) {
    if (found.get(index).persons().isEmpty() && persons > 0) {
      found.set(index, found.get(index).withPersons(List.of(persons)));
    }
  }

  private int origin(int start) {
    if (found.isEmpty() || last().kind() != Kind.NAME) {
      return start;
    }
    int i = start + (words.get(start).is("late", "formerly", "native") ? 1 : 0);
    i +=
        i == start
                && words.get(start).is("a")
                && start + 1 < words.size()
                && words.get(start + 1).is("native")
            ? 2
            : 0;
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
    add(Kind.ORIGIN, start, end, text(i + 1, end).replaceAll("[,.;]+$", ""), Optional.empty());
    return end;
  }

  /** {@code Removed from the Old Chapel Yard / by his grandsons, 1902}. */
  private int removal(int start) {
    boolean said =
        persons > 0
            && beginsLine(start)
            && words.get(start).is("removed", "reinterred", "reinterrd", "reburied")
            && start + 1 < words.size()
            && words.get(start + 1).is("from", "to", "here", "in");
    if (!said) {
      return start;
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
    List<Integer> all = new ArrayList<>();
    for (int p = 1; p <= persons; p++) {
      all.add(p);
    }
    add(Kind.REMOVAL, all, start, end, text(start, end), Optional.empty());
    return end;
  }

  /** At the foot: {@code I. Pask, sculpt.}, {@code Tull & Son, Tarrow}. */
  private int maker(int start) {
    if (persons == 0
        || !beginsLine(start)
        || words.get(start).line() != words.get(words.size() - 1).line()) {
      return start;
    }
    int end = words.size();
    List<CarvedWord> line = words.subList(start, end);
    boolean signed =
        line.stream()
            .anyMatch(w -> w.is("sculpt", "sculp", "sculpsit", "fecit", "sc", "maker", "masons"));
    boolean firm = false;
    for (int i = 1; i + 1 < line.size(); i++) {
      firm |=
          line.get(i).is("&", "and")
              && line.get(i - 1).isCapitalised()
              && line.get(i + 1).is("son", "sons", "co", "bros", "brothers")
              && line.stream().noneMatch(w -> w.is("of"));
    }
    boolean placed = line.size() >= 3 && line.get(line.size() - 2).endsWith(",");
    if (!signed && !(firm && (placed || line.size() == 3))) {
      return start;
    }
    add(Kind.MAKER, List.of(), start, end, text(start, end), Optional.empty());
    return end;
  }

  /** {@code Rev. xiv. 13}, {@code 2 Tim. iv. 7}; the words before it are taken in at the end. */
  private int scripture(int start) {
    int i = start + (words.get(start).folded().matches("[123]|ii?|1st|2nd|2d") ? 1 : 0);
    if (i + 1 >= words.size()
        || !PersonWords.SCRIPTURE.contains(words.get(i).folded())
        || words.get(i + 1).line() != words.get(i).line()) {
      return start;
    }
    int chapter = i + 1 + (words.get(i + 1).is("chap", "ch", "chapter") ? 1 : 0);
    if (chapter >= words.size() || !isChapter(words.get(chapter))) {
      return start;
    }
    int end = chapter + 1;
    while (end < words.size()
        && words.get(end).line() == words.get(start).line()
        && (words.get(end).is("v", "ver", "verse", "-") || isChapter(words.get(end)))) {
      end++;
    }
    boolean lineEnds = end == words.size() || words.get(end).line() != words.get(start).line();
    if (!lineEnds) {
      return start;
    }
    add(Kind.SCRIPTURE, List.of(), start, end, text(start, end), Optional.empty());
    return end;
  }

  private static boolean isChapter(CarvedWord word) {
    String plain = word.folded();
    return plain.matches("[0-9]{1,3}|[0-9]{1,3}[0-9-]{1,5}")
        || word.shown().matches("[0-9]{1,3}[:.][0-9]{1,3}[0-9,.-]*")
        || (RomanNumeral.parse(plain).orElse(999) <= 150);
  }

  /** A run of capitalised words where a name may stand, or the gap where one was. */
  private int name(int start, boolean mayBegin) {
    if (mayBegin && words.get(start).isGap()) {
      return lostName(start);
    }
    if (!mayBegin
        || !mayBeName(start)
        || PersonWords.SUFFIXES.contains(words.get(start).folded())) {
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
    if (isShip(start)) {
      return start;
    }
    boolean lineEnds = end == words.size() || words.get(end).line() != words.get(start).line();
    boolean wholeLine = beginsLine(start) && lineEnds;
    boolean afterFormula =
        start > 0 && PersonWords.FORMULA_ENDS.contains(words.get(start - 1).folded());
    boolean fresh = words.get(start).is("unknown", "baby") || isGivenName(start);
    boolean initials =
        words.subList(start, end).stream().allMatch(CarvedWord::isInitial) && end - start >= 2;
    boolean titled = PersonWords.TITLES.contains(words.get(start).folded()) && end - start > 1;
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
    int nameEnd = end;
    String birthSurname = "";
    if (end + 1 < words.size()
        && words.get(end).is("nee", "née")
        && words.get(end + 1).isCapitalised()) {
      birthSurname = KinWords.titleCase(words.get(end + 1).folded());
      end += 2;
    }
    addName(start, end, parts(start, nameEnd, birthSurname));
    return end;
  }

  private void addName(int start, int end, Detail.Name name) {
    persons++;
    if (start > 0 && words.get(start - 1).is("boy", "servant", "slave")) {
      alone.add(persons);
    }
    for (int index : List.copyOf(waiting)) {
      Statement kin = found.get(index);
      List<Integer> about = new ArrayList<>(kin.persons());
      about.add(persons);
      found.set(index, kin.withPersons(about));
      boolean plural =
          kin.detail(Detail.Kinship.class)
              .filter(k -> PersonWords.PLURALS.contains(k.relation()))
              .isPresent();
      if (!plural) {
        waiting.remove((Integer) index);
      }
    }
    add(Kind.NAME, start, end, name.given() + "|" + name.surname(), Optional.of(name));
  }

  /** The place of a name that is gone: facts or kinship follow, or a formula goes before. */
  private int lostName(int start) {
    boolean afterFormula =
        start > 0
            && words.get(start - 1).is("of", "also", "&", "and", "memory", "lyes", "lies", "lieth");
    int next = start + 1;
    while (next < words.size()
        && words.get(next).isGap()
        && words.get(next).line() == words.get(start).line()) {
      next++;
    }
    boolean wholeLine =
        beginsLine(start)
            && (next == words.size() || words.get(next).line() != words.get(start).line());
    if (!(afterFormula || wholeLine) || !factsFollow(next)) {
      return start;
    }
    addName(start, next, unnamed());
    return next;
  }

  private boolean isShip(int start) {
    return start > 0 && PersonWords.SHIPS.contains(words.get(start - 1).folded());
  }

  /** A line of one unknown word: the family's name, or a given name when its facts follow. */
  private int heading(int start, int end) {
    if (!factsFollow(end)) {
      if (persons == 0) {
        familyName = KinWords.titleCase(words.get(start).folded());
      }
      return start;
    }
    String given = KinWords.titleCase(words.get(start).folded());
    addName(start, end, new Detail.Name(given, "", "", List.of(), List.of()));
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
        && !word.isGap()
        && !PersonWords.NEVER_A_NAME.contains(word.folded())
        && !PersonWords.ARMS.contains(word.folded())
        && !(PersonWords.OFFICES.contains(word.folded()) && !isTitleBeforeName(i))
        && !(isMonth(word)
            && i + 1 < words.size()
            && words.get(i + 1).line() == word.line()
            && words.get(i + 1).folded().matches(".*[0-9].*"));
  }

  private boolean isTitleBeforeName(int i) {
    return PersonWords.TITLES.contains(words.get(i).folded())
        && i + 1 < words.size()
        && words.get(i + 1).line() == words.get(i).line()
        && isGivenName(i + 1);
  }

  private static boolean isMonth(CarvedWord word) {
    return MonthName.parse(word.folded()).isPresent();
  }

  private boolean isGivenName(int i) {
    return GivenNames.known().isKnown(words.get(i).folded());
  }

  private Detail.Name parts(int from, int to, String birthSurname) {
    List<String> parts = new ArrayList<>();
    List<String> titles = new ArrayList<>();
    List<String> suffixes = new ArrayList<>();
    int lastIndex = -1;
    for (int i = from; i < to; i++) {
      String folded = words.get(i).folded();
      if (PersonWords.SUFFIXES.contains(folded) && i > from) {
        suffixes.add(words.get(i).shown());
      } else if (PersonWords.TITLES.contains(folded) && parts.isEmpty()) {
        titles.add(words.get(i).shown());
      } else if (!words.get(i).is("baby", "unknown")) {
        parts.add(KinWords.titleCase(folded));
        lastIndex = i;
      }
    }
    if (parts.isEmpty()) {
      return new Detail.Name("", "", birthSurname, titles, suffixes);
    }
    boolean kinFollows = to < words.size() && kins.isAhead(to);
    boolean one = parts.size() == 1;
    boolean lastIsGiven =
        isGivenName(lastIndex) || words.get(lastIndex).isInitial() || isMonth(words.get(lastIndex));
    boolean onlyGiven =
        (one && (titles.isEmpty() || kinFollows || isGivenName(lastIndex)))
            || (!one
                && (!familyName.isEmpty() || kinFollows)
                && lastIsGiven
                && !parts.stream().allMatch(part -> part.length() == 1));
    int givenParts = onlyGiven ? parts.size() : parts.size() - 1;
    return new Detail.Name(
        String.join(" ", parts.subList(0, givenParts)),
        onlyGiven ? "" : parts.get(parts.size() - 1),
        birthSurname,
        titles,
        suffixes);
  }

  /** A death told before any name is that of everybody named after it, as of a lost crew. */
  private void giveToAll() {
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      if (!statement.persons().isEmpty()
          || persons == 0
          || !(statement.isDate() || statement.kind() == Kind.CAUSE)) {
        continue;
      }
      List<Integer> all = new ArrayList<>();
      for (int p = 1; p <= persons; p++) {
        int person = p;
        if (found.stream()
            .noneMatch(s -> s.kind() == statement.kind() && s.persons().contains(person))) {
          all.add(p);
        }
      }
      found.set(i, statement.withPersons(all));
    }
  }

  /** Dates without a year take the next year carved on the face; said to be supplied. */
  private void giveYears() {
    relativeMonths();
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
          found.set(
              i,
              statement.withValue(
                  value.get(), statement.detail(), "year from the date that follows"));
        }
      }
    }
    found.removeIf(s -> s.isDate() && lentYears.contains(s.text()));
    found.removeIf(s -> s.isDate() && (s.value().isEmpty() || s.value().startsWith("--")));
  }

  /** The month of {@code inst.} is that of the full date before it; {@code ult.} the one before. */
  private void relativeMonths() {
    String month = "";
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      if (statement.isDate() && statement.value().matches("[0-9]{4}-[0-9]{2}-[0-9X]{2}.*")) {
        month = statement.value().substring(0, 7);
      } else if (statement.isDate() && statement.value().matches("--(inst|ult)-..")) {
        String day = statement.value().substring(statement.value().length() - 2);
        boolean ult = statement.value().contains("ult");
        String value =
            month.isEmpty() ? "XXXX-XX-" + day : (ult ? before(month) : month) + "-" + day;
        String reason =
            month.isEmpty()
                ? "the month is that of a date not on the stone"
                : "month from the date before";
        found.set(i, statement.withValue(value, statement.detail(), reason));
      }
    }
  }

  private static String before(String yearAndMonth) {
    int year = Integer.parseInt(yearAndMonth.substring(0, 4));
    int month = Integer.parseInt(yearAndMonth.substring(5));
    int earlier = month == 1 ? 12 : month - 1;
    return String.format(Locale.ROOT, "%04d-%02d", month == 1 ? year - 1 : year, earlier);
  }

  /** A person named without surname takes that of the kin, the family or the person before. */
  private void giveSurnames() {
    String before = familyName;
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      if (statement.kind() != Kind.NAME || statement.detail(Detail.Name.class).isEmpty()) {
        continue;
      }
      Detail.Name name = statement.detail(Detail.Name.class).get();
      if (!name.surname().isEmpty()) {
        before = name.surname();
        continue;
      }
      Optional<String> fromKin = surnameFromKin(statement.person());
      String surname = fromKin.orElse(before);
      if (!surname.isEmpty()
          && !alone.contains(statement.person())
          && !statement.text().equalsIgnoreCase("unknown")) {
        String reason =
            fromKin.isPresent()
                ? "surname from the kin named"
                : before.equals(lent)
                    ? "surname on the other faces"
                    : familyName.isEmpty() ? "surname of the person before" : "surname of the face";
        found.set(
            i,
            statement.withValue(
                name.given() + "|" + surname, Optional.of(name.withSurname(surname)), reason));
        before = surname;
      }
    }
  }

  private Optional<String> surnameFromKin(int person) {
    return found.stream()
        .filter(s -> s.kind() == Kind.KIN && s.persons().contains(person))
        .flatMap(s -> s.detail(Detail.Kinship.class).stream())
        .filter(kin -> kin.isMarriage() || kin.isChild())
        .flatMap(kin -> kin.names().stream())
        .map(name -> name.substring(name.indexOf('|') + 1))
        .filter(surname -> surname.length() > 1)
        .findFirst();
  }

  /** Kinship with somebody meant by {@code his} or {@code the above} is told with the name. */
  private void giveKin() {
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
      if (kin.isEmpty() || kin.get().persons().isEmpty()) {
        continue;
      }
      List<String> names = new ArrayList<>();
      kin.get().persons().forEach(person -> names.add(nameOf(person)));
      // "their" after a wife whose husband is named with her only: he is meant too.
      for (int person : kin.get().persons()) {
        marriageOf(person).ifPresent(m -> addOthers(kin.get(), m, names));
      }
      String said =
          String.join(" & ", names.stream().map(n -> n.replace("|", " ").strip()).toList());
      Detail detail = new Detail.Kinship(kin.get().relation(), names, kin.get().persons());
      found.set(
          i,
          statement.withValue(
              kin.get().relation() + " of " + said,
              Optional.of(detail),
              "“" + statement.text() + "”: those named before"));
    }
  }

  private static void addOthers(Detail.Kinship child, Detail.Kinship marriage, List<String> names) {
    if (child.isChild() && marriage.persons().isEmpty()) {
      marriage.names().stream().filter(name -> !names.contains(name)).forEach(names::add);
    }
  }

  private String nameOf(int person) {
    return found.stream()
        .filter(s -> s.kind() == Kind.NAME && s.person() == person)
        .map(Statement::value)
        .findFirst()
        .orElse("|");
  }

  /** Lines after the first name that hold no fact, no formula and no figure. */
  private void verse() {
    Set<Integer> told = new HashSet<>();
    int firstName = Integer.MAX_VALUE;
    for (Statement statement : found) {
      for (int line = statement.firstLine(); line <= statement.lastLine(); line++) {
        if (statement.kind() != Kind.SCRIPTURE) {
          told.add(line);
        }
      }
      if (statement.kind() == Kind.NAME) {
        firstName = Math.min(firstName, statement.firstLine());
      }
    }
    int from = 0;
    while (from < words.size()) {
      int to = lineEnd(from);
      int line = words.get(from).line();
      if (line <= firstName || told.contains(line) || !isVerse(from, to)) {
        from = to;
        continue;
      }
      int end = to;
      while (end < words.size()
          && !told.contains(words.get(end).line())
          && (isVerse(end, lineEnd(end)) || isReference(end))) {
        end = lineEnd(end);
      }
      boolean scripture = takeReferences(from, end);
      add(
          scripture ? Kind.SCRIPTURE : Kind.VERSE,
          List.of(),
          from,
          end,
          text(from, end),
          Optional.empty());
      from = end;
    }
  }

  private int lineEnd(int from) {
    int to = from;
    while (to < words.size() && words.get(to).line() == words.get(from).line()) {
      to++;
    }
    return to;
  }

  private boolean isReference(int from) {
    SignId first = words.get(from).signs().get(0);
    return found.stream()
        .anyMatch(s -> s.kind() == Kind.SCRIPTURE && s.signs().get(0).equals(first));
  }

  /** Whether a reference stands in these words; its statement becomes part of the whole. */
  private boolean takeReferences(int from, int to) {
    Set<SignId> signs = new HashSet<>();
    words.subList(from, to).forEach(word -> signs.addAll(word.signs()));
    return found.removeIf(s -> s.kind() == Kind.SCRIPTURE && signs.contains(s.signs().get(0)));
  }

  private boolean isVerse(int from, int to) {
    List<CarvedWord> line = words.subList(from, to);
    boolean figures = line.stream().anyMatch(w -> w.folded().matches(".*[0-9].*"));
    boolean reference = line.stream().anyMatch(w -> isReference(words.indexOf(w)));
    long known = line.stream().filter(w -> w.folded().matches("[a-z?]{2,}")).count();
    boolean formula = line.stream().allMatch(w -> PersonWords.FORMULA.contains(w.folded()));
    boolean speech = line.stream().anyMatch(w -> PersonWords.SPEECH.contains(w.folded()));
    return (!figures || reference) && known >= 2 && !formula && (speech || known >= RUNNING_WORDS);
  }
}
