package rakelight.cli;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.inscription.Basis;
import rakelight.inscription.ReadingFile;
import rakelight.marker.MarkerStore;
import rakelight.work.FileWork;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;

@Command(
    name = "confirm",
    description =
        "Signs the readings of a file under your name. Nothing is signed unless every row is good.")
final class Confirm extends ArchiveCommand {
  @Option(
      names = "--from",
      required = true,
      paramLabel = "FILE.tsv",
      description = "Columns marker, face, line, text (Leiden signs), parted by tabs; UTF-8.")
  private Path file;

  @Option(
      names = "--new-markers",
      description = "Make the markers of the file that aren't known yet.")
  private boolean newMarkers;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Mixin private BasisOptions basisOptions;

  @Override
  int run(Archive archive) throws IOException {
    Basis basis = basisOptions.basis();
    try {
      ReadingFile readings = ReadingFile.read(file);
      if (!newMarkers && tellUnknown(new MarkerStore(archive), readings)) {
        return 1;
      }
      NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
      FileWork.Confirmed result = new FileWork(archive).confirm(readings, basis, by);
      out()
          .println(
              Counted.of(result.signed(), "reading")
                  + " signed by "
                  + by.name()
                  + (result.unchanged() == 0 ? "" : ", " + result.unchanged() + " unchanged"));
      if (result.signed() > 0) {
        Set<String> markers =
            readings.entries().stream().map(ReadingFile.Entry::marker).collect(Collectors.toSet());
        SoughtCommand.tell(archive, markers, out());
      }
      return 0;
    } catch (Table.RefusedException e) {
      e.problems().forEach(err()::println);
      err().println(file + ": nothing was signed.");
      return 1;
    } catch (NoSuchFileException e) {
      throw new ArchiveException(file + ": there is no such file.", e);
    }
  }

  /** A number that nothing here has may be a slip of the hand. */
  private boolean tellUnknown(MarkerStore markers, ReadingFile readings) {
    List<String> unknown =
        readings.entries().stream()
            .map(ReadingFile.Entry::marker)
            .distinct()
            .filter(number -> markers.byNumber(number).isEmpty())
            .toList();
    unknown.forEach(number -> err().println(file + ": there is no marker " + number + " here."));
    if (!unknown.isEmpty()) {
      err()
          .println(
              file
                  + ": nothing was signed. Correct the numbers, or give --new-markers to make these"
                  + " markers.");
    }
    return !unknown.isEmpty();
  }
}
