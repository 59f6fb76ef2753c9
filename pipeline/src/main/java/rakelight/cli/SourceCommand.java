package rakelight.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.person.Source;
import rakelight.person.SourceStore;

@Command(
    name = "source",
    description = {
      "Records evidence that isn't a photograph of the stone: a register, a roll, a letter, an old",
      "list, a rubbing; or, with an earlier one named by its number, adds scans to it."
    })
final class SourceCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "SOURCE",
      description = "An earlier one, such as 5, to add scans to.")
  private Optional<String> earlier = Optional.empty();

  @Option(
      names = "--kind",
      paramLabel = "KIND",
      description = "register, roll, letter, old-list, rubbing or other.")
  private Optional<String> kind = Optional.empty();

  @Option(names = "--title", paramLabel = "WORDS", description = "What it calls itself.")
  private String title = "";

  @Option(names = "--repository", paramLabel = "WORDS", description = "Where it is kept.")
  private String repository = "";

  @Option(names = "--reference", paramLabel = "WORDS", description = "Its shelf mark or page.")
  private String reference = "";

  @Option(names = "--consulted", paramLabel = "DAY", description = "When it was seen: 2026-11-25.")
  private Optional<LocalDate> consulted = Optional.empty();

  @Option(names = "--scan", paramLabel = "FILE", description = "A scan, kept as an original.")
  private List<Path> scans = List.of();

  @Option(names = "--note", paramLabel = "WORDS", description = "Anything else.")
  private String note = "";

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    if (earlier.isPresent() && (kind.isPresent() || !title.isEmpty() || scans.isEmpty())) {
      throw wrong("To a source that is here already only scans are added: 5 --scan FILE");
    }
    Optional<Source.Kind> parsed = kind.flatMap(Source.Kind::of);
    if (earlier.isEmpty() && parsed.isEmpty()) {
      throw wrong("Say what kind of source it is (--kind): " + Source.Kind.labels());
    }
    SourceStore store = new SourceStore(archive);
    Source source =
        earlier
            .map(store::source)
            .orElseGet(
                () ->
                    store.record(
                        parsed.orElseThrow(),
                        title,
                        repository,
                        reference,
                        consulted,
                        note,
                        reader));
    scans.forEach(file -> store.scan(source, file, reader));
    out().println(source.label() + ": " + source.title());
    return 0;
  }
}
