package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.archive.ArchiveException;
import rakelight.marker.Description;
import rakelight.marker.DescriptionWords;

class MakingTest {
  private static Making.Made made(
      List<String> regions, Map<String, String> is, List<String> emblems, Integer... deaths) {
    return new Making(DatingClue.of(regions), List.of())
        .of(
            new Making.Known(
                new DescriptionWords(is).over(Description.NONE),
                emblems,
                List.of(deaths),
                OptionalInt.of(1700)))
        .orElseThrow();
  }

  @Test
  void aStoneOfItsTimeIsDatedByTheDeathItBears() {
    Making.Made made = made(List.of("new-england"), Map.of("material", "slate"), List.of(), 1768);
    assertThat(made.from()).isBetween(1766, 1768);
    assertThat(made.to()).isBetween(1768, 1780);
    assertThat(made.ofItsTime().orElseThrow()).isGreaterThan(0.8);
    assertThat(made.conflict()).isEmpty();
  }

  /** Granite dated before the 1870s is likely a replacement: Ohio J. Sci., September 2002. */
  @Test
  void earlyGraniteIsLikelyAReplacementAndSaidToBeAConflict() {
    Making.Made made = made(List.of("ohio"), Map.of("material", "granite"), List.of(), 1826);
    assertThat(made.later().orElseThrow()).isGreaterThan(0.5);
    assertThat(made.conflict().orElseThrow()).contains("1826").contains("granite");
  }

  /** Act of 1906 and the shield first documented in 1896: a government stone dates the stone. */
  @Test
  void aRecessedShieldOverADeathOf1863WasMadeDecadesLater() {
    Making.Made made =
        made(
            List.of(),
            Map.of(
                "kind", "government-furnished headstone",
                "form", "recessed shield",
                "width", "30.5",
                "thickness", "10"),
            List.of(),
            1863);
    assertThat(made.from()).isGreaterThanOrEqualTo(1896);
    assertThat(made.ofItsTime().orElseThrow()).isLessThan(0.01);
    Making.Made confederate =
        made(
            List.of(),
            Map.of("kind", "government-furnished headstone", "form", "pointed top"),
            List.of(),
            1864);
    assertThat(confederate.from()).isGreaterThanOrEqualTo(1906);
  }

  /**
   * Sizes in inches: letter of the Secretary of War, 25 June 1873; change of 1903 (from memory, and
   * a newspaper of 1914); General type of 26 April 1922; flat stones of 1936 and 1940 (from
   * memory). None can be older, whatever death it bears.
   */
  @ParameterizedTest(name = "{0} x {1} in")
  @CsvSource({
    "10, 4, 1873",
    "6, 6, 1873",
    "12, 4, 1903",
    "13, 4, 1922",
    "24, 4, 1936",
    "24, 0.75, 1940"
  })
  void aGovernmentStoneIsNoOlderThanItsSize(double widthIn, double thicknessIn, int from) {
    Making.Made made =
        made(
            List.of(),
            Map.of(
                "kind", "government-furnished headstone",
                "width", String.valueOf(widthIn * 2.54),
                "thickness", String.valueOf(thicknessIn * 2.54)),
            List.of(),
            1863);
    assertThat(made.from()).isGreaterThanOrEqualTo(from);
    assertThat(made.evidence())
        .extracting(Making.Evidence::words)
        .anyMatch(w -> w.contains("not before " + from));
    assertThat(made.ofItsTime().orElseThrow()).isLessThan(0.05);
  }

  /** Deaths from 4 August 1914 count; the first design is told of in 1920: CHECKS.md, section 8. */
  @Test
  void aWarGraveIsNoOlderThanItsWarAndMayBeYearsYoungerThanTheDeath() {
    Making.Made made = made(List.of(), Map.of("kind", "war-grave headstone"), List.of(), 1916);
    assertThat(made.from()).isGreaterThanOrEqualTo(1916);
    assertThat(made.to()).isGreaterThan(1925);
    Making.Made older = made(List.of(), Map.of("kind", "war-grave headstone"), List.of(), 1902);
    assertThat(older.from()).isGreaterThanOrEqualTo(1914);
  }

  /** Zinc was cast from 1874 to 1914, whatever it says. */
  @Test
  void zincIsOf1874To1914() {
    Making.Made made = made(List.of(), Map.of("material", "zinc"), List.of());
    assertThat(made.from()).isBetween(1870, 1880);
    assertThat(made.to()).isBetween(1908, 1920);
    assertThat(made.ofItsTime()).isEmpty();
    assertThat(made.evidence().get(0).words()).contains("zinc: not before 1874 to about 1914");
  }

  @Test
  void aStoneOlderThanItsGroundIsNoContradictionButWasMoved() {
    Making.Made made = made(List.of("new-england"), Map.of("material", "slate"), List.of(), 1689);
    assertThat(made.olderThanGround().orElseThrow()).isGreaterThan(0.8);
    assertThat(made.conflict()).isEmpty();
  }

  @Test
  void whatTheGroundsOtherMarkersAreOfSpeaksToo() {
    List<Making.Dated> ground =
        new java.util.ArrayList<>(
            java.util.Collections.nCopies(20, new Making.Dated("schist", 1790)));
    ground.addAll(java.util.Collections.nCopies(40, new Making.Dated("marble", 1870)));
    Making.Made made =
        new Making(List.of(), ground)
            .of(
                new Making.Known(
                    new DescriptionWords(Map.of("material", "schist")).over(Description.NONE),
                    List.of(),
                    List.of(),
                    OptionalInt.empty()))
            .orElseThrow();
    assertThat(made.likeliest()).isBetween(1760, 1820);
  }

  @Test
  void nothingKnownGivesNoSpanAndAnUnknownRegionIsNamed() {
    assertThat(
            new Making(DatingClue.of(DatingClue.REGIONS), List.of())
                .of(
                    new Making.Known(
                        Description.NONE, List.of("lamb"), List.of(), OptionalInt.empty())))
        .isEmpty();
    assertThatThrownBy(() -> DatingClue.of(List.of("atlantis")))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("No region is called “atlantis”; there are alabama");
  }
}
