package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Face;

class LivingRuleTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

  @Test
  void aBlankLeftForASpouseMayBeSomebodyLiving() throws Exception {
    String stone = "GARSIDE\nROBERT\n1949 – 2011\nALICE HIS WIFE\n1953 – (vac.)";
    assertThat(living(stone)).containsExactly("Alice Garside");
  }

  @Test
  void whoWasBornLongAgoIsNotWithheld() throws Exception {
    assertThat(living("ROBERT GARSIDE\nborn 3 May 1900")).isEmpty();
    assertThat(living("ROBERT GARSIDE\nborn 3 May 1920")).containsExactly("Robert Garside");
  }

  @Test
  void theBirthOfSomebodyWhoseNameIsGoneIsWithheldToo() throws Exception {
    assertThat(living("ABEL WREN\ndied 1990\n[- - -] his son\nborn 3 May 1953")).hasSize(1);
    assertThat(living("ABEL WREN\ndied 1890\n[- - -] his son\nborn 3 May 1853")).isEmpty();
  }

  @Test
  void theRuleAsksForTheDayOfPublication() throws Exception {
    List<Person> persons = persons("ROBERT GARSIDE\nborn 3 May 1920");
    assertThat(LivingRule.mayBeLiving(persons.get(0), LocalDate.of(2030, 5, 2))).isTrue();
    assertThat(LivingRule.mayBeLiving(persons.get(0), LocalDate.of(2031, 1, 1))).isFalse();
  }

  @Test
  void aNameWithNoDateIsWithheldUnlessTheStoneSaysHeIsDead() throws Exception {
    assertThat(living("AMOS LIDGATE\nCO. B")).containsExactly("Amos Lidgate");
    assertThat(living("In memory of\nAMOS LIDGATE")).isEmpty();
    assertThat(living("AMOS LIDGATE\nlost at sea")).isEmpty();
    assertThat(living("AMOS LIDGATE\naged 3 days")).isEmpty();
  }

  @Test
  void parentsOfSomebodyLongDeadAreLongDeadToo() throws Exception {
    assertThat(living("MARY\ndaughter of Abel & Ruth Wren\ndied 1840")).isEmpty();
    assertThat(living("MARY\ndaughter of Abel & Ruth Wren\ndied 1990"))
        .containsExactly("Abel Wren", "Ruth Wren");
  }

  @Test
  void aHusbandWhoWasOutlivedIsDead() throws Exception {
    assertThat(living("JANE SALLOW\nrelict of Abel Sallow\ndied 1990")).isEmpty();
    assertThat(living("JANE SALLOW\nwife of Abel Sallow\ndied 1990"))
        .containsExactly("Abel Sallow");
  }

  @Test
  void evidenceOfDeathThatAPersonRecordedEndsTheWithholding() throws Exception {
    List<FaceStatements> faces = faces("AMOS LIDGATE\nCO. B");
    Mention amos = Mentions.of(faces).get(0);
    Opinion died =
        new Opinion(
            Opinion.Kind.DIED,
            Optional.of(amos.id()),
            Optional.empty(),
            Optional.empty(),
            "muster roll",
            "Ada Penrose",
            Instant.EPOCH,
            DecisionId.next());
    List<Person> persons = People.of(faces, List.of(died), Map.of()).persons();
    assertThat(persons).noneMatch(person -> LivingRule.mayBeLiving(person, TODAY));
  }

  private static List<String> living(String leiden) throws LeidenException {
    return persons(leiden).stream()
        .filter(person -> LivingRule.mayBeLiving(person, TODAY))
        .map(Person::called)
        .toList();
  }

  private static List<Person> persons(String leiden) throws LeidenException {
    return People.of(faces(leiden), List.of(), Map.of()).persons();
  }

  private static List<FaceStatements> faces(String leiden) throws LeidenException {
    Marker marker = new Marker(MarkerId.next(), "1", List.of());
    Inscription inscription = Leiden.parse(leiden);
    return List.of(
        new FaceStatements(
            marker,
            new Face(FaceId.next(), marker.id(), "front", Optional.empty()),
            Optional.empty(),
            Optional.empty(),
            () -> inscription,
            Statements.of(inscription, CalendarChange.BRITISH)));
  }
}
