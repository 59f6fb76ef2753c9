package rakelight.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "renumber",
    description = "Gives a marker another number; it is still found by the one it had.")
final class Renumber implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1", paramLabel = "MARKER", description = "The number it has.")
  private String from;

  @Parameters(index = "2", paramLabel = "NUMBER", description = "The number it gets.")
  private String to;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  public Integer call() {
    try (Archive archive = Archive.open(root, Projections.all())) {
      MarkerStore store = new MarkerStore(archive);
      Marker marker = store.named(from);
      store.renumber(marker.id(), to, reader);
      spec.commandLine().getOut().println("Marker " + marker.number() + " is now " + to + ".");
    }
    return 0;
  }
}
