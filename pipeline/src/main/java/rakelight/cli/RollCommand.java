package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.marker.Caution;
import rakelight.marker.Marker;
import rakelight.person.Mention;
import rakelight.person.Roll;
import rakelight.publish.Edition;

@Command(
    name = "roll",
    description = {
      "Lists everybody by regiment, company, war, rank, trade or place of origin, as the stones tell",
      "it, with the stones. What is spelt otherwise and means the same stands together."
    })
final class RollCommand extends ArchiveCommand {
  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description = "The day by which it is reckoned what may be told, such as 2026-11-25.")
  private LocalDate asOf;

  @Option(
      names = "--by",
      paramLabel = "WHAT",
      description = "regiment, company, war, rank, trade or origin; all of them without.")
  private Optional<String> by = Optional.empty();

  @Option(
      names = "--of",
      paramLabel = "WORDS",
      description = "Only those groups, however spelt, such as \"5th Regt\".")
  private Optional<String> of = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    List<Roll.By> kinds =
        by.map(
                label ->
                    List.of(
                        Roll.By.of(label)
                            .orElseThrow(
                                () ->
                                    wrong(
                                        label + ": no such roll; there are " + Roll.By.labels()))))
            .orElse(Arrays.asList(Roll.By.values()));
    Edition edition = Edition.of(archive, asOf);
    boolean any = false;
    for (Roll.By kind : kinds) {
      List<Roll.Group> groups =
          Roll.of(edition.persons(), kind).stream()
              .filter(group -> of.isEmpty() || Roll.isMeant(group, kind, of.get()))
              .toList();
      any |= !groups.isEmpty();
      groups.forEach(group -> print(kind, group));
    }
    if (!json) {
      out().println(any ? Caution.LOOK_ONLY : "No stone that may be told says so.");
    }
    return 0;
  }

  private void print(Roll.By kind, Roll.Group group) {
    PrintWriter out = out();
    if (json) {
      JsonLines.print(out, object(kind, group));
      return;
    }
    out.println(
        kind.words()
            + ": "
            + group.called()
            + (group.others().isEmpty() ? "" : "  (also " + String.join("; ", group.others()) + ")")
            + ", "
            + group.entries().size());
    for (Roll.Entry entry : group.entries()) {
      String life = entry.life();
      out.println(
          "  "
              + entry.person().called()
              + (life.isEmpty() ? "" : "  " + life)
              + "  “"
              + String.join("”, “", entry.asCarved())
              + "”  marker "
              + entry.markers().stream().map(Marker::number).collect(Collectors.joining(", ")));
    }
  }

  private static ObjectNode object(Roll.By kind, Roll.Group group) {
    ObjectNode object = JsonLines.object().put("by", kind.label()).put("called", group.called());
    group.spellings().forEach(object.withArray("spellings")::add);
    for (Roll.Entry entry : group.entries()) {
      ObjectNode one =
          object
              .withArray("persons")
              .addObject()
              .put("id", entry.person().id().toString())
              .put("name", entry.person().called())
              .put("life", entry.life());
      entry.asCarved().forEach(one.withArray("asCarved")::add);
      entry.markers().forEach(marker -> one.withArray("markers").add(marker.number()));
      entry.mentions().stream().map(Mention::label).forEach(one.withArray("mentions")::add);
    }
    return object;
  }
}
