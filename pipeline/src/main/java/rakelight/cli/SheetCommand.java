package rakelight.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.desk.Sheets;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "sheet",
    description = {
      "Prints sheets to take to the stone where no telephone works: a PDF with each face, what it is",
      "taken to say in large letters, and room to write."
    })
final class SheetCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1..*", arity = "1..*", paramLabel = "MARKER", description = "Numbers.")
  private List<String> numbers;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      defaultValue = "sheets.pdf",
      description = "The file to write (default: ${DEFAULT-VALUE}).")
  private Path out;

  @Override
  public Integer call() throws IOException {
    try (Archive archive = Archive.open(root, Projections.all())) {
      MarkerStore store = new MarkerStore(archive);
      List<Marker> markers = new ArrayList<>();
      for (String number : numbers) {
        Marker marker = store.byNumber(number).orElse(null);
        if (marker == null) {
          spec.commandLine().getErr().println("sheet: there is no marker " + number + " here.");
          return 1;
        }
        markers.add(marker);
      }
      try (OutputStream file = Files.newOutputStream(out)) {
        Sheets.write(archive, markers, file);
      }
      spec.commandLine().getOut().println("Written: " + out);
    }
    return 0;
  }
}
