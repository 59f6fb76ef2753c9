package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import rakelight.archive.Ground;

class RakingTest {
  private static final Ground GROUND = new Ground("Tarrow", 44, 8.5, ZoneId.of("Europe/Rome"));
  private static final LocalDate MIDSUMMER = LocalDate.of(2024, 6, 20);
  private static final LocalDate MIDWINTER = LocalDate.of(2024, 12, 21);

  /** A north face at 44 degrees has sun near midsummer alone, early and late. */
  @Test
  void aNorthFaceIsRakedEarlyAndLateAtMidsummerAndNeverAtMidwinter() {
    FaceBearing north = new FaceBearing(0, 0);
    List<SunDay.Raking> summer = SunDay.of(GROUND, MIDSUMMER).raking(north);
    assertThat(summer).hasSize(2);
    assertThat(summer.get(0).to()).isBefore(LocalTime.of(9, 30));
    assertThat(summer.get(1).from()).isAfter(LocalTime.of(17, 0));
    assertThat(SunDay.of(GROUND, MIDWINTER).raking(north)).isEmpty();
  }

  /** Most faces look east or west: the one has its light about noon as it goes, the other after. */
  @Test
  void anEastFaceIsRakedLateInTheMorningAndAWestFaceAfterNoon() {
    SunDay day = SunDay.of(GROUND, LocalDate.of(2024, 9, 22));
    SunDay.Raking east = day.raking(new FaceBearing(90, 0)).get(0);
    SunDay.Raking west = day.raking(new FaceBearing(270, 0)).get(0);
    assertThat(east.to()).isBefore(west.from());
    assertThat(east.strictly()).isTrue();
    assertThat(west.from()).isAfter(LocalTime.of(13, 0));
  }

  @Property(tries = 10)
  void everyRakedMinuteHasTheSunFiveToTwentyDegreesOverTheFace(
      @ForAll @IntRange(max = 359) int bearing, @ForAll @DoubleRange(max = 90) double lean) {
    FaceBearing face = new FaceBearing(bearing, lean);
    SunDay day = SunDay.of(GROUND, MIDWINTER);
    List<SunDay.Raking> raking = day.raking(face);
    for (SunDay.Minute minute : day.sun()) {
      double height = face.heightOf(minute.sun());
      LocalTime time = minute.time().toLocalTime();
      assertThat(
              raking.stream()
                  .anyMatch(one -> !time.isBefore(one.from()) && !time.isAfter(one.to())))
          .isEqualTo(height >= 5 && height <= 20 && minute.sun().altitudeDegrees() > 0);
    }
  }

  @Test
  void treesInTheEastTakeTheMorningFromAFaceToTheNorth() {
    Ground wooded = GROUND.withHorizon(Optional.of("39:0 40:40 100:40 101:0"));
    List<SunDay.Raking> free = SunDay.of(wooded, MIDSUMMER).raking(new FaceBearing(0, 0));
    assertThat(free).hasSize(1);
    assertThat(free.get(0).from()).isAfter(LocalTime.of(17, 0));
  }

  @Test
  void aHorizonRunsStraightFromPointToPointAroundTheCompass() {
    Horizon horizon = Horizon.parse("80:6 110:12, 350:0");
    assertThat(horizon.heightDegrees(95)).isCloseTo(9, within(1e-9));
    assertThat(horizon.heightDegrees(35)).isCloseTo(3, within(1e-9));
    assertThat(horizon.heightDegrees(230)).isCloseTo(6, within(1e-9));
    assertThat(horizon.heightDegrees(-10)).isCloseTo(0, within(1e-9));
    assertThatThrownBy(() -> Horizon.parse("370:2")).hasMessageContaining("370:2");
    assertThatThrownBy(() -> Horizon.parse("east:high")).hasMessageContaining("such as 80:6");
  }

  /** With one stretch of light each, no order serves more: beside every order of small rounds. */
  @Property(tries = 60)
  void theRoundServesAsManyFacesAsAnyOrderDoes(@ForAll long seed) {
    Random random = new Random(seed);
    List<RakingRound.Stop<Integer>> stops =
        random
            .ints(6, 0, 8)
            .mapToObj(
                start ->
                    new RakingRound.Stop<>(
                        start,
                        List.of(
                            new SunDay.Raking(
                                LocalTime.of(9, 0).plusMinutes(5L * start),
                                LocalTime.of(9, 0)
                                    .plusMinutes(5L * (start + 1 + random.nextInt(3)) - 1),
                                true,
                                90))))
            .toList();
    List<RakingRound.Visit<Integer>> visits =
        RakingRound.of(stops, LocalTime.of(9, 0), LocalTime.of(12, 0), 5);
    assertThat(visits).hasSize(most(stops, new boolean[stops.size()], LocalTime.of(9, 0)));
    LocalTime free = LocalTime.MIN;
    for (RakingRound.Visit<Integer> visit : visits) {
      assertThat(visit.at()).isAfterOrEqualTo(free);
      assertThat(visit.stop().raking().get(0).from()).isBeforeOrEqualTo(visit.at());
      assertThat(visit.stop().raking().get(0).to()).isAfterOrEqualTo(visit.at().plusMinutes(4));
      free = visit.at().plusMinutes(5);
    }
  }

  private static int most(List<RakingRound.Stop<Integer>> stops, boolean[] done, LocalTime free) {
    int best = 0;
    for (int i = 0; i < stops.size(); i++) {
      if (!done[i]) {
        SunDay.Raking light = stops.get(i).raking().get(0);
        LocalTime at = free.isAfter(light.from()) ? free : light.from();
        if (!light.to().isBefore(at.plusMinutes(4))) {
          done[i] = true;
          best = Math.max(best, 1 + most(stops, done, at.plusMinutes(5)));
          done[i] = false;
        }
      }
    }
    return best;
  }
}
