package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.photo.Face;

/** What proposals leave open is worked out once, whoever opens the queue and however often. */
class StakesKeptTest {
  @TempDir Path folder;
  private WorkGround ground;
  private Face wren;

  @BeforeEach
  void open() {
    ground = new WorkGround(folder.resolve("archive"));
    wren = ground.face("2", "HANNAH W(R60K30)EN");
    ground.face("10", "ELI");
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private List<Stakes> stakes() {
    return new Queue(ground.archive(), new Leases(Clock.systemUTC()), ground.faces())
        .all().stream().map(Queue.Item::stakes).toList();
  }

  /** So that whoever reads a proposal finds none. */
  private void forgetProposals() throws IOException {
    try (Stream<Path> files = Files.walk(ground.archive().root().resolve("derived"))) {
      files
          .filter(file -> file.toString().endsWith(".json"))
          .filter(file -> !file.toString().contains("newest-proposal"))
          .forEach(
              file -> {
                try {
                  file.toFile().setWritable(true);
                  Files.writeString(file, "{");
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
    }
  }

  @Test
  void aQueueOpenedAnewReadsNoProposalAgain() throws IOException {
    List<Stakes> before = stakes();
    assertThat(before.get(0).open()).isEqualTo(new Doubts(1, 1));
    assertThat(before.get(1).open()).isEqualTo(Doubts.NONE);
    forgetProposals();
    assertThat(stakes()).isEqualTo(before);
  }

  @Test
  void anotherProposalHasStakesOfItsOwn() {
    stakes();
    ground.propose(wren, "(H60M40)ANNAH W(R60K30)EN");
    assertThat(stakes().get(0).open()).isEqualTo(new Doubts(2, 2));
  }

  /** Where this fails because the rules have changed, give what is kept another version. */
  @Test
  void whatIsKeptIsWhatTheRulesOfItsVersionGive() {
    ground.propose(
        wren, "GONE BUT NOT F(O50C50)RGOTTEN", "HANNAH W(R60K30)EN", "died 18(350840)4 aged 61");
    Stakes stakes = stakes().get(0);
    assertThat(stakes.open()).isEqualTo(new Doubts(3, 3));
    assertThat(stakes.heldBack()).isEqualTo(new Doubts(25, 25));
  }
}
