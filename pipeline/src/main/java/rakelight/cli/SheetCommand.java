package rakelight.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
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
final class SheetCommand extends ArchiveCommand {
  @Parameters(index = "1..*", arity = "1..*", paramLabel = "MARKER", description = "Numbers.")
  private List<String> numbers;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      defaultValue = "sheets.pdf",
      description = "The file to write (default: ${DEFAULT-VALUE}).")
  private Path out;

  @Override
  int run(Archive archive) throws IOException {
    MarkerStore store = new MarkerStore(archive);
    List<Marker> markers = new ArrayList<>();
    for (String number : numbers) {
      Marker marker = store.byNumber(number).orElse(null);
      if (marker == null) {
        err().println("sheet: there is no marker " + number + " here.");
        return 1;
      }
      markers.add(marker);
    }
    try (OutputStream file = Files.newOutputStream(out)) {
      Sheets.write(archive, markers, file);
    }
    out().println("Written: " + out);
    return 0;
  }
}
