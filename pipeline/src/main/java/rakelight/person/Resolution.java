package rakelight.person;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import rakelight.inscription.SignId;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.Clause.Type;
import rakelight.person.KinWords.Sex;
import rakelight.person.LikeliestClauses.Placed;
import rakelight.person.Statement.Kind;

/**
 * Who is meant: goes through the clauses of a face in order and gives each fact to its persons.
 *
 * <p>Facts are of whoever was named last; "he", "the latter", "the said John Smith" go back to
 * somebody named before, also to one only named as another's kin or as having set up the stone.
 * Kinship before a name is of the one named next, kinship after it of the one before. Sex decides
 * where "his" and "her" could mean several.
 */
final class Resolution {
  private static final String UNNAMED = "|";

  /** Odds are kept to a thousandth, so that every machine keeps the same. */
  private static final double PER_MILLE = 1000.0;

  private static final double LEAST_ODDS = 0.001;

  /** Somebody the face commemorates. */
  private static final class Bearer {
    private final int number;
    private final int from;
    private final int to;
    private final double odds;
    private Detail.Name name;
    private Optional<Sex> sex;
    private Optional<String> supplied = Optional.empty();
    private boolean alone;

    Bearer(int number, int from, int to, double odds, Detail.Name name, Optional<Sex> sex) {
      this.number = number;
      this.from = from;
      this.to = to;
      this.odds = odds;
      this.name = name;
      this.sex = sex;
    }

    boolean isNamed() {
      return !name.given().isEmpty() || !name.surname().isEmpty();
    }
  }

  /** Kinship of some persons with others, named in its words or before. */
  private static final class Bond {
    private final KinWords.Found kin;
    private final int from;
    private final double odds;
    private List<Integer> about = new ArrayList<>();
    private final List<Integer> meant = new ArrayList<>();
    private final List<Detail.Name> others = new ArrayList<>();
    private final List<Detail.Name> named = new ArrayList<>();

    Bond(KinWords.Found kin, int from, double odds) {
      this.kin = kin;
      this.from = from;
      this.odds = odds;
      kin.names().forEach(n -> named.add(n.name()));
    }

    boolean isPlural() {
      return kin.isPlural();
    }

    boolean isMarriage() {
      return PersonWords.SPOUSES.contains(kin.relation());
    }

    boolean isChild() {
      return PersonWords.CHILDREN.contains(kin.relation());
    }

    boolean isDescendant() {
      return Resolution.isDescendant(kin.relation());
    }

    /** Whether "his" may as well be of him whose parent or sister the one before is. */
    boolean isParentOrSibling() {
      return PersonWords.PARENTS.contains(kin.relation())
          || kin.relation().matches("(brother|sister)s?");
    }
  }

  private static boolean isDescendant(String relation) {
    return PersonWords.CHILDREN.contains(relation)
        || relation.matches("grand(child|son|daughter).*|nephews?|nieces?");
  }

  private final List<CarvedWord> words;
  private final DateWords dates;
  private final StatedOdds stated;
  private final List<Placed> row;
  private final String lent;
  private final List<Statement> found = new ArrayList<>();
  private final List<Bearer> persons = new ArrayList<>();
  private final List<Bond> bonds = new ArrayList<>();
  private final List<Bond> waiting = new ArrayList<>();
  private final List<Detail.Name> erectors = new ArrayList<>();
  private final Set<Integer> bareDates = new LinkedHashSet<>();
  private final Map<Kind, Integer> givenOut = new HashMap<>();
  private List<Integer> subjects = new ArrayList<>();
  private Optional<int[]> familyWords = Optional.empty();
  private double familyOdds = 1;
  private String familyName;
  private boolean nobody;
  private int at;
  private double odds = 1;

  Resolution(List<CarvedWord> words, DateWords dates, List<Placed> row, String lent) {
    this.words = words;
    this.dates = dates;
    stated = new StatedOdds(words);
    this.row = row.stream().filter(p -> !isNoise(p)).toList();
    this.lent = lent;
    familyName = lent;
  }

  private boolean isNoise(Placed placed) {
    Clause c = placed.clause();
    return c.type() == Type.OTHER && words.get(c.from()).folded().isEmpty();
  }

  List<Statement> statements() {
    for (int i = 0; i < row.size(); i++) {
      odds = row.get(i).odds();
      at = i;
      read(i);
    }
    for (Bond bond : waiting) {
      if (bond.about.isEmpty() && !persons.isEmpty() && !bond.kin.pointsBack()) {
        bond.about.add(persons.size());
      }
    }
    giveToAll();
    giveYears();
    bareBirths();
    surnames();
    giveToThoseNamedLater();
    persons.forEach(this::addName);
    bonds.forEach(this::addKin);
    family();
    verse();
    List<Statement> told = new ArrayList<>(found.stream().map(this::withPersonsOdds).toList());
    told.sort(Comparator.comparingInt(this::place));
    return told;
  }

  private int place(Statement statement) {
    SignId first = statement.signs().get(0);
    for (int i = 0; i < words.size(); i++) {
      if (words.get(i).signs().contains(first)) {
        return i;
      }
    }
    return words.size();
  }

  private Type typeAt(int i) {
    return i < 0 ? Type.START : i >= row.size() ? Type.END : row.get(i).clause().type();
  }

  private void read(int i) {
    Clause c = row.get(i).clause();
    switch (c.type()) {
      case HEADING -> heading(c);
      case PERSON -> persons(c);
      case PRONOUN -> pronoun(i, c);
      case KIN -> kin(i, c);
      case EVENT -> event(i, c);
      case DATE -> date(i, c);
      case SPAN -> span(i, c);
      case AGE -> age(c);
      case MAIDEN -> maiden(c);
      case SERVICE -> service(i, c);
      case OCCUPATION, ORIGIN -> said(i, c);
      case ORDER -> add(Kind.ORDER, subjects, c.from(), c.to(), text(c), Optional.empty());
      case REMOVAL ->
          add(
              Kind.REMOVAL,
              everybody(),
              c.from(),
              c.to(),
              words(c.from(), c.to()),
              Optional.empty());
      case MAKER ->
          add(Kind.MAKER, List.of(), c.from(), c.to(), words(c.from(), c.to()), Optional.empty());
      case ERECTED, MOURNERS -> mourners(c);
      default -> {}
    }
  }

  private static String text(Clause c) {
    return c.content() instanceof Clause.Text t ? t.value() : "";
  }

  private List<Integer> everybody() {
    return persons.stream().map(p -> p.number).toList();
  }

  private String words(int from, int to) {
    return String.join(
        " ",
        words.subList(from, to).stream()
            .map(CarvedWord::shown)
            .filter(shown -> !shown.isEmpty())
            .toList());
  }

  private String plain(int from, int to) {
    String words = words(from, to).replaceAll("^[“\"'(,;. ]+|[”\"')(,; ]+$", "");
    boolean abbreviation = words.matches("(?s).*\\p{L}\\.\\p{L}\\.");
    return abbreviation ? words : words.replaceAll("[,;. ]+$", "");
  }

  private void add(
      Kind kind, List<Integer> about, int from, int to, String value, Optional<Detail> detail) {
    add(kind, about, from, to, value, detail, Optional.empty(), odds);
  }

  private void add(
      Kind kind,
      List<Integer> about,
      int from,
      int to,
      String value,
      Optional<Detail> detail,
      Optional<String> reason,
      double sure) {
    List<SignId> signs = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    boolean supplied = false;
    double doubt = 1;
    for (int i = from; i < to; i++) {
      CarvedWord word = words.get(i);
      if (i > from) {
        text.append(word.line() == words.get(i - 1).line() ? " " : " / ");
      }
      text.append(word.shown());
      signs.addAll(word.signs());
      supplied |= word.supplied();
      doubt = Math.min(doubt, word.odds());
    }
    Optional<String> why =
        reason.isPresent()
            ? reason
            : supplied ? Optional.of("letters supplied by the reader") : Optional.empty();
    found.add(
        new Statement(
            about,
            kind,
            words.get(from).line(),
            words.get(to - 1).line(),
            text.toString(),
            value,
            detail,
            why,
            rounded(sure * doubt),
            signs));
  }

  private static double rounded(double odds) {
    return Math.max(LEAST_ODDS, Math.round(odds * PER_MILLE) / PER_MILLE);
  }

  /** What is said of somebody is no likelier than that he is one. */
  private Statement withPersonsOdds(Statement s) {
    double least = s.persons().stream().mapToDouble(p -> persons.get(p - 1).odds).min().orElse(1);
    double likely = s.kind() == Kind.NAME ? s.odds() : s.odds() * least;
    return s.withOdds(rounded(stated.of(likely)));
  }

  private void heading(Clause c) {
    if (persons.isEmpty() && c.content() instanceof Clause.Valued v) {
      familyName = NameWords.titleCase(words.get(v.from()).folded());
      familyWords = Optional.of(new int[] {c.from(), c.to()});
      familyOdds = odds;
    } else if (familyWords.isEmpty() && c.content() instanceof Clause.Valued v) {
      familyWords = Optional.of(new int[] {c.from(), c.to()});
      familyOdds = odds;
      boolean needed = persons.stream().allMatch(p -> p.name.surname().isEmpty());
      familyName = needed ? NameWords.titleCase(words.get(v.from()).folded()) : familyName;
    }
  }

  // Persons

  private void persons(Clause c) {
    NameWords.Found names = ((Clause.Names) c.content()).names();
    nobody = false;
    givenOut.clear();
    if (names.above() && names.bearers().size() == 1) {
      Detail.Name name = names.bearers().get(0).name();
      Optional<Integer> before = spokenOf(name).filter(p -> !isNamedAsKinAlone(name, p));
      if (before.isPresent()) {
        subjects = new ArrayList<>(List.of(before.get()));
        waiting.removeIf(b -> b.kin.isPlural());
        attachWaiting(subjects);
        return;
      }
    }
    Optional<Integer> again = namedAgain(names).or(() -> namedOnTop(names));
    if (again.isPresent()) {
      group = subjects.size() > 1 ? subjects : group;
      subjects = new ArrayList<>(List.of(again.get()));
      return;
    }
    if (names.above()) {
      waiting.removeIf(b -> b.kin.isPlural());
    }
    Detail.Name first = names.bearers().get(0).name();
    if (!first.surname().isEmpty() && erectors.stream().anyMatch(e -> isSame(e, first))) {
      waiting.removeIf(b -> b.kin.isPlural() && b.isChild());
    }
    if (isOtherParent(names)) {
      bonds.get(bonds.size() - 1).named.add(names.bearers().get(0).name());
      otherParent = at;
      return;
    }
    subjects = new ArrayList<>();
    for (NameWords.Bearer bearer : names.bearers().stream().flatMap(this::oneByOne).toList()) {
      Bearer person = create(bearer.from(), bearer.to(), bearer.name());
      subjects.add(person.number);
    }
    attachWaiting(subjects);
    // "NATHANIEL son of the above" isn't the Nathaniel whose wife was named.
    boolean descendant =
        row.get(Math.min(at + 1, row.size() - 1)).clause().content() instanceof Clause.Kin k
            && isDescendant(k.kin().relation());
    for (int number : descendant ? List.<Integer>of() : subjects) {
      recognise(persons.get(number - 1), names.above());
    }
  }

  /**
   * {@code ROBERT son of JAMES SMITH, Mason, and ANN GREY his spouse, who died}: of the son nothing
   * is told yet, so it is told of him, and she is his mother.
   */
  private boolean isOtherParent(NameWords.Found names) {
    int k = at - 1;
    boolean and = typeAt(k) == Type.FORMULA && words.get(row.get(k).clause().from()).is("and", "&");
    k--;
    while (List.of(Type.OCCUPATION, Type.ORIGIN).contains(typeAt(k))) {
      k--;
    }
    boolean his =
        at + 1 < row.size()
            && row.get(at + 1).clause().content() instanceof Clause.Kin next
            && next.kin().possessor().equals("his")
            && PersonWords.SPOUSES.contains(next.kin().relation());
    return and
        && his
        && names.bearers().size() == 1
        && !bonds.isEmpty()
        && typeAt(k) == Type.KIN
        && namesKin(k)
        && bonds.get(bonds.size() - 1).isChild()
        && bonds.get(bonds.size() - 1).named.size() == 1
        && subjects.size() == 1
        && bonds.get(bonds.size() - 1).about.contains(subjects.get(0))
        && List.of(Kind.DEATH, Kind.AGE, Kind.BIRTH, Kind.BURIAL).stream()
            .noneMatch(kind -> has(subjects.get(0), kind));
  }

  /** {@code his children JAMES KATHREN JOHN}: names of boys and girls in a row are one each. */
  private Stream<NameWords.Bearer> oneByOne(NameWords.Bearer bearer) {
    boolean children =
        waiting.stream().anyMatch(b -> b.kin.isPlural() && b.isChild() && b.about.isEmpty());
    List<CarvedWord> own = words.subList(bearer.from(), bearer.to());
    GivenNames known = GivenNames.known();
    boolean mixed =
        own.stream().anyMatch(w -> known.isMans(w.folded()) && !known.isWomans(w.folded()))
            && own.stream().anyMatch(w -> known.isWomans(w.folded()) && !known.isMans(w.folded()));
    boolean row =
        children && mixed && own.stream().allMatch(w -> NameWords.isGiven(w) && !w.endsWith("."));
    if (!row) {
      return Stream.of(bearer);
    }
    return IntStream.range(bearer.from(), bearer.to())
        .mapToObj(
            i ->
                new NameWords.Bearer(
                    i,
                    i + 1,
                    new Detail.Name(
                        NameWords.titleCase(words.get(i).folded()), "", "", List.of(), List.of()),
                    true));
  }

  private int otherParent = -1;

  /** One of several named together, of whom it is told next: {@code JOHN & ANN ... John died}. */
  private Optional<Integer> namedAgain(NameWords.Found names) {
    boolean told = List.of(Type.EVENT, Type.DATE, Type.AGE).contains(typeAt(at + 1));
    List<Integer> together = subjects.size() > 1 ? subjects : group;
    List<Integer> among = together.size() < 2 && told ? everybody() : together;
    NameWords.Bearer bearer = names.bearers().get(0);
    if (names.bearers().size() > 1
        || !bearer.onlyGiven()
        || among.size() < 2
        || !waiting.isEmpty()) {
      return Optional.empty();
    }
    String given = NameForms.fold(bearer.name().given());
    return among.stream()
        .filter(p -> !has(p, Kind.DEATH) && !has(p, Kind.AGE) && !given.isEmpty())
        .filter(p -> isCalled(p, given))
        .findFirst();
  }

  /** Whether so much of a given name is somebody's, the first of two or all. */
  private boolean isCalled(int person, String given) {
    String whole = NameForms.fold(persons.get(person - 1).name.given());
    boolean event = typeAt(at + 1) == Type.EVENT && !beginsWithComma(at + 1);
    boolean shortened =
        NameWords.mayBeSame(
            new Detail.Name(whole, "", "", List.of(), List.of()),
            new Detail.Name(given, "", "", List.of(), List.of()));
    return whole.equals(given)
        || (event && shortened)
        || (event && given.length() > 2 && whole.startsWith(given + " "));
  }

  private boolean beginsWithComma(int i) {
    int from = row.get(i).clause().from();
    return from > 0 && words.get(from - 1).endsWith(",");
  }

  /** {@code Burial place of JOHN SMITH ... JOHN SMITH died}: the same, of whom nothing was told. */
  private Optional<Integer> namedOnTop(NameWords.Found names) {
    Detail.Name name = names.bearers().get(0).name();
    if (names.bearers().size() > 1 || name.given().isEmpty() || !waiting.isEmpty()) {
      return Optional.empty();
    }
    return persons.stream()
        .filter(p -> alike(p.name.given(), name.given()))
        .filter(p -> isNamedOnTop(p, name))
        .map(p -> p.number)
        .filter(p -> bonds.stream().noneMatch(b -> b.about.contains(p)))
        .filter(p -> !has(p, Kind.DEATH) && !has(p, Kind.AGE) && !has(p, Kind.BIRTH))
        .findFirst();
  }

  /** The same surname; or a given name with years below the family whose burial place it is. */
  private boolean isNamedOnTop(Bearer person, Detail.Name name) {
    return name.surname().isEmpty()
        ? person.number == 1
            && !person.name.surname().isEmpty()
            && List.of(Type.SPAN, Type.EVENT, Type.DATE).contains(typeAt(at + 1))
        : alike(person.name.surname(), name.surname());
  }

  private Bearer create(int from, int to, Detail.Name name) {
    // "EVELYN (SMITH)" under the family's name.
    boolean atBirth =
        !familyName.isEmpty()
            && !name.given().isEmpty()
            && words.get(to - 1).shown().matches("\\\\?\\(\\p{L}+\\\\?\\)");
    Detail.Name borne =
        atBirth
            ? new Detail.Name(name.given(), "", name.surname(), name.titles(), name.suffixes())
            : name;
    Bearer person = new Bearer(persons.size() + 1, from, to, odds, borne, sexOf(name));
    person.alone = from > 0 && words.get(from - 1).is("boy", "servant", "slave");
    persons.add(person);
    return person;
  }

  /** Somebody named before, whom "the above" means. */
  private Optional<Integer> spokenOf(Detail.Name name) {
    Optional<Integer> best = Optional.empty();
    for (Bearer person : persons) {
      Detail.Name full = full(person);
      if (person.isNamed() && NameWords.mayBeSame(full, name)) {
        boolean open = !has(person.number, Kind.DEATH);
        boolean bestOpen = best.isPresent() && !has(best.get(), Kind.DEATH);
        boolean whole = alike(full.given(), name.given());
        boolean bestWhole =
            best.isPresent() && alike(full(persons.get(best.get() - 1)).given(), name.given());
        if (best.isEmpty()
            || (whole && !bestWhole)
            || (whole == bestWhole && (open || !bestOpen))) {
          best = Optional.of(person.number);
        }
      }
    }
    return best;
  }

  /**
   * Whether a name is in full that of somebody's kin, while the one who bears it too is told of.
   */
  private boolean isNamedAsKinAlone(Detail.Name name, int person) {
    boolean another = has(person, Kind.DEATH) || has(person, Kind.AGE) || isChild(person);
    return another
        && !name.surname().isEmpty()
        && bonds.stream()
            .filter(b -> b.meant.isEmpty())
            .flatMap(b -> b.named.stream())
            .anyMatch(n -> isSame(n, name));
  }

  private Detail.Name full(Bearer person) {
    return person.name.surname().isEmpty() && !familyName.isEmpty()
        ? person.name.withSurname(familyName)
        : person.name;
  }

  /** Ties a new person to the kinship, or the setting up, in which he was named before. */
  private void recognise(Bearer person, boolean above) {
    if (!person.isNamed()) {
      return;
    }
    for (Bond bond : bonds) {
      boolean known = bond.isMarriage() && !bond.meant.isEmpty();
      if (bond.about.contains(person.number) || bond.about.isEmpty() || known) {
        continue;
      }
      for (Detail.Name other : bond.named) {
        boolean same =
            above
                ? NameWords.mayBeSame(other, person.name)
                : bond.isMarriage()
                    && !other.surname().isEmpty()
                    && NameForms.fold(other.given()).equals(NameForms.fold(person.name.given()))
                    && (person.name.surname().isEmpty()
                        ? !isAmongChildren(person)
                        : NameForms.fold(other.surname())
                            .equals(NameForms.fold(person.name.surname())));
        if (same && !bond.meant.contains(person.number)) {
          bond.meant.add(person.number);
          boolean also = person.from > 0 && words.get(person.from - 1).is("also", "of", "said");
          boolean apart = also || areChildrenWithoutSurname(person.number);
          if (bond.isMarriage() && apart && !person.name.surname().isEmpty()) {
            endRow(person.number);
          }
          if (person.name.surname().isEmpty()) {
            person.name = person.name.withSurname(other.surname());
          }
        }
      }
      for (Detail.Name other : bond.others) {
        if (above
            && NameWords.mayBeSame(other, person.name)
            && !bond.meant.contains(person.number)) {
          bond.meant.add(person.number);
        }
      }
    }
  }

  /**
   * {@code ALEXANDER ... JOHN ... Alexander Smith died}: children by given name, then the father.
   */
  private boolean areChildrenWithoutSurname(int person) {
    return waiting.stream()
        .filter(b -> b.kin.isPlural() && b.isChild() && b.about.contains(person))
        .anyMatch(
            b ->
                b.about.size() > 1
                    && b.about.stream()
                        .filter(p -> p != person)
                        .allMatch(p -> persons.get(p - 1).name.surname().isEmpty()));
  }

  /** Whether the one named before is a child, so that a given name alone is another one's. */
  private boolean isAmongChildren(Bearer person) {
    boolean counted =
        typeAt(at - 1) == Type.FORMULA
            && row.get(Math.max(0, at - 2)).clause().content() instanceof Clause.Kin k
            && k.kin().counted();
    return counted
        || isChildHere(person.number - 1)
        || bonds.stream().anyMatch(b -> b.isChild() && b.about.contains(person.number));
  }

  private static Optional<Sex> sexOf(Detail.Name name) {
    for (String title : name.titles()) {
      switch (NameForms.fold(title)) {
        case "mrs",
            "miss",
            "dame",
            "lady",
            "madam",
            "sister",
            "mother",
            "widow",
            "goodwife",
            "mme",
            "ms" -> {
          return Optional.of(Sex.WOMAN);
        }
        case "mr",
            "sir",
            "rev",
            "revd",
            "reverend",
            "capt",
            "captain",
            "col",
            "brother",
            "lord",
            "squire" -> {
          return Optional.of(Sex.MAN);
        }
        default -> {}
      }
    }
    String first = NameForms.fold(name.given().split(" ", -1)[0]);
    GivenNames known = GivenNames.known();
    return known.isWomans(first)
        ? Optional.of(Sex.WOMAN)
        : known.isMans(first) ? Optional.of(Sex.MAN) : Optional.empty();
  }

  private void attachWaiting(List<Integer> numbers) {
    for (Bond bond : List.copyOf(waiting)) {
      for (int number : numbers) {
        if (!bond.kin.isPlural() || fits(number, bond)) {
          attach(bond, number);
        }
      }
      if (!bond.kin.isPlural()) {
        waiting.remove(bond);
      }
    }
  }

  private void attach(Bond bond, int number) {
    if (bond.about.contains(number)) {
      return;
    }
    if (bond.about.isEmpty()) {
      mean(bond, number);
    }
    bond.about.add(number);
    Bearer person = persons.get(number - 1);
    Optional<Sex> sex = KinWords.sexOf(bond.kin.relation());
    if (sex.isPresent()) {
      person.sex = sex;
    }
  }

  /** The man or woman alone, or both, that a pronoun means. */
  private void pronoun(int i, Clause c) {
    if (!(c.content() instanceof Clause.Text t)) {
      return;
    }
    if (t.value().matches("himself|herself") && erectors.size() == 1) {
      erectorHimself(c);
      return;
    }
    if (persons.isEmpty()) {
      return;
    }
    if (!List.of(Type.EVENT, Type.DATE, Type.AGE, Type.SPAN).contains(typeAt(i + 1))) {
      return;
    }
    if (namedAsKin(i, t.value())) {
      return;
    }
    List<Integer> among = subjects.size() > 1 ? subjects : everybody();
    Optional<Integer> one =
        switch (t.value()) {
          case "he", "hee", "husband", "father" -> lastOf(among, Sex.MAN);
          case "she", "shee", "wife", "mother" -> lastOf(among, Sex.WOMAN);
          case "former", "first" ->
              among.size() < 2 ? Optional.empty() : Optional.of(among.get(among.size() - 2));
          case "latter", "second" ->
              among.isEmpty() ? Optional.empty() : Optional.of(among.get(among.size() - 1));
          default -> Optional.empty();
        };
    if (one.isPresent()) {
      group = subjects.size() > 1 ? subjects : group;
      subjects = new ArrayList<>(List.of(one.get()));
    } else if (t.value().equals("they") && group.size() > 1) {
      subjects = new ArrayList<>(group);
    } else if (group.size() > 1) {
      int at = t.value().matches("former|first") ? group.size() - 2 : group.size() - 1;
      subjects = new ArrayList<>(List.of(group.get(at)));
    }
  }

  /** {@code erected by JOHN SMITH ... and of himself, who died}: who set it up lies here too. */
  private void erectorHimself(Clause c) {
    Detail.Name name = erectors.get(0);
    Optional<Integer> before = spokenOf(name).filter(p -> isErector(p, full(persons.get(p - 1))));
    boolean known = before.isPresent() && isSame(full(persons.get(before.get() - 1)), name);
    int number =
        known && !has(before.get(), Kind.DEATH)
            ? before.get()
            : create(c.from(), c.to(), name).number;
    waiting.removeIf(b -> b.kin.isPlural());
    nobody = false;
    subjects = new ArrayList<>(List.of(number));
  }

  /** {@code daughters of WM FOSTER, and he died}: he who was only named as kin just before. */
  private boolean namedAsKin(int i, String pronoun) {
    int k = i - 1;
    while (k > 0 && List.of(Type.FORMULA, Type.OCCUPATION, Type.ORIGIN).contains(typeAt(k))) {
      k--;
    }
    if (k < 0 || !namesKin(k) || bonds.isEmpty() || !pronoun.matches("s?he")) {
      return false;
    }
    Sex sex = pronoun.equals("he") ? Sex.MAN : Sex.WOMAN;
    boolean fits = subjects.stream().anyMatch(p -> persons.get(p - 1).sex.equals(Optional.of(sex)));
    Bond bond = bonds.get(bonds.size() - 1);
    Optional<Detail.Name> named =
        bond.named.stream().filter(n -> sexOf(n).equals(Optional.of(sex))).findFirst();
    if (fits || named.isEmpty() || !bond.meant.isEmpty()) {
      return false;
    }
    speakOf(k, bond, named.get());
    return true;
  }

  /** From now on it is told of one who was only named as kin by a clause. */
  private void speakOf(int k, Bond bond, Detail.Name name) {
    Clause kin = row.get(k).clause();
    KinWords.Found found = ((Clause.Kin) kin.content()).kin();
    Bearer person = create(found.wordsEnd(), kin.to(), name);
    bond.meant.add(person.number);
    subjects = new ArrayList<>(List.of(person.number));
  }

  /**
   * {@code died 1965 / WIFE OF / HAROLD SMITH / died 1953}: what she can't have had twice, or after
   * her death, is his.
   */
  private void turnToKin(int i, Kind kind, DateWords.Found date) {
    if (subjects.size() != 1 || typeAt(i - 1) != Type.KIN || !namesKin(i - 1) || bonds.isEmpty()) {
      return;
    }
    int subject = subjects.get(0);
    Bond bond = bonds.get(bonds.size() - 1);
    boolean before =
        found.stream()
            .filter(s -> s.kind() == Kind.DEATH && s.persons().contains(subject))
            .anyMatch(s -> year(s) > year(date.value()));
    boolean others =
        switch (kind) {
          case BIRTH -> has(subject, Kind.BIRTH) || has(subject, Kind.DEATH);
          case BURIAL -> before;
          default -> has(subject, kind);
        };
    if (others && bond.named.size() == 1 && bond.meant.isEmpty() && bond.about.contains(subject)) {
      speakOf(i - 1, bond, bond.named.get(0));
    }
  }

  private List<Integer> group = new ArrayList<>();

  private Optional<Integer> lastOf(List<Integer> among, Sex sex) {
    List<Integer> all = group.size() > 1 && among.size() == persons.size() ? group : among;
    for (int k = all.size() - 1; k >= 0; k--) {
      if (persons.get(all.get(k) - 1).sex.filter(s -> s == sex).isPresent()) {
        return Optional.of(all.get(k));
      }
    }
    for (int k = all.size() - 1; k >= 0; k--) {
      if (persons.get(all.get(k) - 1).sex.isEmpty()) {
        return Optional.of(all.get(k));
      }
    }
    return Optional.empty();
  }

  // Kinship

  private void kin(int i, Clause c) {
    KinWords.Found k = ((Clause.Kin) c.content()).kin();
    if (otherParent >= 0 && otherParent == i - 1) {
      return;
    }
    if (k.of() && k.names().isEmpty() && !k.above()) {
      return;
    }
    int from = k.joined() ? c.from() + 1 : c.from();
    Bond bond = new Bond(k, from, odds);
    Type before = typeAt(i - 1);
    Type after = typeAt(i + 1);
    boolean factFollows = List.of(Type.EVENT, Type.DATE, Type.SPAN, Type.AGE).contains(after);
    boolean personFollows = after == Type.PERSON;
    boolean namely = after == Type.KIN || (after == Type.FORMULA && isNamely(i + 1));
    if (k.counted() && !personFollows && !(k.isPlural() && (k.of() || namely) && laterPerson(i))) {
      nobody = true;
      return;
    }
    boolean bare = k.possessor().isEmpty() && !k.of();
    boolean apposed =
        bare
            && c.from() > 1
            && words.get(c.from() - 1).is("an", "a")
            && !words.get(c.from() - 2).in(PersonWords.JOINS)
            && !(factFollows
                && List.of(Type.EVENT, Type.DATE, Type.AGE).contains(typeAt(i - 2))
                && words.get(c.from() - 1).isCapitalised());
    if (apposed) {
      return;
    }
    if (bare) {
      boolean ends =
          List.of(Type.END, Type.FORMULA, Type.VERSE, Type.SCRIPTURE, Type.MAKER).contains(after);
      boolean joined = before == Type.FORMULA || before == Type.KIN;
      ends &= !(after == Type.FORMULA && typeAt(i + 2) == Type.KIN);
      Optional<Bond> sibling = siblingBond(i);
      if (personFollows && k.isPlural() && !persons.isEmpty()) {
        plural(new Bond(k.pointing("their"), from, odds), i, false, true);
      } else if (personFollows && sibling.isPresent()) {
        Bond same = new Bond(k.pointing(sibling.get().kin.possessor()), from, odds);
        pointing(same, i, c, false, true, false);
      } else if (PersonWords.SPOUSES.contains(k.relation())) {
        spouseBefore(bond, before);
      } else if (!personFollows && (factFollows || (ends && joined))) {
        unnamed(bond, c, !persons.isEmpty());
      }
      return;
    }
    boolean ofPersonBefore =
        List.of(Type.PERSON, Type.KIN, Type.MAIDEN, Type.OCCUPATION, Type.ORIGIN, Type.SERVICE)
                .contains(before)
            && !subjects.isEmpty()
            && !nobody;
    if (k.isPlural()) {
      plural(bond, i, ofPersonBefore, personFollows);
      return;
    }
    boolean pointsBack = !k.possessor().isEmpty() && !k.of();
    if (pointsBack) {
      pointing(bond, i, c, ofPersonBefore, personFollows, factFollows);
    } else {
      of(bond, i, c, ofPersonBefore, personFollows, factFollows);
    }
  }

  /** {@code their son RICHARD died 1858 and daughter ANN}: the kinship that goes on. */
  private Optional<Bond> siblingBond(int i) {
    boolean and =
        typeAt(i - 1) == Type.FORMULA
            && words.get(row.get(i - 1).clause().from()).in(PersonWords.JOINS);
    return bonds.stream()
        .reduce((a, b) -> b)
        .filter(b -> and && b.isChild() && !b.isPlural() && !b.kin.possessor().isEmpty());
  }

  /** {@code MARY BLAIN / second spouse}: of the man named before her. */
  private void spouseBefore(Bond bond, Type before) {
    if (before == Type.PERSON && subjects.size() == 1 && persons.size() > 1) {
      bonds.add(bond);
      attach(bond, subjects.get(0));
    }
  }

  private boolean isNamely(int i) {
    return words.get(row.get(i).clause().from()).is("viz", "vizt", "namely");
  }

  private void plural(Bond bond, int i, boolean ofPersonBefore, boolean personFollows) {
    boolean goesOn = typeAt(i - 1) == Type.KIN || bond.kin.joined();
    waiting.removeIf(b -> b.kin.isPlural() && !goesOn);
    if (ofPersonBefore && typeAt(i - 1) == Type.PERSON && subjects.size() > 1) {
      bonds.add(bond);
      List.copyOf(subjects).forEach(number -> attach(bond, number));
    } else if (bond.kin.pointsBack() && !personFollows && !persons.isEmpty() && !laterPerson(i)) {
      bonds.add(bond);
      everybody().stream()
          .filter(p -> p > 1 && bonds.stream().noneMatch(b -> b.about.contains(p)))
          .filter(p -> fits(p, bond))
          .forEach(number -> attach(bond, number));
    } else if (bond.kin.pointsBack() || personFollows || persons.isEmpty()) {
      bonds.add(bond);
      waiting.add(bond);
      nobody = !personFollows && !persons.isEmpty();
    } else {
      List<Integer> without =
          everybody().stream()
              .filter(
                  p ->
                      bonds.stream()
                          .noneMatch(
                              b ->
                                  b.about.contains(p)
                                      && (b.isChild() || b.isMarriage() || !bond.isChild())))
              .toList();
      boolean later = laterPerson(i);
      bonds.add(bond);
      if (without.isEmpty() || later) {
        waiting.add(bond);
      } else {
        without.forEach(number -> attach(bond, number));
      }
    }
  }

  private boolean laterPerson(int i) {
    for (int k = i + 1; k < row.size(); k++) {
      if (typeAt(k) == Type.PERSON) {
        return true;
      }
    }
    return false;
  }

  /** {@code his wife}: of the one named next, or of the one named just before. */
  private void pointing(
      Bond bond,
      int i,
      Clause c,
      boolean ofPersonBefore,
      boolean personFollows,
      boolean factFollows) {
    boolean otherBefore = persons.size() > 1 || !erectors.isEmpty() || kinOnlyBefore();
    boolean fitsBefore =
        ofPersonBefore && otherBefore && fits(subjects.get(subjects.size() - 1), bond);
    boolean newLine = c.from() > 0 && words.get(c.from() - 1).line() != words.get(c.from()).line();
    boolean fitsNext = personFollows && fitsNext(i + 1, bond);
    boolean next = personFollows && !(fitsBefore && (!newLine || !fitsNext));
    if (next) {
      bonds.add(bond);
      waiting.removeIf(b -> b.kin.isPlural() && !(bond.isChild() && b.isChild()));
      waiting.add(bond);
    } else if (fitsBefore) {
      int subject = subjects.get(subjects.size() - 1);
      if (bond.isMarriage()) {
        endRow(subject);
      }
      bonds.add(bond);
      attach(bond, subject);
    } else if (factFollows || typeAt(i + 1) == Type.MAIDEN || isLastChild(bond, i)) {
      unnamed(bond, c, true);
    }
  }

  /** {@code his children ANN ... ROBERT ... also HARRIET his wife}: she is none of the children. */
  private void endRow(int person) {
    waiting.removeIf(b -> b.kin.isPlural() && b.isChild());
    bonds.stream()
        .filter(b -> b.kin.isPlural() && b.isChild() && b.about.size() > 1)
        .forEach(b -> b.about.remove(Integer.valueOf(person)));
  }

  /** {@code also her infant} at the end of a face. */
  private boolean isLastChild(Bond bond, int i) {
    return bond.isChild()
        && (bond.kin.joined() || typeAt(i - 1) == Type.FORMULA)
        && List.of(Type.END, Type.VERSE, Type.SCRIPTURE, Type.MAKER).contains(typeAt(i + 1));
  }

  private boolean kinOnlyBefore() {
    return bonds.stream().anyMatch(b -> !b.named.isEmpty());
  }

  /** Whether a person may be what a kinship says, by sex. */
  private boolean fits(int number, Bond bond) {
    Optional<Sex> said = KinWords.sexOf(bond.kin.relation());
    Optional<Sex> own = persons.get(number - 1).sex;
    return said.isEmpty() || own.isEmpty() || said.equals(own);
  }

  private boolean fitsNext(int i, Bond bond) {
    Clause c = row.get(i).clause();
    Optional<Sex> said = KinWords.sexOf(bond.kin.relation());
    if (!(c.content() instanceof Clause.Names n) || said.isEmpty()) {
      return true;
    }
    Optional<Sex> next = sexOf(n.names().bearers().get(0).name());
    return next.isEmpty() || next.equals(said);
  }

  /** {@code wife of John Smith}. */
  private void of(
      Bond bond,
      int i,
      Clause c,
      boolean ofPersonBefore,
      boolean personFollows,
      boolean factFollows) {
    Type before = typeBefore(i);
    boolean facts =
        List.of(Type.EVENT, Type.DATE, Type.SPAN, Type.AGE, Type.CAUSE).contains(before);
    boolean and =
        before == Type.FORMULA
            && words.get(row.get(i - 1).clause().from()).is("and", "&")
            && List.of(
                    Type.KIN, Type.PERSON, Type.MAIDEN, Type.OCCUPATION, Type.ORIGIN, Type.SERVICE)
                .contains(typeAt(i - 2))
            && !subjects.isEmpty();
    bonds.add(bond);
    if (ofPersonBefore || and || (bond.kin.joined() && !subjects.isEmpty() && !personFollows)) {
      attach(bond, subjects.get(subjects.size() - 1));
    } else if (facts && !subjects.isEmpty() && !nobody) {
      int subject = subjects.get(subjects.size() - 1);
      boolean has =
          bonds.stream()
              .anyMatch(
                  b ->
                      b != bond
                          && b.about.contains(subject)
                          && (b.isMarriage() == bond.isMarriage())
                          && (b.isChild() == bond.isChild()));
      boolean next = personFollows && (has || !fits(subject, bond));
      if (next) {
        waiting.add(bond);
      } else {
        attach(bond, subject);
      }
    } else if (personFollows || persons.isEmpty() && !factFollows) {
      waiting.add(bond);
    } else if (!factFollows && !subjects.isEmpty()) {
      attach(bond, subjects.get(subjects.size() - 1));
    } else {
      bonds.remove(bond);
      unnamed(bond, c, true);
    }
  }

  /** What goes before, but for verse and words that only lead on, such as {@code dear}. */
  private Type typeBefore(int i) {
    int k = i - 1;
    while (k > 0
        && (typeAt(k) == Type.VERSE
            || (typeAt(k) == Type.FORMULA
                && !words.get(row.get(k).clause().from()).is("an", "a")
                && !words.get(row.get(k).clause().from()).in(PersonWords.FORMULA_ENDS)))) {
      k--;
    }
    return typeAt(k);
  }

  /** Somebody known by his kinship alone. */
  private void unnamed(Bond bond, Clause c, boolean tied) {
    Detail.Name name = new Detail.Name("", "", "", List.of(), List.of());
    Bearer person = create(bond.from, Math.max(bond.from + 1, bond.kin.wordsEnd()), name);
    person.sex = KinWords.sexOf(bond.kin.relation());
    nobody = false;
    givenOut.clear();
    subjects = new ArrayList<>(List.of(person.number));
    if (tied) {
      bonds.add(bond);
      attach(bond, person.number);
    }
  }

  /** Whom {@code his}, {@code their} or {@code the above} means. */
  private void mean(Bond bond, int number) {
    KinWords.Found k = bond.kin;
    List<Integer> before = new ArrayList<>();
    for (int p = 1; p < number; p++) {
      if (!bond.about.contains(p)) {
        before.add(p);
      }
    }
    if (k.both()) {
      for (Detail.Name name : bond.named) {
        spokenOf(name).filter(p -> p != number).ifPresent(bond.meant::add);
      }
    } else if (!k.names().isEmpty()) {
      if (k.above()) {
        for (Detail.Name name : bond.named) {
          spokenOf(name).filter(p -> p != number).ifPresent(bond.meant::add);
        }
      } else {
        namedBefore(bond, number);
      }
      return;
    }
    switch (k.possessor()) {
      case "their" -> {
        if (PersonWords.PARENTS.contains(k.relation()) && before.stream().anyMatch(this::isChild)) {
          before.stream().filter(this::isChild).forEach(bond.meant::add);
        } else {
          couple(bond, before, number);
        }
      }
      case "his" -> one(bond, before, Sex.MAN);
      case "her" -> one(bond, before, Sex.WOMAN);
      default -> above(bond, before, number);
    }
  }

  /** A husband or parent named in full, or by initials, who is named before on the face. */
  private void namedBefore(Bond bond, int number) {
    for (Detail.Name name : List.copyOf(bond.named)) {
      for (Bearer person : persons) {
        boolean initials =
            person.number != number
                && (name.given() + " " + name.surname())
                    .strip()
                    .matches("\\p{L}( \\p{L})*( \\p{L}{2,})?")
                && initials(person.name.given())
                    .equals(
                        (name.given() + (name.surname().length() == 1 ? name.surname() : ""))
                            .replace(" ", ""))
                && (name.surname().length() == 1
                    || name.surname().isEmpty()
                    || alike(name.surname(), full(person).surname()));
        if (initials && !bond.meant.contains(person.number)) {
          bond.meant.add(person.number);
          bond.named.remove(name);
        }
      }
    }
    for (Detail.Name name : bond.named) {
      for (Bearer person : persons) {
        boolean same =
            person.number != number
                && !name.surname().isEmpty()
                && !person.name.surname().isEmpty()
                && !name.given().isEmpty()
                && NameForms.fold(name.given()).equals(NameForms.fold(person.name.given()))
                && NameForms.fold(name.surname()).equals(NameForms.fold(person.name.surname()));
        if (same && bond.isMarriage() && !bond.meant.contains(person.number)) {
          bond.meant.add(person.number);
        }
      }
    }
  }

  private void one(Bond bond, List<Integer> before, Sex sex) {
    Optional<Detail.Name> erector =
        erectors.stream()
            .filter(e -> sexOf(e).filter(s -> s != sex).isEmpty())
            .filter(e -> before.stream().noneMatch(p -> isErector(p, e)))
            .findFirst();
    boolean bloodOrWife =
        !bond.isMarriage()
            || before.stream().allMatch(p -> isChildHere(p) || isParentHere(p) || isSiblingHere(p));
    if (erector.isPresent() && bloodOrWife) {
      bond.others.add(erector.get());
      return;
    }
    if (bond.isParentOrSibling()) {
      Optional<Bond> alike =
          bonds.stream()
              .filter(
                  b ->
                      !before.isEmpty()
                          && b != bond
                          && b.isParentOrSibling()
                          && b.kin.pointsBack()
                          && !b.about.isEmpty())
              .filter(b -> before.get(before.size() - 1).equals(b.about.get(0)))
              .findFirst();
      if (alike.isPresent()) {
        bond.meant.addAll(alike.get().meant);
        bond.others.addAll(alike.get().others);
        return;
      }
    }
    List<Integer> ordered = new ArrayList<>(before);
    for (int k = ordered.size() - 1; k >= 0; k--) {
      if (persons.get(ordered.get(k) - 1).sex.filter(s -> s == sex).isPresent()) {
        // A child's "his" is his father's as long as the father is on the face.
        int p = ordered.get(k);
        Optional<Integer> parent = isChildHere(p) ? parentOf(p, sex) : Optional.empty();
        boolean single = parent.filter(q -> marriageOf(q, bond).isEmpty()).isPresent();
        bond.meant.add(bond.isMarriage() && !single ? p : parent.orElse(p));
        return;
      }
    }
    for (int k = bonds.size() - 1; k >= 0; k--) {
      for (Detail.Name other : bonds.get(k).named) {
        if (bonds.get(k) != bond
            && sexOf(other).filter(s -> s == sex).isPresent()
            && !bonds.get(k).about.isEmpty()) {
          bond.others.add(other);
          return;
        }
      }
    }
    if (erector.isPresent()) {
      bond.others.add(erector.get());
      return;
    }
    for (int k = ordered.size() - 1; k >= 0; k--) {
      if (persons.get(ordered.get(k) - 1).sex.isEmpty()) {
        bond.meant.add(ordered.get(k));
        return;
      }
    }
  }

  private boolean isErector(int p, Detail.Name erector) {
    return NameWords.mayBeSame(persons.get(p - 1).name, erector);
  }

  private boolean isParentHere(int p) {
    return bonds.stream()
        .anyMatch(b -> PersonWords.PARENTS.contains(b.kin.relation()) && b.about.contains(p));
  }

  private boolean isChild(int p) {
    return bonds.stream().anyMatch(b -> b.isChild() && b.about.contains(p));
  }

  private boolean isSiblingHere(int p) {
    return bonds.stream()
        .anyMatch(b -> b.kin.relation().matches("(brother|sister)s?") && b.about.contains(p));
  }

  private boolean isChildHere(int p) {
    return bonds.stream()
        .anyMatch(
            b -> b.isChild() && b.about.contains(p) && !(b.meant.isEmpty() && b.others.isEmpty()));
  }

  private Optional<Integer> parentOf(int p, Sex sex) {
    return bonds.stream()
        .filter(b -> b.isChild() && b.about.contains(p))
        .flatMap(b -> b.meant.stream())
        .filter(m -> persons.get(m - 1).sex.filter(s -> s == sex).isPresent())
        .findFirst();
  }

  private void couple(Bond bond, List<Integer> before, int number) {
    if (before.isEmpty()) {
      bond.others.addAll(erectors);
      kinNames(bond);
      return;
    }
    for (int k = before.size() - 1; k >= 0; k--) {
      int p = before.get(k);
      Optional<Bond> own = marriageOf(p, bond).filter(b -> b.about.contains(p));
      if (own.isPresent() && bond.isChild() && !own.get().named.isEmpty()) {
        addCouple(own.get(), bond, number);
        return;
      }
      Optional<Bond> child =
          bonds.stream()
              .filter(
                  b ->
                      b != bond
                          && b.isChild()
                          && b.about.contains(p)
                          && b.meant.size() + b.named.size() > 1)
              .findFirst();
      if (child.isPresent()) {
        bond.meant.addAll(child.get().meant);
        bond.others.addAll(child.get().others);
        bond.others.addAll(child.get().named);
        return;
      }
      Optional<Bond> marriage = marriageOf(p, bond);
      if (marriage.isPresent()) {
        addCouple(marriage.get(), bond, number);
        return;
      }
    }
    if (before.size() >= 2 && group.size() != 1) {
      int last = before.get(before.size() - 1);
      bond.meant.add(before.get(before.size() - 2));
      bond.meant.add(last);
    } else {
      bond.meant.add(before.get(before.size() - 1));
      bond.others.addAll(erectors);
    }
  }

  private static String initials(String given) {
    StringBuilder initials = new StringBuilder();
    for (String word : given.split(" ", -1)) {
      initials.append(word.isEmpty() ? "" : word.substring(0, 1));
    }
    return initials.toString();
  }

  private Optional<Bond> marriageOf(int p, Bond but) {
    return bonds.stream()
        .filter(b -> b != but && b.isMarriage() && (b.about.contains(p) || b.meant.contains(p)))
        .reduce((a, b) -> b);
  }

  /** Husband and wife are meant, but for the one who is spoken of. */
  private static void addCouple(Bond marriage, Bond bond, int number) {
    Set<Integer> both = new LinkedHashSet<>(marriage.meant);
    both.addAll(marriage.about);
    both.stream().filter(q -> q != number).sorted().forEach(bond.meant::add);
    if (marriage.meant.isEmpty()) {
      bond.others.addAll(marriage.named);
      bond.others.addAll(marriage.others);
    }
  }

  private void kinNames(Bond bond) {
    for (Bond other : bonds) {
      if (other != bond) {
        bond.others.addAll(other.named);
      }
    }
  }

  /** {@code wife of the above}: the last one named of the sex that goes with it. */
  private void above(Bond bond, List<Integer> before, int number) {
    Optional<Sex> own = KinWords.sexOf(bond.kin.relation()).or(() -> persons.get(number - 1).sex);
    if (bond.isMarriage() && own.isPresent()) {
      Sex other = own.get() == Sex.MAN ? Sex.WOMAN : Sex.MAN;
      for (int k = before.size() - 1; k >= 0; k--) {
        if (persons.get(before.get(k) - 1).sex.filter(s -> s == other).isPresent()) {
          bond.meant.add(before.get(k));
          return;
        }
      }
      for (Bond earlier : bonds) {
        for (Detail.Name name : earlier.named) {
          if (earlier != bond && sexOf(name).filter(s -> s == other).isPresent()) {
            bond.others.add(name);
            return;
          }
        }
      }
    }
    for (int k = before.size() - 1; k >= 0; k--) {
      int p = before.get(k);
      if (bond.isChild() && isChildHere(p)) {
        continue;
      }
      if (bond.isDescendant() && !bond.kin.both()) {
        marriageOf(p, bond).ifPresent(m -> addCouple(m, bond, 0));
      }
      if (!bond.meant.contains(p)) {
        bond.meant.add(p);
      }
      return;
    }
    if (before.isEmpty()) {
      bond.others.addAll(erectors);
      if (erectors.isEmpty()) {
        kinNames(bond);
      }
    } else {
      bond.meant.add(before.get(before.size() - 1));
    }
  }

  // Facts

  private boolean has(int person, Kind kind) {
    return found.stream().anyMatch(s -> s.kind() == kind && s.persons().contains(person));
  }

  private void event(int i, Clause c) {
    Clause.Event e = (Clause.Event) c.content();
    if (nobody) {
      return;
    }
    if (!e.dates().isEmpty() && !e.kinds().isEmpty()) {
      turnToKin(i, e.kinds().get(0), e.dates().get(0));
    }
    boolean survived =
        words.subList(c.from(), Math.min(c.to(), c.from() + 3)).stream()
                .anyMatch(w -> w.is("wounded"))
            && sameEventsAhead(i, Kind.DEATH) > 1;
    List<Integer> without =
        everybody().stream().filter(p -> !has(p, Kind.DEATH) && !has(p, Kind.CAUSE)).toList();
    boolean were =
        words.subList(c.from(), Math.min(c.to(), c.from() + 3)).stream().anyMatch(w -> w.is("were"))
            || words.subList(c.from(), Math.min(c.to(), c.from() + 4)).stream()
                .anyMatch(w -> w.is("lives"));
    boolean rows =
        e.kinds().contains(Kind.DEATH)
            && beginsLine(c.from())
            && without.size() == persons.size()
            && persons.size() > 2
            && typeAt(i - 1) == Type.AGE
            && persons.stream().allMatch(p -> has(p.number, Kind.AGE));
    were |= rows;
    boolean several = were && without.containsAll(subjects) && without.size() > subjects.size();
    subjects = several ? new ArrayList<>(without) : subjects;
    e.cause()
        .ifPresent(
            cause ->
                add(
                    Kind.CAUSE,
                    subjects,
                    cause[0],
                    Math.max(cause[1], cause[0] + 1),
                    plain(cause[0], Math.max(cause[1], cause[0] + 1)),
                    Optional.empty()));
    if (e.dates().isEmpty() || survived) {
      return;
    }
    for (Kind kind : e.kinds()) {
      give(i, kind, c, e);
    }
  }

  private void give(int i, Kind kind, Clause c, Clause.Event e) {
    if (e.dates().size() > 1 && e.dates().size() == subjects.size()) {
      for (int k = 0; k < subjects.size(); k++) {
        date(kind, List.of(subjects.get(k)), c.from(), c.to(), e.dates().get(k), e.place());
      }
      return;
    }
    List<Integer> about = subjects;
    if (subjects.size() > 1 && sameEventsAhead(i, kind) == subjects.size()
        || givenOut.containsKey(kind)) {
      int next = givenOut.getOrDefault(kind, 0);
      if (next < subjects.size()) {
        about = List.of(subjects.get(next));
        givenOut.put(kind, next + 1);
      }
    }
    date(kind, about, c.from(), c.to(), e.dates().get(0), e.place());
  }

  /** How many events of a kind come before somebody else is named, this one counted. */
  private int sameEventsAhead(int i, Kind kind) {
    int count = 0;
    for (int k = i; k < row.size() && typeAt(k) != Type.PERSON && typeAt(k) != Type.PRONOUN; k++) {
      boolean same =
          row.get(k).clause().content() instanceof Clause.Event e
              && (e.kinds().contains(kind) || (e.kinds().isEmpty() && kind == Kind.DEATH));
      count += same ? 1 : 0;
    }
    return count;
  }

  private void date(
      Kind kind, List<Integer> about, int from, int to, DateWords.Found date, String place) {
    if (date.value().isEmpty()) {
      return;
    }
    List<Integer> lacking = about;
    if (kind == Kind.BIRTH && about.size() == 1 && has(about.get(0), Kind.BIRTH)) {
      return;
    }
    add(kind, lacking, from, to, date.value(), Optional.of(date.detail(place)));
  }

  /** A date with no word to say of what: that of death, or, of two, first that of birth. */
  private void date(int i, Clause c) {
    Clause.Event e = (Clause.Event) c.content();
    if (nobody || subjects.isEmpty() || inColumns.contains(i) || columns(i)) {
      return;
    }
    if (goesBeforeName(i)) {
      date(Kind.DEATH, List.of(), c.from(), c.to(), e.dates().get(0), "");
      return;
    }
    int person = subjects.get(0);
    if (subjects.size() == 1) {
      boolean bare =
          found.stream()
              .anyMatch(
                  s ->
                      s.kind() == Kind.DEATH
                          && s.persons().contains(person)
                          && bareDates.contains(found.indexOf(s)));
      boolean yearless =
          found.stream()
              .anyMatch(
                  s ->
                      s.kind() == Kind.DEATH
                          && s.persons().contains(person)
                          && s.value().startsWith("--"));
      if (has(person, Kind.DEATH) && !bare && !yearless) {
        return;
      }
      bare &= !yearless;
      if (bare) {
        int index = bareDates.stream().reduce((a, b) -> b).orElseThrow();
        Statement first = found.get(index);
        if (first.persons().contains(person)
            && (first.value().length() > 4 || first.lastLine() == words.get(c.from()).line())
            && !has(person, Kind.BIRTH)) {
          found.set(index, first.withKind(Kind.BIRTH));
          bareDates.remove(index);
        } else {
          return;
        }
      }
    }
    int size = found.size();
    give(i, Kind.DEATH, c, e);
    if (found.size() == size + 1) {
      bareDates.add(size);
    }
  }

  /**
   * {@code Died 3 May JOHN SMITH, 9 May ANN his wife}: where a death goes before the first name it
   * does before the next, too; the one before it is of whoever is spoken of.
   */
  private boolean goesBeforeName(int i) {
    int first = -1;
    for (int k = 0; k < found.size(); k++) {
      first = found.get(k).kind() == Kind.DEATH && found.get(k).persons().isEmpty() ? k : first;
    }
    if (first < 0 || typeAt(i + 1) != Type.PERSON || has(subjects.get(0), Kind.DEATH)) {
      return false;
    }
    found.set(first, found.get(first).withPersons(subjects));
    return true;
  }

  private final Set<Integer> inColumns = new HashSet<>();

  /** Two persons side by side over two lines of two dates: their births, and their deaths below. */
  private boolean columns(int i) {
    if (subjects.size() != 2
        || has(subjects.get(0), Kind.BIRTH)
        || List.of(i, i + 1, i + 2, i + 3).stream().anyMatch(k -> typeAt(k) != Type.DATE)) {
      return false;
    }
    int first = line(i);
    boolean columns =
        line(i - 1) + 1 == first
            && line(i + 1) == first
            && line(i + 2) == first + 1
            && line(i + 3) == first + 1;
    for (int k = 0; k < 4 && columns; k++) {
      Clause one = row.get(i + k).clause();
      DateWords.Found date = ((Clause.Event) one.content()).dates().get(0);
      odds = row.get(i + k).odds();
      Kind kind = k < 2 ? Kind.BIRTH : Kind.DEATH;
      date(kind, List.of(subjects.get(k % 2)), one.from(), one.to(), date, "");
      inColumns.add(i + k);
    }
    return columns;
  }

  private int line(int i) {
    return words.get(row.get(i).clause().from()).line();
  }

  /** Whether years are those of an office, since a birth or death is told in words below. */
  private boolean isOfOffice() {
    boolean office = at > 0 && List.of(Type.OCCUPATION, Type.SERVICE).contains(typeAt(at - 1));
    office |=
        typeAt(at - 1) == Type.ORIGIN
            && List.of(Type.OCCUPATION, Type.SERVICE).contains(typeAt(at - 2));
    boolean others = false;
    for (int k = at + 1; k < row.size() && office; k++) {
      others |= typeAt(k) == Type.PERSON;
      if (others && typeAt(k) != Type.PRONOUN) {
        continue;
      }
      if (others && isDated(k + 1)) {
        return true;
      }
      if (row.get(k).clause().content() instanceof Clause.Event e
          && typeAt(k) == Type.EVENT
          && !e.dates().isEmpty()) {
        return true;
      }
    }
    return false;
  }

  private boolean isDated(int i) {
    return i < row.size()
        && row.get(i).clause().content() instanceof Clause.Event e
        && e.kinds().contains(Kind.DEATH)
        && !e.dates().isEmpty();
  }

  private void span(int i, Clause c) {
    Clause.Span span = (Clause.Span) c.content();
    if (nobody || subjects.isEmpty()) {
      return;
    }
    if (isOfOffice()) {
      return;
    }
    turnToKin(i, Kind.BIRTH, span.birth());
    List<Integer> about = List.of(subjects.get(subjects.size() - 1));
    for (int k = subjects.size() - 1; k >= 0; k--) {
      about = has(subjects.get(k), Kind.BIRTH) ? about : List.of(subjects.get(k));
    }
    int dash = span.birth().end();
    if (!has(about.get(0), Kind.BIRTH)) {
      add(
          Kind.BIRTH,
          about,
          c.from(),
          dash,
          span.birth().value(),
          Optional.of(span.birth().detail("")));
    }
    if (span.death().isPresent() && !has(about.get(0), Kind.DEATH)) {
      DateWords.Found death = span.death().get();
      add(
          Kind.DEATH,
          about,
          span.deathFrom(),
          death.end(),
          death.value(),
          Optional.of(death.detail("")));
    }
  }

  private void age(Clause c) {
    AgeWords.Found age = ((Clause.Aged) c.content()).age();
    if (nobody || subjects.isEmpty() || (subjects.size() == 1 && has(subjects.get(0), Kind.AGE))) {
      return;
    }
    add(Kind.AGE, subjects, c.from(), c.to(), age.value(), age.detail());
  }

  private void maiden(Clause c) {
    if (!(c.content() instanceof Clause.Valued v) || subjects.isEmpty()) {
      return;
    }
    Bearer person = persons.get(subjects.get(subjects.size() - 1) - 1);
    Detail.Name n = person.name;
    String surname =
        words.subList(v.from(), v.to()).stream()
            .map(w -> NameWords.titleCase(w.folded()))
            .collect(Collectors.joining(" "));
    boolean or = words.get(c.from()).is("or");
    String atBirth = or && !n.surname().isEmpty() ? n.surname() : surname;
    String borne = or && !n.surname().isEmpty() ? surname : n.surname();
    person.name = new Detail.Name(n.given(), borne, atBirth, n.titles(), n.suffixes());
    maidenWords.put(person.number, new int[] {c.from(), c.to()});
  }

  private final Map<Integer, int[]> maidenWords = new HashMap<>();

  private void service(int i, Clause c) {
    Detail.Service service = ((Clause.Serving) c.content()).service();
    int k = i - 1;
    while (List.of(Type.OCCUPATION, Type.ORIGIN, Type.SERVICE).contains(typeAt(k))) {
      k--;
    }
    boolean woman =
        !subjects.isEmpty()
            && persons
                .get(subjects.get(subjects.size() - 1) - 1)
                .sex
                .equals(Optional.of(Sex.WOMAN));
    boolean office = !service.office().isEmpty() && k == i - 1 && !bondOf(k).equals("husband");
    boolean ofKin = typeAt(k) == Type.KIN && namesKin(k) && (woman || office || sameLine(k, i));
    if (ofKin || nobody) {
      return;
    }
    boolean ofNext =
        !service.rank().isEmpty() && service.unit().isEmpty() && typeAt(i + 1) == Type.PERSON;
    List<Integer> about = ofNext ? List.of(persons.size() + 1) : subjects;
    if (about.isEmpty() && !laterPerson(i)) {
      return;
    }
    add(
        Kind.SERVICE,
        about.isEmpty() ? List.of(persons.size() + 1) : about,
        c.from(),
        c.to(),
        words(c.from(), c.to()),
        Optional.of(service));
  }

  private boolean beginsLine(int i) {
    return i == 0 || words.get(i - 1).line() != words.get(i).line();
  }

  private String bondOf(int i) {
    return row.get(i).clause().content() instanceof Clause.Kin k ? k.kin().relation() : "";
  }

  private boolean namesKin(int i) {
    return row.get(i).clause().content() instanceof Clause.Kin k && !k.kin().names().isEmpty();
  }

  private boolean sameLine(int a, int b) {
    return words.get(row.get(a).clause().to() - 1).line()
        == words.get(row.get(b).clause().from()).line();
  }

  /** A trade or a place; after a kinship with names it is said of those. */
  private void said(int i, Clause c) {
    boolean ofKin = false;
    for (int k = i - 1; k >= 0; k--) {
      Type t = typeAt(k);
      if (t == Type.KIN) {
        ofKin = namesKin(k) && !bondOf(k).equals("husband");
        break;
      }
      if (t != Type.OCCUPATION && t != Type.ORIGIN) {
        break;
      }
    }
    boolean ofErector =
        typeAt(i - 1) == Type.ERECTED
            || (typeAt(i - 2) == Type.ERECTED
                && List.of(Type.OCCUPATION, Type.ORIGIN).contains(typeAt(i - 1)));
    if (!(c.content() instanceof Clause.Valued v)) {
      return;
    }
    Kind kind = c.type() == Type.ORIGIN ? Kind.ORIGIN : Kind.OCCUPATION;
    String value = plain(v.from(), v.to());
    if (ofErector && !erectors.isEmpty()) {
      ofOthers.add(new OfAnother(kind, c, value, odds, erectors, Optional.empty()));
    } else if (ofKin && !bonds.isEmpty()) {
      Bond bond = bonds.get(bonds.size() - 1);
      ofOthers.add(new OfAnother(kind, c, value, odds, bond.named, Optional.of(bond)));
    } else if (subjects.isEmpty() && typeAt(i + 1) == Type.PERSON && kind == Kind.OCCUPATION) {
      add(kind, List.of(persons.size() + 1), c.from(), c.to(), value, Optional.empty());
    } else if (!value.isEmpty() && !ofKin && !ofErector && !subjects.isEmpty() && !nobody) {
      boolean ofAll = words.get(c.from()).is("natives") && persons.size() > 1;
      add(kind, ofAll ? everybody() : subjects, c.from(), c.to(), value, Optional.empty());
    }
  }

  /** What is said of somebody who so far is only named as kin, or as having set up the stone. */
  private record OfAnother(
      Kind kind,
      Clause clause,
      String value,
      double odds,
      List<Detail.Name> names,
      Optional<Bond> bond) {}

  private final List<OfAnother> ofOthers = new ArrayList<>();

  /** It is told if he has a name of his own further down. */
  private void giveToThoseNamedLater() {
    for (OfAnother said : ofOthers) {
      List<Integer> about =
          persons.stream()
              .filter(p -> (p.from >= said.clause().to() || said.bond().isPresent()) && p.isNamed())
              .filter(p -> said.names().stream().anyMatch(n -> isSame(n, full(p))))
              .map(p -> p.number)
              .filter(
                  p ->
                      said.bond().isEmpty()
                          ? bonds.stream().noneMatch(b -> b.isChild() && b.about.contains(p))
                          : said.bond().get().meant.contains(p))
              .toList();
      if (about.size() == 1 && !said.value().isEmpty()) {
        Clause c = said.clause();
        add(
            said.kind(),
            about,
            c.from(),
            c.to(),
            said.value(),
            Optional.empty(),
            Optional.empty(),
            said.odds());
      }
    }
  }

  private static boolean isSame(Detail.Name one, Detail.Name other) {
    return NameWords.mayBeSame(one, other) && alike(one.surname(), other.surname());
  }

  // Those who set up the stone, and mourners

  private void mourners(Clause c) {
    if (!(c.content() instanceof Clause.Valued v)) {
      return;
    }
    List<Detail.Name> names = mourning(v.from(), v.to());
    if (names.isEmpty()) {
      return;
    }
    if (c.type() == Type.ERECTED) {
      erectors.addAll(names);
    }
    String value =
        String.join(
            "; ", names.stream().map(n -> (n.given() + " " + n.surname()).strip()).toList());
    add(Kind.MOURNER, List.of(), c.from(), c.to(), value, Optional.empty());
    kinOfMourner(v.from(), v.to(), names);
  }

  private List<Detail.Name> mourning(int from, int to) {
    NameWords reader = new NameWords(words.subList(0, to));
    List<Detail.Name> names = new ArrayList<>();
    int i = from;
    while (i < to) {
      CarvedWord word = words.get(i);
      List<NameWords.Found> ways =
          reader.mayBeName(i)
                  || PersonWords.TITLES.contains(word.folded())
                      && i + 1 < to
                      && reader.mayBeName(i + 1)
              ? reader.at(i)
              : List.of();
      boolean place = i > from && words.get(i - 1).is("of", "in", "at");
      if (ways.isEmpty() || place || word.in(PersonWords.KIN)) {
        i++;
      } else {
        boolean body = i > from && words.get(i - 1).is("the") && !reader.isSigned(ways.get(0));
        if (!body) {
          ways.get(0).bearers().forEach(b -> names.add(b.name()));
        }
        i = Math.max(i + 1, ways.get(0).end());
      }
    }
    names.removeIf(n -> n.given().isEmpty() && n.surname().isEmpty());
    return names;
  }

  /**
   * {@code his loving wife ELSIE COBLEY}: whose wife she is; she isn't one of those commemorated.
   */
  private void kinOfMourner(int from, int to, List<Detail.Name> names) {
    int end = from;
    Optional<String> relation = Optional.empty();
    while (end < to && relation.isEmpty()) {
      if (words.get(end).in(PersonWords.KIN)) {
        relation = Optional.of(KinWords.relation(words.get(end).folded()));
      }
      end++;
    }
    boolean his = words.get(from).in(PersonWords.POSSESSORS);
    if (relation.isEmpty() || !his || subjects.isEmpty() || names.size() != 1) {
      return;
    }
    int person = subjects.get(subjects.size() - 1);
    List<Integer> about = new ArrayList<>(List.of(person));
    if (words.get(from).is("their")) {
      Optional<Bond> tie =
          bonds.stream().filter(b -> b.about.contains(person) && !b.isChild()).reduce((a, b) -> b);
      tie.ifPresent(b -> b.meant.stream().filter(p -> p != person).forEach(about::add));
    }
    for (int one : about) {
      mourningKin.add(new MourningKin(relation.get(), one, from, end, odds));
    }
  }

  /** Kinship of somebody who mourns. */
  private record MourningKin(String relation, int person, int from, int to, double odds) {}

  private final List<MourningKin> mourningKin = new ArrayList<>();

  // At the end

  /** A death told before any name is that of everybody named after it, as of a lost crew. */
  private void giveToAll() {
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      boolean ofAll =
          statement.isDate() || statement.kind() == Kind.CAUSE || statement.kind() == Kind.ORDER;
      if (!statement.persons().isEmpty() || persons.isEmpty() || !ofAll) {
        continue;
      }
      List<Integer> all = new ArrayList<>();
      for (Bearer person : persons) {
        if (!has(person.number, statement.kind())) {
          all.add(person.number);
        }
      }
      found.set(i, statement.withPersons(all));
    }
    found.removeIf(s -> s.persons().stream().anyMatch(p -> p > persons.size()));
  }

  /**
   * One date alone beside somebody whose birth and death are cut the same way, and of an age with
   * him: that of the birth of one who was living when it was cut.
   */
  private void bareBirths() {
    for (int i = 0; i < found.size(); i++) {
      Statement s = found.get(i);
      boolean bare = bareDates.contains(i) && s.kind() == Kind.DEATH && s.persons().size() == 1;
      if (!bare || has(s.persons().get(0), Kind.BIRTH) || has(s.persons().get(0), Kind.AGE)) {
        continue;
      }
      int year = year(s);
      boolean ofAnAge =
          found.stream()
              .filter(b -> b.kind() == Kind.BIRTH && !b.persons().equals(s.persons()))
              .filter(b -> BareDate.isBare(b) && Math.abs(year(b) - year) <= MOST_BETWEEN_SPOUSES)
              .anyMatch(
                  b ->
                      found.stream()
                          .filter(d -> d.kind() == Kind.DEATH && d.persons().equals(b.persons()))
                          .anyMatch(d -> year(d) - year > MOST_BETWEEN_SPOUSES));
      if (ofAnAge) {
        found.set(i, s.withKind(Kind.BIRTH));
      }
    }
  }

  private static final int MOST_BETWEEN_SPOUSES = 20;

  private static int year(Statement date) {
    return year(date.value());
  }

  private static int year(String date) {
    return date.matches("[0-9]{4}.*")
        ? Integer.parseInt(date.substring(0, 4))
        : Integer.MIN_VALUE / 2;
  }

  /** Dates without a year take the next year carved on the face; said to be supplied. */
  private void giveYears() {
    relativeMonths();
    String year = "";
    List<String> lentYears = new ArrayList<>();
    List<Statement> ordered = new ArrayList<>(found);
    ordered.sort(Comparator.comparingInt(this::place));
    for (int k = ordered.size() - 1; k >= 0; k--) {
      Statement statement = ordered.get(k);
      if (statement.isDate() && statement.value().matches("[0-9]{4}.*")) {
        year = statement.value().substring(0, 4);
      } else if (statement.isDate() && statement.value().startsWith("--")) {
        Optional<String> value = dates.withYear(statement.value(), year);
        if (value.isPresent()) {
          lentYears.add(year);
          found.set(
              found.indexOf(statement),
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
    String before = "";
    for (int i = 0; i < found.size(); i++) {
      Statement statement = found.get(i);
      if (statement.isDate() && statement.value().matches("[0-9]{4}-[0-9]{2}-[0-9X]{2}.*")) {
        before = statement.value();
      } else if (statement.isDate() && statement.value().matches("--(inst|ult)-..")) {
        String month = before.isEmpty() ? "" : carvedMonth(before);
        String day = statement.value().substring(statement.value().length() - 2);
        boolean ult = statement.value().contains("ult");
        String carved = ult && !month.isEmpty() ? before(month) : month;
        String value =
            month.isEmpty() || day.contains("X")
                ? (month.isEmpty() ? "XXXX-XX" : carved) + "-" + day
                : dates
                    .withYear("-" + carved.substring(4) + "-" + day, carved.substring(0, 4))
                    .orElse("");
        String reason =
            month.isEmpty()
                ? "the month is that of a date not on the stone"
                : "month from the date before";
        found.set(i, statement.withValue(value, statement.detail(), reason));
      }
    }
  }

  /** The year and month in which a day fell as it was carved, before the calendar was changed. */
  private String carvedMonth(String value) {
    String month = value.substring(0, 7);
    for (String carved : List.of(month, before(month))) {
      for (int day = 1; day <= 31; day++) {
        String one = String.format(Locale.ROOT, "-%s-%02d", carved.substring(4), day);
        if (dates.withYear(one, carved.substring(0, 4)).filter(value::equals).isPresent()) {
          return carved;
        }
      }
    }
    return month;
  }

  private static String before(String yearAndMonth) {
    int year = Integer.parseInt(yearAndMonth.substring(0, 4));
    int month = Integer.parseInt(yearAndMonth.substring(5));
    int earlier = month == 1 ? 12 : month - 1;
    return String.format(Locale.ROOT, "%04d-%02d", month == 1 ? year - 1 : year, earlier);
  }

  /** A person named without surname takes that of the kin, the family or the person before. */
  private void surnames() {
    String before = familyName;
    for (Bearer person : persons) {
      joinGiven(person, before);
      splitGiven(person, before);
      maidenName(person);
      if (!person.name.surname().isEmpty()) {
        Optional<String> husbands = husbandsName(person);
        boolean bornOtherwise = husbands.isEmpty() && !before.isEmpty() && isWifeOrMother(person);
        before = husbands.orElse(bornOtherwise ? before : person.name.surname());
        continue;
      }
      Optional<String> fromKin = surnameFromKin(person);
      String surname = fromKin.orElse(before);
      boolean unknown = words.get(person.from).folded().equals("unknown");
      boolean bare =
          !person.isNamed() && bonds.stream().anyMatch(b -> b.about.contains(person.number));
      if (!surname.isEmpty()
          && !person.alone
          && !unknown
          && (person.isNamed() || bare || isNameless(person))) {
        String reason =
            fromKin.isPresent()
                ? "surname from the kin named"
                : before.equals(lent)
                    ? "surname on the other faces"
                    : familyName.isEmpty() ? "surname of the person before" : "surname of the face";
        String given = person.name.given();
        boolean cut =
            given.indexOf(' ') > 0 && alike(given.substring(given.lastIndexOf(' ') + 1), surname);
        person.name =
            new Detail.Name(
                cut ? given.substring(0, given.lastIndexOf(' ')) : given,
                surname,
                person.name.birthSurname(),
                person.name.titles(),
                person.name.suffixes());
        person.supplied = cut ? Optional.empty() : Optional.of(reason);
        before = surname;
      }
    }
  }

  /** Whether a name was there and is gone, or is no name: a gap, a baby. */
  private boolean isNameless(Bearer person) {
    return words.get(person.from).isGap() || words.get(person.from).is("baby");
  }

  /** A last word that is a given name is one, where kin or the family lend the surname. */
  private void joinGiven(Bearer person, String before) {
    Detail.Name n = person.name;
    if (n.surname().isEmpty() || n.given().isEmpty()) {
      return;
    }
    Optional<String> lent =
        surnameFromKin(person).or(() -> Optional.of(familyName).filter(f -> !f.isEmpty()));
    boolean given =
        !n.given().isEmpty()
            && (NameWords.isPlainlyGiven(NameForms.fold(n.surname())) || endsInGiven(person))
            && persons.stream().noneMatch(p -> p != person && alike(p.name.surname(), n.surname()));
    boolean namesake =
        persons.stream()
            .anyMatch(p -> p != person && alike(p.name.given(), n.given() + " " + n.surname()));
    boolean under =
        familyWords.filter(f -> f[0] == 0).isPresent()
            && persons.size() > 1
            && n.given().indexOf(' ') < 0
            && (person.sex.filter(s -> s == Sex.MAN).isPresent() || n.given().length() == 1)
            && persons.stream().noneMatch(p -> p != person && alike(p.name.surname(), n.surname()));
    String last = NameForms.fold(n.surname());
    boolean girl =
        !before.isEmpty()
            && !alike(before, n.surname())
            && NameWords.isPlainlyGiven(last)
            && GivenNames.known().isWomans(last)
            && person.sex.filter(s -> s == Sex.WOMAN).isPresent();
    if (namesake
        || girl
        || isOfAnotherFather(person)
        || (under && !alike(familyName, n.surname()) && !familyName.isEmpty())
        || (given && lent.filter(l -> !alike(l, n.surname())).isPresent())) {
      person.name =
          new Detail.Name(
              n.given() + " " + n.surname(), "", n.birthSurname(), n.titles(), n.suffixes());
    }
  }

  /**
   * {@code ROBERT EARL son of JOHN SMITH}: a child whose last word isn't the parents' surname, nor
   * a spelling of it. A daughter may be cut with her husband's, so hers must be a given name.
   */
  private boolean isOfAnotherFather(Bearer person) {
    Detail.Name n = person.name;
    boolean married =
        bonds.stream()
            .anyMatch(
                b ->
                    b.isMarriage()
                        && (b.about.contains(person.number) || b.meant.contains(person.number)));
    if (married || n.given().isEmpty() || n.surname().length() < 2) {
      return false;
    }
    boolean given = GivenNames.known().isKnown(NameForms.fold(n.surname()));
    return bonds.stream()
        .filter(b -> b.isChild() && !b.kin.isPlural() && b.about.contains(person.number))
        .filter(b -> given || b.kin.relation().equals("son"))
        .flatMap(b -> b.named.stream())
        .map(Detail.Name::surname)
        .filter(s -> s.length() > 2)
        .reduce((a, b) -> b)
        .filter(s -> s.charAt(0) != n.surname().charAt(0) && !s.matches(".*[?…].*"))
        .filter(
            s ->
                persons.stream()
                    .noneMatch(p -> p != person && alike(p.name.surname(), n.surname())))
        .isPresent();
  }

  /** Whether the last word of a name is half lost and must be a given name. */
  private boolean endsInGiven(Bearer person) {
    String last = NameForms.fold(person.name.surname());
    return words.subList(person.from, person.to).stream()
        .anyMatch(w -> w.given() && w.folded().equals(last));
  }

  /** Of given names in a row the last is the surname where nothing else lends one. */
  private void splitGiven(Bearer person, String before) {
    Detail.Name n = person.name;
    int space = n.given().lastIndexOf(' ');
    String last = n.given().substring(space + 1);
    boolean initials = n.given().matches("\\p{L}( \\p{L})+");
    if (!n.surname().isEmpty() || space < 0 || (last.length() < 2 && !initials)) {
      return;
    }
    boolean lends = !before.isEmpty() || surnameFromKin(person).isPresent() || laterSurname(person);
    if (!lends || initials) {
      person.name =
          new Detail.Name(
              n.given().substring(0, space), last, n.birthSurname(), n.titles(), n.suffixes());
    }
  }

  private boolean laterSurname(Bearer person) {
    return familyWords.isPresent() && persons.size() >= person.number && !familyName.isEmpty();
  }

  /** A daughter's name who is a wife: the one her parents bear, or her own beside her husband's. */
  private void maidenName(Bearer person) {
    Detail.Name n = person.name;
    if (!n.birthSurname().isEmpty()) {
      return;
    }
    Optional<String> husband = surnameOf(person, true);
    Optional<String> parents = surnameOf(person, false);
    if (person.sex.filter(s -> s == Sex.MAN).isPresent() || husband.isEmpty()) {
      return;
    }
    String atBirth =
        !n.surname().isEmpty() && !alike(n.surname(), husband.get())
            ? n.surname()
            : parents.filter(p -> !alike(p, husband.get())).orElse("");
    if (!atBirth.isEmpty() && !atBirth.matches("\\p{L}|.*[?…].*")) {
      person.name = new Detail.Name(n.given(), n.surname(), atBirth, n.titles(), n.suffixes());
    }
  }

  private boolean isWifeOrMother(Bearer person) {
    return bonds.stream()
        .anyMatch(
            b ->
                b.about.contains(person.number)
                    && (b.isMarriage() || b.kin.relation().equals("mother"))
                    && person.sex.filter(s -> s == Sex.WOMAN).isPresent());
  }

  /** What children named after a wife are called, who is cut with the name she was born with. */
  private Optional<String> husbandsName(Bearer person) {
    boolean wife = person.sex.filter(s -> s == Sex.WOMAN).isPresent();
    Optional<String> hers =
        bonds.stream()
            .filter(b -> b.kin.relation().equals("husband") && b.meant.contains(person.number))
            .flatMap(b -> b.about.stream())
            .map(p -> persons.get(p - 1).name.surname())
            .filter(s -> !s.isEmpty())
            .findFirst();
    return wife ? surnameOf(person, true).or(() -> hers) : Optional.empty();
  }

  private static boolean alike(String one, String other) {
    return NameForms.fold(one).equals(NameForms.fold(other));
  }

  private Optional<String> surnameFromKin(Bearer person) {
    Optional<String> marriage = surnameOf(person, true);
    return marriage.isPresent() ? marriage : surnameOf(person, false);
  }

  /** The surname of the husband or wife, or of the parents, the father's first. */
  private Optional<String> surnameOf(Bearer person, boolean marriage) {
    for (Bond bond : bonds) {
      boolean right =
          bond.about.contains(person.number) && (marriage ? bond.isMarriage() : bond.isChild());
      if (!right
          || (marriage && bond.kin.relation().matches("husband|widower") && !hasSurname(bond))) {
        continue;
      }
      List<Detail.Name> all = new ArrayList<>();
      for (int meant : bond.meant) {
        if (meant != person.number) {
          all.add(persons.get(meant - 1).name);
        }
      }
      all.addAll(bond.named);
      all.addAll(bond.others);
      Optional<String> father =
          all.stream()
              .filter(n -> sexOf(n).filter(s -> s == Sex.MAN).isPresent())
              .map(Detail.Name::surname)
              .filter(s -> s.length() > 1)
              .findFirst();
      Optional<String> any =
          all.stream().map(Detail.Name::surname).filter(s -> s.length() > 1).findFirst();
      if (father.isPresent() || any.isPresent()) {
        return father.isPresent() ? father : any;
      }
    }
    return Optional.empty();
  }

  private static boolean hasSurname(Bond bond) {
    return bond.named.stream().anyMatch(n -> !n.surname().isEmpty());
  }

  private void addName(Bearer person) {
    Detail.Name n = person.name;
    int to = person.to;
    int[] maiden = maidenWords.get(person.number);
    if (maiden != null && maiden[0] == to) {
      to = maiden[1];
    }
    add(
        Kind.NAME,
        List.of(person.number),
        person.from,
        to,
        n.isUnnamed() && n.surname().isEmpty() ? UNNAMED : n.given() + "|" + n.surname(),
        Optional.of(n),
        person.supplied,
        person.odds);
    rank(person);
  }

  /** A title that is a rank is service too; a captain with no unit may be a ship's master. */
  private void rank(Bearer person) {
    boolean told =
        found.stream()
            .anyMatch(
                s ->
                    s.kind() == Kind.SERVICE
                        && s.persons().contains(person.number)
                        && s.detail(Detail.Service.class)
                            .filter(d -> !d.rank().isEmpty())
                            .isPresent());
    int from = -1;
    int to = -1;
    for (int i = person.from; i < person.to; i++) {
      boolean rank =
          PersonWords.RANKS.contains(words.get(i).folded())
              || words.get(i).in(ServiceWords.BEFORE_RANK);
      boolean title = person.name.titles().contains(words.get(i).shown());
      if (rank && title) {
        from = from < 0 ? i : from;
        to = i + 1;
      }
    }
    boolean master =
        from >= 0
            && words.subList(from, to).stream()
                .allMatch(w -> w.is("capt", "captain", "captn", "capn"))
            && found.stream()
                .noneMatch(s -> s.kind() == Kind.SERVICE && s.persons().contains(person.number));
    if (from >= 0 && !told && !master) {
      add(
          Kind.SERVICE,
          List.of(person.number),
          from,
          to,
          words(from, to),
          Optional.of(new Detail.Service(words(from, to), "", "", "")),
          Optional.empty(),
          person.odds);
    }
  }

  private void addKin(Bond bond) {
    if (bond.about.isEmpty()) {
      return;
    }
    KinWords.Found k = bond.kin;
    List<String> names = new ArrayList<>();
    for (Detail.Name name : bond.named) {
      names.add(parted(name));
    }
    boolean pointed = names.isEmpty();
    for (int meant : bond.meant) {
      Detail.Name name = persons.get(meant - 1).name;
      String full = name.given() + "|" + name.surname();
      boolean told = names.stream().anyMatch(n -> alike(n.split("\\|", -1)[0], name.given()));
      if (pointed || !told) {
        names.add(full);
      }
    }
    for (Detail.Name other : bond.others) {
      String full = other.given() + "|" + other.surname();
      if (names.stream().noneMatch(full::equals)) {
        names.add(full);
      }
    }
    int end = k.names().isEmpty() ? k.wordsEnd() : k.end();
    String said = k.names().isEmpty() ? join(names) : plain(k.wordsEnd(), k.end());
    String value = k.relation() + (said.isEmpty() ? "" : " of " + said);
    boolean supplied = pointed && !names.isEmpty();
    String text = words(bond.from, end);
    add(
        Kind.KIN,
        bond.about.stream().sorted().toList(),
        bond.from,
        Math.max(end, bond.from + 1),
        value,
        Optional.of(new Detail.Kinship(k.relation(), names, bond.meant)),
        supplied ? Optional.of("“" + text + "”: those named before") : Optional.empty(),
        bond.odds);
  }

  /** A kinsman's name; a last word that is somebody's surname here is his. */
  private String parted(Detail.Name name) {
    int space = name.given().lastIndexOf(' ');
    String last = name.given().substring(space + 1);
    boolean surname =
        space > 0
            && name.surname().isEmpty()
            && persons.stream().anyMatch(p -> alike(p.name.surname(), last));
    return surname
        ? name.given().substring(0, space) + "|" + last
        : name.given() + "|" + name.surname();
  }

  private static String join(List<String> names) {
    return String.join(
        " & ",
        names.stream().map(n -> n.replace("|", " ").strip()).filter(n -> !n.isEmpty()).toList());
  }

  private void family() {
    for (MourningKin kin : mourningKin) {
      Detail.Name name = persons.get(kin.person() - 1).name;
      String full = name.given() + "|" + name.surname();
      add(
          Kind.KIN,
          List.of(),
          kin.from(),
          kin.to(),
          kin.relation() + " of " + full.replace('|', ' ').strip(),
          Optional.of(new Detail.Kinship(kin.relation(), List.of(full), List.of(kin.person()))),
          Optional.of("“" + words(kin.from(), kin.to()) + "”: those named before"),
          kin.odds());
    }
    if (familyWords.isPresent()) {
      int[] place = familyWords.get();
      List<Integer> about =
          persons.stream()
              .filter(p -> alike(p.name.surname(), familyName) && !familyName.isEmpty())
              .map(p -> p.number)
              .toList();
      add(
          Kind.FAMILY,
          about,
          place[0],
          place[1],
          familyName,
          Optional.empty(),
          Optional.empty(),
          familyOdds);
    }
  }

  /** Lines of verse on a face that names somebody, those that stand together in one. */
  private void verse() {
    int i = persons.isEmpty() ? row.size() : 0;
    while (i < row.size()) {
      Clause c = row.get(i).clause();
      if (!c.is(Type.VERSE, Type.SCRIPTURE)) {
        i++;
        continue;
      }
      int last = i;
      boolean scripture = c.type() == Type.SCRIPTURE;
      odds = row.get(i).odds();
      while (last + 1 < row.size()
          && row.get(last + 1).clause().is(Type.VERSE, Type.SCRIPTURE)
          && !(row.get(last).clause().type() == Type.SCRIPTURE
              && row.get(last + 1).clause().type() == Type.VERSE)) {
        last++;
        scripture |= row.get(last).clause().type() == Type.SCRIPTURE;
        odds = Math.max(odds, row.get(last).odds());
      }
      int to = row.get(last).clause().to();
      add(
          scripture ? Kind.SCRIPTURE : Kind.VERSE,
          List.of(),
          c.from(),
          to,
          words(c.from(), to),
          Optional.empty());
      i = last + 1;
    }
  }
}
