package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalTest {
  private final UUID stone = Uuid7.next();
  @TempDir Path folder;
  private Archive archive;
  private Journal journal;

  @BeforeEach
  void makeAnArchive() {
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    archive = Archive.init(folder.resolve("archive"), ground, List.of(new Tally()));
    Tally.makeTable(archive);
    journal = archive.journal();
  }

  @AfterEach
  void closeIt() {
    archive.close();
  }

  @Test
  void anUndoneDecisionLeavesTheStateAsIfItHadNeverBeenMade() {
    journal.append(Tally.said(stone, "HERE"));
    Decision second = journal.append(Tally.said(stone, "LIES"));

    journal.undo(second.id(), "Ada");

    assertThat(Tally.rows(archive)).containsEntry(stone.toString(), "HERE 1");
    assertThat(journal.bySubject(stone)).hasSize(3);
    assertThat(journal.standing(stone)).hasSize(1);
    assertThat(journal.stands(second.id())).isFalse();
  }

  @Test
  void anUndoCanBeUndone() {
    journal.append(Tally.said(stone, "HERE"));
    Decision second = journal.append(Tally.said(stone, "LIES"));
    Decision undo = journal.undo(second.id(), "Ada");

    journal.undo(undo.id(), "Ben");

    assertThat(Tally.rows(archive)).containsEntry(stone.toString(), "LIES 2");
    assertThat(journal.stands(second.id())).isTrue();
    assertThatThrownBy(() -> journal.undo(undo.id(), "Ben")).hasMessageContaining("already");
  }

  @Test
  void anUndoIsRefusedWithTheListWhileLaterDecisionsRestOnIt() {
    Decision below = journal.append(Tally.said(stone, "HERE"));
    Decision above = journal.append(Tally.said(stone, "LIES").restingOn(List.of(below.id())));

    assertThatThrownBy(() -> journal.undo(below.id(), "Ada"))
        .isInstanceOf(UndoRefusedException.class)
        .hasMessageContaining(above.id().toString())
        .extracting(e -> ((UndoRefusedException) e).restingOnIt())
        .isEqualTo(List.of(above));

    journal.undo(above.id(), "Ada");
    journal.undo(below.id(), "Ada");
    assertThat(Tally.rows(archive)).isEmpty();
  }

  @Test
  void whatRestsOnAFallenDecisionIsNeitherMadeNorRestored() {
    Decision below = journal.append(Tally.said(stone, "HERE"));
    NewDecision resting = Tally.said(stone, "LIES").restingOn(List.of(below.id()));
    Decision undoAbove = journal.undo(journal.append(resting).id(), "Ada");
    journal.undo(below.id(), "Ada");

    assertThatThrownBy(() -> journal.append(resting)).hasMessageContaining("has been undone");
    assertThatThrownBy(() -> journal.undo(undoAbove.id(), "Ada"))
        .hasMessageContaining("restore first: " + below.id());
    assertThat(journal.stands(undoAbove.id())).isTrue();
  }

  @Test
  void aBatchIsWrittenWhollyOrNotAtAll() {
    NewDecision impossible = Tally.said(stone, "LIES").restingOn(List.of(DecisionId.next()));

    assertThatThrownBy(() -> journal.appendAll(List.of(Tally.said(stone, "HERE"), impossible)))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("There is no decision");

    assertThat(Tally.rows(archive)).isEmpty();
    assertThat(journal.lastCounter()).isEqualTo(1);
  }

  @Test
  void aKindNobodyKnowsIsRefused() {
    assertThatThrownBy(
            () -> journal.append(NewDecision.of("Ada", "word.sung", 1, stone, List.of())))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("word.sung");
  }

  @Test
  void decisionsCanNeitherBeChangedNorRemoved() {
    assertThatThrownBy(
            () -> archive.ledger().write(h -> h.execute("UPDATE decision SET reader = 'x'")))
        .hasMessageContaining("never changed");
    assertThatThrownBy(() -> archive.ledger().write(h -> h.execute("DELETE FROM decision")))
        .hasMessageContaining("never removed");
  }

  @Test
  void aDecisionComesBackFromTheFileAsItWasMade() {
    Decision first = journal.append(Tally.said(stone, "HERE"));
    Decision second = journal.append(Tally.said(stone, "LIES").restingOn(List.of(first.id())));
    archive.close();

    archive = Archive.open(folder.resolve("archive"), List.of(new Tally()));

    assertThat(archive.journal().find(second.id())).contains(second);
    assertThat(archive.journal().since(1)).containsExactly(first, second);
    assertThat(archive.ground().name()).isEqualTo("Fennick Lane");
  }
}
