package rakelight.names;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NamesTest {
  // NARA, The Soundex Indexing System (General Information Leaflet 55, 2007), and its older guide
  @ParameterizedTest
  @CsvSource({
    "Washington,W252",
    "Lee,L000",
    "Gutierrez,G362",
    "Pfister,P236",
    "Jackson,J250",
    "Tymczak,T522",
    "VanDeusen,V532",
    "Ashcraft,A261",
    "Ashcroft,A261",
    "Kuhne,K500",
    "Ebell,E140",
    "Ebelson,E142",
    "Buerck,B620",
    "Lloyd,L300",
    "Schaefer,S160",
    "Kelly,K400",
    // run with Commons Codec 1.17.1
    "Robert,R163",
    "Rupert,R163",
    "Rubin,R150",
    "Smith,S530",
    "Smyth,S530",
    "Schmidt,S530",
    "Thompson,T512",
    "Tomson,T525",
    "Knight,K523",
    "Night,N230",
    "O'Brien,O165",
    "McGee,M200",
    "Burroughs,B620",
    "Burrows,B620",
    "Knuth,K530",
    "Kant,K530",
    "Lukasiewicz,L222"
  })
  void soundexFollowsTheNationalArchives(String name, String code) {
    assertThat(SoundCodes.soundex(name)).isEqualTo(code);
  }

  // Commons Codec, DaitchMokotoffSoundexTest
  @ParameterizedTest
  @CsvSource({
    "Auerbach,097400|097500", "Ohrbach,097400|097500", "Lipshitz,874400", "Lippszyc,874400|874500",
    "Lewinsky,876450", "Moskowitz,645740", "Peters,734000|739400", "Golden,583600",
    "Jackson,145460|154600|445460|454600", "Breuer,791900", "Kleinmann,586660"
  })
  void daitchMokotoffGivesEveryCode(String name, String codes) {
    assertThat(SoundCodes.daitchMokotoff(name)).containsExactly(codes.split("\\|", -1));
  }

  // W. E. Winkler, US Census RR94-5 (1994), table 2.1; where that prints another value, the one
  // that
  // follows from the definition (Commons Text 1.12.0 gives the same)
  @ParameterizedTest
  @CsvSource({
    "SHACKLEFORD,SHACKELFORD,.9818",
    "DUNNINGHAM,CUNNIGHAM,.8963",
    "NICHLESON,NICHULSON,.9556",
    "JONES,JOHNSON,.8324",
    "MASSEY,MASSIE,.9333",
    "ABROMS,ABRAMS,.9222",
    "HARDIN,MARTINEZ,.7222",
    "ITMAN,SMITH,.4667",
    "JERALDINE,GERALDINE,.9259",
    "MARHTA,MARTHA,.9611",
    "MICHELLE,MICHAEL,.9214",
    "JULIES,JULIUS,.9333",
    "TANYA,TONYA,.8800",
    "DWAYNE,DUANE,.8400",
    "SEAN,SUSAN,.8050",
    "JON,JOHN,.9333",
    "JON,JAN,.8000",
    "BROOKHAVEN,BRROKHAVEN,.9467",
    "BROOK HALLOW,BROOK HLLW,.9667",
    "DECATUR,DECATIR,.9429",
    "FITZRUREITER,FITZENREITER,.9133",
    "HIGBEE,HIGHEE,.9222",
    "LACURA,LOCURA,.9000",
    "IOWA,IONA,.8667",
    "1ST,IST,.7778",
    "DIXON,DICKSONX,.8133"
  })
  void jaroWinklerAgreesWithTheCensusTable(String one, String two, double expected) {
    assertThat(Likeness.jaroWinkler(one, two)).isCloseTo(expected, within(0.0005));
    assertThat(Likeness.jaroWinkler(two, one)).isCloseTo(expected, within(0.0005));
  }

  // Rosetta Code and NLTK examples of Levenshtein distance; alignment of neighbours swapped
  @ParameterizedTest
  @CsvSource({
    "kitten,sitting,3",
    "Saturday,Sunday,3",
    "intention,execution,5",
    "gumbo,gambol,2",
    "rosettacode,raisethysword,8",
    "CA,ABC,3",
    "MARTHA,MARHTA,1",
    "SMITH,SMIHT,1",
    "'',abc,3"
  })
  void editsAreCounted(String one, String two, int edits) {
    assertThat(Likeness.edits(one, two)).isEqualTo(edits);
  }

  // open data set "nicknames" (C. Northern and contributors, names.csv)
  @ParameterizedTest
  @CsvSource({
    "Abigail,Nabby",
    "Ann,Nan",
    "Edward,Ned",
    "Elizabeth,Betsy",
    "Hannah,Nan",
    "James,Jem",
    "John,Jack",
    "Margaret,Peggy",
    "Martha,Patty",
    "Mary,Polly",
    "Mehitabel,Hitty",
    "Robert,Hob",
    "Sarah,Sally",
    "Susannah,Sukey",
    "William,Bill",
    "Zachariah,Zach"
  })
  void aNicknameIsFoundEitherWay(String name, String nickname) {
    String formal = NameForms.fold(name);
    String called = NameForms.fold(nickname);
    assertThat(GivenNames.known().nicknamesOf(formal)).contains(called);
    assertThat(GivenNames.known().nicknamesOf(called)).contains(formal);
  }

  @Test
  void nellMayBeSeveralNamesAndIsNoneOfThemForSure() {
    assertThat(GivenNames.known().nicknamesOf("ellen")).contains("nell", "helen", "eleanor");
    assertThat(GivenNames.known().nicknamesOf("nell")).containsExactly("ellen");
  }

  // from memory
  @ParameterizedTest
  @CsvSource({
    "Wm,William",
    "Jno,John",
    "Thos,Thomas",
    "Eliz,Elizabeth",
    "Margt,Margaret",
    "Jas,James",
    "Chas,Charles",
    "Robt,Robert"
  })
  void aCarversAbbreviationIsKnown(String cut, String name) {
    assertThat(GivenNames.known().abbreviationsOf(NameForms.fold(cut)))
        .contains(NameForms.fold(name));
  }

  @Test
  void writingIsMadeEven() {
    assertThat(NameForms.fold("O’Brien")).isEqualTo("obrien");
    assertThat(NameForms.fold("Auguſt")).isEqualTo("august");
    assertThat(NameForms.fold("Þe")).isEqualTo("the");
    assertThat(NameForms.fold("BRONTË")).isEqualTo("bronte");
    assertThat(NameForms.fold("Æthel, ")).isEqualTo("aethel");
    assertThat(NameForms.fold("—")).isEmpty();
  }
}
