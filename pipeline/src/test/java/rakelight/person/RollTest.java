package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RollTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "CO. B 5TH REGT. SKER. INF.|company b|5 sker infantry",
        "Company B 5 Sker. Infantry|company b|5 sker infantry",
        "B Co., 5th Sker. Inf.|company b|5 sker infantry",
        "Fifth Regiment of Sker. Infantry||5 sker infantry",
        "5 RIFLES||5 rifles",
        "5th Rifle Regt.||5 rifles",
        "Battery L 2nd N. Y. Lt. Art.|battery l|2 new york light artillery",
        "Bty L, 2 New York Light Artillery|battery l|2 new york light artillery",
        "R. A. F.||royal air force",
        "RAF||royal air force",
        "XI Hussars||11 hussars",
        "11th Hussars||11 hussars",
        "Co. K|company k|''",
        "Coldstream Gds||coldstream guards",
        "3rd Bn. Grenadier Guards||3 battalion grenadier guards",
        "10th Pa. Vols.||10 pennsylvania volunteers",
        "10 Pennsylvania Volunteers||10 pennsylvania volunteers",
      })
  void aUnitIsOneHoweverItIsSpelt(String carved, String company, String regiment) {
    UnitName unit = UnitName.of(carved);
    assertThat(unit.company()).isEqualTo(company == null ? "" : company);
    assertThat(unit.regiment()).isEqualTo(regiment);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "5th Rifles|6th Rifles",
        "5 Sker. Inf.|5 Sker. Cav.",
        "Co. B 5 Inf.|Co. D 5 Inf.",
        "1st Bn Guards|1st Bde Guards",
        "5th Pa. Inf.|5th Va. Inf.",
      })
  void unitsThatDifferStayApart(String one, String other) {
    assertThat(UnitName.of(one)).isNotEqualTo(UnitName.of(other));
  }

  @Test
  void theSamplesSoldiersStandOnTheirRollsAsCarved() throws Exception {
    List<Person> persons = SamplePeople.of(0, 1).people().persons();
    Roll.Group regiment = Roll.of(persons, Roll.By.REGIMENT).get(0);
    assertThat(regiment.called()).isEqualTo("3 SKER. INF.");
    assertThat(regiment.entries())
        .extracting(entry -> entry.person().called())
        .containsExactly("P Dunnock", "Jas Hathersay", "Amos Lidgate");
    assertThat(Roll.of(persons, Roll.By.COMPANY))
        .extracting(Roll.Group::called)
        .containsExactly("CO. B 3 SKER. INF.", "CO. F 3 SKER. INF.");
    Roll.Group captains = Roll.of(persons, Roll.By.RANK).get(0);
    assertThat(captains.spellings()).containsExactly("CAPT.", "Capt.");
    assertThat(captains.entries()).hasSize(2);
    assertThat(Roll.of(persons, Roll.By.ORIGIN).get(0).called()).isEqualTo("Netherquay");
    assertThat(Roll.of(persons, Roll.By.TRADE)).extracting(Roll.Group::called).contains("Mariner");
  }

  @Test
  void aGroupIsMeantByAnySpellingAndByAPartOfItsName() throws Exception {
    Roll.Group regiment =
        Roll.of(SamplePeople.of(0, 1).people().persons(), Roll.By.REGIMENT).get(0);
    for (String words : List.of("3rd Regt. Sker. Infantry", "sker. inf", "3 sker infantry")) {
      assertThat(Roll.isMeant(regiment, Roll.By.REGIMENT, words)).as(words).isTrue();
    }
    for (String words : List.of("13 sker. inf.", "cavalry")) {
      assertThat(Roll.isMeant(regiment, Roll.By.REGIMENT, words)).as(words).isFalse();
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "CO. B 3 SKER. INF.|3 SKER. INF.",
        "B Co., 5th Sker. Inf.|5th Sker. Inf.",
        "5th Cavalry, Troop A|5th Cavalry",
        "Co. K|Co. K",
        "Coldstream Guards|Coldstream Guards",
      })
  void aRegimentIsCalledAsCarvedWithoutItsCompany(String carved, String called) {
    assertThat(UnitName.withoutCompany(carved)).isEqualTo(called);
  }
}
