package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.NewDecision;
import rakelight.archive.QuestionId;
import rakelight.person.QuestionStore;

class QuestionCommandTest {
  @TempDir Path folder;
  private Path archive;
  private String number;

  @BeforeEach
  void raiseAQuestion() {
    archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "Thornbeck", "--datum", "54.1,-3.2", "--zone", "UTC");
    Ran raised = question("raise", "Who was Amos Lidgate's wife?");
    assertThat(raised.code()).as(raised.err()).isZero();
    assertThat(raised.out()).startsWith("question ");
    number = raised.out().substring("question ".length(), raised.out().indexOf(':'));
  }

  @Test
  void questionsAreNumberedFromOneAndOneThatWasUndoneLeavesAGap() {
    assertThat(number).isEqualTo("1");
    assertThat(question("raise", "Where was Ruth Sallow born?").out()).startsWith("question 2:");
    Ran undone = Ran.command("undo", archive, "--reader", "Ada Penrose");
    assertThat(undone.code()).as(undone.err()).isZero();
    assertThat(question("raise", "When did she come here?").out()).startsWith("question 3:");
  }

  @Test
  void aQuestionOfAnOlderArchiveKeepsItsNumberAndTheNextComesAfterIt() {
    try (Archive older = Archive.open(archive, Projections.all())) {
      for (int i = 0; i < 7; i++) {
        older
            .journal()
            .append(
                NewDecision.of(
                    "Ada Penrose",
                    "question.raised",
                    1,
                    QuestionId.next().value(),
                    Map.of("words", "Who was " + i + "?", "note", "")));
      }
      long last = older.journal().lastCounter();
      assertThat(new QuestionStore(older).question(Long.toString(last)).text())
          .isEqualTo("Who was 6?");
      assertThat(question("raise", "And who was her mother?").out())
          .startsWith("question " + (last + 1) + ":");
    }
  }

  @Test
  void aQuestionKeepsTheSourcesTriedAndIsAnsweredWithItsCitation() {
    assertThat(number).matches("[0-9]+");
    assertThat(question("tried", number, "Register of burials", "--note", "nothing").code())
        .isZero();
    assertThat(question("note", number, "Perhaps a Sallow").code()).isZero();
    assertThat(rows().get(0).path("status").asText()).isEqualTo("open");
    assertThat(Ran.command("questions", archive).out())
        .contains("tried: Register of burials (nothing)  Ada Penrose");

    Ran bare = question("answer", number, "Ruth Sallow");
    assertThat(bare.code()).isEqualTo(1);
    assertThat(bare.err()).contains("needs its citation");
    assertThat(question("answer", number, "Ruth Sallow", "--citation", "Marriages 1861").code())
        .isZero();

    JsonNode row = rows().get(0);
    assertThat(row.path("schema").asInt()).isEqualTo(1);
    assertThat(row.path("question").asText()).isEqualTo(number);
    assertThat(row.path("status").asText()).isEqualTo("answered");
    assertThat(row.path("answer").asText()).isEqualTo("Ruth Sallow");
    assertThat(row.path("citation").asText()).isEqualTo("Marriages 1861");
    assertThat(row.path("steps")).hasSize(4);
    assertThat(Ran.command("questions", archive, "--open").out()).isEmpty();
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void anAnsweredQuestionCanBeOpenedAgainAndAnUndoBringsTheAnswerBack() {
    question("answer", number, "Ruth Sallow", "--citation", "Marriages 1861");
    assertThat(question("answer", number, "Ann", "--citation", "hearsay").err())
        .contains("has been answered by Ada Penrose");
    assertThat(question("reopen", number, "another Amos").code()).isZero();
    assertThat(rows().get(0).path("status").asText()).isEqualTo("open");
    assertThat(question("reopen", number, "again").err()).contains("is open");
    assertThat(Ran.command("undo", archive, "--reader", "Ada Penrose").code()).isZero();
    assertThat(rows().get(0).path("status").asText()).isEqualTo("answered");
  }

  @Test
  void questionsAreFoundBySearchAlsoByWhatWasTried() {
    question("tried", number, "Register of burials", "--note", "nothing");
    assertThat(Ran.command("search", archive, "lidgate").out()).contains("question " + number);
    assertThat(Ran.command("search", archive, "register", "burials").out())
        .contains("question " + number);
    assertThat(Ran.command("search", archive, "penhallis").out())
        .doesNotContain("question " + number);
    assertThat(Ran.command("search", archive, "lidgate", "--json").outLines())
        .anyMatch(line -> line.contains("\"question\":" + number + ","));
  }

  @Test
  void theSheetHasTheOpenQuestionsAndLinesToWriteOn() {
    String sheet = Ran.command("questions", archive, "--sheet").out();
    assertThat(sheet)
        .contains("Thornbeck: open questions")
        .contains("question " + number)
        .contains("______");
  }

  @Test
  void whatIsNotThereIsRefusedInOneLine() {
    assertThat(question("tried", "999", "Register").err()).contains("There is no question 999");
    assertThat(question("raise", "Who?", "--marker", "77").err()).contains("no marker 77");
    assertThat(question("raise", " ").err()).contains("Say the question in words");
    assertThat(question("close", number, "x").code()).isEqualTo(2);
    assertThat(question("tried", number).code()).isEqualTo(2);
  }

  private Ran question(String what, String... words) {
    Object[] all = new Object[words.length + 5];
    all[0] = "question";
    all[1] = archive;
    all[2] = what;
    System.arraycopy(words, 0, all, 3, words.length);
    all[words.length + 3] = "--reader";
    all[words.length + 4] = "Ada Penrose";
    return Ran.command(all);
  }

  private List<JsonNode> rows() {
    return Ran.command("questions", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .toList();
  }
}
