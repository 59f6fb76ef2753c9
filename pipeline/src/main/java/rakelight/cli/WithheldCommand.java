package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.publish.Edition;
import rakelight.publish.Why;
import rakelight.publish.Withholding;

@Command(
    name = "withheld",
    description = {
      "Lists what isn't published on a day and why: markers, faces, photographs, persons. The list is",
      "confidential. `withhold` adds to it; `undo` takes a decision back by its id."
    })
final class WithheldCommand extends ArchiveCommand {
  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description = "The day of publication, such as 2026-11-25.")
  private LocalDate asOf;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    for (Edition.LeftOut left : Edition.of(archive, asOf).leftOut()) {
      if (json) {
        JsonLines.print(out, object(left));
        continue;
      }
      out.println(left.called());
      left.why().forEach(why -> out.println("    " + told(why)));
    }
    return 0;
  }

  private static String told(Why why) {
    if (why instanceof Why.Decided decided) {
      return why.words() + told(decided.withholding());
    } else if (why instanceof Why.NotFound notFound) {
      return "the person of this decision isn't named there any more; withhold him anew, then undo"
          + " it: "
          + notFound.withholding().cause().words()
          + told(notFound.withholding());
    } else if (why instanceof Why.YoungBurial young) {
      return why.words() + ": " + young.death() + " at the latest";
    }
    return why.words();
  }

  private static String told(Withholding withholding) {
    return ": "
        + withholding.reason()
        + withholding.askedBy().map(name -> "; asked by " + name).orElse("")
        + "; "
        + withholding.on()
        + ", "
        + withholding.reader()
        + "  ("
        + withholding.decision()
        + ")";
  }

  private static ObjectNode object(Edition.LeftOut left) {
    ObjectNode object =
        JsonLines.object()
            .put("withheld", left.sort().name().toLowerCase(Locale.ROOT))
            .put("id", left.id().toString())
            .put("called", left.called());
    left.markers().forEach(marker -> object.withArray("markers").add(marker));
    for (Why why : left.why()) {
      ObjectNode own =
          object.withArray("why").addObject().put("why", why.label()).put("words", why.words());
      if (why instanceof Why.Decided decided) {
        put(own, decided.withholding());
      } else if (why instanceof Why.NotFound notFound) {
        put(own, notFound.withholding());
      } else if (why instanceof Why.YoungBurial young) {
        own.put("years", young.years()).put("death", young.death().toString());
      } else if (why instanceof Why.DeathUnknown unknown) {
        own.put("years", unknown.years());
      }
    }
    return object;
  }

  private static void put(ObjectNode object, Withholding withholding) {
    object.put("reason", withholding.reason());
    withholding.askedBy().ifPresent(name -> object.put("askedBy", name));
    object
        .put("on", withholding.on().toString())
        .put("reader", withholding.reader())
        .put("decision", withholding.decision().toString());
  }
}
