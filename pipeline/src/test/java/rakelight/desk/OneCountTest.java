package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;

/** How many letters ask for a look is one number, wherever it is said. */
class OneCountTest {
  /** Letters of names at 0.9 are clear to see and yet worth asking about. */
  private static final String[] LINES = {
    "IN MEMORY OF", "H(A90X10)NNAH W(R60K30)(E55F45)N", "died 18(350840)4 aged 61"
  };

  @TempDir Path folder;
  private OpenDesk desk;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    ada = desk.visitor("Ada Fenn");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private static int inQueue(Visitor who) {
    JsonNode next = who.get("/api/next").json();
    String words = next.path("why").asText().replace("begun; ", "").replace("no ", "0 ");
    return Integer.parseInt(words.replaceFirst("(?s)[^0-9].*", ""));
  }

  private static int onPage(Visitor who, String face) {
    return who.open(face).path("doubts").size();
  }

  @Test
  void theQueueSaysWhatThePageSays() {
    String face = desk.face("12", LINES);
    assertThat(onPage(ada, face)).isEqualTo(4);
    assertThat(inQueue(ada)).isEqualTo(4);
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":3,\"at\":7,\"standing\":\"clear\",\"text\":\"3\"}");
    assertThat(onPage(ada, face)).isEqualTo(3);
    assertThat(inQueue(ada)).isEqualTo(3);
    String page = ada.get("/queue").body();
    assertThat(page).contains("begun; 3 doubtful letters, all of them perhaps in names or dates");
    String marker = ada.open(face).path("marker").path("id").asText();
    String markerPage = ada.get("/markers/" + marker).body();
    assertThat(markerPage.split("open doubtful", -1)).hasSize(3 + 1);
    // Another reader begins from the machine's proposal.
    ada.post("/api/faces/" + face + "/let-go", "{}");
    Visitor col = desk.visitor("Col Reeve");
    assertThat(inQueue(col)).isEqualTo(4);
    assertThat(onPage(col, face)).isEqualTo(4);
  }

  @Test
  void whereTwoReadBlindHeldBackLettersAreCountedToo() {
    desk.readings().require(2, "Ada Fenn");
    String face = desk.face("12", LINES);
    int seen = onPage(ada, face);
    assertThat(seen).isGreaterThan(4);
    assertThat(inQueue(ada)).isEqualTo(seen);
  }

  @Test
  void aLineIsTakenWholeExactlyWhenNoneOfItsLettersAsksForALook() {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    for (int i = 0; i < 20; i++) {
      String face = desk.face("A-" + i, line(random), line(random));
      for (int line = 1; line <= 2; line++) {
        JsonNode open = ada.open(face);
        List<Integer> doubts = doubts(open, line);
        Visitor.Answer answer = seenLine(face, line);
        assertThat(answer.status()).as("seed %d", seed).isEqualTo(doubts.isEmpty() ? 200 : 422);
        if (!doubts.isEmpty()) {
          List<Integer> places = new ArrayList<>();
          answer.json().path("places").forEach(at -> places.add(at.asInt()));
          assertThat(places).as("seed %d", seed).isEqualTo(doubts);
          assertThat(answer.json().path("at").asInt()).isEqualTo(doubts.get(0));
          for (int at : places) {
            ada.decide(
                face,
                String.format(
                    Locale.ROOT,
                    "{\"do\":\"seen\",\"line\":%d,\"from\":%d,\"to\":%d}",
                    line,
                    at,
                    at));
          }
          assertThat(seenLine(face, line).status()).as("seed %d", seed).isEqualTo(200);
        }
        assertThat(doubts(ada.open(face), line)).isEmpty();
      }
    }
  }

  private static List<Integer> doubts(JsonNode open, int line) {
    List<Integer> doubts = new ArrayList<>();
    for (JsonNode doubt : open.path("doubts")) {
      if (doubt.path("line").asInt() == line) {
        doubts.add(doubt.path("at").asInt());
      }
    }
    doubts.sort(null);
    return doubts;
  }

  private Visitor.Answer seenLine(String face, int line) {
    return ada.post(
        "/api/faces/" + face + "/decide",
        Json.text(
            Json.mapper()
                .createObjectNode()
                .put("version", ada.open(face).path("version").asText())
                .put("do", "seen-line")
                .put("line", line)));
  }

  private static String line(Random random) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < 14; i++) {
      char letter = (char) ('A' + random.nextInt(23));
      int sure = 55 + random.nextInt(36);
      line.append(
          i % 5 == 4
              ? " "
              : random.nextInt(6) == 0 ? "(" + letter + sure + "X" + (100 - sure) + ")" : letter);
    }
    return line.toString();
  }
}
