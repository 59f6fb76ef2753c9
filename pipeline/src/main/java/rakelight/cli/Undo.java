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
      description = "Its id, as `decisions` lists it; without one, the reader's latest.")
  private Optional<String> decision;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    Optional<DecisionId> named = decision.map(this::id);
    DecisionId id = named.orElseGet(() -> latest(archive));
    Decision undone = archive.journal().find(id).orElse(null);
    new Undoing(archive).undo(id, new ReaderStore(archive).atTheTerminal(reader));
    out().println("Undone: " + (undone == null ? "" : undone.kind() + " ") + id + ".");
    return 0;
  }

  private DecisionId id(String text) {
    try {
      return DecisionId.of(text);
    } catch (IllegalArgumentException e) {
      throw wrong(text + ": not a decision's id. List them with `decisions`.");
    }
  }

  private DecisionId latest(Archive archive) {
    List<Decision> all = archive.journal().since(1);
    var undone = archive.journal().undone();
    for (int i = all.size() - 1; i >= 0; i--) {
      Decision candidate = all.get(i);
      if (candidate.reader().equals(reader)
          && !candidate.kind().equals(Decision.UNDONE)
          && !undone.containsKey(candidate.id())) {
        return candidate.id();
      }
    }
    throw new ArchiveException("There is nothing by " + reader + " to undo.");
  }
}
