package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.MarkerStore;

/** The ground's page and the queue, on grounds small and large, without a browser. */
class GroundPageTest {
  private static final Pattern NUMBER = Pattern.compile("class=\"number\"[^>]*>([^<]+)<");
  private static final Pattern ADDRESS = Pattern.compile("rel=\"(prev|next)\" href=\"([^\"]+)\"");

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

  private List<String> shown(String address) {
    Visitor.Answer page = ada.get(address);
    assertThat(page.status()).isEqualTo(200);
    List<String> numbers = new ArrayList<>();
    Matcher number = NUMBER.matcher(page.body());
    while (number.find()) {
      numbers.add(number.group(1));
    }
    return numbers;
  }

  /** Where a page's link to the page before it or after it leads; empty without one. */
  private String leaf(String address, String rel) {
    Matcher link = ADDRESS.matcher(ada.get(address).body());
    while (link.find()) {
      if (link.group(1).equals(rel)) {
        return link.group(2).replace("&amp;", "&");
      }
    }
    return "";
  }

  private void read(String face) throws Exception {
    desk.readings()
        .sign(
            FaceId.of(face),
            Leiden.parse("ELI HOLT"),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            List.of(),
            "Ada Fenn");
  }

  private void smallGround() throws Exception {
    desk.face("A-1", "HANNAH W(R60K40)EN");
    read(desk.face("A-2", "ELI HOLT"));
    String moss = desk.face("B-1", "ELI HOLT");
    ada.post("/api/faces/" + moss + "/leave", "{\"for\":\"other-light\",\"note\":\"moss\"}");
    desk.face("B-2", "ELI");
    MarkerStore markers = new MarkerStore(desk.archive());
    markers.create("B-10", "Ada Fenn");
    new ConditionStore(desk.archive())
        .note(
            markers.byNumber("B-2").orElseThrow().id(),
            LocalDate.parse("2026-04-30"),
            List.of(Condition.LEANING),
            "",
            "Ada Fenn");
    markers.renumber(markers.byNumber("B-2").orElseThrow().id(), "B-3", "Ada Fenn");
  }

  @Test
  void whatIsAskedForIsShownAndNothingElse() throws Exception {
    smallGround();
    assertThat(shown("/")).containsExactly("A-1", "A-2", "B-1", "B-3", "B-10");
    assertThat(shown("/?show=unread")).containsExactly("A-1", "B-3");
    assertThat(shown("/?show=doubtful")).containsExactly("A-1");
    assertThat(shown("/?show=other-light")).containsExactly("B-1");
    assertThat(shown("/?show=unsafe")).containsExactly("B-3");
    assertThat(shown("/?show=read")).containsExactly("A-2");
    assertThat(shown("/?plot=B")).containsExactly("B-1", "B-3", "B-10");
    assertThat(shown("/?plot=B&show=unread&find=b-3")).containsExactly("B-3");
    assertThat(shown("/?find=1")).containsExactly("A-1", "B-1", "B-10");
    // A number it had before is one by which people look for it.
    assertThat(shown("/?find=B-2")).containsExactly("B-3");
    assertThat(ada.get("/").body())
        .contains("unsafe: leaning")
        .contains("to be read; 1 doubtful letter<")
        .contains("no face yet")
        .contains("<h2>Plot A</h2>");
  }

  @Test
  void whereNothingMatchesThePageSaysWhatThereIs() throws Exception {
    assertThat(ada.get("/").body()).contains("No marker is known here yet.");
    smallGround();
    assertThat(ada.get("/?find=x%22%3C").body())
        .contains("No marker has “x\"&lt;” in its number. Numbers go from A-1 to B-10;")
        .contains("Show all 5 markers");
    assertThat(ada.get("/?show=differ&plot=A").body())
        .contains(
            "No marker in plot A is “two readings differ”. Look in the whole ground instead.");
    assertThat(ada.get("/?show=unsafe&find=A").body())
        .contains("No marker among those that are “unsafe to stand beside” has “A” in its number.");
    assertThat(ada.get("/?find=" + "9".repeat(200)).status()).isEqualTo(400);
  }

  @Test
  void aLargeGroundComesPageByPage() {
    MarkerStore markers = new MarkerStore(desk.archive());
    desk.archive()
        .ledger()
        .write(
            handle -> {
              for (int i = 1; i <= 250; i++) {
                markers.create((i <= 130 ? "A-" : "North wall-") + i, "Ada Fenn");
              }
              return 0;
            });
    List<String> all = new ArrayList<>();
    int pages = 0;
    for (String address = "/"; !address.isEmpty(); address = leaf(address, "next")) {
      all.addAll(shown(address));
      pages++;
    }
    assertThat(pages).isEqualTo(3);
    assertThat(all).hasSize(250).doesNotHaveDuplicates();
    assertThat(all.get(0)).isEqualTo("A-1");
    assertThat(leaf("/?page=2", "prev")).isEqualTo("/?page=1");
    String wall = "/?plot=North+wall&page=9999";
    assertThat(shown(wall)).hasSize(120).endsWith("North wall-250");
    assertThat(leaf(wall, "next")).isEmpty();
    assertThat(shown("/?page=nonsense")).hasSize(120);
  }

  @Test
  void theNextFaceComesInTheOrderAndFromThePlotChosenOnThePage() throws Exception {
    desk.face("A-1", "ELI");
    String hard = desk.face("A-2", "H(A50X50)NN(A50X50)H");
    String b = desk.face("B-1", "(E60F40)LI");
    assertThat(ada.get("/api/next").json().path("face").asText()).isEqualTo(hard);
    ada.get("/queue?by=marker");
    JsonNode next = ada.get("/api/next").json();
    assertThat(next.path("marker").asText()).isEqualTo("A-1");
    assertThat(next.path("by").asText()).isEqualTo("marker");
    assertThat(next.path("left").asInt()).isEqualTo(3);
    ada.get("/queue?by=marker&plot=B");
    next = ada.get("/api/next").json();
    assertThat(next.path("face").asText()).isEqualTo(b);
    assertThat(next.path("plot").asText()).isEqualTo("B");
    assertThat(next.path("left").asInt()).isEqualTo(1);
    assertThat(ada.get("/api/next?by=hardest&plot=").json().path("face").asText()).isEqualTo(hard);
    ada.get("/queue?plot=");
    assertThat(ada.get("/api/next").json().path("marker").asText()).isEqualTo("A-1");
    assertThat(ada.get("/queue?plot=C").body()).contains("Nothing in plot C waits for you.");
    // Another's choice is his own.
    assertThat(desk.visitor("Col Reeve").get("/api/next").json().path("face").asText())
        .isEqualTo(hard);
  }

  @Test
  void theSessionCountsTheStonesSignedInIt() {
    String first = desk.face("A-1", "ELI");
    String second = desk.face("A-2", "ELI");
    assertThat(ada.get("/api/next").json().path("signedThisSession").asInt()).isZero();
    for (String face : List.of(first, second)) {
      ada.acceptTheRest(face);
      ada.change(face, "sign", "{\"basis\":{\"kind\":\"photographs\"}}");
    }
    assertThat(ada.get("/api/next").json().path("signedThisSession").asInt()).isEqualTo(2);
    assertThat(ada.get("/queue").body()).contains("You have signed 2 since you signed in.");
    assertThat(desk.visitor("Ada Fenn").get("/api/next").json().path("signedThisSession").asInt())
        .isZero();
  }

  @Test
  void theQueueComesPageByPageToo() {
    for (int i = 1; i <= 45; i++) {
      desk.face("A-" + i, "ELI");
    }
    assertThat(ada.get("/queue?by=marker").body())
        .contains("1 to 20 of 45")
        .contains("Marker A-1,");
    assertThat(ada.get(leaf("/queue?by=marker", "next")).body())
        .contains("21 to 40 of 45")
        .contains("start=\"21\"");
    assertThat(ada.get("/queue?by=marker&page=3").body()).contains("Marker A-45,");
  }
}
