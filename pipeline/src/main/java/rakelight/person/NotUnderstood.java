package rakelight.person;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.names.GivenNames;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.edtf.Edtf;

/**
 * What of a face isn't understood and may tell of somebody living: words from which nothing is
 * stated and which are no common words of inscriptions, as verse and mourners' names are; and
 * statements in free words that hold a given name.
 *
 * <p>It is asked of faces that name somebody who may be living, and of those that may be of the
 * last {@value LivingRule#LONGEST_LIFE_YEARS} years: no date is understood, one isn't older, or a
 * number not understood may be such a year.
 */
public final class NotUnderstood {
  /**
   * Common words of inscriptions that are nobody's name. From practice, no source; left out are
   * those that are names too, such as May, Grace, Hope, Will, Rose and Dear's kin by name.
   */
  private static final Set<String> COMMON =
      Set.copyOf(
          Arrays.asList(
              ("a aged ae aet aetat age ago also an and anno are as at ave away be been before beloved"
                      + " beneath blessed body born both buried but by called children churchyard day"
                      + " daughter daughters dad daddy de dead dear dearest dearly deceased departed"
                      + " depd died dyed ever everlasting erected eternal face family father fell"
                      + " fond for forever from god gods gone grandad grandfather grandma"
                      + " grandmother grandpa granddaughter grandson gran grave great"
                      + " he heart hearts heaven her here hic him his home husband i ihs in infant"
                      + " interred is it jacet jesu jesus known late laid lie lies lieth life lived"
                      + " lo lord loved loving lyes lyeth marriage married me memories memory missed"
                      + " month months mother much mum mummy my nan nana near never night not now ob"
                      + " obiit obt of on once one only our parents passed peace peacefully perfect"
                      + " place precious remains remembered remembrance requiescat rest resteth resting"
                      + " rests rip sacred sadly sd sister sisters brother brothers sleep sleeping"
                      + " son sons sorrowing stone suddenly tender that the thee their them they this"
                      + " thoughts thy thou till to together treasured two until up us vault was way we"
                      + " were when where who whom whose wife with ye year years yrs you your")
                  .split(" ")));

  private static final Set<Statement.Kind> FREE =
      Set.of(
          Statement.Kind.ORIGIN,
          Statement.Kind.OCCUPATION,
          Statement.Kind.CAUSE,
          Statement.Kind.SERVICE,
          Statement.Kind.REMOVAL,
          Statement.Kind.MAKER);

  /** Without one of these "of" may go before a name as well as before a place. */
  private static final Pattern PLACE =
      Pattern.compile("(?i)\\b(native|late of|born|parish|county|co|town|city)\\b");

  private static final Pattern COLUMNS_LEFT_OPEN =
      Pattern.compile("[0-9?]{2}.* [0-9?]{4} ?[-–—][ …]*$");

  private static final Pattern YEAR = Pattern.compile("[0-9?…]{2,4}");

  private NotUnderstood() {}

  /**
   * The signs of whole words.
   *
   * @param namesLiving whether somebody is named on it who may be living on the day
   */
  public static Set<SignId> on(FaceStatements face, LocalDate day, boolean namesLiving) {
    Set<SignId> understood = new HashSet<>();
    List<CarvedWord> words = CarvedWord.of(face.inscription());
    for (Statement statement : face.statements()) {
      boolean told =
          statement.kind() == Statement.Kind.MAKER
              || (!statement.persons().isEmpty()
                  && (statement.isFact() || statement.kind() == Statement.Kind.FAMILY));
      boolean holdsName =
          FREE.contains(statement.kind()) || statement.kind() == Statement.Kind.FAMILY
              ? holdsName(statement, words)
              : namesBySurname(statement);
      if (told && !holdsName) {
        understood.addAll(statement.signs());
      }
    }
    Set<SignId> unclear = new HashSet<>(aboveColumnsLeftOpen(words));
    for (Statement statement : face.statements()) {
      if (statement.isDate() && mayBeAnothers(face, statement, open(words, understood))) {
        unclear.addAll(statement.signs());
      }
    }
    understood.removeAll(unclear);
    List<CarvedWord> open = open(words, understood);
    Set<SignId> signs = new HashSet<>();
    if (namesLiving || mayBeOfToday(face, open, day)) {
      open.forEach(word -> signs.addAll(word.signs()));
    }
    return signs;
  }

  /**
   * The words above dates in columns of which the last is left open, as in {@code 1901-1971 1942-}:
   * what looks like one name there may be two, and one of them of somebody living.
   */
  private static Set<SignId> aboveColumnsLeftOpen(List<CarvedWord> words) {
    Map<Integer, List<CarvedWord>> lines =
        words.stream().collect(Collectors.groupingBy(CarvedWord::line));
    Set<SignId> signs = new HashSet<>();
    lines.forEach(
        (line, dates) -> {
          String shown = dates.stream().map(CarvedWord::shown).collect(Collectors.joining(" "));
          if (COLUMNS_LEFT_OPEN.matcher(shown).find()) {
            lines.getOrDefault(line - 1, List.of()).forEach(name -> signs.addAll(name.signs()));
          }
        });
    return signs;
  }

  /** Whether words that aren't understood stand between a statement and a name further down. */
  static boolean isBetween(FaceStatements face, Statement first, List<SignId> name) {
    Set<SignId> understood = new HashSet<>();
    face.statements().forEach(statement -> understood.addAll(statement.signs()));
    List<SignId> order = face.inscription().signs().stream().map(Sign::id).toList();
    int from = first.signs().stream().mapToInt(order::indexOf).max().orElseThrow();
    int to = name.stream().mapToInt(order::indexOf).min().orElse(-1);
    return open(CarvedWord.of(face.inscription()), understood).stream()
        .flatMap(word -> word.signs().stream())
        .mapToInt(order::indexOf)
        .anyMatch(sign -> sign > from && sign < to);
  }

  private static List<CarvedWord> open(List<CarvedWord> words, Set<SignId> understood) {
    return words.stream()
        .filter(word -> !understood.containsAll(word.signs()))
        .filter(word -> word.shown().codePoints().anyMatch(Character::isLetterOrDigit))
        .filter(word -> !COMMON.contains(word.folded()))
        .toList();
  }

  /**
   * Whether a date may belong to somebody who isn't understood: a dash leaves it open; or it is a
   * birth, a marriage, or without a word for dying, and words that aren't understood stand between
   * it and the name, or no name before it at all.
   */
  private static boolean mayBeAnothers(FaceStatements face, Statement date, List<CarvedWord> open) {
    if (BareDate.isLeftOpen(face.inscription(), date)) {
      return true;
    }
    boolean death = date.kind() == Statement.Kind.DEATH || date.kind() == Statement.Kind.BURIAL;
    if (death && !BareDate.isBare(date)) {
      return false;
    }
    List<SignId> order = face.inscription().signs().stream().map(Sign::id).toList();
    int at = order.indexOf(date.signs().get(0));
    int name =
        face.statements().stream()
            .filter(s -> s.kind() == Statement.Kind.NAME)
            .filter(s -> s.persons().stream().anyMatch(date.persons()::contains))
            .flatMap(s -> s.signs().stream())
            .mapToInt(order::indexOf)
            .filter(sign -> sign < at)
            .max()
            .orElse(-1);
    return name < 0
        || open.stream()
            .flatMap(word -> word.signs().stream())
            .mapToInt(order::indexOf)
            .anyMatch(sign -> sign > name && sign < at);
  }

  /**
   * Whether it names somebody, kin too, without a given name: what is taken for no name may be one.
   */
  private static boolean namesBySurname(Statement statement) {
    return statement.detail(Detail.Name.class).filter(Detail.Name::isUnnamed).isPresent()
        || statement.detail(Detail.Kinship.class).stream()
            .flatMap(kin -> kin.names().stream())
            .anyMatch(name -> name.startsWith("|") && name.length() > 1);
  }

  private static boolean holdsName(Statement statement, List<CarvedWord> words) {
    if (statement.kind() == Statement.Kind.ORIGIN && !PLACE.matcher(statement.text()).find()) {
      return true;
    }
    Set<SignId> signs = Set.copyOf(statement.signs());
    List<String> own =
        words.stream()
            .filter(word -> word.signs().stream().anyMatch(signs::contains))
            .map(CarvedWord::folded)
            .toList();
    // What only ends like a trade may be a name that nobody here knows: "Ravinder".
    boolean guessed =
        statement.kind() == Statement.Kind.OCCUPATION
            && own.stream().noneMatch(PersonWords.OCCUPATIONS::contains);
    return guessed || own.stream().anyMatch(GivenNames.known()::isKnown);
  }

  private static boolean mayBeOfToday(FaceStatements face, List<CarvedWord> open, LocalDate day) {
    int first = day.getYear() - LivingRule.LONGEST_LIFE_YEARS;
    List<Optional<Integer>> dated =
        face.statements().stream()
            .filter(statement -> statement.isDate() && !statement.value().isEmpty())
            .map(s -> Edtf.parse(s.value()).latest().map(last -> (int) last.year()))
            .toList();
    return dated.isEmpty()
        || dated.stream().anyMatch(year -> year.orElse(first) >= first)
        || open.stream().anyMatch(word -> mayBeYear(word.folded(), first, day.getYear()));
  }

  /** Whether figures, some of them lost or the first two left out, may be a year of these. */
  private static boolean mayBeYear(String word, int first, int last) {
    String figures = word.replaceAll("[^0-9?…]", "");
    if (!YEAR.matcher(figures).matches() || figures.chars().noneMatch(c -> c >= '0' && c <= '9')) {
      return false;
    }
    Pattern year = Pattern.compile(figures.replace("?", ".").replace("…", ".*"));
    return IntStream.rangeClosed(first, last)
        .mapToObj(Integer::toString)
        .anyMatch(one -> figures.length() == 4 && year.matcher(one).matches());
  }
}
