package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.archive.UndoRefusedException;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.SignId;
import rakelight.reading.ProposalStore;

/**
 * An archive made by the program of release 0.1 opens with this one, and everything is there. What
 * was there is known from the old ledger's own tables, read without any of our code, and from what
 * the old program said of it; the README beside it tells how it was made.
 */
class OlderArchiveTest {
  private static final String OLD = "/rakelight/archive/release-0.1/";

  /** Every kind that a command or the desk of release 0.1 could write. */
  private static final Set<String> KINDS =
      Set.of(
          "condition.noted",
          "decision.undone",
          "face.created",
          "face.described",
          "face.known",
          "face.known-letters",
          "face.left",
          "ground.described",
          "ground.readings-required",
          "link.confirmed",
          "marker.created",
          "marker.renumbered",
          "person.died",
          "person.different",
          "person.same",
          "person.unnamed",
          "photograph.assigned",
          "photograph.credited",
          "photograph.dated",
          "photograph.ingested",
          "photograph.met-again",
          "photograph.refused",
          "photograph.shows-card",
          "proposal.kept",
          "question.answered",
          "question.noted",
          "question.raised",
          "question.reopened",
          "question.tried",
          "reader.admitted",
          "reader.dismissed",
          "reading.drafted",
          "reading.imported",
          "reading.signed",
          "sought.found",
          "sought.listed",
          "sought.not-found",
          "source.recorded",
          "source.scanned");

  @TempDir Path folder;
  private Path root;
  private Path untouched;
  private Archive archive;

  @BeforeEach
  void openACopy() throws IOException {
    root = folder.resolve("archive");
    untouched = folder.resolve("untouched.sqlite");
    for (String room : List.of("originals", "derived")) {
      Files.createDirectories(root.resolve(room));
    }
    for (Path copy : List.of(untouched, root.resolve("ledger.sqlite"))) {
      Files.write(copy, old("ledger.sqlite"));
    }
    archive = Archive.open(root, Projections.all());
  }

  @AfterEach
  void close() {
    archive.close();
  }

  @Test
  void everyKindOfDecisionIsAmongTheOldOnes() throws SQLException {
    assertThat(rows("SELECT DISTINCT kind FROM decision"))
        .extracting(row -> cell(row, "kind"))
        .containsExactlyInAnyOrderElementsOf(KINDS);
  }

  @Test
  void theQueriesOfItsReadmeAnswerWithoutThisProgram() throws Exception {
    String readme = Files.readString(root.resolve("README.txt"));
    String reader =
        column("SELECT reader FROM decision WHERE kind = 'reading.signed'")
            .findFirst()
            .orElseThrow();
    String marker =
        column(
                "SELECT m.number FROM photograph p JOIN face f ON f.id = p.face_id"
                    + " JOIN marker m ON m.id = f.marker_id")
            .findFirst()
            .orElseThrow();
    List<String> queries =
        Pattern.compile("(?s)SELECT.*?;")
            .matcher(readme)
            .results()
            .map(MatchResult::group)
            .toList();

    assertThat(queries).hasSize(3);
    for (String query : queries) {
      assertThat(rows(query.replace("'12'", "'" + marker + "'").replace("Ada Fenn", reader)))
          .as(query)
          .isNotEmpty();
    }
  }

  @Test
  void itsPagesSayHowItIsLaidOut() throws IOException {
    assertThat(root.resolve("FORMAT.txt"))
        .hasSameTextualContentAs(Path.of("..", "docs", "archive-format.md"));
    assertThat(root.resolve("schema.sql")).content().contains("CREATE TABLE decision (");
  }

  @Test
  void everyDecisionIsThereAndSaysTheSame() throws SQLException {
    List<Map<String, String>> old = rows("SELECT * FROM decision ORDER BY counter");
    List<Decision> now = archive.journal().since(0);
    assertThat(now).hasSameSizeAs(old);
    Set<String> undone = column("SELECT decision FROM decision_undone").collect(Collectors.toSet());
    for (int i = 0; i < now.size(); i++) {
      Map<String, String> row = old.get(i);
      Decision decision = now.get(i);
      assertThat(decision.id()).hasToString(cell(row, "id"));
      assertThat(decision.counter()).hasToString(cell(row, "counter"));
      assertThat(decision.reader()).isEqualTo(cell(row, "reader"));
      assertThat(decision.at()).hasToString(cell(row, "at"));
      assertThat(decision.kind()).isEqualTo(cell(row, "kind"));
      assertThat(decision.version()).hasToString(cell(row, "version"));
      assertThat(decision.subject()).hasToString(cell(row, "subject"));
      assertThat(decision.payload()).isEqualTo(json(cell(row, "payload")));
      assertThat(decision.restsOn())
          .extracting(DecisionId::toString)
          .containsExactlyInAnyOrderElementsOf(
              column(
                      "SELECT rests_on FROM decision_rests_on WHERE decision = '"
                          + decision.id()
                          + "'")
                  .toList());
      assertThat(archive.journal().stands(decision.id()))
          .as("whether " + decision.kind() + " stands")
          .isEqualTo(!undone.contains(cell(row, "id")));
    }
  }

  @Test
  void everyReadingIsThereLetterByLetter() throws SQLException {
    ReadingStore store = new ReadingStore(archive);
    List<Map<String, String>> old = rows("SELECT * FROM reading");
    assertThat(old).hasSizeGreaterThan(10);
    for (Map<String, String> row : old) {
      Reading reading = store.reading(ReadingId.of(cell(row, "id"))).orElseThrow();
      assertThat(String.join("\n", Leiden.printLines(reading.inscription())))
          .isEqualTo(cell(row, "text"));
      assertThat(reading.inscription().signs())
          .extracting(sign -> sign.id())
          .extracting(SignId::number)
          .extracting(String::valueOf)
          .containsExactly(cell(row, "sign_ids").split(" "));
      assertThat(reading.face()).hasToString(cell(row, "face_id"));
      assertThat(reading.version()).hasToString(cell(row, "version"));
      assertThat(reading.reader()).isEqualTo(cell(row, "reader"));
      assertThat(reading.basis().kind().label()).isEqualTo(cell(row, "basis"));
      assertThat(text(reading.basis().date())).isEqualTo(cell(row, "basis_date"));
      assertThat(text(reading.basis().light())).isEqualTo(cell(row, "basis_light"));
      assertThat(text(reading.basis().witness())).isEqualTo(cell(row, "basis_witness"));
      assertThat(text(reading.proposal())).isEqualTo(cell(row, "proposal_id"));
      assertThat(reading.settles().stream().map(Object::toString).collect(Collectors.joining(" ")))
          .isEqualTo(cell(row, "settles"));
    }
    assertThat(column("SELECT DISTINCT basis FROM reading"))
        .containsExactlyInAnyOrder("stone", "photographs", "earlier");
    assertThat(old).anyMatch(row -> !cell(row, "settles").isEmpty());
  }

  @Test
  void everyDraftCanBeGoneOnWith() throws SQLException {
    ReadingStore store = new ReadingStore(archive);
    List<Map<String, String>> old = rows("SELECT * FROM reading_draft");
    assertThat(old).isNotEmpty();
    for (Map<String, String> row : old) {
      var draft = store.draft(FaceId.of(cell(row, "face_id")), cell(row, "reader")).orElseThrow();
      assertThat(text(draft.proposal())).isEqualTo(cell(row, "proposal_id"));
      JsonNode lines = json(cell(row, "lines"));
      assertThat(draft.lines()).hasSize(lines.size());
      for (int i = 0; i < lines.size(); i++) {
        assertThat(draft.lines().get(i).text()).isEqualTo(lines.get(i).path("text").asText());
      }
    }
  }

  @Test
  void everyKeptProposalHasItsLettersWithTheirOdds() throws SQLException {
    ProposalStore store = new ProposalStore(archive);
    List<Map<String, String>> old = rows("SELECT * FROM kept_proposal");
    assertThat(old).isNotEmpty();
    for (Map<String, String> row : old) {
      var proposal = store.kept(ProposalId.of(cell(row, "id"))).orElseThrow();
      assertSays("a kept proposal", json(cell(row, "document")), Json.tree(proposal));
    }
  }

  /** The names of questions and sources are how they are shown, not what they say. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "photographs",
        "links",
        "conditions",
        "questions",
        "sources",
        "sought",
        "readers list",
        "decisions --last 0"
      })
  void theListsSayWhatTheOldProgramSaid(String list) throws IOException {
    archive.close();
    List<Object> words = new ArrayList<>(List.of(list.split(" ")));
    List<JsonNode> then = said(words.get(0) + ".jsonl");
    words.add(1, root);
    words.add("--json");
    Ran ran = Ran.command(words.toArray());
    assertThat(ran.code()).as(ran.err()).isZero();
    List<JsonNode> now = lines(ran.out());
    assertThat(then).isNotEmpty();
    assertThat(now).hasSameSizeAs(then);
    for (int i = 0; i < then.size(); i++) {
      ObjectNode said = (ObjectNode) then.get(i);
      // Where the archive lies, what things are called, and odds, are the present program's.
      said.remove(List.of("question", "source", "sought", "path", "scans", "matches"));
      if (list.equals("links")) {
        // The kind of a link and where it leads to have other names now.
        said.set("type", said.remove("kind"));
        Optional.ofNullable(said.remove("toMarker")).ifPresent(marker -> said.set("to", marker));
      }
      assertSays(list, said, now.get(i));
    }
  }

  @Test
  void theListOfPersonsHasWhatPeopleDecided() throws IOException {
    archive.close();
    List<JsonNode> now = lines(Ran.command("persons", root, "--json").out());
    List<JsonNode> then = said("persons.jsonl");
    int decided = 0;
    for (JsonNode person : then) {
      if (!person.path("kind").asText().equals("person")) {
        continue;
      }
      JsonNode same =
          now.stream()
              .filter(other -> other.path("id").equals(person.path("id")))
              .findFirst()
              .orElseThrow(() -> new AssertionError(person.path("called") + " is gone"));
      assertThat(same.path("called")).isEqualTo(person.path("called"));
      for (String field : List.of("evidenceOfDeath", "fromForm", "links", "decision")) {
        assertThat(same.path(field)).as(field).isEqualTo(person.path(field));
        decided += person.has(field) ? 1 : 0;
      }
      assertThat(named(same)).isEqualTo(named(person));
    }
    assertThat(decided).isGreaterThanOrEqualTo(4);
  }

  @Test
  void theStateTablesAreWhatAReplayOfTheJournalGives() {
    assertThat(new Check(archive).run(List.of(), original -> {}).faults()).isEmpty();
  }

  @Test
  void theLastDecisionCanBeUndoneAndNothingElseGoes() {
    LinkStore links = new LinkStore(archive);
    List<Link> before = links.links();
    List<Decision> journal = archive.journal().since(0);
    Decision last = journal.get(journal.size() - 1);
    assertThat(last.kind()).isEqualTo("link.confirmed");

    archive.journal().undo(last.id(), "Ada Fenn");

    List<Link> expected = new ArrayList<>(before);
    expected.removeIf(link -> link.decision().equals(last.id()));
    assertThat(expected).hasSize(before.size() - 1);
    assertThat(links.links()).isEqualTo(expected);
    theStateTablesAreWhatAReplayOfTheJournalGives();
  }

  @Test
  void whatOtherDecisionsRestOnStillCantBeUndone() {
    Decision same =
        archive.journal().since(0).stream()
            .filter(decision -> decision.kind().equals("person.same"))
            .findFirst()
            .orElseThrow();
    assertThatThrownBy(() -> archive.journal().undo(same.restsOn().get(0), "Ada Fenn"))
        .isInstanceOf(UndoRefusedException.class);
  }

  private static Set<String> named(JsonNode person) {
    Set<String> mentions = new TreeSet<>();
    person.path("mentions").forEach(mention -> mentions.add(mention.path("mention").asText()));
    return mentions;
  }

  /** That the second says all that the first says; it may say more. */
  private static void assertSays(String where, JsonNode said, JsonNode now) {
    if (said.isObject()) {
      said.fields()
          .forEachRemaining(
              field ->
                  assertSays(
                      where + "." + field.getKey(), field.getValue(), now.path(field.getKey())));
    } else if (said.isArray()) {
      assertThat(now).as(where).hasSameSizeAs(said);
      for (int i = 0; i < said.size(); i++) {
        assertSays(where + "[" + i + "]", said.get(i), now.path(i));
      }
    } else if (said.isNumber()) {
      assertThat(now.asDouble(Double.NaN)).as(where).isEqualTo(said.asDouble());
    } else {
      assertThat(now).as(where).isEqualTo(said);
    }
  }

  private static JsonNode json(String text) {
    return Json.read(text, JsonNode.class);
  }

  /** What the old program said. */
  private static List<JsonNode> said(String file) throws IOException {
    return lines(new String(old("says/" + file), StandardCharsets.UTF_8));
  }

  private static List<JsonNode> lines(String text) {
    return text.lines().map(OlderArchiveTest::json).toList();
  }

  private static String text(Optional<?> value) {
    return value.map(Object::toString).orElse("");
  }

  private static String cell(Map<String, String> row, String column) {
    return Optional.ofNullable(row.get(column)).orElseThrow();
  }

  private Stream<String> column(String query) throws SQLException {
    return rows(query).stream().map(row -> row.values().iterator().next());
  }

  /** Rows of the ledger as the old program left it. */
  private List<Map<String, String>> rows(String query) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + untouched);
        Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery(query)) {
      List<Map<String, String>> rows = new ArrayList<>();
      while (result.next()) {
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 1; i <= result.getMetaData().getColumnCount(); i++) {
          String text = result.getString(i);
          row.put(result.getMetaData().getColumnName(i), text == null ? "" : text);
        }
        rows.add(row);
      }
      return rows;
    }
  }

  private static byte[] old(String name) throws IOException {
    try (InputStream in = OlderArchiveTest.class.getResourceAsStream(OLD + name)) {
      if (in == null) {
        throw new IOException("no " + OLD + name + " among the test resources");
      }
      return in.readAllBytes();
    }
  }
}
