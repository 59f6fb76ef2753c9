package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Years as CHECKS.md, section 8, and CHECKS-guide.md, parts C and D, have them; each row of the
 * tables names its own source.
 */
class DatingClueTest {
  @ParameterizedTest(name = "{0}: {2} {3} to {4}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      value = {
        "anywhere|material|zinc|1874|1914|true",
        "anywhere|lettering|sandblast|1870|2030|true",
        "anywhere|kind|tree-stump stone|1880|1905|false",
        "anywhere|kind|flush marker|1917|2030|false",
        "anywhere|material|artificial stone|1769|1900|false",
        "anywhere|emblem|gates ajar|1868|1930|false",
        "anywhere|emblem|three links|1819|2030|false",
        "anywhere|form|recessed shield|1896|2030|true",
        "anywhere|form|pointed top|1906|2030|true",
        "anywhere|size|25.4 x 10.2|1873|1903|true",
        "anywhere|size|15.2 x 15.2|1873|1903|true",
        "anywhere|size|30.5 x 10.2|1903|1936|true",
        "anywhere|size|33 x 10.2|1922|2030|true",
        "anywhere|size|61 x 10.2|1936|2030|true",
        "anywhere|size|61 x 1.9|1940|2030|true",
        "anywhere|kind|war-grave headstone|1914|2030|true",
        "new-england|emblem|winged death's head|1670|1790|false",
        "new-england|emblem|winged face|1760|1810|false",
        "new-england|emblem|willow|1770|1850|false",
        "new-england|emblem|urn|1770|1850|false",
        "new-england|material|slate|1640|1830|false",
        "ohio|material|sandstone|1800|1840|false",
        "ohio|material|marble|1830|1910|false",
        "ohio|material|granite|1870|2030|false",
        "michigan|material|granite|1865|2030|false",
        "michigan|material|marble|1830|1900|false",
        "ontario|material|marble|1837|1880|false",
        "ontario|material|granite|1880|2030|false",
        "ontario|material|zinc|1883|1900|true",
        "ontario|material|wood|1780|1830|false",
        "england|material|slate|1673|1880|false",
        "england|emblem|Belvoir angel|1681|1750|false",
        "england|material|granite|1830|2030|false",
        "scotland|emblem|skull and crossed bones|1640|1800|false",
        "scotland|emblem|trade tools|1620|1800|false",
        "texas|material|concrete|1900|1950|false",
        "alabama|kind|chest tomb|1800|1850|false",
        "georgia|material|marble|1838|1940|false",
        "pennsylvania|material|sandstone|1792|1859|false",
        "galway|emblem|IHS|1760|1930|false",
      })
  void aClueHasTheYearsOfItsSource(
      String region, String of, String clue, int from, int to, boolean strict) {
    List<String> regions = region.equals("anywhere") ? List.of() : List.of(region);
    assertThat(DatingClue.of(regions))
        .filteredOn(
            one ->
                one.of().equals(of)
                    && one.clue().equals(clue)
                    && one.from() == from
                    && one.to() == to)
        .singleElement()
        .satisfies(one -> assertThat(one.strict()).isEqualTo(strict))
        .satisfies(one -> assertThat(one.source()).isNotBlank());
  }

  /**
   * Monmouth County kept mortality images all through the 18th century, Scotland's winged skull is
   * rare after the 17th (A. Heinrich; B. Willsher): one region's years don't hold in another.
   */
  @Test
  void aDeathsHeadIsDatedInNewEnglandAndScotlandAloneAndApart() {
    assertThat(DatingClue.of(List.of("pennsylvania", "ohio", "england")))
        .noneMatch(one -> one.clue().equals("winged death's head"));
    assertThat(DatingClue.of(List.of("scotland")))
        .filteredOn(one -> one.clue().equals("winged death's head"))
        .allMatch(one -> one.to() == 1720);
  }

  /** The shield isn't in the letter of 25 June 1873: J. Perunko, NCPTT summit lecture, 2009. */
  @Test
  void noGovernmentShieldIsOlderThan1896ThoughItsSizeIs() {
    List<DatingClue> all = DatingClue.of(List.of());
    assertThat(all)
        .filteredOn(one -> one.clue().equals("recessed shield"))
        .allMatch(one -> one.from() == 1896);
    assertThat(all)
        .filteredOn(one -> one.clue().equals("25.4 x 10.2"))
        .allMatch(one -> one.from() == 1873);
  }
}
