package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;
import rakelight.marker.Condition;
import rakelight.marker.ConditionNote;
import rakelight.marker.Description;
import rakelight.marker.DescriptionWords;
import rakelight.marker.Marker;

class FirstToRecordTest {
  private static FirstToRecord.Known marker(
      String number, String material, String parts, double unread, Condition... seen) {
    Description description =
        new DescriptionWords(Map.of("material", material, "parts", parts)).over(Description.NONE);
    List<ConditionNote> notes = new ArrayList<>();
    if (seen.length > 0) {
      notes.add(note(2026, seen));
    }
    return new FirstToRecord.Known(
        named(number), Optional.of(description), notes, 1, unread, List.of());
  }

  private static Marker named(String number) {
    return new Marker(MarkerId.next(), number, List.of());
  }

  private static ConditionNote note(int year, Condition... seen) {
    return note(year, Arrays.asList(seen), ConditionNote.Where.WHOLE);
  }

  private static ConditionNote note(int year, List<ConditionNote.Area> sugaring) {
    return note(
        year,
        List.of(Condition.SUGARING),
        new ConditionNote.Where(List.of(), sugaring, Optional.empty()));
  }

  private static ConditionNote note(int year, List<Condition> seen, ConditionNote.Where where) {
    return new ConditionNote(
        MarkerId.next(),
        LocalDate.of(year, 5, 1),
        seen,
        where,
        "",
        "Ada",
        Instant.EPOCH,
        DecisionId.of(new UUID(0, 1).toString()));
  }

  private static List<String> order(FirstToRecord.Known... markers) {
    return FirstToRecord.ranked(List.of(markers)).stream()
        .map(one -> one.marker().number())
        .toList();
  }

  /**
   * Sudden loss before steady wear, that before hard and sound stone, granite last: order after A.
   * Geikie, 1881, pp. 675 and 681, and T. Meierding, 1993.
   */
  @Test
  void suddenLossComesBeforeSteadyWearAndGraniteLast() {
    assertThat(
            order(
                marker("granite", "granite", "", 1),
                marker("sound slate", "slate", "", 1),
                marker("clean marble", "marble", "", 1),
                marker("splitting slate", "slate", "", 1, Condition.DELAMINATING),
                marker("worn marble", "marble", "", 1, Condition.SUGARING)))
        .containsExactly(
            "splitting slate", "worn marble", "clean marble", "sound slate", "granite");
  }

  /** A black-crusted legible marble is urgent: Geikie 1881, p. 675. */
  @Test
  void marbleUnderACrustIsUrgentThoughItCanBeRead() {
    assertThat(
            order(
                marker("clean", "marble", "", 1),
                marker("crusted", "marble", "", 0.5, Condition.CRUST),
                marker("crusted granite", "granite", "", 0.5, Condition.CRUST)))
        .containsExactly("crusted", "clean", "crusted granite");
  }

  /** Common practice, no source; more wear on flat stones: GSA abstract 393237, 2023. */
  @Test
  void ofTwoMarblesTheOneLyingFaceUpIsFirst() {
    assertThat(
            order(
                marker("1", "marble", "tablet: standing", 1),
                marker("2", "marble", "tablet: lying face up", 1)))
        .containsExactly("2", "1");
  }

  @Test
  void whatIsReadWaitsAndWhatGetsWorseDoesNot() {
    FirstToRecord.Known read = marker("read", "marble", "", 0, Condition.SUGARING);
    FirstToRecord.Known unread = marker("unread", "marble", "", 1, Condition.SUGARING);
    FirstToRecord.Known worse =
        new FirstToRecord.Known(
            named("worse"),
            unread.description(),
            List.of(note(2026, Condition.SUGARING), note(2020, Condition.SOUND)),
            1,
            1,
            List.of());
    assertThat(order(read, unread, worse)).containsExactly("worse", "unread", "read");
    assertThat(FirstToRecord.ranked(List.of(worse)).get(0).reasons())
        .contains("new since the note before: sugaring", "nothing of it is read");
  }

  @Test
  void everyMarkerOfTheListHasAReason() {
    FirstToRecord.Known read =
        new FirstToRecord.Known(named("7"), Optional.empty(), List.of(), 1, 0, List.of());
    assertThat(FirstToRecord.ranked(List.of(read)).get(0).reasons())
        .containsExactly("all of it is read; a reading may be wrong");
  }

  @Test
  void lossThatTwoSeasonsShowedComesFirstAndIsToldInWords() {
    FirstToRecord.Known still = marker("still", "marble", "", 1);
    FirstToRecord.Known going =
        new FirstToRecord.Known(
            named("going"),
            still.description(),
            List.of(),
            1,
            1,
            List.of(
                new FirstToRecord.Seasons(2016, 2026, 3, 7),
                new FirstToRecord.Seasons(2016, 2026, 0, 4)));
    assertThat(order(still, going)).containsExactly("going", "still");
    assertThat(FirstToRecord.ranked(List.of(going)).get(0).reasons())
        .contains("3 of 7 lines stand out less on photographs of 2026 than of 2016")
        .noneMatch(reason -> reason.startsWith("0 of"));
  }

  @Test
  void damageThatReachesFurtherComesFirstAndIsTold() {
    FirstToRecord.Known still = marker("still", "marble", "", 1, Condition.SUGARING);
    List<ConditionNote> notes =
        List.of(
            note(2026, List.of(ConditionNote.Area.TOP, ConditionNote.Area.MIDDLE)),
            note(2020, List.of(ConditionNote.Area.TOP)));
    FirstToRecord.Known growing =
        new FirstToRecord.Known(named("growing"), still.description(), notes, 1, 1, List.of());
    assertThat(order(still, growing)).containsExactly("growing", "still");
    assertThat(FirstToRecord.ranked(List.of(growing)).get(0).reasons())
        .contains("damage reaches further than in the note before: middle");
  }

  @Test
  void aMarkerOfWhichNothingIsKnownIsNotForgotten() {
    FirstToRecord.Known blank =
        new FirstToRecord.Known(named("9"), Optional.empty(), List.of(), 0, 1, List.of());
    FirstToRecord.Urgency urgency = FirstToRecord.ranked(List.of(blank)).get(0);
    assertThat(urgency.expectedLoss()).isPositive();
    assertThat(urgency.reasons()).containsExactly("no photograph of it", "nothing of it is read");
  }
}
