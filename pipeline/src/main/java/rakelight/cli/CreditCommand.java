package rakelight.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(
    name = "credit",
    description = "Changes who took photographs and what may be done with them.")
final class CreditCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

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
  public Integer call() {
    if (photographer.isEmpty() && credit.isEmpty() && rights.isEmpty()) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "Give --photographer, --credit or --rights.");
    }
    try (Archive archive = Archive.open(root, Projections.all())) {
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
      spec.commandLine().getOut().println(chosen.size() + " photographs credited.");
    }
    return 0;
  }
}
