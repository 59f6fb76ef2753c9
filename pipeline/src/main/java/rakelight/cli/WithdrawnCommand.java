package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Withdrawals;

@Command(
    name = "withdrawn",
    description = {
      "Lists what was withdrawn from the archive, act by act, with reason and asker; `undo` with the",
      "id brings it back. The list is confidential."
    })
final class WithdrawnCommand extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    for (List<Decision> act : archive.withdrawals().acts()) {
      Decision last = act.get(act.size() - 1);
      Withdrawals.Said said = last.payload(Withdrawals.Said.class);
      Map<String, Long> things =
          act.stream()
              .collect(
                  Collectors.groupingBy(
                      one -> one.kind().substring(0, one.kind().indexOf('.')),
                      TreeMap::new,
                      Collectors.counting()));
      List<Withdrawals.Original> originals =
          act.stream()
              .flatMap(one -> one.payload(Withdrawals.Said.class).original().stream())
              .toList();
      if (json) {
        ObjectNode object = JsonLines.object().put("decision", last.id().toString());
        things.forEach(object.putObject("things")::put);
        originals.forEach(original -> object.withArray("originals").add(original.sha256().hex()));
        object.put("sealed", originals.stream().anyMatch(Withdrawals.Original::sealed));
        object.put("reason", said.reason());
        said.askedBy().ifPresent(name -> object.put("askedBy", name));
        JsonLines.print(out(), object.put("reader", last.reader()).put("at", last.at().toString()));
        continue;
      }
      String what =
          things.entrySet().stream()
              .map(thing -> Counted.of(thing.getValue().intValue(), thing.getKey()))
              .collect(Collectors.joining(", "));
      String bytes =
          originals.isEmpty()
              ? ""
              : originals.stream().anyMatch(Withdrawals.Original::sealed)
                  ? "; originals sealed"
                  : "; originals deleted";
      String asker = said.askedBy().map(name -> "; asked by " + name).orElse("");
      out()
          .printf(
              "%s%s: %s%s; %s, %s  (%s)%n",
              what, bytes, said.reason(), asker, last.at(), last.reader(), last.id());
    }
    return 0;
  }
}
