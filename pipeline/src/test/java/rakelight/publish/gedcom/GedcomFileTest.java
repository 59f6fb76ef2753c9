package rakelight.publish.gedcom;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The judge of our files judges others as the standard does. */
class GedcomFileTest {
  /** The smallest file: FamilySearch GEDCOM 7.0, its test file minimal70. */
  private static final String SMALLEST = "\uFEFF0 HEAD\n1 GEDC\n2 VERS 7.0\n0 TRLR\n";

  private static String with(String record) {
    return SMALLEST.replace("0 TRLR", record.strip() + "\n0 TRLR");
  }

  @Test
  void theSmallestFileIsGoodAndNoneWithoutItsParts() {
    assertThat(GedcomFile.read(SMALLEST).broken()).isEmpty();
    assertThat(GedcomFile.read(SMALLEST.substring(0, 1) + "0 HEAD\n0 TRLR\n").broken())
        .contains("0 GEDC under HEAD");
    assertThat(GedcomFile.read(SMALLEST.replace("0 TRLR\n", "")).broken()).isNotEmpty();
  }

  @Test
  void agesAndDatesAreThoseOfTheStandard() {
    // Examples of its sections on dates and ages; the last of each are called wrong there.
    for (String age : new String[] {"71y 7m 9d", "> 8d", "< 1y", "8w 30d"}) {
      assertThat(broken("1 DEAT", "2 AGE " + age)).as(age).isZero();
    }
    for (String age : new String[] {"71Y", "1.5y", "9d 7m", "y"}) {
      assertThat(broken("1 DEAT", "2 AGE " + age)).as(age).isPositive();
    }
    for (String date :
        new String[] {"6 DEC 1907", "BET 1903 AND 1904", "AFT 1850", "ABT MAR 1780"}) {
      assertThat(broken("1 DEAT", "2 DATE " + date)).as(date).isZero();
    }
    for (String date : new String[] {"30 Jan 1649", "31/12/1849", "30 JAN 1648/49", "1903-04"}) {
      assertThat(broken("1 DEAT", "2 DATE " + date)).as(date).isPositive();
    }
  }

  private static int broken(String... lines) {
    return GedcomFile.read(with("0 @I1@ INDI\n" + String.join("\n", lines))).broken().size();
  }

  @Test
  void pointersResolveAndFamiliesAreToldFromBothSides() {
    assertThat(GedcomFile.read(with("0 @I1@ INDI\n1 FAMS @F1@")).broken())
        .contains("INDI.FAMS points nowhere: @F1@");
    assertThat(GedcomFile.read(with("0 @I1@ INDI\n0 @F1@ FAM\n1 HUSB @I1@")).broken())
        .containsExactly("F1 isn't in FAMS of @I1@");
    assertThat(GedcomFile.read(with("0 @I1@ INDI\n1 FAMS @F1@\n0 @F1@ FAM\n1 HUSB @I1@")).broken())
        .isEmpty();
  }

  @Test
  void whatTheStandardForbidsIsNamed() {
    assertThat(broken("1 DEAT", "2 QUAY 1")).isPositive();
    assertThat(broken("1 SEX male")).isPositive();
    assertThat(broken("1 NOTE @me")).isPositive();
    assertThat(broken("1 NOTE @@me")).isZero();
    assertThat(broken("1 FACT here")).as("a fact needs its type").isPositive();
    assertThat(broken("3 NOTE deep")).isPositive();
  }
}
