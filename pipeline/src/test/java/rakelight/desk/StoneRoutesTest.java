package rakelight.desk;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.MarkerId;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;

class StoneRoutesTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private Visitor ada;
  private DescriptionStore descriptions;
  private MarkerId marker;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    desk.face("7");
    desk.face("8");
    ada = desk.visitor("Ada Fenn");
    descriptions = new DescriptionStore(desk.archive());
    marker = new MarkerStore(desk.archive()).byNumber("7").orElseThrow().id();
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private Optional<Description> stands() {
    return descriptions.of(marker).map(Described::description);
  }

  @Test
  void aFormSaysAllOfADescriptionAndWhoComesTooLateIsToldSo() {
    String path = "/markers/" + marker + "/description";
    ada.form(
        path,
        Map.of(
            "seen",
            "",
            "kind",
            "obelisk",
            "part-0",
            "shaft",
            "state-0",
            "leaning",
            "lean-0",
            "8",
            "lettering-V-cut",
            "on",
            "height",
            "210"));
    assertThat(stands().orElseThrow().told())
        .containsExactly(
            "kind: obelisk", "lettering: V-cut", "parts: shaft: leaning 8", "size: 210 cm high");
    Visitor.Answer late = ada.form(path, Map.of("seen", "", "kind", "cross"));
    assertThat(late.status()).isEqualTo(422);
    assertThat(late.body()).contains("Ada Fenn has described it meanwhile");
    assertThat(ada.form(path, Map.of("height", "tall")).body())
        .contains("a number of centimetres, not “tall”");
    assertThat(stands().orElseThrow().kind()).contains("obelisk");
  }

  @Test
  void aTableSaysFirstWhatItWouldChangeThenIsTakenAndTakenBackWhole() {
    byte[] table = "marker,kind,material\n7,ledger,slate\n8,cross,\n".getBytes(UTF_8);
    Visitor.Answer dry = ada.file("/describe", "all.csv", table);
    assertThat(dry.body()).contains("would be kind: ledger; material: slate").contains("2 markers");
    assertThat(stands()).isEmpty();
    Visitor.Answer taken = ada.form("/describe/take", Map.of());
    assertThat(taken.body()).contains("2 markers are described.");
    assertThat(stands().orElseThrow().kind()).contains("ledger");
    String decision = descriptions.of(marker).orElseThrow().decision().toString();
    ada.form("/describe/undo", Map.of("decision", decision));
    assertThat(descriptions.all()).isEmpty();
    assertThat(ada.form("/describe/take", Map.of()).body()).contains("Send it again.");
  }

  @Test
  void aTableWithARowThatCannotBeTakenIsTakenNotAtAll() {
    byte[] table = "marker,kind\n7,ledger\n9,cross\n".getBytes(UTF_8);
    Visitor.Answer dry = ada.file("/describe", "all.csv", table);
    assertThat(dry.body()).contains("all.csv:3: There is no marker 9").doesNotContain("Take it:");
    assertThat(ada.form("/describe/take", Map.of()).status()).isEqualTo(422);
    assertThat(stands()).isEmpty();
    assertThat(ada.file("/describe", "odd.csv", new byte[] {'m', (byte) 0xff}).body())
        .contains("odd.csv: not in UTF-8");
  }

  @Test
  void whatIsNotedAtTheStoneComesBackThereWithPartAreaAndWhen() {
    ada.form(
        "/markers/" + marker + "/condition",
        Map.of(
            "on",
            "2026-11-20",
            "VANDALISED",
            "on",
            "part shaft",
            "on",
            "TOP",
            "on",
            "happened",
            "2026-10",
            "back",
            "at-the-stone"));
    assertThat(new ConditionStore(desk.archive()).newest(marker).orElseThrow().told())
        .isEqualTo("vandalised: shaft; top; happened 2026-10");
    Visitor.Answer page = ada.get("/markers/" + marker + "/at-the-stone");
    assertThat(page.body()).contains("happened 2026-10").contains("Look only:");
  }

  @Test
  void anOutlineBesideThePhotographOrOnAnothersIsRefusedAndNothingKept() {
    String path = "/markers/" + marker + "/emblem";
    Map<String, String> on =
        Map.of("face", "front", "name", "urn", "corners", "1,1 2,2 3,1", "photograph", "none");
    assertThat(ada.form(path, on).status()).isEqualTo(404);
    assertThat(ada.form(path, Map.of("face", "roof", "name", "urn")).status()).isEqualTo(404);
    assertThat(new EmblemStore(desk.archive()).all()).isEmpty();
    ada.form(path, Map.of("face", "front", "name", "Urn", "detail-letters", "R I P"));
    assertThat(ada.get("/markers/" + marker).body())
        .contains("It never proves a cremation")
        .contains("(many agree)")
        .contains("R I P");
  }
}
