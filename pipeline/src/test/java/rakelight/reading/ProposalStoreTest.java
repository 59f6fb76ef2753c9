package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Decision;
import rakelight.archive.DerivationKey;
import rakelight.archive.Derived;
import rakelight.archive.Sha256;

class ProposalStoreTest {
  @TempDir Path folder;
  private SmallArchive small;
  private ProposalStore store;
  private Proposal proposal;

  @BeforeEach
  void propose() throws IOException {
    small = new SmallArchive(folder);
    small.propose();
    store = new ProposalStore(small.archive());
    proposal = store.latest(small.face()).orElseThrow();
  }

  @AfterEach
  void close() {
    small.close();
  }

  @Test
  void aProposalThatAPersonUsedIsKeptOnceAsItWas() {
    assertThat(store.kept(proposal.id())).isEmpty();

    store.keep(proposal, "Ada");
    store.keep(proposal, "Bel");

    assertThat(store.kept(proposal.id())).contains(proposal);
    assertThat(small.archive().journal().bySubject(proposal.id().value()))
        .singleElement()
        .extracting(Decision::reader)
        .isEqualTo("Ada");
  }

  @Test
  void undoTakesAKeptProposalBackAndItMayBeKeptAgain() {
    store.keep(proposal, "Ada");
    Decision keeping = small.archive().journal().bySubject(proposal.id().value()).get(0);

    small.archive().journal().undo(keeping.id(), "Ada");
    assertThat(store.kept(proposal.id())).isEmpty();

    store.keep(proposal, "Bel");
    assertThat(store.kept(proposal.id())).contains(proposal);
  }

  @Test
  void aReplayOfTheJournalGivesTheSameKeptProposals() {
    store.keep(proposal, "Ada");

    small.archive().journal().rebuild();

    assertThat(store.kept(proposal.id())).contains(proposal);
  }

  @Test
  void anArchiveWhoseDerivedFolderWasDeletedGetsItsProposalsBack() throws IOException {
    store.keep(proposal, "Ada");
    deleteDerived();
    assertThat(store.latest(small.face())).isEmpty();
    assertThat(store.kept(proposal.id())).contains(proposal);

    Proposer.Report report = small.propose();

    assertThat(report).isEqualTo(new Proposer.Report(3, 0, 2, 0, 0, List.of()));
    Proposal again = store.latest(small.face()).orElseThrow();
    assertThat(again.key()).isEqualTo(proposal.key());
    assertThat(again.lines()).isEqualTo(proposal.lines());
    assertThat(again.views()).isEqualTo(proposal.views());
  }

  @Test
  void aDamagedProposalIsMadeAnew() throws IOException {
    Path file = small.archive().derived().path(MergeFace.KIND, proposal.key(), "json");
    Files.writeString(file, "{\"id\":");
    assertThat(store.latest(small.face())).isEmpty();

    assertThat(small.propose().made()).isEqualTo(1);

    assertThat(store.latest(small.face()).orElseThrow().lines()).isEqualTo(proposal.lines());
  }

  @Test
  void whatAnOlderVersionProposedIsReadUntilItIsProposedAnew() throws IOException {
    Derived derived = small.archive().derived();
    Path made = derived.path(MergeFace.KIND, proposal.key(), "json");
    Path input = derived.path(MergeFace.KIND, proposal.key(), "input.json");
    String older =
        Files.readString(input).replace("\"version\":" + MergeFace.KIND.version(), "\"version\":1");
    DerivationKey key = new DerivationKey(Sha256.of(older).hex());
    Path there = derived.path(MergeFace.KIND, key, "json");
    Files.createDirectories(there.getParent());
    Files.move(made, there);
    Files.writeString(derived.path(MergeFace.KIND, key, "input.json"), older);
    Files.delete(input);
    Path note = derived.note(ProposalStore.NEWEST, small.face().value());
    Files.writeString(note, Files.readString(note).replace(proposal.key().hex(), key.hex()));

    assertThat(store.latest(small.face()).orElseThrow().lines()).isEqualTo(proposal.lines());

    assertThat(small.propose().made()).isEqualTo(1);
    assertThat(store.latest(small.face()).orElseThrow().key()).isEqualTo(proposal.key());
  }

  private void deleteDerived() throws IOException {
    try (Stream<Path> files = Files.walk(small.archive().root().resolve("derived"))) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
