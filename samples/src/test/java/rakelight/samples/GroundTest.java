package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.Period;
import java.time.temporal.ChronoUnit;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class GroundTest {
  private static final SampleGround GROUND = Samples.ground();
  private static final Pattern NUMBER = Pattern.compile("\\d+");

  @Test
  void theGroundIsAsLargeAndAsMixedAsItsReadersNeed() {
    assertThat(GROUND.markers()).hasSizeGreaterThanOrEqualTo(40);
    assertThat(GROUND.persons()).hasSizeGreaterThanOrEqualTo(70);
    List<SampleFace> faces = GROUND.markers().stream().flatMap(m -> m.faces().stream()).toList();
    assertThat(faces.stream().map(f -> f.stone().material()).collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(Material.class));
    assertThat(faces.stream().map(f -> f.stone().weathering()).collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(Weathering.class));
    assertThat(faces.stream().map(f -> f.stone().cut()).collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(Cut.class));
    assertThat(GROUND.markers()).filteredOn(m -> m.lights() >= 4).hasSizeGreaterThanOrEqualTo(2);
  }

  @Test
  void everyIdIsUsedOnceAndEveryLinkLeadsSomewhere() {
    assertThat(GROUND.markers()).extracting(SampleMarker::id).doesNotHaveDuplicates();
    assertThat(GROUND.persons()).extracting(SamplePerson::id).doesNotHaveDuplicates();
    Set<String> ids = new HashSet<>();
    GROUND.markers().forEach(m -> ids.add(m.id()));
    GROUND.persons().forEach(p -> ids.add(p.id()));
    assertThat(GROUND.links()).allSatisfy(l -> assertThat(ids).contains(l.from(), l.to()));
    assertThat(
            GROUND.links().stream()
                .filter(l -> l.to().equals("M21"))
                .map(SampleLink::type)
                .toList())
        .hasSizeGreaterThan(3)
        .containsOnly("footstone of");
  }

  @Test
  void everybodyIsNamedOnAStoneOrSaidToBeNamedOnlyAsKin() {
    Set<String> named =
        GROUND.statements().stream().map(SampleStatement::person).collect(Collectors.toSet());
    for (SamplePerson p : GROUND.persons()) {
      assertThat(named.contains(p.id()) || p.note().contains("named on")).as(p.id()).isTrue();
    }
  }

  @Test
  void agesAndDatesAddUpExceptWhereAContradictionIsDeclared() {
    int checked = 0;
    int contradictions = 0;
    for (SamplePerson p : GROUND.persons()) {
      if (p.age().isEmpty() || p.birth().length() != 10 || p.death().length() != 10) {
        continue;
      }
      LocalDate birth = LocalDate.parse(p.birth());
      LocalDate death = LocalDate.parse(p.death());
      Period age = Period.parse(p.age());
      Period lived = Period.between(birth, death);
      boolean agree =
          switch (p.ageAs()) {
            case "years", "year-of" -> age.getYears() == lived.getYears();
            case "months" -> age.toTotalMonths() == lived.toTotalMonths();
            case "days" ->
                age.toTotalMonths() > 0
                    ? age.normalized().equals(lived)
                    : age.getDays() == ChronoUnit.DAYS.between(birth, death);
            default -> throw new IllegalStateException(p.id() + ": age as " + p.ageAs());
          };
      boolean declared = p.note().startsWith("contradiction");
      assertThat(agree)
          .as("%s: %s to %s is %s, carved %s", p.id(), birth, death, lived, age)
          .isEqualTo(!declared);
      contradictions += declared ? 1 : 0;
      checked++;
    }
    assertThat(checked).isGreaterThanOrEqualTo(8);
    assertThat(contradictions).isEqualTo(2);
  }

  @Test
  void theFiguresCutAreThoseOfTheTables() {
    for (SampleStatement s : GROUND.statements()) {
      SamplePerson p = GROUND.person(s.person());
      List<Integer> figures = figures(s.text());
      if (s.kind().equals("age") && !figures.isEmpty()) {
        Period age = Period.parse(p.age());
        int expected =
            p.ageAs().equals("year-of")
                ? age.getYears() + 1
                : p.id().equals("P24") ? 5 : age.getYears() > 0 ? age.getYears() : age.getDays();
        assertThat(figures).as("%s: %s", s.person(), s.text()).contains(expected);
      }
      if (s.kind().equals("death") || s.kind().equals("birth")) {
        String value = s.kind().equals("death") ? p.death() : p.birth();
        Stream<Integer> years = figures.stream().filter(n -> n > 1600);
        assertThat(value).as(s.text()).isNotEmpty();
        int year = Integer.parseInt(value.substring(0, 4));
        // A double year is carved with the old year first.
        assertThat(years.toList())
            .as("%s: %s", s.person(), s.text())
            .allSatisfy(
                n -> assertThat(n == year || (s.text().contains("/") && n == year - 1)).isTrue());
      }
    }
  }

  @Test
  void everybodyDiesAfterBeingBornAndNoStoneIsOlderThanItsEarliestLetters() {
    for (SamplePerson p : GROUND.persons()) {
      if (p.birth().length() >= 4 && p.death().length() >= 4) {
        assertThat(p.birth().substring(0, 4))
            .as(p.id())
            .isLessThanOrEqualTo(p.death().substring(0, 4));
      }
    }
    assertThat(GROUND.markers())
        .allSatisfy(
            m ->
                assertThat(m.faces().get(0).stone().made())
                    .isBetween(1690, m.note().contains("replacement") ? 1990 : 1945));
  }

  @Test
  void marksInALineAreNotLetters() {
    MarkedText t = MarkedText.parse("{n7:M^r^ [Wm.] ~~ WREN}");
    assertThat(t.asCut()).isEqualTo("Mr Wm.    WREN");
    assertThat(t.signs().get(1).superior()).isTrue();
    assertThat(t.signs().stream().filter(MarkedText.Sign::gone)).hasSize(3);
    assertThat(t.signs().stream().filter(MarkedText.Sign::blank)).hasSize(2);
    assertThat(t.spans()).containsExactly(new MarkedText.Span(MarkedText.Kind.NAME, "P7"));
  }

  private static List<Integer> figures(String text) {
    Matcher m = NUMBER.matcher(text);
    return m.results().map(r -> Integer.parseInt(r.group())).toList();
  }
}
