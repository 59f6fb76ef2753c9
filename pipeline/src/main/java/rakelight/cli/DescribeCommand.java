package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.Uuid7;
import rakelight.marker.Caution;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionChanges;
import rakelight.marker.DescriptionFile;
import rakelight.marker.DescriptionStore;
import rakelight.marker.DescriptionWords;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.marker.Term;
import rakelight.marker.Terms;

@Command(
    name = "describe",
    description = {
      "What markers are: kind, form, material, parts, lettering, size, maker. Shows it, says it under",
      "your name, or takes it from a table. An empty word takes a field back: --kind \"\""
    })
final class DescribeCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "NUMBER",
      description = "The marker; all that are described if none is named.")
  private Optional<String> number = Optional.empty();

  @Option(
      names = "--is",
      paramLabel = "FIELD=WORDS",
      description = {
        "What one field says; may be repeated: --is kind=headstone --is \"parts=base: standing; shaft:",
        "leaning 8\". The fields: kind, form, material, lettering, parts, height, width, thickness",
        "(in cm), origin, maker, made-at, earlier, enclosure, remark."
      })
  private Map<String, String> said = new LinkedHashMap<>();

  @Option(names = "--from", paramLabel = "FILE.csv", description = "A table of descriptions.")
  private Optional<Path> from = Optional.empty();

  @Option(
      names = "--terms",
      paramLabel = "FILE.tsv",
      description = "Adds terms of your own: list, term, meaning, source, parted by tabs.")
  private Optional<Path> terms = Optional.empty();

  @Option(names = "--words", description = "Lists the terms that may be used.")
  private boolean words;

  @Option(names = "--dry-run", description = "With --from: only says what would change.")
  private boolean dryRun;

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, to say something.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    DescriptionStore store = new DescriptionStore(archive);
    boolean changes = !said.isEmpty() || from.isPresent() || terms.isPresent();
    if (changes && reader.isEmpty() && !dryRun) {
      throw wrong("Give your name to say something (--reader)");
    }
    said.keySet().stream()
        .filter(field -> !DescriptionWords.FIELDS.contains(field))
        .findFirst()
        .ifPresent(
            field -> {
              throw wrong(
                  "No field is called "
                      + field
                      + "; there are "
                      + String.join(", ", DescriptionWords.FIELDS));
            });
    if (!said.isEmpty() && number.isEmpty()) {
      throw wrong("Name the marker that is described.");
    }
    if (terms.isPresent()) {
      int added = store.add(Terms.read(terms.get()), reader.orElseThrow());
      out().println(Counted.of(added, "term") + " added.");
    }
    if (words) {
      list(store.terms());
    }
    if (from.isPresent()) {
      return take(archive, from.get());
    }
    if (!said.isEmpty()) {
      Marker marker = new MarkerStore(archive).named(number.orElseThrow());
      Description before = standing(store, marker);
      Description now = new DescriptionWords(said).over(before);
      store.describe(marker.id(), now, Uuid7.next(), reader.orElseThrow());
    }
    if (!words && (terms.isEmpty() || number.isPresent())) {
      show(archive, store);
    }
    return 0;
  }

  private static Description standing(DescriptionStore store, Marker marker) {
    return store.of(marker.id()).map(Described::description).orElse(Description.NONE);
  }

  private void list(Terms all) {
    for (Term.Quality list : Term.Quality.values()) {
      for (Term term : all.of(list)) {
        if (json) {
          JsonLines.print(
              out(),
              JsonLines.object()
                  .put("list", list.label())
                  .put("term", term.name())
                  .put("meaning", term.meaning())
                  .put("source", term.source()));
        } else {
          out().println(list.label() + "  " + term.name() + ": " + term.meaning());
        }
      }
    }
  }

  /** All rows or, where one can't be taken, none. */
  private int take(Archive archive, Path file) {
    DescriptionChanges changes =
        DescriptionChanges.of(archive, DescriptionFile.read(file), file.toString());
    List<String> faults = changes.faults();
    if (!faults.isEmpty()) {
      faults.forEach(err()::println);
      err().println("Nothing was taken.");
      return 1;
    }
    Map<Marker, Description> changed = changes.changed();
    changed.forEach(
        (marker, now) ->
            out().println("marker " + marker.number() + "  " + String.join(", ", now.told())));
    if (dryRun) {
      out().println("Nothing was changed.");
      return 0;
    }
    changes.take(archive, reader.orElseThrow());
    out()
        .println(
            Counted.of(changed.size(), "marker")
                + " described"
                + (changed.isEmpty() ? "." : "; one `undo` takes it all back."));
    return 0;
  }

  private void show(Archive archive, DescriptionStore store) {
    MarkerStore markers = new MarkerStore(archive);
    List<Marker> shown = number.map(markers::named).map(List::of).orElseGet(markers::markers);
    boolean unsafe = false;
    for (Marker marker : shown) {
      Optional<Described> described = store.of(marker.id());
      if (json) {
        described.ifPresent(one -> JsonLines.print(out(), object(marker, one)));
      } else if (described.isPresent() || number.isPresent()) {
        out()
            .println(
                "marker "
                    + marker.number()
                    + described.map(one -> "  said by " + one.reader()).orElse("  not described"));
        described.ifPresent(
            one -> one.description().told().forEach(line -> out().println("  " + line)));
      }
      unsafe |= described.flatMap(one -> one.description().leanDegrees()).isPresent();
    }
    if (unsafe && !json) {
      out().println(Caution.CONDITION);
    }
  }

  private static ObjectNode object(Marker marker, Described described) {
    ObjectNode object = JsonLines.object().put("marker", marker.number());
    object.setAll((ObjectNode) Json.tree(described.description()));
    return object
        .put("reader", described.reader())
        .put("at", described.at().toString())
        .put("decision", described.decision().toString());
  }
}
