package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.ground.PlannedWalk;
import rakelight.ground.WalkStore;
import rakelight.marker.Caution;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.MarkerStore;

class GuideRoutesTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    for (String marker : List.of("A-1", "A-2", "B-1")) {
      desk.face(marker);
    }
    new ConditionStore(desk.archive())
        .note(
            new MarkerStore(desk.archive()).named("B-1").id(),
            LocalDate.parse("2026-04-30"),
            List.of(Condition.DELAMINATING, Condition.LEANING),
            "",
            "Ada Fenn");
    ada = desk.visitor("Ada Fenn");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  @Test
  void whatGoesFirstIsHeldToARowOnThePageInTheTableAndOnPaperWithTheCaution() {
    assertThat(ada.get("/first").body()).contains("leaning").contains("A-1").contains("B-1");
    assertThat(ada.get("/first?row=B").body()).contains("1 of 1").doesNotContain("A-1");
    String[] rows = ada.get("/first.csv?row=B").body().split("\r\n");
    assertThat(rows).hasSize(2);
    assertThat(rows[1]).startsWith("1,B-1,B,").contains("leaning").contains(Caution.LOOK_ONLY);
    assertThat(ada.get("/first.pdf").body()).startsWith("%PDF");
  }

  @Test
  void aWalkIsPlannedKeptWithItsNotesAndNotChangedUnseen() {
    ada.form("/walk", Map.of("name", "Sunday", "markers", "A-2, B-1, A-2", "minutes", "4"));
    PlannedWalk walk = new WalkStore(desk.archive()).walks().get(0);
    String path = "/walk/" + walk.id();
    assertThat(walk.stops()).hasSize(2);
    assertThat(ada.get(path).body())
        .contains("Unsafe on the way")
        .contains("nobody knows where it stands")
        .contains(Caution.LOOK_ONLY);
    Map<String, String> changed =
        Map.of(
            "seen",
            walk.decision().toString(),
            "name",
            "Sunday",
            "markers",
            "B-1 A-1",
            "note-" + walk.stops().get(1).marker(),
            "Keep back.");
    ada.form(path, changed);
    assertThat(ada.get(path).body()).contains("Keep back.").contains("A-1").doesNotContain("A-2");
    assertThat(ada.form(path, changed).status()).isEqualTo(409);
    assertThat(ada.get("/markers/" + walk.stops().get(1).marker()).body())
        .contains("of 2 on the walk");
    assertThat(ada.get(path + "/sheet.pdf").body()).startsWith("%PDF");
    assertThat(ada.form("/walk", Map.of("name", "Lost", "markers", "Z-9")).body())
        .contains("There is no marker Z-9");
    desk.archive().journal().rebuild();
    assertThat(new WalkStore(desk.archive()).walks()).hasSize(1);
  }

  @Test
  void whatAnAddressAsksWronglyIsRefusedInALine() {
    assertThat(ada.get("/sun?on=tomorrow").status()).isEqualTo(400);
    assertThat(ada.get("/sun?on=0001-01-01").status()).isEqualTo(400);
    assertThat(ada.get("/sun?from=late").status()).isEqualTo(400);
    assertThat(ada.get("/walk/none").status()).isEqualTo(404);
    assertThat(ada.get("/made").status()).isEqualTo(200);
    assertThat(ada.get("/emblems?words=lamb").body()).contains("It never proves an age");
  }
}
