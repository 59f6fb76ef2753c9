package rakelight.publish.gedcom;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dates as FamilySearch GEDCOM 7.0 writes them, from EDTF (ISO 8601-2). */
class GedcomDateTest {
  @ParameterizedTest
  @CsvSource({
    "1907-12-06, 6 DEC 1907, true",
    "1851-03, MAR 1851, true",
    "1851, 1851, true",
    "1851~, ABT 1851, true",
    "1851?, ABT 1851, false",
    "184X, BET 1 JAN 1840 AND 31 DEC 1849, false",
    "1903/1904, BET 1 JAN 1903 AND 31 DEC 1904, true",
    "1850/.., AFT 1 JAN 1850, true",
    "../1850, BEF 31 DEC 1850, true",
    "'[1790,1795]', BET 1 JAN 1790 AND 31 DEC 1795, false",
    "'[1790..1795]', BET 1 JAN 1790 AND 31 DEC 1795, true",
    "1848-XX-14, BET 14 JAN 1848 AND 14 DEC 1848, false",
    "-0044, '', false"
  })
  void aDateIsWrittenAsNarrowlyAsTheFormatCan(String edtf, String value, boolean whole) {
    assertThat(GedcomDate.of(edtf)).isEqualTo(new GedcomDate(value, whole));
  }

  @Property
  void everyDayIsWrittenAsItsOwn(@ForAll @IntRange(min = -100_000, max = 40_000) int daysFrom1970) {
    LocalDate day = LocalDate.ofEpochDay(daysFrom1970);
    assertThat(GedcomDate.of(day.toString()).value())
        .isEqualTo(
            day.format(DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH))
                .toUpperCase(Locale.ROOT));
  }

  @ParameterizedTest
  @CsvSource({"P71Y7M9D, 71y 7m 9d", "P8D, 8d", "P3W2D, 3w 2d", "P0Y, 0y", "PT5H, < 1d"})
  void agesAreWrittenInTheUnitsCarved(String duration, String age) {
    assertThat(GedcomExport.age(duration)).contains(age);
  }

  @ParameterizedTest
  @CsvSource({"P7XY", "P1XM"})
  void anAgeWithALostFigureIsNone(String duration) {
    assertThat(GedcomExport.age(duration)).isEmpty();
  }
}
