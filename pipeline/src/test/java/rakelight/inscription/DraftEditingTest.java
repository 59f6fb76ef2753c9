package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DraftEditingTest {
  private static Draft draft(String... lines) {
    List<Draft.Line> all = new ArrayList<>();
    for (String line : lines) {
      all.add(Draft.Line.of(line, false));
    }
    return new Draft(all, Optional.empty());
  }

  private static List<String> texts(Draft draft) {
    return draft.lines().stream().map(Draft.Line::text).toList();
  }

  private static Gap gap(Gap.Reason reason, Extent extent) {
    return Gap.of(new SignId(1), reason, extent);
  }

  @Test
  void aGapOfThreeIsThreePlacesAndOneGapAgain() throws Exception {
    Draft lost =
        DraftEditing.put(draft("HANNAH"), 1, 2, 4, gap(Gap.Reason.LOST, new Extent.Exact(1)), "");
    assertThat(texts(lost)).containsExactly("H[...]AH");
    Draft seen = DraftEditing.put(lost, 1, 3, 3, Letter.clear(new SignId(1), "N"), "");
    assertThat(texts(seen)).containsExactly("H[.]N[.]AH");
    assertThat(seen.lines().get(0).places().stream().map(Draft.Place::decided).toList())
        .containsExactly(false, true, true, true, false, false);
  }

  @Test
  void oneGapMayTakeMorePlacesThanTheLetterItStandsFor() throws Exception {
    Draft lost =
        DraftEditing.put(draft("died 18"), 1, 6, 6, gap(Gap.Reason.LOST, new Extent.Exact(4)), "");
    assertThat(texts(lost)).containsExactly("died 1[....]");
    assertThat(lost.lines().get(0).places()).hasSize(9);
    Draft unknown = DraftEditing.put(lost, 1, 6, 6, gap(Gap.Reason.LOST, new Extent.Unknown()), "");
    assertThat(texts(unknown)).containsExactly("died 1[- - -][...]");
  }

  @Test
  void aSignThatReachesOverSeveralLettersIsntTornApart() {
    assertThatThrownBy(() -> DraftEditing.splitLine(draft("d(ie)d 1(8)"), 1, 3))
        .isInstanceOf(DraftEditing.RefusedException.class)
        .hasMessageContaining("reaches over");
    assertThatThrownBy(() -> DraftEditing.remove(draft("A"), 1, 1))
        .isInstanceOf(DraftEditing.RefusedException.class)
        .hasMessageContaining("take the whole line out");
  }

  @Test
  void anEarlierDraftIsReadAsItWas() {
    Draft.Line settled =
        rakelight.archive.Json.read("{\"text\":\"HANN[..]\",\"settled\":true}", Draft.Line.class);
    assertThat(settled).isEqualTo(Draft.Line.of("HANN[..]", true));
    assertThat(settled.places()).hasSize(6);
    assertThat(rakelight.archive.Json.text(settled))
        .isEqualTo("{\"text\":\"HANN[..]\",\"places\":[\"!\",\"!\",\"!\",\"!\",\"!\",\"!\"]}");
  }

  @Test
  void whateverIsDoneALineHasAsManyPlacesAsLettersAndReadsBack() throws Exception {
    long seed = 20261125;
    Random random = new Random(seed);
    Draft draft = draft("IN MEMORY OF", "HANN[..] W\u1E5CEN".replace("\u1E5C", "R"), "died 18[.]4");
    int done = 0;
    for (int i = 0; i < 3000; i++) {
      int line = 1 + random.nextInt(Math.max(1, draft.lines().size()));
      int at = 1 + random.nextInt(14);
      Draft before = draft;
      try {
        draft =
            switch (random.nextInt(10)) {
              case 0 ->
                  DraftEditing.put(
                      draft, line, at, at, gap(Gap.Reason.LOST, new Extent.Exact(1)), "");
              case 1 ->
                  DraftEditing.put(
                      draft, line, at, at, gap(Gap.Reason.ILLEGIBLE, new Extent.Unknown()), "");
              case 2 ->
                  DraftEditing.put(
                      draft,
                      line,
                      at,
                      at,
                      Letter.of(new SignId(1), "A", Standing.SUPPLIED),
                      "from the register (" + i + ")");
              case 3 -> DraftEditing.stand(draft, line, at, at, Standing.UNCLEAR);
              case 4 ->
                  DraftEditing.insert(
                      draft, line, at, Letter.clear(new SignId(1), "B"), random.nextBoolean(), "");
              case 5 -> DraftEditing.remove(draft, line, at);
              case 6 -> DraftEditing.space(draft, line, at, random.nextBoolean());
              case 7 -> DraftEditing.splitLine(draft, line, at);
              case 8 -> DraftEditing.joinLines(draft, line);
              default -> DraftEditing.addLine(draft, line, "ELI");
            };
        done++;
      } catch (DraftEditing.RefusedException e) {
        assertThat(draft).isSameAs(before);
      }
      if (draft.lines().size() > 12) {
        draft = DraftEditing.removeLine(draft, 1 + random.nextInt(12));
      }
      int step = i;
      for (Draft.Line one : draft.lines()) {
        assertThat(DraftEditing.places(one))
            .as("seed %d, step %d: %s", seed, step, one.text())
            .hasSize(one.places().size());
      }
      assertThat(draft.inscription().lines()).hasSize(draft.lines().size());
    }
    assertThat(done).isGreaterThan(1000);
  }

  @Test
  void aReadingReopenedHasEverySignItHadOrIsRefusedWhole() {
    Random random = new Random(7);
    int reopened = 0;
    int parted = 0;
    for (int i = 0; i < 300; i++) {
      Inscription reading = RandomInscription.next(random);
      assertThat(DraftEditing.plain(reading, List.of(), Optional.empty()).lines())
          .hasSameSizeAs(reading.lines());
      try {
        Draft draft = DraftEditing.reopened(reading, List.of(), Optional.empty());
        assertThat(signs(draft)).isEqualTo(signs(reading));
        assertThat(draft.isSettled()).isTrue();
        reopened++;
        parted += texts(draft).equals(Leiden.printLines(reading)) ? 0 : 1;
      } catch (DraftEditing.RefusedException e) {
        assertThat(e).hasMessageContaining("share one").hasMessageContaining("`confirm`");
      }
    }
    assertThat(reopened).isGreaterThan(150);
    assertThat(parted).isPositive();
  }

  /** Signs without their ids. */
  private static List<Sign> signs(Inscription inscription) {
    return inscription.signs().stream().map(sign -> sign.withId(new SignId(1))).toList();
  }

  private static List<Sign> signs(Draft draft) {
    try {
      return signs(draft.inscription());
    } catch (LeidenException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void whatWasSuppliedOverALinesEndIsReopenedLineByLine() throws Exception {
    Inscription reading = Leiden.parse("WILL(ia\n|m) WREN");
    Draft draft = DraftEditing.reopened(reading, List.of(), Optional.empty());
    assertThat(texts(draft)).containsExactly("WILL(ia)", "|(m) WREN");
  }

  @Test
  void aNumberOverALinesEndIsRefusedByItsLinesAndShownWithoutItsValue() throws Exception {
    Inscription reading = Leiden.parse("DIED\nAGED #number(XX\n|V=25)");
    assertThatThrownBy(() -> DraftEditing.reopened(reading, List.of(), Optional.empty()))
        .isInstanceOf(DraftEditing.RefusedException.class)
        .hasMessage(
            "lines 2 and 3 share one number, “25”, so they can't be changed one by one; write the"
                + " whole reading anew with `confirm`");
    assertThat(texts(DraftEditing.plain(reading, List.of(), Optional.empty())))
        .containsExactly("DIED", "AGED XX", "|V");
  }
}
