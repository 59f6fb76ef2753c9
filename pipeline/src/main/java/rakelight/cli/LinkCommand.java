package rakelight.cli;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.ground.Link;
import rakelight.ground.LinkFile;
import rakelight.ground.LinkStore;

@Command(
    name = "link",
    description = {
      "Confirms under your name what a marker has to do with another marker or a person.",
      "Kinds: footstone of (a marker); commemorated, buried here, removed from, reburied, said to"
          + " be (a person, in words or as marker:face:number)."
    })
final class LinkCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "MARKER KIND TO",
      description = "Such as: 5 footstone-of 4")
  private List<String> words = List.of();

  @Option(
      names = "--from",
      paramLabel = "FILE.tsv",
      description = "Many links at once: columns from, type, to, note, parted by tabs; UTF-8.")
  private @Nullable Path file;

  @Option(names = "--note", paramLabel = "WORDS", description = "What speaks for it.")
  private String note = "";

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) throws IOException {
    if ((file == null) == words.isEmpty()) {
      throw wrong("Give either a marker, a kind and what it leads to, or --from FILE.tsv");
    }
    LinkStore store = new LinkStore(archive);
    return file == null ? one(store) : many(store, file);
  }

  private int one(LinkStore store) {
    if (words.size() < 3) {
      throw wrong("A link needs a marker, a kind and what it leads to: 5 footstone-of 4");
    }
    Link.Kind kind =
        Link.Kind.of(words.get(1))
            .orElseThrow(
                () -> wrong("No such link as " + words.get(1) + "; there are " + LinkFile.kinds()));
    String to = String.join(" ", words.subList(2, words.size()));
    Link link = store.confirm(words.get(0), kind, to, note, reader);
    out()
        .println(
            "Marker "
                + words.get(0)
                + ": "
                + kind.label()
                + " "
                + to
                + "  ("
                + link.decision()
                + ")");
    return 0;
  }

  private int many(LinkStore store, Path from) throws IOException {
    try {
      int confirmed = store.confirmAll(LinkFile.read(from), reader);
      out().println(Counted.of(confirmed, "link") + " confirmed by " + reader);
      return 0;
    } catch (Table.RefusedException e) {
      e.problems().forEach(err()::println);
    } catch (NoSuchFileException e) {
      throw new ArchiveException(from + ": there is no such file.", e);
    } catch (ArchiveException e) {
      err().println(from + ", " + e.getMessage());
    }
    err().println(from + ": no link was confirmed.");
    return 1;
  }
}
