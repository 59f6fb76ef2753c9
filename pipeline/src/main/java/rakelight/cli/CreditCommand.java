package rakelight.cli;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(
    name = "credit",
    description = "Changes who took photographs and what may be done with them.")
final class CreditCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "PHOTO",
      description = "Id, digest, path or file name.")
  private List<String> photographs;

  @Option(names = "--photographer", paramLabel = "NAME", description = "Who took them.")
  private Optional<String> photographer;

  @Option(names = "--credit", paramLabel = "TEXT", description = "The credit line.")
  private Optional<String> credit;

  @Option(names = "--rights", paramLabel = "TEXT", description = "What may be done with them.")
  private Optional<String> rights;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    if (photographer.isEmpty() && credit.isEmpty() && rights.isEmpty()) {
      throw wrong("Give --photographer, --credit or --rights.");
    }
    PhotoStore store = new PhotoStore(archive);
    List<Photograph> chosen = Chosen.of(store, photographs);
    archive
        .ledger()
        .write(
            handle -> {
              chosen.forEach(
                  photograph ->
                      store.credit(photograph.id(), photographer, credit, rights, reader));
              return 0;
            });
    out().println(chosen.size() + " photographs credited.");
    return 0;
  }
}
