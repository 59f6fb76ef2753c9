package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.SourceId;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;

/** Proposals of who is one person, on the invented ground. */
class LinkageTest {
  /** A telephone among trees; common practice, no source. */
  private static final double ERROR_METRES = 3;

  private static final InventedFamilies HAMLET =
      InventedFamilies.of(InventedFamilies.Setting.HAMLET, 7);

  /** Pairs found, right among them, and true ones. */
  record Counted(int found, int right, int known, String differences) {
    double precision() {
      return right / (double) Math.max(1, found);
    }

    double recall() {
      return right / (double) known;
    }
  }

  static Counted count(SamplePeople sample) {
    People people = sample.people();
    List<Mention> mentions = people.mentions();
    List<String> truth = mentions.stream().map(SamplePeople::truth).toList();
    Set<Set<String>> known = new HashSet<>();
    for (int i = 0; i < mentions.size(); i++) {
      for (int j = i + 1; j < mentions.size(); j++) {
        Mention a = mentions.get(i);
        Mention b = mentions.get(j);
        boolean sameFace = a.id().face().equals(b.id().face());
        if (!sameFace && truth.get(i).equals(truth.get(j))) {
          known.add(Set.of(a.label(), b.label()));
        }
      }
    }
    Set<Set<String>> found =
        people.proposals(List.of()).stream()
            .map(pair -> Set.of(pair.one().label(), pair.other().label()))
            .collect(Collectors.toSet());
    Set<Set<String>> right = new HashSet<>(found);
    right.retainAll(known);
    List<String> differences = new ArrayList<>();
    known.stream().filter(p -> !found.contains(p)).forEach(p -> differences.add("missed " + p));
    found.stream().filter(p -> !known.contains(p)).forEach(p -> differences.add("wrong " + p));
    return new Counted(
        found.size(), right.size(), known.size(), String.join("\n", new TreeSet<>(differences)));
  }

  /**
   * Formula: I. P. Fellegi and A. B. Sunter, JASA 64, 1969, 1183-1210; the values by arithmetic.
   */
  @ParameterizedTest
  @CsvSource({
    ".9, .01, 6.4919, -3.3074",
    ".95, .01, 6.5699, -4.3074",
    ".9, .1, 3.1699, -3.1699",
    ".95, .5, .9260, -3.3219",
    ".9, .083333333, 3.4330, -3.1964",
    ".9, .001, 9.8138, -3.3205",
  })
  void weightsAreThoseOfFellegiAndSunter(double m, double u, double agree, double disagree) {
    assertThat(Linkage.weight(m, u)).isCloseTo(agree, within(5e-5));
    assertThat(Linkage.weight(1 - m, 1 - u)).isCloseTo(disagree, within(5e-5));
  }

  @Test
  void everyProposalSaysWhatSpeaksForAndAgainstIt() throws Exception {
    List<Linkage.Pair> pairs = SamplePeople.of(ERROR_METRES, 1).people().proposals(List.of());
    assertThat(pairs).isNotEmpty();
    for (Linkage.Pair pair : pairs) {
      assertThat(pair.reasons().stream().mapToDouble(Linkage.Reason::bits).sum())
          .isCloseTo(pair.bits(), within(1e-9));
      assertThat(pair.probability()).isBetween(Linkage.PROPOSED, 1.0);
    }
  }

  /** Common practice, no source: worn initials alone never confirm a footstone's person. */
  @Test
  void aFootstonesInitialsAreProposedAndNothingIsConfirmedByThem() throws Exception {
    People people = SamplePeople.of(ERROR_METRES, 4).people();
    assertThat(people.proposals(List.of()))
        .anyMatch(p -> p.one().label().equals("M15:E:1") && p.other().label().equals("M16:W:1"));
    assertThat(people.persons()).allMatch(person -> person.mentions().size() <= 1);
  }

  @Test
  void mostProposalsOnTheInventedGroundAreRightAndMostPairsAreProposed() throws Exception {
    int found = 0;
    int right = 0;
    int known = 0;
    StringBuilder differences = new StringBuilder();
    for (long seed = 1; seed <= 8; seed++) {
      Counted counted = count(SamplePeople.of(ERROR_METRES, seed));
      found += counted.found();
      right += counted.right();
      known += counted.known();
      differences.append(counted.differences()).append('\n');
    }
    assertThat(right / (double) found).as("precision; %s", differences).isGreaterThan(0.8);
    assertThat(right / (double) known).as("recall; %s", differences).isGreaterThan(0.8);
  }

  /** A ground of families with these stones added, all of them in one corner of it. */
  private static People with(List<Opinion> opinions, FaceStatements... added) {
    List<FaceStatements> faces = new ArrayList<>(HAMLET.faces());
    faces.addAll(List.of(added));
    return People.of(faces, opinions, HAMLET.places());
  }

  private static FaceStatements face(String marker, String leiden) throws LeidenException {
    return face(new Marker(MarkerId.next(), marker, List.of()), "E", leiden);
  }

  private static FaceStatements face(Marker marker, String face, String leiden)
      throws LeidenException {
    Inscription inscription = Leiden.parse(leiden);
    return new FaceStatements(
        marker,
        new Face(FaceId.next(), marker.id(), face, Optional.empty()),
        Optional.empty(),
        Optional.empty(),
        () -> inscription,
        Statements.of(inscription, CalendarChange.BRITISH));
  }

  private static Optional<Linkage.Pair> pair(People people, String one, String other) {
    return pair(people.proposals(List.of()), one, other);
  }

  private static Optional<Linkage.Pair> pair(List<Linkage.Pair> pairs, String one, String other) {
    return pairs.stream()
        .filter(p -> Set.of(p.one().label(), p.other().label()).equals(Set.of(one, other)))
        .findFirst();
  }

  private static Mention mention(People people, String label) {
    return people.mentions().stream()
        .filter(m -> m.label().equals(label))
        .findFirst()
        .orElseThrow();
  }

  private static Opinion opinion(Opinion.Kind kind, Mention one, Mention other) {
    return new Opinion(
        kind,
        Optional.of(one.id()),
        Optional.of(other.id()),
        Optional.empty(),
        "",
        "R. Lane",
        Instant.EPOCH,
        DecisionId.next());
  }

  @Test
  void aRareNameInFullSaysMoreThanItsInitials() throws Exception {
    FaceStatements head = face("H", "ELEAZER WREXLEY\ndied 3 May 1851\naged 60");
    double full =
        pair(with(List.of(), head, face("F", "ELEAZER WREXLEY\n1851")), "H:E:1", "F:E:1")
            .orElseThrow()
            .bits();
    double initials =
        pair(with(List.of(), head, face("F", "E. W.\n1851")), "H:E:1", "F:E:1")
            .map(Linkage.Pair::bits)
            .orElse(0.0);
    assertThat(full).isGreaterThan(initials + 3);
  }

  @Test
  void aManAndAWomanOfOneSurnameAreTwoHoweverAlikeTheirDates() throws Exception {
    People people =
        with(
            List.of(),
            face("A", "THOMAS WREXLEY\ndied 3 May 1851\naged 60"),
            face("B", "MARY WREXLEY\ndied 3 May 1851\naged 60"),
            face("C", "GEORGE WREXLEY\ndied 3 May 1851\naged 60"));
    assertThat(people.proposals(List.of()).stream().map(p -> p.one().label() + p.other().label()))
        .noneMatch(both -> both.matches("[ABC]:E:1[ABC]:E:1"));
  }

  @Test
  void oneDayWeighsMuchMoreThanOneYear() throws Exception {
    FaceStatements one = face("A", "ANN WREXLEY\ndied 3 May 1851");
    double day = bits(with(List.of(), one, face("B", "ANN WREXLEY\ndied 3 May 1851")));
    double year = bits(with(List.of(), one, face("B", "ANN WREXLEY\ndied 1851")));
    double wide = bits(with(List.of(), one, face("B", "ANN WREXLEY\ndied 18[.]1")));
    assertThat(day).isGreaterThan(year + 1.5);
    assertThat(year).isGreaterThan(wide + 1);
  }

  /** What the deaths of A and B add. */
  private static double bits(People people) {
    return pair(people, "A:E:1", "B:E:1").orElseThrow().reasons().stream()
        .filter(r -> r.words().startsWith("death"))
        .mapToDouble(Linkage.Reason::bits)
        .sum();
  }

  @Test
  void aNameHalfLostWeighsByHowManyNamesItsLettersAllow() throws Exception {
    FaceStatements one = face("A", "KEZIAH WREXLEY\ndied 3 May 1851");
    double much =
        pair(
                with(List.of(), one, face("B", "KEZ[..]H WREX[...]\ndied 3 May 1851")),
                "A:E:1",
                "B:E:1")
            .orElseThrow()
            .bits();
    double little =
        pair(
                with(List.of(), one, face("B", "[- - -]H W[- - -]\ndied 3 May 1851")),
                "A:E:1",
                "B:E:1")
            .map(Linkage.Pair::bits)
            .orElse(0.0);
    assertThat(much).isGreaterThan(little + 3);
    double against =
        pair(
                with(List.of(), one, face("B", "KEZ[..]H BRAD[...]\ndied 3 May 1851")),
                "A:E:1",
                "B:E:1")
            .map(Linkage.Pair::bits)
            .orElse(0.0);
    assertThat(against).isLessThan(much - 5);
  }

  @Test
  void aFatherAndHisSonOfOneNameAreTwo() throws Exception {
    People people =
        with(
            List.of(),
            face("A", "JOHN WREXLEY\ndied 3 May 1851\naged 60"),
            face("B", "JOHN WREXLEY\nson of JOHN and ANN WREXLEY\ndied 9 June 1872\naged 49"),
            face("C", "ANN WREXLEY\nrelict of JOHN WREXLEY\ndied 1 May 1860 aged 66"));
    assertThat(pair(people, "A:E:1", "B:E:1")).isEmpty();
    assertThat(pair(people, "A:E:1", "B:E:1a")).isPresent();
    assertThat(pair(people, "B:E:1", "C:E:1a")).isEmpty();
  }

  @Test
  void aFootstoneThatPeopleConfirmedIsOfSomebodyOnItsHeadstone() throws Exception {
    FaceStatements right = face("A", "EDWARD WREXLEY\ndied 3 May 1851");
    FaceStatements wrong = face("B", "ELLEN WEXFORD\ndied 3 May 1843");
    FaceStatements foot = face("F", "E. W.");
    People people = with(List.of(), right, wrong, foot);
    List<Belonging> belongings =
        List.of(
            new Belonging(foot.marker().id(), Optional.of(right.marker().id()), Optional.empty()));
    double before = probability(people.proposals(List.of()), "A:E:1", "F:E:1");
    double after = probability(people.proposals(belongings), "A:E:1", "F:E:1");
    assertThat(after).isGreaterThan(0.8).isGreaterThan(before);
    assertThat(probability(people.proposals(belongings), "B:E:1", "F:E:1")).isLessThan(0.3);
    List<Belonging> buried =
        List.of(
            new Belonging(
                foot.marker().id(), Optional.empty(), Optional.of(mention(people, "A:E:1").id())));
    assertThat(probability(people.proposals(buried), "A:E:1", "F:E:1")).isGreaterThan(0.8);
  }

  private static double probability(List<Linkage.Pair> pairs, String one, String other) {
    return pair(pairs, one, other).map(Linkage.Pair::probability).orElse(0.0);
  }

  @Test
  void whatPeopleSaidOfOneMentionHoldsForThoseTheySaidAreTheSame() throws Exception {
    FaceStatements[] stones = {
      face("A", "KEZIAH WREXLEY\ndied 3 May 1851\naged 60"),
      face("B", "KEZIAH WREXLEY\ndied 3 May 1851"),
      face("C", "KEZIAH WREXLEY\ndied 1851\naged 60")
    };
    People open = with(List.of(), stones);
    Mention a = mention(open, "A:E:1");
    Mention b = mention(open, "B:E:1");
    Mention c = mention(open, "C:E:1");
    assertThat(pair(open, "A:E:1", "C:E:1")).isPresent();
    assertThat(pair(open, "B:E:1", "C:E:1")).isPresent();
    People same = with(List.of(opinion(Opinion.Kind.SAME, a, b)), stones);
    assertThat(pair(same, "A:E:1", "C:E:1")).isPresent();
    assertThat(pair(same, "B:E:1", "C:E:1")).as("once for both").isEmpty();
    People refused =
        with(
            List.of(opinion(Opinion.Kind.SAME, a, b), opinion(Opinion.Kind.DIFFERENT, b, c)),
            stones);
    assertThat(pair(refused, "A:E:1", "C:E:1")).isEmpty();
    assertThat(pair(refused, "B:E:1", "C:E:1")).isEmpty();
  }

  @Test
  void aPersonSoughtIsOfferedAStoneWithHisNameHalfLost() throws Exception {
    People people =
        with(
            List.of(),
            face("A", "KEZ[..]H WRE[...]Y\ndied 3 May 1851\naged 60"),
            face("B", "HENRY WREXLEY\ndied 9 May 1851"));
    Sought sought =
        new Sought(
            SourceId.next(),
            1,
            new Sought.Row(
                1,
                "Keziah",
                "Wrexley",
                Optional.empty(),
                Optional.of("1851-05-03"),
                Optional.empty(),
                Optional.of("P60Y"),
                "",
                "",
                "",
                ""));
    assertThat(Linkage.match(List.of(sought), people.persons()))
        .extracting(match -> match.mention().label())
        .containsExactly("A:E:1");
  }

  /** The odds were fitted on other seeds of the first setting; the second is another ground. */
  @Test
  void proposalsOnGroundsThatNobodyTunedToAreMostlyRightAndTheirOddsMeanWhatTheySay() {
    int grounds = Integer.getInteger("rakelight.linkage.grounds", 2);
    for (InventedFamilies.Setting setting :
        List.of(InventedFamilies.Setting.VILLAGE, InventedFamilies.Setting.TOWN)) {
      LinkageFigures figures = LinkageFigures.of(setting, 101, 100 + grounds);
      System.out.println(figures.words());
      assertThat(figures.precision()).as(figures.words()).isGreaterThan(0.75);
      assertThat(figures.recall()).as(figures.words()).isGreaterThan(0.85);
      assertThat(figures.calibrationError()).as(figures.words()).isLessThan(0.06);
    }
  }
}
