package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Proposals of who is one person, on the invented ground. */
class LinkageTest {
  /** A telephone among trees; common practice, no source. */
  private static final double ERROR_METRES = 3;

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
        people.proposals().stream()
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
    List<Linkage.Pair> pairs = SamplePeople.of(ERROR_METRES, 1).people().proposals();
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
    assertThat(people.proposals())
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
}
