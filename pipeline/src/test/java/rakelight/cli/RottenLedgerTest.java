package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.photo.OddShots;

/** Bytes of the ledger that changed so that what stands there can't be read any more. */
class RottenLedgerTest {
  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void aGround() throws Exception {
    archive = folder.resolve("archive");
    Path shot = folder.resolve("a.jpg");
    OddShots.taken(shot, "Seven", "2024:05:01 10:00:00");
    assertThat(
            Ran.command("init", archive, "--ground", "T", "--datum", "54,-3", "--zone", "UTC")
                .code())
        .isZero();
    assertThat(Ran.command("ingest", archive, shot).code()).isZero();
  }

  private void change(String... statements) throws SQLException {
    try (Connection ledger =
            DriverManager.getConnection("jdbc:sqlite:" + archive.resolve("ledger.sqlite"));
        Statement statement = ledger.createStatement()) {
      for (String one : statements) {
        statement.execute(one);
      }
    }
  }

  @Test
  void aDecisionWhoseTimeCantBeReadIsNamed() throws Exception {
    change(
        "DROP TRIGGER IF EXISTS decision_is_never_changed",
        "UPDATE decision SET at = '2026-11-30T20:41:08.0S7Z' WHERE counter = 2");

    Ran ran = Ran.command("check", archive);

    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.out()).contains("decision 2: isn't as it was written", "Decision 2 can't be");
    assertThat(ran.err()).doesNotContain("fault in this program");
  }

  @Test
  void aPhotographsTimeThatCantBeReadIsNamedAndMadeAnew() throws Exception {
    change("UPDATE photograph SET taken_local = '2024-05-0lT10:00'");

    Ran ran = Ran.command("check", archive);

    assertThat(ran.code()).isEqualTo(1);
    assertThat(ran.err())
        .contains("ledger.sqlite: something in it can't be read", "2024-05-0l")
        .doesNotContain("fault in this program");
    assertThat(Ran.command("check", archive, "--rebuild").code()).isZero();
  }
}
