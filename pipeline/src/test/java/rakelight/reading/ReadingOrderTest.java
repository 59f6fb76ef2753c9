package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.picture.Polygon;

class ReadingOrderTest {
  private record Line(String text, Polygon ribbon) {}

  private final List<Line> lines = new ArrayList<>();

  @Test
  void aRollOfNamesIsReadDownEachColumn() {
    row(0, 150, "ROLL OF HONOUR");
    row(50, 0, "A. ASKEBY", 300, "H. LUMSWORTH");
    row(100, 0, "T. COPTHWAITE", 300, "J. OCKLEY");
    row(150, 0, "W. CRAKE", 300, "W. WEXLEY");
    row(200, 0, "I. HATHERSEY");
    row(250, 150, "1914 - 1918");
    assertThat(read())
        .containsExactly(
            "ROLL OF HONOUR",
            "A. ASKEBY",
            "T. COPTHWAITE",
            "W. CRAKE",
            "I. HATHERSEY",
            "H. LUMSWORTH",
            "J. OCKLEY",
            "W. WEXLEY",
            "1914 - 1918");
  }

  @Test
  void ofHusbandAndWifeSideBySideEachIsReadWhole() {
    row(0, 100, "IN LOVING MEMORY OF");
    row(50, 0, "ROBERT GARSIDE", 300, "ALICE HIS WIFE");
    row(100, 0, "BORN 2 MAY 1849", 300, "BORN 3 MAY 1853");
    row(150, 0, "DIED 1911", 300, "DIED 1921");
    assertThat(read())
        .containsExactly(
            "IN LOVING MEMORY OF",
            "ROBERT GARSIDE",
            "BORN 2 MAY 1849",
            "DIED 1911",
            "ALICE HIS WIFE",
            "BORN 3 MAY 1853",
            "DIED 1921");
  }

  @Test
  void anAgeStaysWithTheNameBesideIt() {
    row(0, 0, "HANNAH", 300, "AGED 3 YEARS");
    row(50, 0, "TOBIAS", 300, "AGED 11 MONTHS");
    row(100, 0, "EUNICE", 300, "AGED 6 YEARS");
    assertThat(read())
        .containsExactly(
            "HANNAH", "AGED 3 YEARS", "TOBIAS", "AGED 11 MONTHS", "EUNICE", "AGED 6 YEARS");
  }

  @Test
  void aRankStaysWithTheNameBesideIt() {
    row(0, 0, "SGT", 300, "EZRA VELLACOTT");
    row(50, 0, "CPL", 300, "AMOS BRACKLEY");
    row(100, 0, "PTE", 300, "ISAAC WRAGBY");
    assertThat(read())
        .containsExactly("SGT", "EZRA VELLACOTT", "CPL", "AMOS BRACKLEY", "PTE", "ISAAC WRAGBY");
  }

  @Test
  void twoRowsInPiecesAreNoColumns() {
    row(0, 0, "BORN AT HOLME", 300, "IN THE YEAR");
    row(50, 0, "OF OUR LORD", 300, "AND DIED");
    row(100, 100, "AT COLD HARROW");
    assertThat(read())
        .containsExactly(
            "BORN AT HOLME", "IN THE YEAR", "OF OUR LORD", "AND DIED", "AT COLD HARROW");
  }

  @Test
  void columnsOfAStoneSeenAslantMayLean() {
    for (int i = 0; i < 8; i++) {
      row(50 * i, 25 * i, "E. ZEAL THE " + i, 220 + 25 * i, "O. PELLOW " + i);
    }
    assertThat(read().subList(0, 8)).allMatch(line -> line.startsWith("E. ZEAL"));
    assertThat(read().subList(8, 16)).allMatch(line -> line.startsWith("O. PELLOW"));
  }

  @Test
  void aLineThatRunsAcrossEndsTheColumnsAboveIt() {
    row(0, 0, "A. ASKEBY", 300, "H. LUMSWORTH");
    row(50, 0, "T. COPTHWAITE", 300, "J. OCKLEY");
    row(100, 0, "W. CRAKE", 300, "W. WEXLEY");
    row(150, 0, "AND OF THE SECOND COMPANY OF THE SAME");
    row(200, 0, "B. ZEAL", 300, "C. MORRISH");
    row(250, 0, "D. DUNNOCK", 300, "E. SALLOW");
    row(300, 0, "F. TREDWEN", 300, "G. UMFREY");
    assertThat(read())
        .containsSubsequence(
            "W. CRAKE",
            "W. WEXLEY",
            "AND OF THE SECOND COMPANY OF THE SAME",
            "B. ZEAL",
            "C. MORRISH");
  }

  @Test
  void inWhichOrderLinesWereFoundDoesNotMatter() {
    aRollOfNamesIsReadDownEachColumn();
    List<String> inOrder = read();
    Random random = new Random(4);
    for (int i = 0; i < 20; i++) {
      Collections.shuffle(lines, random);
      assertThat(read()).isEqualTo(inOrder);
    }
  }

  /** Lines with capitals of 30 pixels, each letter 15 wide, in one row from these left ends. */
  private void row(int top, Object... leftAndText) {
    for (int i = 0; i < leftAndText.length; i += 2) {
      int left = (Integer) leftAndText[i];
      String text = (String) leftAndText[i + 1];
      lines.add(new Line(text, Polygon.rectangle(left, top, left + 15 * text.length(), top + 30)));
    }
  }

  private List<String> read() {
    return ReadingOrder.of(lines, Line::ribbon, Line::text).stream().map(Line::text).toList();
  }
}
