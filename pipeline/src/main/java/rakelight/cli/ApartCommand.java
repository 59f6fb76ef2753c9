package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Apart;
import rakelight.archive.ApartStore;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.work.DecisionWords;
import rakelight.work.ReaderStore;

@Command(
    name = "apart",
    description = {
      "Lists what was decided differently on two laptops before their archives were merged. The"
          + " one",
      "that says [holds] holds, until somebody decides anew in the usual way, undoes one of the"
          + " two, or",
      "says with --leave that it may stay so."
    })
final class ApartCommand extends ArchiveCommand {
  @Option(
      names = "--leave",
      paramLabel = "N",
      description = "The N-th in the list may stay as it is.")
  private Optional<Integer> leave = Optional.empty();

  @Option(names = "--note", paramLabel = "TEXT", description = "Why it may.")
  private String note = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name; with --leave.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    ApartStore store = new ApartStore(archive);
    List<Apart> waiting = store.waiting();
    if (leave.isPresent()) {
      if (reader.isEmpty()) {
        throw wrong("Give your name with --leave (--reader).");
      }
      if (leave.get() < 1 || leave.get() > waiting.size()) {
        throw new ArchiveException(
            "There is no number " + leave.get() + " in the list of `apart`.");
      }
      new ReaderStore(archive).atTheTerminal(reader.get()).requireDeciding();
      Apart apart = waiting.get(leave.get() - 1);
      store.leave(apart, note, reader.get());
      DecisionWords.Told told = new DecisionWords(archive).tell(apart);
      out().println("Left so: " + told.what() + ", " + told.about() + ".");
      return 0;
    }
    DecisionWords words = new DecisionWords(archive);
    for (int i = 0; i < waiting.size(); i++) {
      if (json) {
        JsonLines.print(out(), object(archive, i + 1, waiting.get(i), words));
      } else {
        print(out(), i + 1 + "  ", words.tell(waiting.get(i)), true);
      }
    }
    if (waiting.isEmpty() && !json) {
      out().println("Nothing waits.");
    }
    return 0;
  }

  /**
   * Prints one thing that was decided differently.
   *
   * @param joined whether the histories are one, so that the later of the two on one thing holds
   */
  static void print(PrintWriter out, String number, DecisionWords.Told told, boolean joined) {
    out.println(number + told.what() + ": " + told.about());
    for (int i = 0; i < told.both().size(); i++) {
      DecisionWords.Said said = told.both().get(i);
      out.println(
          "    "
              + said.reader()
              + ", "
              + said.at()
              + (joined && told.isOfOne() && i == told.both().size() - 1 ? " [holds]" : "")
              + (joined ? " " + said.id() : "")
              + (said.words().isEmpty() ? "" : "  " + said.words()));
    }
    String of = told.isOfOne() ? "letters: " : "";
    told.letters().forEach(letters -> out.println("    " + of + letters));
  }

  private static ObjectNode object(Archive archive, int number, Apart apart, DecisionWords words) {
    DecisionWords.Told told = words.tell(apart);
    ObjectNode object =
        JsonLines.object()
            .put("number", number)
            .put("what", told.what())
            .put("about", told.about());
    for (DecisionWords.Said said : told.both()) {
      object
          .withArray("decisions")
          .addObject()
          .put("id", said.id().toString())
          .put("reader", said.reader())
          .put("at", said.at().toString())
          .put("kind", archive.journal().find(said.id()).map(Decision::kind).orElse(""))
          .put("said", said.words());
    }
    told.letters().forEach(letters -> object.withArray("letters").add(letters));
    return object;
  }
}
