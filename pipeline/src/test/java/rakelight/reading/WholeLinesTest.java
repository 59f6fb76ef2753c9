package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * A stone of letters that stand where they are put, 40 px high and 32 apart; lines are found where
 * a test says, and whatever letters lie in a strip are read.
 */
class WholeLinesTest {
  private static final double CAPITAL_PX = 40;
  private static final double PITCH_PX = 32;

  /** Letters further apart than this have a space read between them. */
  private static final double SPACE_PX = 45;

  private record Carved(String letter, double x, double y, double p) {}

  private final List<Carved> stone = new ArrayList<>();
  private final List<ReadLine> found = new ArrayList<>();
  private double worseAlongWhole;
  private int strips;

  @BeforeEach
  void aBareStone() {
    worseAlongWhole = 0;
    strips = 0;
  }

  @Test
  void aLongDashBetweenTwoPiecesMakesThemOneLine() {
    line("1865", 100, 200);
    carve("—", 330, 200);
    line("1889", 450, 200);

    ReadPicture whole = whole();

    assertThat(texts(whole)).isEqualTo("1865 — 1889");
    Polygon ribbon = whole.lines().get(0).line().ribbon();
    assertThat(ribbon.left()).isEqualTo(100);
    assertThat(ribbon.right()).isEqualTo(450 + 4 * PITCH_PX);
  }

  @Test
  void aDashOfWhichEachPieceHasAnEndIsOneDash() {
    line("1865—", 100, 200);
    line("—1889", 450, 200);

    assertThat(texts(whole())).isEqualTo("1865— 1889");
  }

  @Test
  void columnsStayColumns() {
    for (int row = 0; row < 3; row++) {
      line("E.SALLOW", 100, 200 + 70 * row);
      line("R.TULL", 500, 200 + 70 * row);
    }

    assertThat(texts(whole()))
        .isEqualTo("E.SALLOW / R.TULL / E.SALLOW / R.TULL / E.SALLOW / R.TULL");
  }

  @Test
  void aRuleBetweenColumnsOfOneRowDoesNotJoinThem() {
    line("SALLOW", 100, 200);
    carve("I", 340, 200);
    line("TULL", 400, 200);

    assertThat(texts(whole())).isEqualTo("SALLOW / TULL");
  }

  @Test
  void aRowThatRunsThroughColumnsIsCutAndWhatStandsBetweenThemIsNoLetter() {
    line("E.SALLOW", 100, 200);
    line("R.TULL", 450, 200);
    line("A.TREDWEN", 100, 270);
    line("R.TULL", 450, 270);
    carve("SKELBY", 100, 340);
    stone.add(new Carved("Y", 386, 340, 0.7));
    carve("J.ZEAL", 450, 340);
    findAlong(100, 450 + 6 * PITCH_PX, 340);

    assertThat(texts(whole()))
        .isEqualTo("E.SALLOW / R.TULL / A.TREDWEN / R.TULL / SKELBY / J.ZEAL");
  }

  @Test
  void aLetterBeyondDoubtIsNoOrnamentThoughItStandsAlone() {
    line("E.SALLOW", 100, 200);
    line("R.TULL", 470, 200);
    line("A.TREDWEN", 100, 270);
    line("R.TULL", 470, 270);
    carve("SKELB", 100, 340);
    carve("Y", 290, 340);
    carve("J.ZEAL", 470, 340);
    findAlong(100, 470 + 6 * PITCH_PX, 340);

    assertThat(texts(whole())).endsWith("SKELB Y / J.ZEAL");
  }

  @Test
  void rowsThatAllRunThroughColumnsAreCutWhereTheyAreAllWhite() {
    for (int row = 0; row < 3; row++) {
      carve("SALLOW", 100 - 20 * row, 200 + 70 * row);
      carve("TREDWEN", 400, 200 + 70 * row);
      findAlong(100 - 20 * row, 400 + 7 * PITCH_PX, 200 + 70 * row);
    }

    ReadPicture whole = whole();

    assertThat(texts(whole)).isEqualTo("SALLOW / TREDWEN / SALLOW / TREDWEN / SALLOW / TREDWEN");
    assertThat(whole.lines().get(0).line().ribbon().right()).isBetween(285.0, 310.0);
    assertThat(whole.lines().get(1).line().ribbon().left()).isBetween(380.0, 405.0);
  }

  @Test
  void columnsSetCloseArePartedWhereSixRowsHaveTheirWordSpaceBelowEachOther() {
    assertThat(texts(rowsWithAWordSpace(6, 0)))
        .isEqualTo(String.join(" / ", Collections.nCopies(6, "SALLOW / TREDWEN")));
    assertThat(texts(rowsWithAWordSpace(5, 0)))
        .isEqualTo(String.join(" / ", Collections.nCopies(5, "SALLOW TREDWEN")));
  }

  @Test
  void amongWordSpacesAWiderGapMakesColumnsOfFewerRowsThoughTheyLean() {
    carve("SALLOW", 100, 200);
    carve("TREDWEN", 100 + 6 * PITCH_PX + 70, 200);
    findAlong(100, 100 + 13 * PITCH_PX + 70, 200);
    for (int row = 1; row < 5; row++) {
      double x = 100 + 12 * row;
      carve("SALLOW", x, 200 + 70 * row);
      carve("TREDWEN", x + 6 * PITCH_PX + 30, 200 + 70 * row);
      findAlong(x, x + 13 * PITCH_PX + 30, 200 + 70 * row);
    }

    assertThat(texts(whole()))
        .isEqualTo(String.join(" / ", Collections.nCopies(5, "SALLOW / TREDWEN")));
  }

  @Test
  void wordSpacesThatWanderFromRowToRowPartNothing() {
    assertThat(texts(rowsWithAWordSpace(6, 15)))
        .isEqualTo(String.join(" / ", Collections.nCopies(6, "SALLOW TREDWEN")));
  }

  @Test
  void fourRowsInWhichAnInitialFollowsANameAreARoll() {
    assertThat(texts(rows("A.SALLOW", "B.TREDWEN", 4, 0)))
        .isEqualTo(String.join(" / ", Collections.nCopies(4, "A.SALLOW / B.TREDWEN")));
    assertThat(texts(rows("A.SALLOW", "B.TREDWEN", 3, 0)))
        .isEqualTo(String.join(" / ", Collections.nCopies(3, "A.SALLOW B.TREDWEN")));
  }

  @Test
  void aRollOfNamesWithInitialsMayLeanAndItsHeadingIsWhole() {
    carve("WHO", 150, 130);
    carve("FELL", 150 + 3 * PITCH_PX + 30, 130);
    carve("1914", 150 + 7 * PITCH_PX + 70, 130);
    findAlong(150, 150 + 11 * PITCH_PX + 70, 130);
    for (int row = 0; row < 4; row++) {
      double x = 100 + 18 * row;
      double next = x + 8 * PITCH_PX + 30;
      carve("A.SALLOW", x, 200 + 70 * row);
      carve("B.TREDWEN", next, 200 + 70 * row);
      findAlong(x, next + 9 * PITCH_PX, 200 + 70 * row);
    }
    assertThat(texts(whole()))
        .isEqualTo(
            "WHO FELL 1914 / "
                + String.join(" / ", Collections.nCopies(4, "A.SALLOW / B.TREDWEN")));
  }

  @Test
  void theSpaceAfterAnInitialIsNoGapBetweenColumns() {
    for (int row = 0; row < 7; row++) {
      carve("A.", 100, 200 + 70 * row);
      carve("SALLOW", 100 + 2 * PITCH_PX + 30, 200 + 70 * row);
      findAlong(100, 100 + 8 * PITCH_PX + 30, 200 + 70 * row);
    }
    assertThat(texts(whole())).isEqualTo(String.join(" / ", Collections.nCopies(7, "A. SALLOW")));
  }

  private ReadPicture rowsWithAWordSpace(int rows, double step) {
    return rows("SALLOW", "TREDWEN", rows, step);
  }

  private ReadPicture rows(String one, String other, int rows, double step) {
    stone.clear();
    found.clear();
    for (int row = 0; row < rows; row++) {
      double x = 100 + step * row;
      double next = x + one.length() * PITCH_PX + 30;
      carve(one, x, 200 + 70 * row);
      carve(other, next, 200 + 70 * row);
      findAlong(x, next + other.length() * PITCH_PX, 200 + 70 * row);
    }
    return whole();
  }

  @Test
  void dashesBelowEachOtherAreNoColumns() {
    for (int row = 0; row < 2; row++) {
      line("1865", 100, 200 + 70 * row);
      carve("—", 330, 200 + 70 * row);
      line("1889", 450, 200 + 70 * row);
    }

    assertThat(texts(whole())).isEqualTo("1865 — 1889 / 1865 — 1889");
  }

  @Test
  void aWordSpaceIsBridgedAndAWiderGapWhereTheRowsAboveAndBelowRunAcrossIt() {
    line("HANNAHWRENWIFEOFJOHN", 100, 130);
    line("AGED", 100, 200);
    line("40", 500, 200);
    line("ERECTEDBYHERCHILDREN", 100, 270);
    line("GONE", 100, 500);
    line("BEFORE", 270, 500);

    assertThat(texts(whole()))
        .isEqualTo("HANNAHWRENWIFEOFJOHN / AGED 40 / ERECTEDBYHERCHILDREN / GONE BEFORE");
  }

  @Test
  void aWideGapThatNothingRunsAcrossIsLeft() {
    line("FATHER", 100, 200);
    line("MOTHER", 500, 200);

    assertThat(texts(whole())).isEqualTo("FATHER / MOTHER");
  }

  @Test
  void aWordThatWasMissedBetweenTwoPiecesIsReadAndJoinsThem() {
    line("SACRED", 100, 200);
    carve("TO", 340, 200);
    line("THEMEMORY", 450, 200);

    assertThat(texts(whole())).isEqualTo("SACRED TO THEMEMORY");
  }

  @Test
  void aRowInThreePiecesIsOneLine() {
    line("JAN", 100, 200);
    line("5", 250, 200);
    line("1889", 330, 200);

    assertThat(texts(whole())).isEqualTo("JAN 5 1889");
  }

  @Test
  void ofAJoinedLineThePiecesReadingsAreKeptWhereTheyAreBetter() {
    line("1865", 100, 200);
    carve("—", 330, 200);
    line("1889", 450, 200);
    worseAlongWhole = 0.1;

    ReadPicture whole = whole();

    assertThat(texts(whole)).isEqualTo("1865 — 1889");
    assertThat(whole.lines().get(0).lattice().slots().get(0).p()).isEqualTo(0.95);
  }

  @Test
  void twoLinesThatAreHardlyReadAsOneAreTwo() {
    line("1865", 100, 200);
    carve("—", 330, 200);
    line("1889", 450, 200);
    worseAlongWhole = 0.4;

    assertThat(texts(whole())).isEqualTo("1865 / 1889");
  }

  @Test
  void linesOfOtherHeightDirectionOrBaselineAreNeverReadAsOne() {
    line("1865", 100, 200);
    line("1889", 300, 225);
    findTilted("WREN", 500, 225);

    assertThat(texts(whole())).isEqualTo("1865 / 1889 / WREN");
    assertThat(strips).isZero();
  }

  @Test
  void anArchIsLeftAsItIs() {
    List<Point> middle =
        List.of(new Point(100, 260), new Point(180, 205), new Point(260, 200), new Point(340, 250));
    found.add(
        new ReadLine(FoundLine.along(middle, CAPITAL_PX), ViewBuilder.lattice("HANNAH", .95)));
    line("WREN", 390, 255);

    assertThat(texts(whole())).isEqualTo("HANNAH / WREN");
    assertThat(strips).isZero();
  }

  @Test
  void lettersWideApartAsOnASlabSeenFromAboveAreNoColumns() {
    // Each third letter is missed: gaps of four capitals in all three rows.
    for (int row = 0; row < 3; row++) {
      double y = 200 + 60 * row;
      for (int i = 0; i < 9; i++) {
        if (i % 3 != 2) {
          stone.add(new Carved("A", 100 + 85 * i, y, 0.95));
        }
      }
      findAlong(80, 720, y);
    }

    assertThat(whole().lines()).hasSize(3);
  }

  @Test
  void aSlightFaultOfOneRowIsNoColumn() {
    line("HANNAHWREN", 100, 200);
    carve("DIED", 100, 270);
    carve("1848", 400, 270);
    findAlong(100, 400 + 4 * PITCH_PX, 270);
    line("AGED63YEARS", 100, 340);

    assertThat(texts(whole())).isEqualTo("HANNAHWREN / DIED 1848 / AGED63YEARS");
    assertThat(strips).isZero();
  }

  /** Cuts letters and has them found as one line. */
  private void line(String letters, double left, double y) {
    carve(letters, left, y);
    findAlong(left, left + PITCH_PX * letters.length(), y);
  }

  private void carve(String letters, double left, double y) {
    for (int i = 0; i < letters.length(); i++) {
      stone.add(new Carved(letters.substring(i, i + 1), left + PITCH_PX * (i + 0.5), y, 0.95));
    }
  }

  private void findAlong(double left, double right, double y) {
    FoundLine line =
        new FoundLine(
            Polygon.rectangle(left, y - CAPITAL_PX / 2, right, y + CAPITAL_PX / 2), CAPITAL_PX, 1);
    found.add(new ReadLine(line, reading(line, 0)));
  }

  private void findTilted(String letters, double left, double y) {
    double right = left + PITCH_PX * letters.length();
    List<Point> middle = List.of(new Point(left, y), new Point(right, y + 50));
    found.add(new ReadLine(FoundLine.along(middle, CAPITAL_PX), ViewBuilder.lattice(letters, .95)));
  }

  private LineLattice reading(FoundLine line, double worse) {
    double left = line.ribbon().left() - CAPITAL_PX / 2;
    double right = line.ribbon().right() + CAPITAL_PX / 2;
    List<Carved> seen =
        stone.stream()
            .filter(letter -> letter.x() > left && letter.x() < right)
            .filter(letter -> Math.abs(letter.y() - line.ribbon().centre().y()) < CAPITAL_PX / 2)
            .sorted(Comparator.comparingDouble(Carved::x))
            .toList();
    List<Slot> slots = new ArrayList<>();
    for (int i = 0; i < seen.size(); i++) {
      Carved letter = seen.get(i);
      if (i > 0 && letter.x() - seen.get(i - 1).x() > SPACE_PX) {
        double middle = ((letter.x() + seen.get(i - 1).x()) / 2 - left) / (right - left);
        slots.add(Slot.ofWeights(Map.of(" ", 1.0), 0, middle, middle));
      }
      double p = letter.p() - worse;
      slots.add(
          Slot.ofWeights(
              Map.of(letter.letter(), p, "#", 1 - p),
              0,
              (letter.x() - 8 - left) / (right - left),
              (letter.x() + 8 - left) / (right - left)));
    }
    return new LineLattice(slots);
  }

  private ReadPicture whole() {
    ReadPicture picture =
        new ReadPicture(Polygon.rectangle(0, 0, 800, 600), 1, found, List.of(), List.of());
    return new WholeLines(
            lines -> {
              strips += lines.size();
              return lines.stream().map(line -> reading(line, worseAlongWhole)).toList();
            })
        .of(picture);
  }

  private static String texts(ReadPicture picture) {
    return picture.lines().stream()
        .map(line -> line.lattice().best())
        .collect(java.util.stream.Collectors.joining(" / "));
  }
}
