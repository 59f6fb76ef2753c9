package rakelight.cli;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.person.Mention;
import rakelight.person.Opinion;
import rakelight.person.People;
import rakelight.person.PersonStore;

@Command(
    name = "person",
    description = {
      "Decides about persons, under your name; `undo` takes it back. `persons` lists whom it names.",
      "  same 15:E:1 16:W:1        two mentions are of one person",
      "  different 15:E:1 16:W:1   they are of two",
      "  died 27:E:2 --note WORDS  there is evidence that somebody is dead",
      "  unnamed 7 --note WORDS    a marker's form tells of somebody whom no letters name"
    })
final class PersonCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "WHAT", description = "same, different, died or unnamed.")
  private String what;

  @Parameters(
      index = "2..*",
      arity = "1..2",
      paramLabel = "WHO",
      description = "Mentions, as marker:face:number; for unnamed, a marker.")
  private List<String> who;

  @Option(names = "--note", paramLabel = "WORDS", description = "What speaks for it.")
  private String note = "";

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    boolean two = what.equals("same") || what.equals("different");
    boolean one = what.equals("died") || what.equals("unnamed");
    if (!two && !one) {
      throw wrong("A decision about persons is same, different, died or unnamed, not " + what);
    }
    if (who.size() != (two ? 2 : 1)) {
      throw wrong(what + " is said of " + (two ? "two mentions" : "one"));
    }
    Opinion opinion = decide(archive);
    out().println(String.join(" and ", who) + ": " + what + "  (" + opinion.decision() + ")");
    return 0;
  }

  private Opinion decide(Archive archive) {
    PersonStore store = new PersonStore(archive);
    if (what.equals("unnamed")) {
      return store.unnamed(who.get(0), note, reader);
    }
    Mention first = People.mention(archive, who.get(0));
    return switch (what) {
      case "same" -> store.same(first, People.mention(archive, who.get(1)), note, reader);
      case "different" -> store.different(first, People.mention(archive, who.get(1)), note, reader);
      default -> store.died(first, note, reader);
    };
  }
}
