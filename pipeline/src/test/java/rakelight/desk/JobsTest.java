package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Commands run from pages, here by a program that only talks. */
class JobsTest {
  private static final String LONG_MS = "60000";

  @TempDir Path records;
  private Jobs jobs;

  @BeforeEach
  void open() {
    jobs =
        new Jobs(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Talker.class.getName()),
            records,
            Clock.systemUTC());
  }

  @AfterEach
  void close() {
    jobs.close();
  }

  @Test
  void whatACommandSaysIsKeptAndHowFarItIsStandsApart() throws Exception {
    Job job =
        over(
            "0",
            "0",
            "a.jpg: kept, though damaged.",
            "3 of 12 files, 1.0 a second, 9 s left",
            "12 photographs taken.");
    Job.Look look = job.look();
    assertThat(look.state()).isEqualTo(Job.State.DONE);
    assertThat(look.lines())
        .containsExactly("a.jpg: kept, though damaged.", "12 photographs taken.");
    assertThat(look.done()).isEqualTo(3);
    assertThat(look.all()).isEqualTo(12);
    assertThat(Files.readAllLines(job.record().orElseThrow())).isEqualTo(look.lines());
  }

  @Test
  void aCommandThatEndsWithAFaultAsksToBeSeenTo() throws Exception {
    assertThat(over("1", "0", "b.jpg: refused.").look().state()).isEqualTo(Job.State.TO_SEE_TO);
  }

  @Test
  void oneIsStoppedWhileItRunsAndTheNextBeforeItBegins() throws Exception {
    CountDownLatch bothOver = new CountDownLatch(2);
    Job first = start(bothOver, "0", LONG_MS, "begun");
    Job second = start(bothOver, "0", LONG_MS, "begun");
    while (first.look().lines().isEmpty()) {
      Thread.onSpinWait();
    }
    assertThat(second.look().state()).isEqualTo(Job.State.WAITING);
    assertThat(jobs.open()).isEqualTo(2);
    second.stop();
    assertThat(second.look().state()).isEqualTo(Job.State.STOPPED);
    first.stop();
    assertThat(bothOver.await(60, TimeUnit.SECONDS)).isTrue();
    assertThat(first.look().state()).isEqualTo(Job.State.STOPPED);
    assertThat(second.look().lines()).isEmpty();
    assertThat(jobs.open()).isZero();
  }

  @Test
  void aProgramThatCannotBeRunIsSaid() throws Exception {
    jobs.close();
    jobs = new Jobs(List.of(records.resolve("none").toString()), records, Clock.systemUTC());
    Job job = over("check");
    assertThat(job.look().state()).isEqualTo(Job.State.TO_SEE_TO);
    assertThat(job.look().lines()).singleElement().asString().contains("could not be run");
  }

  private Job over(String... words) throws Exception {
    CountDownLatch over = new CountDownLatch(1);
    Job job = start(over, words);
    assertThat(over.await(60, TimeUnit.SECONDS)).isTrue();
    return job;
  }

  private Job start(CountDownLatch over, String... words) throws IOException {
    return jobs.start(Job.Kind.CHECK, "A job", List.of(words), over::countDown);
  }
}
