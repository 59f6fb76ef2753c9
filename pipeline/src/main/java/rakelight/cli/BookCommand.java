package rakelight.cli;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.publish.Edition;
import rakelight.publish.paper.RegisterBook;

@Command(
    name = "book",
    description =
        "Writes the register of the ground as a book to print: inscriptions by row with their"
            + " marks of doubt, the plan, indices, questions and sources.")
final class BookCommand extends ArchiveCommand {
  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description =
          "The day of publication, such as 2026-11-25: what may not be told then is left out"
              + " (`withheld` lists it).")
  private LocalDate asOf;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "FILE",
      description = "The PDF to write; a file of that name is replaced.")
  private Path file;

  @Override
  int run(Archive archive) throws IOException {
    Edition edition = Edition.of(archive, asOf);
    if (edition.faces().isEmpty()) {
      err().println("Nothing is confirmed here that may be told; `read` or `confirm` does that.");
      return 1;
    }
    Path part = file.resolveSibling(file.getFileName() + ".part");
    int pages;
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part))) {
      pages = RegisterBook.write(edition, asOf, out);
    }
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    out().println(file + ": " + Counted.of(pages, "page"));
    return 0;
  }
}
