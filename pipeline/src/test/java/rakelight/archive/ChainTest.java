package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What somebody does to a journal behind the program's back. */
class ChainTest {
  private static final Ground GROUND =
      new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));

  @TempDir Path folder;
  private Path root;

  @BeforeEach
  void threeDecisions() {
    root = folder.resolve("archive");
    try (Archive archive = Archive.init(root, GROUND, List.of())) {
      describe(archive, "Fennick Lane North");
      describe(archive, "Fennick Lane South");
    }
  }

  private static void describe(Archive archive, String name) {
    archive.describe(
        new Ground(name, GROUND.latitudeDegrees(), GROUND.longitudeDegrees(), GROUND.zone()),
        "Ada Fenn");
  }

  @Test
  void anUntouchedJournalHoldsTogether() {
    assertThat(faults()).isEmpty();
  }

  @Test
  void aChangedPayloadIsNamedThoughItsTriggersWereDropped() throws SQLException {
    sql(
        "DROP TRIGGER decision_is_never_changed",
        "UPDATE decision SET payload = replace(payload, 'North', 'Nord') WHERE counter = 2");

    assertThat(faults()).contains("journal-broken decision 2");
  }

  @Test
  void aChangedReaderDayOrFoundationIsNamed() throws SQLException {
    sql(
        "DROP TRIGGER decision_is_never_changed",
        "UPDATE decision SET reader = 'Bo' WHERE counter = 3");

    assertThat(faults()).contains("journal-broken decision 3");
  }

  @Test
  void aDecisionThatWasTakenOutIsMissed() throws SQLException {
    sql("DROP TRIGGER decision_is_never_removed", "DELETE FROM decision WHERE counter = 2");

    assertThat(faults()).contains("journal-broken decision 2");
  }

  @Test
  void aJournalWrittenAnewFromItsBeginningIsToldByABackup() throws Exception {
    Path backup = folder.resolve("backup");
    try (Archive archive = Archive.open(root, List.of())) {
      Backup.copy(archive, backup, Instant.EPOCH, file -> {});
    }
    sql(
        "DROP TRIGGER decision_is_never_changed",
        "DROP TRIGGER chain_is_never_removed",
        "UPDATE decision SET payload = replace(payload, 'North', 'Nord') WHERE counter = 2",
        "DELETE FROM decision_chain");
    // The program writes the chain anew, as for an archive of an earlier program.
    try (Archive archive = Archive.open(root, List.of())) {
      Check check = new Check(archive);
      check.against(backup);

      assertThat(check.run(Set.of(), file -> {}).faults())
          .extracting(Check.Fault::code)
          .contains("journal-rewritten")
          .doesNotContain("journal-broken");
    }
  }

  @Test
  void anArchiveGoesOnFromItsBackup() throws Exception {
    Path backup = folder.resolve("backup");
    try (Archive archive = Archive.open(root, List.of())) {
      Backup.copy(archive, backup, Instant.EPOCH, file -> {});
      describe(archive, "Fennick Lane East");
      Check check = new Check(archive);
      check.against(backup);

      assertThat(check.run(Set.of(), file -> {}).faults()).isEmpty();
    }
    assertThat(Files.list(root.resolve("derived")).toList()).noneMatch(this::isCopy);
  }

  private boolean isCopy(Path file) {
    return file.getFileName().toString().startsWith("check-");
  }

  private List<String> faults() {
    try (Archive archive = Archive.open(root, List.of())) {
      return new Check(archive)
          .run(Set.of(), file -> {}).faults().stream()
              .map(fault -> fault.code() + " " + fault.where())
              .toList();
    }
  }

  private void sql(String... statements) throws SQLException {
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + root.resolve(Ledger.FILE));
        Statement statement = connection.createStatement()) {
      for (String one : statements) {
        statement.execute(one);
      }
    }
  }
}
