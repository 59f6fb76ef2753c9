package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;

class CutLetterTest {
  private static int wrong(String seen, String cut, String read) throws LeidenException {
    ErrorRate errors = CutLetter.errors(CutLetter.of(Leiden.parse(seen), cut), read);
    return errors.errors();
  }

  @Test
  void aLetterNobodyCanReadMayBeReadOrPassedOverButNotReadAsAnother() throws Exception {
    assertThat(wrong("AMO+ WREN", "AMOS WREN", "Amos Wren")).isZero();
    assertThat(wrong("AMO+ WREN", "AMOS WREN", "AMO WREN")).isZero();
    assertThat(wrong("AMO+ WREN", "AMOS WREN", "AMOK WREN")).isEqualTo(1);
    assertThat(wrong("AMO+ WREN", "AMOS WREN", "AMO WRN")).isEqualTo(1);
  }

  @Test
  void aWordNobodyCanReadMayBePassedOverWithItsSpace() throws Exception {
    assertThat(wrong("HERE ++++ AMOS", "HERE LIES AMOS", "HERE AMOS")).isZero();
    assertThat(wrong("HERE ++++ AMOS", "HERE LIES AMOS", "HERE LIES AMOS")).isZero();
    assertThat(wrong("HERE ++++ AMOS", "HERE LIES AMOS", "HEREAMOS")).isEqualTo(1);
    assertThat(wrong("++++ AMOS", "LIES AMOS", "AMOS")).isZero();
  }

  @Test
  void aLostLetterIsNotThereToBeRead() throws Exception {
    assertThat(wrong("AMO[.] WREN", "AMOS WREN", "AMO WREN")).isZero();
    assertThat(wrong("AMO[.] WREN", "AMOS WREN", "AMOS WREN")).isEqualTo(1);
  }

  @Test
  void onlyLettersThatAreAskedForHaveLength() throws Exception {
    assertThat(CutLetter.errors(CutLetter.of(Leiden.parse("A+O++"), "AMOSS"), "").referenceLength())
        .isEqualTo(2);
  }

  @Test
  void whatWasCutIsOnlyUsedWhereItFits() throws Exception {
    assertThat(CutLetter.of(Leiden.parse("AMO+"), "")).isEmpty();
    assertThat(CutLetter.of(Leiden.parse("AMO+"), "ANOS")).isEmpty();
  }
}
