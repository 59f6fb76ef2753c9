package rakelight.cli;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.person.Question;
import rakelight.person.QuestionStore;

@Command(
    name = "question",
    description = {
      "Keeps what nobody knows yet, under your name; `questions` lists, `undo` takes back.",
      "  raise WORDS [--marker N]            a new question",
      "  tried 17 SOURCE [--note WORDS]      a source was searched, and what it held",
      "  note 17 WORDS                       anything worth knowing",
      "  answer 17 WORDS --citation WORDS    the answer, and where it comes from",
      "  reopen 17 WORDS                     why it is open again"
    })
final class QuestionCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "WHAT", description = "raise, tried, note, answer, reopen.")
  private String what;

  @Parameters(index = "2..*", arity = "1..*", paramLabel = "WORDS")
  private List<String> words;

  @Option(names = "--marker", paramLabel = "NUMBER", description = "The marker it is about.")
  private Optional<String> marker = Optional.empty();

  @Option(names = "--note", paramLabel = "WORDS", description = "What the source held.")
  private String note = "";

  @Option(names = "--citation", paramLabel = "WORDS", description = "Where the answer comes from.")
  private String citation = "";

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    boolean raising = what.equals("raise");
    if (!raising && !List.of("tried", "note", "answer", "reopen").contains(what)) {
      throw wrong("A question is raised, tried, noted, answered or reopened, not " + what);
    }
    if (!raising && words.size() < 2) {
      throw wrong(what + " needs a question, such as 17, and words");
    }
    QuestionStore store = new QuestionStore(archive);
    Question question =
        raising
            ? store.raise(String.join(" ", words), marker, reader)
            : store.question(words.get(0));
    String said = raising ? "" : String.join(" ", words.subList(1, words.size()));
    switch (what) {
      case "tried" -> store.tried(question, said, note, reader);
      case "note" -> store.note(question, said, reader);
      case "answer" -> store.answer(question, said, citation, reader);
      case "reopen" -> store.reopen(question, said, reader);
      default -> {
        // Raised already.
      }
    }
    out().println(question.label() + ": " + question.text());
    return 0;
  }
}
