package rakelight.cli;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.Undoing;

@Command(
    name = "undo",
    description = "Undoes a decision, or an earlier undo; both stay in the journal.")
final class Undo extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "DECISION",
      description =
          "Its id, as `decisions` lists it; without one, the reader's latest, with what was decided"
              + " in one act with it.")
  private Optional<String> decision;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
    Undoing undoing = new Undoing(archive);
    if (decision.isPresent()) {
      DecisionId id = id(decision.get());
      String kind = archive.journal().find(id).map(found -> found.kind() + " ").orElse("");
      undoing.undo(id, by);
      out().println("Undone: " + kind + id + ".");
      return 0;
    }
    List<Decision> act = undoing.undoAct(latest(archive), by);
    Decision last = act.get(0);
    out()
        .println(
            act.size() == 1
                ? "Undone: " + last.kind() + " " + last.id() + "."
                : "Undone: " + act.size() + " decisions of one act, " + last.kind() + ".");
    return 0;
  }

  private DecisionId id(String text) {
    try {
      return DecisionId.of(text);
    } catch (IllegalArgumentException e) {
      throw wrong(text + ": not a decision's id. List them with `decisions`.");
    }
  }

  private Decision latest(Archive archive) {
    List<Decision> all = archive.journal().since(1);
    var undone = archive.journal().undone();
    for (int i = all.size() - 1; i >= 0; i--) {
      Decision candidate = all.get(i);
      if (candidate.reader().equals(reader)
          && !candidate.kind().equals(Decision.UNDONE)
          && !undone.containsKey(candidate.id())) {
        return candidate;
      }
    }
    throw new ArchiveException("There is nothing by " + reader + " to undo.");
  }
}
