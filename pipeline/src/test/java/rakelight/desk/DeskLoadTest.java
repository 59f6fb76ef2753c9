package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * Fifty readers deciding at once; run it by {@code -Ddesk.load=60} (seconds). Each has a face of
 * his own and decides again {@code -Ddesk.pause=} milliseconds (500 if not said) after each answer,
 * give or take half, which is faster than people do.
 */
@EnabledIfSystemProperty(named = "desk.load", matches = "\\d+")
class DeskLoadTest {
  private static final int READERS = 50;

  /** Decisions before this are kept and counted, but not timed: the program has just started. */
  private static final long WARM_UP_NANOS = 10_000_000_000L;

  @TempDir Path folder;

  private record Done(int decisions, long[] nanos, String last, String face, Visitor visitor) {}

  @Test
  void fiftyReadersLoseNoDecision() throws Exception {
    int seconds = Integer.getInteger("desk.load");
    int pauseMillis = Integer.getInteger("desk.pause", 500);
    try (OpenDesk desk = new OpenDesk(folder.resolve("archive"))) {
      List<String> faces = IntStream.range(0, READERS).mapToObj(i -> desk.face("" + i)).toList();
      ExecutorService pool = Executors.newFixedThreadPool(READERS);
      List<Future<Done>> running = new ArrayList<>();
      long before = desk.archive().journal().lastCounter();
      for (int i = 0; i < READERS; i++) {
        int reader = i;
        running.add(
            pool.submit(
                () -> read(desk, "Reader " + reader, faces.get(reader), seconds, pauseMillis)));
      }
      int decisions = 0;
      List<Long> nanos = new ArrayList<>();
      for (Future<Done> future : running) {
        Done done = future.get();
        decisions += done.decisions();
        Arrays.stream(done.nanos()).forEach(nanos::add);
        JsonNode open = done.visitor().open(done.face());
        assertThat(open.path("lines").get(0).path("text").asText()).isEqualTo(done.last());
      }
      pool.shutdown();
      long drafted =
          desk.archive().journal().since(before).stream()
              .filter(decision -> decision.kind().equals("reading.drafted"))
              .count();
      nanos.sort(null);
      System.out.printf(
          Locale.ROOT,
          "%d readers, %d s: %d decisions, %d in the journal; ms: median %.1f, p99 %.1f, most %.1f%n",
          READERS,
          seconds,
          decisions,
          drafted,
          nanos.get(nanos.size() / 2) / 1e6,
          nanos.get((int) (nanos.size() * 0.99)) / 1e6,
          nanos.get(nanos.size() - 1) / 1e6);
      assertThat(drafted).isEqualTo(decisions);
    }
  }

  private static Done read(OpenDesk desk, String name, String face, int seconds, int pauseMillis)
      throws InterruptedException {
    Visitor visitor = desk.visitor(name);
    String version = visitor.open(face).path("version").asText();
    Random random = new Random(name.hashCode());
    List<Long> nanos = new ArrayList<>();
    String last = "";
    int decisions = 0;
    long begun = System.nanoTime();
    long end = begun + WARM_UP_NANOS + seconds * 1_000_000_000L;
    while (System.nanoTime() < end) {
      if (pauseMillis > 0) {
        Thread.sleep(pauseMillis / 2 + random.nextInt(pauseMillis));
      }
      last = "LINE " + decisions;
      long from = System.nanoTime();
      Visitor.Answer answer =
          visitor.post(
              "/api/faces/" + face + "/decide",
              "{\"version\":\""
                  + version
                  + "\",\"do\":\"text\",\"line\":1,\"text\":\""
                  + last
                  + "\"}");
      if (System.nanoTime() - begun > WARM_UP_NANOS) {
        nanos.add(System.nanoTime() - from);
      }
      assertThat(answer.status()).as(answer.body()).isEqualTo(200);
      version = answer.json().path("version").asText();
      decisions++;
    }
    return new Done(
        decisions, nanos.stream().mapToLong(Long::longValue).toArray(), last, face, visitor);
  }
}
