package rakelight.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.InvalidPathException;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;
import rakelight.archive.ArchiveException;
import rakelight.picture.NativesMissingException;
import rakelight.work.RefusedException;

/** Says in one line on standard error what went wrong, never with a stack trace. */
final class ErrorLine implements IExecutionExceptionHandler {
  @Override
  public int handleExecutionException(
      Exception exception, CommandLine commandLine, ParseResult parsed) {
    commandLine.getErr().println(of(exception));
    return 1;
  }

  /** What a person is told about an exception. */
  static String of(Exception exception) {
    if (exception instanceof ArchiveException || exception instanceof NativesMissingException) {
      return String.valueOf(exception.getMessage());
    }
    if (exception instanceof RefusedException refused) {
      return Refusals.words(refused.refused());
    }
    if (exception instanceof UncheckedIOException || exception instanceof IOException) {
      return "A file can't be read or written: " + exception.getMessage();
    }
    if (exception instanceof InvalidPathException invalid) {
      return invalid.getInput() + ": " + NativeNames.ADVICE;
    }
    StackTraceElement[] trace = exception.getStackTrace();
    return "A fault in this program, please report it: "
        + exception
        + (trace.length == 0 ? "" : " at " + trace[0]);
  }
}
