package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;

/**
 * What the queue and the ground's page cost on a ground of {@code -Ddesk.faces=} faces, every third
 * of them read, each with a proposal of its own: to open the desk, the first answer of a desk just
 * opened, and those after it, each after one more letter has been decided.
 */
@EnabledIfSystemProperty(named = "desk.faces", matches = "\\d+")
class DeskQueueBenchmark {
  private static final int ASKED = 40;

  @TempDir Path folder;

  @Test
  void whatTheNextFaceCosts() throws Exception {
    int faces = Integer.getInteger("desk.faces");
    Random random = new Random(12);
    Path archive = folder.resolve("archive");
    try (OpenDesk desk = new OpenDesk(archive)) {
      for (int i = 0; i < faces; i++) {
        String[] lines = new String[6];
        for (int line = 0; line < lines.length; line++) {
          lines[line] = line(random);
        }
        String face = desk.face("A-" + i, lines);
        if (i % 3 == 0) {
          desk.readings()
              .sign(
                  FaceId.of(face),
                  Leiden.parse("ELI HOLT\ndied 18" + (10 + random.nextInt(89)) + "\naged 61"),
                  Basis.FROM_PHOTOGRAPHS,
                  Optional.empty(),
                  List.of(),
                  "Ada Fenn");
        }
      }
    }
    open(archive, faces, "first");
    open(archive, faces, "again");
    try (OpenDesk desk = new OpenDesk(archive)) {
      Visitor col = desk.visitor("Col Reeve");
      for (String path :
          List.of(
              "/api/next", "/api/next?by=plot", "/queue", "/api/ground", "/", "/?show=doubtful")) {
        long begun = System.nanoTime();
        assertThat(col.get(path).status()).isEqualTo(200);
        double first = (System.nanoTime() - begun) / 1e6;
        List<Double> after = new ArrayList<>();
        for (int i = 0; i < ASKED; i++) {
          String face = col.get("/api/next?by=marker").json().path("face").asText();
          col.decide(face, "{\"do\":\"letter\",\"line\":1,\"at\":1,\"standing\":\"lost\"}");
          col.post("/api/faces/" + face + "/let-go", "{}");
          begun = System.nanoTime();
          assertThat(col.get(path).status()).isEqualTo(200);
          after.add((System.nanoTime() - begun) / 1e6);
        }
        after.sort(null);
        System.out.printf(
            Locale.ROOT,
            "%d faces, %s: first %.0f ms, then median %.1f, most %.1f%n",
            faces,
            path,
            first,
            after.get(ASKED / 2),
            after.get(ASKED - 1));
      }
    }
  }

  /** Opens the desk and closes it: the first time what proposals leave open is worked out. */
  private static void open(Path archive, int faces, String when) {
    long begun = System.nanoTime();
    try (OpenDesk desk = new OpenDesk(archive)) {
      System.out.printf(
          Locale.ROOT,
          "%d faces, opened %s: %.0f ms%n",
          faces,
          when,
          (System.nanoTime() - begun) / 1e6);
    }
  }

  private static String line(Random random) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < 18; i++) {
      char letter = (char) ('A' + random.nextInt(23));
      line.append(i % 6 == 5 ? " " : random.nextInt(8) == 0 ? "(" + letter + "60X30)" : letter);
    }
    return line.toString();
  }
}
