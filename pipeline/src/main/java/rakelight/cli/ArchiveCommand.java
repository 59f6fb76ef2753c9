package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;

/** A command whose first word is an archive's folder; the archive is open while it runs. */
abstract class ArchiveCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  /**
   * Does what the command is for.
   *
   * @return the exit code
   * @throws Exception to be told in one line by {@link ErrorLine}
   */
  abstract int run(Archive archive) throws Exception;

  @Override
  public Integer call() throws Exception {
    try (Archive archive = Archive.open(root, Projections.all())) {
      return run(archive);
    }
  }

  /** The archive's folder, as it was given. */
  final Path root() {
    return root;
  }

  final PrintWriter out() {
    return spec.commandLine().getOut();
  }

  final PrintWriter err() {
    return spec.commandLine().getErr();
  }

  /** Whether an option stands on the command line. */
  final boolean isGiven(String option) {
    return spec.commandLine().getParseResult().hasMatchedOption(option);
  }

  /** A command line that can't be followed, for exit code 2. */
  final ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
