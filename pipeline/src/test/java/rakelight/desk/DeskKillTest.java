package rakelight.desk;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A server that dies in the middle of a reading loses at most the decision under way. */
class DeskKillTest {
  @TempDir Path folder;

  /** Another process with the desk open, until it is killed. */
  static final class Victim {
    private Victim() {}

    public static void main(String[] arguments) throws InterruptedException {
      OpenDesk desk = new OpenDesk(Path.of(arguments[0]));
      System.out.println(desk.face("12") + " " + desk.port());
      Thread.sleep(60_000);
    }
  }

  @Test
  @Timeout(value = 2, unit = TimeUnit.MINUTES)
  void everyDecisionThatWasAnsweredIsThereAfterAKill() throws Exception {
    Process victim =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName(),
                folder.resolve("archive").toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    AtomicInteger answered = new AtomicInteger();
    String face;
    try (BufferedReader said =
        new BufferedReader(new InputStreamReader(victim.getInputStream(), UTF_8))) {
      String[] words = String.valueOf(said.readLine()).split(" ", -1);
      face = words[0];
      Visitor ada = Visitor.named("Ada Fenn", Integer.parseInt(words[1]));
      Thread deciding =
          new Thread(
              () -> {
                try {
                  while (true) {
                    ada.decide(face, line(answered.get()));
                    answered.incrementAndGet();
                  }
                } catch (RuntimeException | AssertionError e) {
                  // The server is gone.
                }
              });
      deciding.start();
      while (answered.get() < 12 && deciding.isAlive()) {
        Thread.onSpinWait();
      }
      assertThat(answered.get()).isGreaterThanOrEqualTo(12);
      victim.destroyForcibly().waitFor();
      deciding.join();
    }
    try (OpenDesk again = new OpenDesk(folder.resolve("archive"))) {
      String last = again.visitor("Ada Fenn").open(face).path("lines").get(0).path("text").asText();
      assertThat(last).isIn("LINE " + (answered.get() - 1), "LINE " + answered.get());
    }
  }

  private static String line(int number) {
    return "{\"do\":\"text\",\"line\":1,\"text\":\"LINE " + number + "\"}";
  }
}
