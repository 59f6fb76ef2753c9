package rakelight.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.work.LendingOut;
import rakelight.work.LendingStore;
import rakelight.work.ReaderStore;

@Command(
    name = "lend",
    description = {
      "Packs some markers for somebody who reads them on another machine: photographs reduced,",
      "proposals, what was noted and signed of these markers, nothing of others. The folder opens"
          + " like",
      "any archive; `return` takes in what was decided there. Without --markers: what was lent."
    })
final class LendCommand extends ArchiveCommand {
  @Option(
      names = "--markers",
      split = ",",
      paramLabel = "NUMBER",
      description = "Their numbers, parted by commas.")
  private List<String> markers = List.of();

  @Option(names = "--to", paramLabel = "FOLDER", description = "A folder that isn't there yet.")
  private Optional<Path> target = Optional.empty();

  @Option(names = "--for", paramLabel = "NAME", description = "Who borrows them.")
  private String borrower = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Override
  int run(Archive archive) throws IOException {
    if (markers.isEmpty()) {
      list(archive);
      return 0;
    }
    if (target.isEmpty() || reader.isEmpty() || borrower.isBlank()) {
      throw wrong("Give --to, --for and --reader with --markers.");
    }
    Progress progress = Progress.on(err(), "photographs");
    LendingOut.Lent lent =
        new LendingOut(archive, Projections.all())
            .lend(
                markers,
                borrower,
                target.get(),
                new ReaderStore(archive).atTheTerminal(reader.get()),
                count -> progress.start(count, 0),
                shot -> progress.step(0));
    progress.clear();
    lent.unmade().forEach(line -> err().println(line));
    out()
        .println(
            Counted.of(lent.markers().size(), "marker")
                + " with "
                + Counted.of(lent.photographs(), "photograph")
                + ", reduced ("
                + lent.sizeBytes() / 1_000_000
                + " MB), and "
                + Counted.of(lent.decisions(), "decision")
                + " are in "
                + target.get()
                + ", for "
                + borrower.strip()
                + ".");
    out().println("CONFIDENTIAL: it may name people who are living. Keep it like the archive.");
    return lent.unmade().isEmpty() ? 0 : 1;
  }

  private void list(Archive archive) {
    MarkerStore store = new MarkerStore(archive);
    List<LendingStore.Lending> lendings = new LendingStore(archive).lendings();
    for (LendingStore.Lending lending : lendings) {
      List<String> numbers =
          lending.markers().stream()
              .map(id -> store.marker(id).map(Marker::number).orElse(id.toString()))
              .collect(Collectors.toList());
      out()
          .println(
              lending.at().toString().substring(0, 10)
                  + "  "
                  + lending.borrower()
                  + "  "
                  + String.join(", ", numbers)
                  + lending
                      .returned()
                      .map(when -> "  returned " + when.toString().substring(0, 10))
                      .orElse("  out"));
    }
    if (lendings.isEmpty()) {
      out().println("Nothing was lent.");
    }
  }
}
