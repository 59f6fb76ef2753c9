package rakelight.person.edtf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Syntax: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019.
 * Strings, levels and bounds: the open test suites of UNT edtf-validate (levels), python-edtf
 * (lower, upper) and ProfessionalWiki EDTF (min, max).
 */
class EdtfTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1985-04-12|0|1985-04-12|1985-04-12",
        "1985-04|0|1985-04-01|1985-04-30",
        "1985|0|1985-01-01|1985-12-31",
        "0000|0|0000-01-01|0000-12-31",
        "1985-04-12T23:20:30|0|1985-04-12|1985-04-12",
        "1985-04-12T23:20:30Z|0|1985-04-12|1985-04-12",
        "1985-04-12T23:20:30-04|0|1985-04-12|1985-04-12",
        "1985-04-12T23:20:30+04:30|0|1985-04-12|1985-04-12",
        "1964/2008|0|1964-01-01|2008-12-31",
        "2004-06/2006-08|0|2004-06-01|2006-08-31",
        "2004-02-01/2005-02-08|0|2004-02-01|2005-02-08",
        "2004-02-01/2005-02|0|2004-02-01|2005-02-28",
        "2004-02-01/2005|0|2004-02-01|2005-12-31",
        "2005/2006-02|0|2005-01-01|2006-02-28",
        "Y170000002|1|170000002-01-01|170000002-12-31",
        "Y-170000002|1|-170000002-01-01|-170000002-12-31",
        "-1985|1|-1985-01-01|-1985-12-31",
        "-0999|1|-0999-01-01|-0999-12-31",
        "1984?|1|1984-01-01|1984-12-31",
        "1984~|1|1984-01-01|1984-12-31",
        "1984%|1|1984-01-01|1984-12-31",
        "2004-06~|1|2004-06-01|2004-06-30",
        "2004-06-11%|1|2004-06-11|2004-06-11",
        "201X|1|2010-01-01|2019-12-31",
        "20XX|1|2000-01-01|2099-12-31",
        "19XX|1|1900-01-01|1999-12-31",
        "2004-XX|1|2004-01-01|2004-12-31",
        "1985-XX-XX|1|1985-01-01|1985-12-31",
        "1985-04-XX|1|1985-04-01|1985-04-30",
        "1999-01-XX|1|1999-01-01|1999-01-31",
        "1984~/2004-06|1|1984-01-01|2004-06-30",
        "1984?/2004%|1|1984-01-01|2004-12-31",
        "1984-06-02?/2004-08-08~|1|1984-06-02|2004-08-08",
        "-01XX|1|-0199-01-01|-0100-12-31",
        "Y-17E7|2|-170000000-01-01|-170000000-12-31",
        "Y17E8|2|1700000000-01-01|1700000000-12-31",
        "1950S2|2|1900-01-01|1999-12-31",
        "1953S3|2|1950-01-01|1959-12-31",
        "Y3388E2S3|2|338000-01-01|338999-12-31",
        "2001-34|2|2001-04-01|2001-06-30",
        "2010-37|2|2010-01-01|2010-04-30",
        "2010-41|2|2010-07-01|2010-12-31",
        "[1667,1668,1670..1672]|2|1667-01-01|1672-12-31",
        "[1667,1760-12]|2|1667-01-01|1760-12-31",
        "{1667,1668,1670..1672}|2|1667-01-01|1672-12-31",
        "{1960,1961-12}|2|1960-01-01|1961-12-31",
        "156X-12-25|2|1560-12-25|1569-12-25",
        "15XX-12-25|2|1500-12-25|1599-12-25",
        "1560-XX-25|2|1560-01-25|1560-12-25",
        "15XX-12-XX|2|1500-12-01|1599-12-31",
        "XXXX-12-XX|2|0000-12-01|9999-12-31",
        "1XXX-XX|2|1000-01-01|1999-12-31",
        "1XXX-12|2|1000-12-01|1999-12-31",
        "1984-1X|2|1984-10-01|1984-12-31",
        "2004-06-~11|2|2004-06-11|2004-06-11",
        "2004-06~-11|2|2004-06-11|2004-06-11",
        "?2004-06-~11|2|2004-06-11|2004-06-11",
        "2004?-%06|2|2004-06-01|2004-06-30",
        "2004-?06-?11|2|2004-06-11|2004-06-11",
        "2004?-06-~11|2|2004-06-11|2004-06-11",
        "?-2004-06-04~|2|-2004-06-04|-2004-06-04",
        "2004-06-~01/2004-06-~20|2|2004-06-01|2004-06-20",
        "2004-06-XX/2004-07-03|2|2004-06-01|2004-07-03",
        "198X/199X|2|1980-01-01|1999-12-31",
        "1987/199X|2|1987-01-01|1999-12-31",
        // Bounds of dates as markers have them: edtf.js 4.11.1.
        "1863-03?|1|1863-03-01|1863-03-31",
        "1863-12-XX/1864-01-05|2|1863-12-01|1864-01-05",
        "18XX-07-04|2|1800-07-04|1899-07-04",
        "1863-XX-12|2|1863-01-12|1863-12-12",
        "186X|1|1860-01-01|1869-12-31",
        "1904-02-29|0|1904-02-29|1904-02-29",
      })
  void eachFormHasItsLevelAndItsFirstAndLastDay(
      String text, int level, String earliest, String latest) {
    Edtf date = Edtf.parse(text);
    assertThat(date.level()).isEqualTo(level);
    assertThat(date.earliest().orElseThrow()).hasToString(earliest);
    assertThat(date.latest().orElseThrow()).hasToString(latest);
    assertThat(Edtf.parse(date.toString())).isEqualTo(date);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1985-04-12/..|1|1985-04-12|",
        "1985/..|1|1985-01-01|",
        "../1985-04-12|1||1985-04-12",
        "../1985|1||1985-12-31",
        "1985-04-12/|1|1985-04-12|",
        "1985/|1|1985-01-01|",
        "/1985|1||1985-12-31",
        "[..1760-12-03]|2||1760-12-03",
        "[1760-12..]|2|1760-12-01|",
        "[1760-01,1760-02,1760-12..]|2|1760-01-01|",
        "{..1984}|2||1984-12-31",
      })
  void anOpenOrUnknownEndBoundsNothing(String text, int level, String earliest, String latest) {
    Edtf date = Edtf.parse(text);
    assertThat(date.level()).isEqualTo(level);
    assertThat(date.earliest().map(Day::toString).orElse(null)).isEqualTo(earliest);
    assertThat(date.latest().map(Day::toString).orElse(null)).isEqualTo(latest);
    assertThat(date).hasToString(text);
  }

  @Test
  void openAndUnknownStayApart() {
    assertThat(Edtf.parse("1985/")).isNotEqualTo(Edtf.parse("1985/.."));
  }

  /** Our choice; the suites disagree, and the specification gives no months. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2001-21|1|2001-03-01|2001-05-31",
        "2001-22|1|2001-06-01|2001-08-31",
        "2001-23|1|2001-09-01|2001-11-30",
        "2010-24|1|2010-12-01|2011-02-28",
        "2001-25|2|2001-03-01|2001-05-31",
        "2001-28|2|2001-12-01|2002-02-28",
        "2001-29|2|2001-09-01|2001-11-30",
        "2001-30|2|2001-12-01|2002-02-28",
        "2001-31|2|2001-03-01|2001-05-31",
        "2001-32|2|2001-06-01|2001-08-31",
        "2001-33|2|2001-01-01|2001-03-31",
        "2001-36|2|2001-10-01|2001-12-31",
        "2001-38|2|2001-05-01|2001-08-31",
        "2001-39|2|2001-09-01|2001-12-31",
        "2001-40|2|2001-01-01|2001-06-30",
        "Y171010000S3|2|171000000-01-01|171999999-12-31",
      })
  void seasonsAndSignificantFiguresFollowOurDocumentedChoice(
      String text, int level, String earliest, String latest) {
    eachFormHasItsLevelAndItsFirstAndLastDay(text, level, earliest, latest);
  }

  /** Refused by UNT edtf-validate, python-edtf or ProfessionalWiki EDTF, and by us. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "?",
        "1985wtf",
        "2021-13-01",
        "2021-01-32",
        "1900-02-29",
        "1960-06-31",
        "2016-02-39",
        " 1863-03-29",
        "1863-03-29 ",
        "1863- 03-29",
        "18 63-03-29",
        "-0000",
        "-0000-01-01",
        "Y2006",
        "Y17E7-12-26",
        "20067890%",
        "+2006%",
        "NONE/",
        "2000/12-12",
        "2002/2001",
        "2012-24/2012-21",
        "0800/-0999",
        "2012/2013/1234",
        "2012///4444",
        "2012-10-10T1:10:10",
        "2012-10-10T10:10:1",
        "1985-04-12T23:20:30z",
        "1985-04-12t23:20:30",
        "1985-04-12T23:20:30Z25:00",
        "1985-04-12T23:20:30-05:60",
        "1985-04-12T23:20:30+02:00:30",
        "-1985-04-12T23:20:30+24",
        "2005-07-25T10:10:10Z/2006-01-01T10:10:10Z",
        "[1667,1668, 1670..1672]",
        "{2002..2001}",
        "{1987-10..1988}",
        "2001-21^southernHemisphere",
        // The draft of 2012.
        "2004-(06)?-11",
        "(2011)-06-04~",
        "2004-06-(01)~",
        "199u",
        "unknown/2006",
        "y170000002",
      })
  void whatTheFormatDoesNotWriteIsRefused(String text) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Edtf.parse(text))
        .withMessageContaining("is no EDTF date");
  }

  /** Scope of a qualifier: the specification, level 2, qualification of a component. */
  @Test
  void aQualifierToTheRightReachesLeftAndOneToTheLeftItsPartAlone() {
    EdtfDate right = (EdtfDate) Edtf.parse("2004-06~-11");
    assertThat(right.year().qualifier()).isEqualTo(Qualifier.APPROXIMATE);
    assertThat(right.month().orElseThrow().qualifier()).isEqualTo(Qualifier.APPROXIMATE);
    assertThat(right.day().orElseThrow().qualifier()).isEqualTo(Qualifier.NONE);
    EdtfDate left = (EdtfDate) Edtf.parse("2004?-06-~11");
    assertThat(left.year().qualifier()).isEqualTo(Qualifier.UNCERTAIN);
    assertThat(left.month().orElseThrow().qualifier()).isEqualTo(Qualifier.NONE);
    assertThat(left.day().orElseThrow().qualifier()).isEqualTo(Qualifier.APPROXIMATE);
  }

  @Test
  void aMaskedDateAdmitsExactlyTheDaysItMayBe() {
    Edtf date = Edtf.parse("18XX-07-04");
    assertThat(date.admits(Day.of(LocalDate.of(1863, 7, 4)))).isTrue();
    assertThat(date.admits(Day.of(LocalDate.of(1863, 7, 5)))).isFalse();
    assertThat(date.admits(Day.of(LocalDate.of(1963, 7, 4)))).isFalse();
  }

  @Test
  void aSetIsFoundByItsMembersAndNotByTheYearsBetween() {
    Edtf date = Edtf.parse("[1833,1838]");
    assertThat(date.mayTouch(new Day(1834, 1, 1), new Day(1837, 12, 31))).isFalse();
    assertThat(date.mayTouch(new Day(1838, 6, 1), new Day(1838, 6, 30))).isTrue();
    assertThat(date.liesWithin(new Day(1830, 1, 1), new Day(1839, 12, 31))).isTrue();
  }

  @Test
  void datesSortByFirstDayThenByLastAndThoseWithoutBeginningByTheirEnd() {
    List<String> sorted =
        List.of("1863/..", "1863-03", "../1863", "1863", "186X", "1863-03-01", "1862-12-31")
            .stream()
            .map(Edtf::parse)
            .sorted(Edtf.ORDER)
            .map(Edtf::toString)
            .toList();
    assertThat(sorted)
        .containsExactly(
            "186X", "1862-12-31", "1863", "1863/..", "1863-03-01", "1863-03", "../1863");
  }
}
