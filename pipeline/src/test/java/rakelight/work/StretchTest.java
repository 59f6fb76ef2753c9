package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.PhotographId;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.SignId;
import rakelight.picture.Polygon;
import rakelight.reading.LineLattice;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/**
 * A volunteer who sees nothing but what is lit. Letters stand on a strip with the widths of a roman
 * face; a machine has read some of them and gave each the room up to the middle between it and the
 * next, as recognisers do.
 */
class StretchTest {
  /** What is cut, and where each letter ends, in widths of most letters from the strip's left. */
  private record Stone(String cut, double[] ends, ProposedLine read) {
    /** The letter under a place of the strip, or a space. */
    String at(double part) {
      double x = part * ends[ends.length - 1];
      for (int i = 0; i < ends.length; i++) {
        if (x < ends[i]) {
          return cut.substring(i, i + 1);
        }
      }
      return "";
    }
  }

  private static double width(char letter) {
    return switch (letter) {
      case 'I', 'l', 'i', '1', '.', ',', 't', 'f', 'r' -> 0.55;
      case 'M', 'W', 'm', 'w' -> 1.4;
      case ' ' -> 0.7;
      default -> 1;
    };
  }

  /**
   * @param cut what is cut, with a space for the bare stone at both ends
   * @param read for each letter of what is cut what the machine makes of it: one letter, two that
   *     share its room, {@code _} if it overlooks it, and {@code =} if it runs on from the last
   */
  private static Stone stone(int number, String cut, String... read) {
    int n = cut.length();
    double[] ends = new double[n];
    double reached = 0;
    for (int i = 0; i < n; i++) {
      reached += width(cut.charAt(i));
      ends[i] = reached;
    }
    List<String> texts = new ArrayList<>();
    List<Double> centres = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      String as = read.length == 0 ? cut.substring(i, i + 1) : read[i];
      double left = i == 0 ? 0 : ends[i - 1];
      if (as.equals("=")) {
        int last = centres.size() - 1;
        centres.set(last, (centres.get(last) + (left + ends[i]) / 2) / 2);
      } else if (!as.equals("_") && i > 0 && i < n - 1) {
        for (int k = 0; k < as.length(); k++) {
          texts.add(as.substring(k, k + 1));
          centres.add(left + (ends[i] - left) * (k + 0.5) / as.length());
        }
      }
    }
    List<Slot> slots = new ArrayList<>();
    int m = texts.size();
    for (int k = 0; k < m; k++) {
      double before =
          k == 0 ? centres.get(1) - centres.get(0) : centres.get(k) - centres.get(k - 1);
      double after =
          k == m - 1 ? centres.get(k) - centres.get(k - 1) : centres.get(k + 1) - centres.get(k);
      slots.add(
          Slot.ofWeights(
              Map.of(texts.get(k), 1.0),
              0,
              (centres.get(k) - before / 2) / reached,
              (centres.get(k) + after / 2) / reached));
    }
    ProposedLine line =
        new ProposedLine(
            number,
            PhotographId.next(),
            Polygon.rectangle(20, 0, 40 * reached - 20, 40),
            40,
            1,
            new LineLattice(slots));
    return new Stone(cut, ends, line);
  }

  private static Draft draft(Stone... stones) {
    List<Draft.Line> lines = new ArrayList<>();
    for (Stone stone : stones) {
      StringBuilder text = new StringBuilder();
      List<Draft.Place> places = new ArrayList<>();
      List<Slot> slots = stone.read().lattice().slots();
      for (int i = 0; i < slots.size(); i++) {
        text.append(slots.get(i).best());
        if (!slots.get(i).best().isBlank()) {
          places.add(new Draft.Place(stone.read().number(), i, Draft.Decided.NOT));
        }
      }
      lines.add(new Draft.Line(text.toString(), places));
    }
    return new Draft(lines, Optional.empty());
  }

  private static List<Optional<Stretch>> stretches(Draft.Line line, Stone... stones)
      throws LeidenException {
    return Stretch.of(
        DraftEditing.places(line).stream()
            .map(
                seen ->
                    new Stretch.Sought(
                        letter(seen), seen.spaceBefore(), slotted(seen.place(), stones)))
            .toList());
  }

  private static Optional<Stretch.Slotted> slotted(Draft.Place place, Stone... stones) {
    if (!place.isShown()) {
      return Optional.empty();
    }
    ProposedLine line = stones[place.line() - 1].read();
    Slot slot = line.lattice().slots().get(place.slot());
    return Optional.of(new Stretch.Slotted(line, slot.from(), slot.to()));
  }

  private static String letter(DraftEditing.Seen seen) {
    return seen.ink() instanceof Letter letter ? letter.text() : "";
  }

  /** What the volunteer sees in the middle of what is lit, letter after letter; ? where nothing. */
  private static String lit(Draft draft, int line, Stone... stones) throws LeidenException {
    StringBuilder seen = new StringBuilder();
    for (Optional<Stretch> stretch : stretches(draft.lines().get(line - 1), stones)) {
      seen.append(
          stretch.map(s -> stones[s.on().number() - 1].at((s.from() + s.to()) / 2)).orElse("?"));
    }
    return seen.toString();
  }

  private static String letters(Draft draft, int line) throws LeidenException {
    StringBuilder letters = new StringBuilder();
    DraftEditing.places(draft.lines().get(line - 1)).forEach(seen -> letters.append(letter(seen)));
    return letters.toString();
  }

  private static Letter clear(String text) {
    return Letter.clear(new SignId(1), text);
  }

  private static String[] asCut(String cut) {
    return cut.split("");
  }

  @Test
  void everyLetterThatWasReadIsLitWhereItStands() throws Exception {
    Stone stone = stone(1, " HANNAH WILLIAMS DIED 1848 ");
    assertThat(lit(draft(stone), 1, stone)).isEqualTo("HANNAHWILLIAMSDIED1848");
  }

  @Test
  void oneLetterThatTheMachineOverlookedIsPutInAndAllAreLitWhereTheyStand() throws Exception {
    String cut = " HANNAH WILLIAMS DIED 1848 ";
    int tried = 0;
    for (int i = 1; i < cut.length() - 1; i++) {
      if (cut.charAt(i) == ' ') {
        continue;
      }
      String[] read = asCut(cut);
      read[i] = "_";
      Stone stone = stone(1, cut, read);
      int at = cut.substring(1, i).replace(" ", "").length() + 1;
      boolean space = cut.charAt(i - 1) == ' ' && i > 1;
      Draft draft =
          DraftEditing.insert(draft(stone), 1, at, clear(cut.substring(i, i + 1)), space, "");
      if (space) {
        draft = DraftEditing.space(draft, 1, at + 1, false);
      }
      assertThat(lit(draft, 1, stone)).as("without letter %d", i).isEqualTo(letters(draft, 1));
      tried++;
    }
    assertThat(tried).isEqualTo(22);
  }

  @Test
  void aLineTypedWholeLightsEveryLetterWhereItStands() throws Exception {
    String cut = " HANNAH WILLIAMS DIED 1848 ";
    String[] read = asCut(cut);
    read[2] = "_"; // the first A
    read[8] = "VV"; // W
    read[11] = "I"; // L
    read[14] = "N"; // M
    read[17] = "0"; // D
    read[24] = "_"; // the first 8
    Stone stone = stone(1, cut, read);
    Draft draft = DraftEditing.text(draft(stone), 1, "HANNAH WILLIAMS DIED 1848");
    assertThat(lit(draft, 1, stone)).isEqualTo("HANNAHWILLIAMSDIED1848");
  }

  @Test
  void theSameLettersInAnotherCaseKeepTheirPlaceWhereOthersAreLeftOut() throws Exception {
    Stone stone = stone(1, " HWREN ");
    Draft draft = DraftEditing.text(draft(stone), 1, "wren");
    assertThat(lit(draft, 1, stone)).isEqualTo("WREN");
    assertThat(lit(DraftEditing.text(draft(stone), 1, "en"), 1, stone)).isEqualTo("EN");
  }

  @Test
  void aSlotThatIsTwoLettersIsDivided() throws Exception {
    String cut = " CIVIS HIC IACET ";
    String[] read = asCut(cut);
    read[2] = "M"; // IV
    read[3] = "=";
    Stone stone = stone(1, cut, read);
    Draft draft = DraftEditing.put(draft(stone), 1, 2, 2, clear("I"), "");
    draft = DraftEditing.insert(draft, 1, 3, clear("V"), false, "");
    assertThat(letters(draft, 1)).isEqualTo("CIVISHICIACET");
    assertThat(lit(draft, 1, stone)).isEqualTo("CIVISHICIACET");
    List<Optional<Stretch>> stretches = stretches(draft.lines().get(0), stone);
    assertThat(stretches.get(2).orElseThrow().reckoned()).isTrue();
    assertThat(stretches.get(0).orElseThrow().reckoned()).isFalse();
  }

  @Test
  void joinedLinesAreLitEachOnItsOwnStripAlsoWhenSplitElsewhere() throws Exception {
    Stone first = stone(1, " WILLIAM WR ");
    Stone second = stone(2, " EN DIED ");
    Draft draft = DraftEditing.joinLines(draft(first, second), 1);
    draft = DraftEditing.space(draft, 1, 10, false);
    assertThat(lit(draft, 1, first, second)).isEqualTo("WILLIAMWRENDIED");
    assertThat(stretches(draft.lines().get(0), first, second))
        .extracting(stretch -> stretch.orElseThrow().on().number())
        .containsExactly(1, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2);
    draft = DraftEditing.splitLine(draft, 1, 8);
    assertThat(lit(draft, 1, first, second)).isEqualTo("WILLIAM");
    assertThat(lit(draft, 2, first, second)).isEqualTo("WRENDIED");
  }

  @Test
  void lettersBeyondTheStripHaveNoPlace() throws Exception {
    Stone stone = stone(1, " Tull & ");
    Draft draft = DraftEditing.text(draft(stone), 1, "Tull & Son, Tarrow");
    assertThat(lit(draft, 1, stone)).startsWith("Tull&").endsWith("Tarrow".replaceAll(".", "?"));
    assertThat(stretches(draft.lines().get(0), stone).get(14)).isEmpty();
  }

  @Test
  void aLineThatNoMachineSawHasNoPlaceAtAll() throws Exception {
    Draft draft = DraftEditing.addLine(new Draft(List.of(), Optional.empty()), 1, "HIS WIFE [..]");
    assertThat(lit(draft, 1)).isEqualTo("?????????");
  }

  @Test
  void aLetterReadAnewAndAGapKeepTheirPlace() throws Exception {
    Stone stone = stone(1, " DIED 1348 ");
    Draft draft = DraftEditing.put(draft(stone), 1, 6, 6, clear("8"), "");
    draft =
        DraftEditing.put(
            draft, 1, 7, 7, Gap.of(new SignId(1), Gap.Reason.LOST, new Extent.Exact(1)), "");
    assertThat(lit(draft, 1, stone)).isEqualTo("DIED1348");
  }
}
