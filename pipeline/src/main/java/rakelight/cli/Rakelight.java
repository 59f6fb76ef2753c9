package rakelight.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The command line: {@code java -jar rakelight.jar COMMAND}. */
@Command(
    name = "rakelight",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    synopsisSubcommandLabel = "COMMAND",
    description =
        "Reads inscriptions from photographs of old grave markers and keeps them, checked, linked and"
            + " searchable.",
    subcommands = {
      Confirm.class,
      Init.class,
    })
public final class Rakelight implements Runnable {
  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  Rakelight() {}

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /** Runs one command with UTF-8 output whatever the locale, and exits with its code. */
  public static void main(String[] args) {
    PrintStream out = utf8(FileDescriptor.out);
    PrintStream err = utf8(FileDescriptor.err);
    System.setOut(out);
    System.setErr(err);
    int code =
        new CommandLine(new Rakelight())
            .setOut(new PrintWriter(out, true, StandardCharsets.UTF_8))
            .setErr(new PrintWriter(err, true, StandardCharsets.UTF_8))
            .setExecutionExceptionHandler(new OneLine())
            .execute(args);
    System.exit(code);
  }

  private static PrintStream utf8(FileDescriptor descriptor) {
    return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
  }
}
