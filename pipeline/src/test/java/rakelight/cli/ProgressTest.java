package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class ProgressTest {
  private final StringWriter out = new StringWriter();
  private long now;

  @Test
  void aTerminalShowsABarWithRateAndRemainingTime() {
    Progress progress = new Progress(new PrintWriter(out, true), true, "files", () -> now);
    progress.start(4, 400);
    now = 2_000_000_000L;

    progress.step(100);

    assertThat(out.toString())
        .isEqualTo(
            "\r[#######.......................] 1 of 4 files, 0.5 a second, 6 s left\u001b[K");
  }

  @Test
  void elsewhereThereIsAPlainLineNowAndThen() {
    Progress progress = new Progress(new PrintWriter(out, true), false, "files", () -> now);
    progress.start(1000, 0);
    for (int i = 0; i < 999; i++) {
      now += 25_000_000L;
      progress.step(0);
    }

    assertThat(out.toString().lines())
        .containsExactly(
            "400 of 1000 files, 40.0 a second, 15 s left",
            "800 of 1000 files, 40.0 a second, 5 s left");
  }

  @Test
  void controlCharactersOfANameNeverReachTheTerminal() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PlainWriter out = new PlainWriter(bytes);

    out.println("a\u001b[2Jb\u009b.jpg\tx");
    out.control("\r\u001b[K");
    out.flush();

    assertThat(bytes.toString(StandardCharsets.UTF_8))
        .isEqualTo("a\uFFFD[2Jb\uFFFD.jpg\tx" + System.lineSeparator() + "\r\u001b[K");
  }
}
