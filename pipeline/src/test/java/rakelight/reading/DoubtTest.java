package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.DerivationKey;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

class DoubtTest {
  private static final Polygon BOX = Polygon.rectangle(0, 0, 600, 40);

  private static Proposal face(LineLattice... lines) {
    PhotographId photograph = PhotographId.next();
    List<ProposedLine> proposed = new ArrayList<>();
    for (LineLattice line : lines) {
      proposed.add(new ProposedLine(proposed.size() + 1, photograph, BOX, 40, 1, line));
    }
    DerivationKey key = new DerivationKey("ab".repeat(32));
    return new Proposal(
        ProposalId.of(photograph.value(), key),
        key,
        Optional.empty(),
        List.of(new FaceView(photograph, BOX, Optional.of(Homography.identity()))),
        proposed,
        List.of(),
        Instant.EPOCH);
  }

  /** Sure letters, one of which (counted from 0) is even between what it is and another. */
  private static LineLattice even(String text, int at, String other) {
    List<Slot> slots = new ArrayList<>(ViewBuilder.lattice(text, 1).slots());
    slots.set(at, Slot.ofWeights(Map.of(text.substring(at, at + 1), .501, other, .499), 0, 0, 1));
    return new LineLattice(slots);
  }

  @Test
  void anEvenDoubtInANameOrADateIsAskedBeforeOneInAVerse() {
    List<Doubt> doubts =
        Doubt.of(
            face(
                even("GONE BUT NOT FORGOTTEN", 1, "C"),
                even("HANNAH WREN", 7, "B"),
                even("DIED MAY 6 1848", 13, "1"),
                even("AGED 63 YEARS", 5, "8")));

    assertThat(doubts)
        .extracting(Doubt::field)
        .containsExactly(Field.NAME, Field.DATE, Field.AGE, Field.VERSE);
    // An even doubt between two is one bit (Shannon 1948).
    assertThat(doubts.get(0).gain()).isCloseTo(1, within(1e-4));
    assertThat(doubts.get(0).line()).isEqualTo(2);
    assertThat(doubts.get(0).letter()).isEqualTo(7);
  }

  @Test
  void aLetterThatLanguageSettlesIsWorthLessToAskAbout() {
    LineLattice seen = even("HANNAH WREN", 4, "B");
    LineLattice leant = new Language(LetterOrder.standard()).leant(seen);

    assertThat(Doubt.bits(leant.slots().get(4))).isLessThan(.5 * Doubt.bits(seen.slots().get(4)));
  }

  @Test
  void sureLettersAreNotAskedAbout() {
    assertThat(Doubt.of(face(ViewBuilder.lattice("HANNAH WREN", 1)))).isEmpty();
  }

  @Test
  void inALineThatCanHardlyBeReadNobodyIsAsked() {
    Proposal face = face(ViewBuilder.lattice("II", .6), even("HANNAH WREN", 7, "B"));

    assertThat(Doubt.of(face)).extracting(Doubt::line).containsOnly(2);
  }

  @Test
  void facesWithNothingReadableAreVisitedFirstThenThoseWithMostAtStake() {
    Proposal clear = face(ViewBuilder.lattice("HANNAH WREN", 1));
    Proposal doubtful = face(ViewBuilder.lattice("HANNAH WREN", .6));
    Proposal little = face(ViewBuilder.lattice("GONE BUT NOT FORGOTTEN", .7));
    Proposal empty = face();
    Proposal noise = face(ViewBuilder.lattice("II", .6));

    List<Visit> visits = Visit.first(List.of(clear, doubtful, little, empty, noise));

    assertThat(visits).extracting(Visit::proposal).containsExactly(noise, empty, doubtful, little);
    assertThat(visits).extracting(Visit::readable).containsExactly(false, false, true, true);
  }
}
