package rakelight.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.Option;
import rakelight.archive.BadInputException;

/** How likes of one thing are listed, and what somebody says of two of them, as options. */
final class LikesOptions {
  @Option(
      names = "--most",
      paramLabel = "N",
      defaultValue = "12",
      description = "How many are listed (default: 12).")
  private int most;

  @Option(
      names = "--out",
      paramLabel = "FOLDER",
      description = "Also draws each beside the one asked for: places that are alike, or letters.")
  private Optional<Path> folder = Optional.empty();

  @Option(
      names = "--is",
      paramLabel = "WORDS",
      description = "What you say of both, with --with and --reader: see above.")
  private Optional<String> is = Optional.empty();

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name, for --is.")
  private Optional<String> reader = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  /** Gives a PNG file. */
  @FunctionalInterface
  interface Drawing {
    byte[] png() throws IOException, BadInputException;
  }

  int most() {
    return most;
  }

  Optional<String> is() {
    return is;
  }

  Optional<String> reader() {
    return reader;
  }

  boolean json() {
    return json;
  }

  /**
   * Draws one of the list if a folder is given for that.
   *
   * @param rank from 1
   */
  void draw(String what, int rank, Drawing drawing) throws IOException, BadInputException {
    if (folder.isPresent()) {
      Files.createDirectories(folder.get());
      Path file = folder.get().resolve(String.format(Locale.ROOT, "%s-%02d.png", what, rank));
      Files.write(file, drawing.png());
    }
  }
}
