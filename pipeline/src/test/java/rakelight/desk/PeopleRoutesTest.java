package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.QuestionStore;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;
import rakelight.publish.Withholding;
import rakelight.publish.WithholdingStore;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;
import rakelight.work.Withdrawing;

/**
 * What the lists of persons, statements, questions and sources keep to themselves, and from whom.
 */
class PeopleRoutesTest {
  private static final List<String> LISTS =
      List.of("/persons", "/statements", "/dates", "/questions", "/sought", "/sources");

  @TempDir Path folder;
  private OpenDesk desk;
  private Visitor ada;
  private Visitor gil;
  private Source roll;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    stone("A-1", "HESTER LIDGATE | died 1848 aged 63 years");
    stone("A-2", "AMOS RUDD | died 1863");
    QuestionStore questions = new QuestionStore(desk.archive());
    questions.raise("Who was her father?", Optional.of("A-1"), "Ada Fenn");
    questions.raise("Did Hester Lidgate ever marry?", Optional.empty(), "Ada Fenn");
    roll =
        new SourceStore(desk.archive())
            .record(Source.Kind.ROLL, "Roll of the club", "", "", Optional.empty(), "", "Ada Fenn");
    ReaderStore readers = QuickReaders.of(desk.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, "gil has long words".toCharArray(), "Ada Fenn");
    ada = Visitor.named("Ada Fenn", "ada has long words", desk.port());
    gil = Visitor.named("Gil Moss", "gil has long words", desk.port());
    sought("Hester", "Lidgate", "1848");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void stone(String marker, String text) {
    try {
      desk.readings()
          .sign(
              new PhotoStore(desk.archive()).faceOf(marker, "front", "Ada Fenn").id(),
              Leiden.parse(text),
              Basis.FROM_PHOTOGRAPHS,
              Optional.empty(),
              "Ada Fenn");
    } catch (LeidenException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  private Visitor.Answer sought(String given, String surname, String died) {
    return ada.form(
        "/sought",
        Map.of(
            "source",
            Long.toString(roll.number()),
            "given",
            given,
            "surname",
            surname,
            "died",
            died));
  }

  private String shown(Visitor to, String address) {
    Visitor.Answer answer = to.get(address);
    assertThat(answer.status()).as(address).isEqualTo(200);
    return answer.body();
  }

  @Test
  void whatGuestsSeeIsReadyBeforeTheyAskAgainAndIsNeverWhatItWas() {
    Mention hester = People.mention(desk.archive(), "A-1:front:1");
    try (Concluding concluding = new Concluding(desk.archive(), Clock.systemUTC())) {
      assertThat(concluding.now().persons(false)).anyMatch(one -> isHers(one, hester));
      new WithholdingStore(desk.archive())
          .withhold(
              new Withholding.Subject.OfPerson(hester.id()),
              Withholding.Cause.FAMILY,
              "they asked",
              Optional.empty(),
              LocalDate.parse("2026-11-01"),
              "Ada Fenn");
      concluding.tellAhead();
      concluding.tellAhead();
      assertThat(concluding.now().isToldAskedFor()).isTrue();
      assertThat(concluding.now().persons(false)).noneMatch(one -> isHers(one, hester));
    }
  }

  private static boolean isHers(Person person, Mention mention) {
    return person.mentions().stream().anyMatch(one -> one.id().equals(mention.id()));
  }

  @Test
  void whomHisFamilyWishesWithheldIsOnNoListOfAGuestsAndAtNoAddress() {
    Mention hester = People.mention(desk.archive(), "A-1:front:1");
    String person = "/persons/" + hester.id().personId();
    String statement =
        StatementRoutes.address(hester.source().face().id(), hester.source().statements().get(0));
    for (String list : List.of("/persons", "/statements", "/sought", person, statement)) {
      assertThat(shown(gil, list)).as(list).containsIgnoringCase("Lidgate");
    }
    assertThat(shown(gil, "/questions")).contains("Who was her father?");

    new WithholdingStore(desk.archive())
        .withhold(
            new Withholding.Subject.OfPerson(hester.id()),
            Withholding.Cause.FAMILY,
            "they asked",
            Optional.empty(),
            LocalDate.parse("2026-11-01"),
            "Ada Fenn");
    for (String list : LISTS) {
      assertThat(Chance.leftOut(shown(gil, list)))
          .as(list)
          .doesNotContainIgnoringCase("Lidgate")
          .doesNotContain("1848")
          .doesNotContain("her father");
      assertThat(shown(ada, list)).as(list).doesNotContain("You see what may be told");
    }
    for (String address : List.of(person, statement, "/sought/" + roll.number() + ".1")) {
      assertThat(gil.get(address).status()).as(address).isEqualTo(404);
      assertThat(ada.get(address).status()).as(address).isEqualTo(200);
    }
    assertThat(shown(gil, "/persons")).contains("Amos Rudd");
  }

  @Test
  void whatWasWithdrawnIsOnNoList() {
    assertThat(shown(ada, "/persons")).contains("Hester Lidgate");
    Marker marker = new MarkerStore(desk.archive()).named("A-1");
    new Withdrawing(desk.archive())
        .marker(
            marker,
            new Withdrawing.Terms("the family asked", Optional.empty(), true),
            new ReaderStore(desk.archive()).atTheTerminal("Ada Fenn"));
    for (String list : List.of("/persons", "/statements", "/dates", "/pairs")) {
      assertThat(shown(ada, list)).as(list).doesNotContainIgnoringCase("Lidgate");
    }
    assertThat(shown(ada, "/questions")).doesNotContain("her father");
  }

  @Test
  void whatIsSignedOrTakenBackIsListedOrGoneAtOnce() {
    assertThat(shown(ada, "/persons")).doesNotContain("Eli Holt");
    stone("A-3", "ELI HOLT | died 1850");
    assertThat(shown(ada, "/persons")).contains("Eli Holt");
    stone("A-3", "ELI HOLE | died 1850");
    assertThat(shown(ada, "/persons")).contains("Eli Hole").doesNotContain("Eli Holt");
    desk.archive()
        .journal()
        .undo(
            desk.readings()
                .current(new PhotoStore(desk.archive()).faceOf("A-3", "front", "Ada Fenn").id())
                .orElseThrow()
                .decision(),
            "Ada Fenn");
    assertThat(shown(ada, "/persons")).contains("Eli Holt").doesNotContain("Eli Hole");
  }

  @Test
  void aLongListComesInPagesThatKeepWhatWasAsked() {
    for (int i = 1; i <= 60; i++) {
      stone("C-" + i, "SILAS WREN | died 18" + (20 + i % 60));
    }
    String first = shown(ada, "/persons?name=silas");
    assertThat(first).contains("60 of 62 persons", "1 to 50 of 60");
    assertThat(first).contains("/persons?name=silas&amp;page=2");
    assertThat(first.split("<li>\\s*<p class=\"name\">", -1)).hasSize(51);
    assertThat(shown(ada, "/persons?name=silas&page=2")).contains("51 to 60 of 60");
  }

  @Test
  void aFileIsKeptOnlyWithTheSessionsTokenAndIfItIsWhatItsNameSays() {
    String scans = "/sources/" + roll.number() + "/scans";
    byte[] words = "no picture".getBytes(StandardCharsets.UTF_8);
    assertThat(ada.file(scans, "page.txt", words, "forged").status()).isEqualTo(403);
    assertThat(ada.file(scans, "page.jpg", words).body()).contains("isn't what its name says");
    assertThat(ada.file(scans, "../../page", words).body()).contains("has no extension");
    assertThat(ada.file(scans, ".ssh", words).status()).isEqualTo(400);
    assertThat(new SourceStore(desk.archive()).sources().get(0).scans()).isEmpty();
    assertThat(ada.file(scans, "../../page.txt", words).status()).isEqualTo(302);
    Source.Scan scan = new SourceStore(desk.archive()).sources().get(0).scans().get(0);
    assertThat(scan.originalName()).isEqualTo("page.txt");
    String address = scans + "/" + scan.sha256().hex();
    assertThat(ada.get(address).body()).isEqualTo("no picture");
    assertThat(ada.get(address).header("Content-Disposition"))
        .as("what browsers don't show is never taken for a page")
        .startsWith("attachment");
    assertThat(gil.get(address).status()).isEqualTo(403);
    assertThat(ada.get(scans + "/" + "0".repeat(64)).status()).isEqualTo(404);
  }

  @Test
  void aRollIsTakenFromAFileOrRefusedWithItsLines() {
    Source other =
        new SourceStore(desk.archive())
            .record(Source.Kind.REGISTER, "Burials", "", "", Optional.empty(), "", "Ada Fenn");
    String address = "/sources/" + other.number() + "/roll";
    String wrong =
        ada.file(address, "r.csv", "surname,died\nRudd,soon\n".getBytes(StandardCharsets.UTF_8))
            .body();
    assertThat(wrong).contains("r.csv, line 2", "“soon” is no date", "Nobody was taken.");
    ada.file(
        address, "r.csv", "surname,died\nRudd,1863\nHolt,1850\n".getBytes(StandardCharsets.UTF_8));
    assertThat(shown(ada, "/sought?source=" + other.number()))
        .contains("2 of 3 persons sought", "perhaps A-2:front:1 Amos Rudd");
  }

  @Test
  void personsSoughtAreAddedOneByOneAndEachIsTakenBackByItself() {
    sought("Silas", "Holt", "1850");
    String second = "/sought/" + roll.number() + ".2";
    assertThat(shown(ada, second)).contains("Silas Holt", "added this person");
    String id = shown(ada, second).replaceAll("(?s).*name=\"decision\" value=\"([^\"]+)\".*", "$1");
    assertThat(ada.form("/take-back", Map.of("decision", id, "back", "/sought")).status())
        .isEqualTo(302);
    assertThat(ada.get(second).status()).isEqualTo(404);
    assertThat(shown(ada, "/sought")).contains("Hester Lidgate").doesNotContain("Silas Holt");
  }

  @Test
  void onlyWhatIsDecidedHereIsTakenBackHereAndNoAddressElsewhereIsGoneTo() {
    String signed = desk.readings().current().get(0).decision().toString();
    assertThat(ada.form("/take-back", Map.of("decision", signed, "back", "/persons")).status())
        .isEqualTo(404);
    String raised =
        new QuestionStore(desk.archive()).questions().get(0).steps().get(0).decision().toString();
    for (String back : List.of("//elsewhere.example/", "https://elsewhere.example/", "/sign-out")) {
      assertThat(ada.form("/take-back", Map.of("decision", raised, "back", back)).status())
          .as(back)
          .isEqualTo(400);
    }
    assertThat(gil.form("/take-back", Map.of("decision", raised, "back", "/questions")).status())
        .isEqualTo(403);
  }
}
