package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.person.Source;
import rakelight.person.SourceStore;

@Command(
    name = "sources",
    description = "Lists registers, rolls, letters, old lists and rubbings, with their scans.")
final class SourcesCommand extends ArchiveCommand {
  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    for (Source source : new SourceStore(archive).sources()) {
      if (json) {
        JsonLines.print(out, object(source, archive));
      } else {
        print(out, source, archive);
      }
    }
    return 0;
  }

  private static void print(PrintWriter out, Source source, Archive archive) {
    StringBuilder line = new StringBuilder(source.label());
    line.append("  ").append(source.kind().label()).append("  ").append(source.title());
    for (String part : new String[] {source.repository(), source.reference()}) {
      line.append(part.isEmpty() ? "" : ", " + part);
    }
    source.consulted().ifPresent(day -> line.append(", consulted ").append(day));
    line.append(source.note().isEmpty() ? "" : "  (" + source.note() + ")");
    out.println(line);
    source
        .scans()
        .forEach(
            scan ->
                out.println(
                    "    "
                        + scan.originalName()
                        + "  "
                        + archive.originals().path(scan.sha256(), scan.extension())));
  }

  private static ObjectNode object(Source source, Archive archive) {
    ObjectNode object =
        JsonLines.object()
            .put("source", source.number())
            .put("id", source.id().toString())
            .put("kind", source.kind().label())
            .put("title", source.title())
            .put("repository", source.repository())
            .put("reference", source.reference());
    source.consulted().ifPresent(day -> object.put("consulted", day.toString()));
    object.put("note", source.note()).put("reader", source.reader());
    for (Source.Scan scan : source.scans()) {
      object
          .withArray("scans")
          .addObject()
          .put("file", scan.originalName())
          .put("sha256", scan.sha256().hex())
          .put("bytes", scan.sizeBytes())
          .put("path", archive.originals().path(scan.sha256(), scan.extension()).toString());
    }
    return object.put("decision", source.decision().toString());
  }
}
