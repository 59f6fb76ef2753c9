package rakelight.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "renumber",
    description = "Gives a marker another number; it is still found by the one it had.")
final class Renumber extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "MARKER", description = "The number it has.")
  private String from;

  @Parameters(index = "2", paramLabel = "NUMBER", description = "The number it gets.")
  private String to;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    MarkerStore store = new MarkerStore(archive);
    Marker marker = store.named(from);
    store.renumber(marker.id(), to, reader);
    out().println("Marker " + marker.number() + " is now " + to + ".");
    for (Marker other : store.withNumberEarlier(to)) {
      out()
          .println(
              to
                  + " was the number of marker "
                  + other.number()
                  + " before; whoever looks for "
                  + to
                  + " finds marker "
                  + to
                  + " from now on.");
    }
    return 0;
  }
}
