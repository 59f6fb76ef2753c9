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

  @Option(
      names = "--offered",
      description = "Takes photographer and rights that stand in the files, where none are given.")
  private boolean offered;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    if (photographer.isEmpty() && credit.isEmpty() && rights.isEmpty() && !offered) {
      throw wrong("Give --photographer, --credit or --rights, or --offered.");
    }
    PhotoStore store = new PhotoStore(archive);
    List<Photograph> chosen = Chosen.of(store, photographs);
    int credited =
        archive
            .ledger()
            .write(
                handle -> {
                  int changed = 0;
                  for (Photograph photograph : chosen) {
                    Optional<String> by =
                        given(
                            photographer,
                            photograph.photographer(),
                            photograph.offered().photographer());
                    Optional<String> under =
                        given(rights, photograph.rights(), photograph.offered().rights());
                    if (by.isPresent() || credit.isPresent() || under.isPresent()) {
                      store.credit(photograph.id(), by, credit, under, reader);
                      changed++;
                    }
                  }
                  return changed;
                });
    out().println(Counted.of(credited, "photograph") + " credited.");
    return 0;
  }

  private Optional<String> given(
      Optional<String> said, Optional<String> standing, Optional<String> inTheFile) {
    return said.isPresent() || !offered || standing.isPresent() ? said : inTheFile;
  }
}
