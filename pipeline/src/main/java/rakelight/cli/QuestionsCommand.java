package rakelight.cli;

import java.io.PrintWriter;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Question;
import rakelight.person.QuestionJson;
import rakelight.person.QuestionStore;

@Command(
    name = "questions",
    description = "Lists what nobody knows yet, with the sources tried and the answers found.")
final class QuestionsCommand extends ArchiveCommand {
  @Option(names = "--open", description = "Those without an answer only.")
  private boolean openOnly;

  @Option(
      names = "--sheet",
      description =
          "For paper: the open ones, with lines to write on in an archive or on the ground.")
  private boolean sheet;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    MarkerStore markers = new MarkerStore(archive);
    if (sheet && !json) {
      out.println(archive.ground().name() + ": open questions");
      out.println();
    }
    for (Question question : new QuestionStore(archive).questions()) {
      if ((openOnly || sheet) && !question.isOpen()) {
        continue;
      }
      if (json) {
        JsonLines.print(out, QuestionJson.of(question, markers));
      } else {
        print(out, question, markers);
        if (sheet) {
          for (int line = 0; line < 4; line++) {
            out.println("    " + "_".repeat(72));
          }
          out.println();
        }
      }
    }
    return 0;
  }

  static void print(PrintWriter out, Question question, MarkerStore markers) {
    out.println(
        question.label()
            + (question.isOpen() ? "  " : "  (answered)  ")
            + marker(question, markers).map(number -> "marker " + number + ": ").orElse("")
            + question.text());
    for (Question.Step step : question.steps()) {
      if (!step.told().isEmpty()) {
        out.println("    " + step.told() + "  " + step.reader());
      }
    }
  }

  private static Optional<String> marker(Question question, MarkerStore markers) {
    Optional<MarkerId> marker = question.marker();
    return marker.flatMap(markers::marker).map(Marker::number);
  }
}
