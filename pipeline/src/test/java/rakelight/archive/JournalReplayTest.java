package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Whatever is decided and undone, the state is what a replay of the journal gives. */
class JournalReplayTest {
  @Property(tries = 20)
  void theStateIsWhatAReplayOfTheJournalGives(@ForAll Random random) throws IOException {
    Path folder = Files.createTempDirectory("journal-laws");
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive = Archive.init(folder, ground, List.of(new Tally()))) {
      Tally.makeTable(archive);
      decideAndUndo(archive, random);
    } finally {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  private static void decideAndUndo(Archive archive, Random random) {
    Journal journal = archive.journal();
    List<UUID> stones = Stream.generate(Uuid7::next).limit(3).toList();
    List<DecisionId> made = new ArrayList<>();
    for (int step = 0; step < 25; step++) {
      if (made.isEmpty() || random.nextInt(5) < 3) {
        UUID stone = stones.get(random.nextInt(stones.size()));
        List<DecisionId> restsOn =
            made.stream()
                .filter(id -> random.nextInt(8) == 0 && journal.stands(id))
                .limit(2)
                .toList();
        made.add(journal.append(Tally.said(stone, "word" + step).restingOn(restsOn)).id());
      } else {
        DecisionId target = made.get(random.nextInt(made.size()));
        try {
          made.add(journal.undo(target, "Ada").id());
        } catch (ArchiveException e) {
          assertThat(e).hasMessageStartingWith("Decision ");
        }
      }
    }
    Map<String, String> stored = Tally.rows(archive);
    Map<DecisionId, DecisionId> undone = journal.undone();

    journal.rebuild();

    assertThat(Tally.rows(archive)).isEqualTo(stored);
    assertThat(journal.undone()).isEqualTo(undone);
    for (DecisionId id : made) {
      Decision decision = journal.find(id).orElseThrow();
      if (journal.stands(id)) {
        assertThat(decision.restsOn()).allMatch(journal::stands);
      }
    }
  }
}
