package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.archive.Json;

class LanguageTest {
  private static final LetterOrder ORDER = LetterOrder.standard();
  private static final Language LANGUAGE = new Language(ORDER);

  /** Sure letters, with one slot of its own at a place. */
  private static LineLattice line(String text, int at, Map<String, Double> doubtful) {
    List<Slot> slots = new ArrayList<>();
    int n = text.length();
    for (int i = 0; i < n; i++) {
      slots.add(
          Slot.ofWeights(
              i == at ? doubtful : Map.of(text.substring(i, i + 1), 1.0),
              0,
              (double) i / n,
              (i + 1.0) / n));
    }
    return new LineLattice(slots);
  }

  @Test
  void aWellKnownWordIsLeantToThoughAnotherLetterWasSeenALittleBetter() {
    LineLattice leant = LANGUAGE.leant(line("IN MEMORY OF", 5, Map.of("N", .55, "M", .45)));

    assertThat(leant.best()).isEqualTo("IN MENORY OF");
    assertThat(leant.leaning()).isEqualTo("IN MEMORY OF");
    assertThat(leant.slots().get(5).p("N")).isEqualTo(.55);
  }

  @Test
  void aRareNameThatWasSeenWellStays() {
    LineLattice leant = LANGUAGE.leant(line("ZEBULON", 2, Map.of("B", .97, "R", .03)));

    assertThat(leant.leaning()).isEqualTo("ZEBULON");
  }

  @Test
  void figuresGetNoLean() {
    LineLattice leant =
        LANGUAGE.leant(line("DIED 1848", 7, Map.of("4", .4, "1", .35, "A", .15, "I", .1)));

    Slot slot = leant.slots().get(7);
    assertThat(slot.alternatives().get(0).leant()).isEqualTo(.4);
    assertThat(slot.alternatives().get(1).leant()).isEqualTo(.35);
    assertThat(slot.alternatives().stream().mapToDouble(Alternative::leant).sum())
        .isCloseTo(1, within(1e-9));
  }

  @Test
  void languageMakesNoLetterSeenThatNoPictureShows() {
    // Nothing was most probably seen where MEMORY wants its first M; nor is a letter offered that
    // isn't among the alternatives.
    LineLattice leant = LANGUAGE.leant(line("IN MEMORY OF", 3, Map.of("", .7, "M", .2, "N", .1)));

    assertThat(leant.slots().get(3).leaning()).isEmpty();
    assertThat(leant.slots().get(3).alternatives())
        .extracting(Alternative::text)
        .containsExactly("", "M", "N");
    assertThat(leant.slots().get(3).alternatives().get(0).leant()).isCloseTo(.7, within(1e-9));
  }

  @Test
  void aDroppedSpaceMayBeLeantTo() {
    LineLattice leant = LANGUAGE.leant(line("WIFE OF JOHN", 4, Map.of("", .55, " ", .45)));

    assertThat(leant.best()).isEqualTo("WIFEOF JOHN");
    assertThat(leant.leaning()).isEqualTo("WIFE OF JOHN");
  }

  @Test
  void onRandomLinesTheSharesOfLettersFiguresAndBlanksStayAsSeen() {
    Random random = new Random(7);
    String[] texts = {"A", "E", "n", "r", "8", "3", "", " ", ".", "TH"};
    for (int round = 0; round < 200; round++) {
      List<Slot> slots = new ArrayList<>();
      int n = 1 + random.nextInt(12);
      for (int i = 0; i < n; i++) {
        Map<String, Double> weights = new java.util.TreeMap<>();
        for (int k = 0; k < 4; k++) {
          weights.put(texts[random.nextInt(texts.length)], random.nextDouble() + 1e-3);
        }
        slots.add(Slot.ofWeights(weights, 0, i, i + 1));
      }
      LineLattice leant = LANGUAGE.leant(new LineLattice(slots));
      for (int i = 0; i < n; i++) {
        double inkSeen = slots.get(i).ink();
        double inkLeant =
            leant.slots().get(i).alternatives().stream()
                .filter(a -> !a.text().isBlank())
                .mapToDouble(Alternative::leant)
                .sum();
        assertThat(inkLeant).as("round %d, seed 7", round).isCloseTo(inkSeen, within(1e-9));
        assertThat(leant.slots().get(i).p()).isEqualTo(slots.get(i).p());
      }
    }
  }

  @Test
  void whatFollowsAHistorySumsToOne() {
    for (String history : List.of("", " ", " IN M", "QZX", " JOHN")) {
      double sum = 0;
      for (char sign : "ABCDEFGHIJKLMNOPQRSTUVWXYZ 0.".toCharArray()) {
        sum += ORDER.p(history, sign);
      }
      assertThat(sum).as(history).isCloseTo(1, within(1e-9));
    }
    assertThat(ORDER.p(" IN M", 'E')).isGreaterThan(.8);
  }

  @Test
  void anAlternativeWrittenBeforeThereWasALeanIsStillRead() {
    Slot slot =
        Json.read(
            "{\"alternatives\":[{\"text\":\"8\",\"p\":0.9},{\"text\":\"3\",\"p\":0.1}],"
                + "\"from\":0.0,\"to\":0.1}",
            Slot.class);

    assertThat(slot.alternatives().get(0).leaning()).isEmpty();
    assertThat(slot.leaning()).isEqualTo("8");
  }
}
