package rakelight.cli;

import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.desk.Desk;

@Command(
    name = "desk",
    description = "Opens the desk, where people settle doubtful letters in a web browser.")
final class DeskCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "" + Desk.USUAL_PORT,
      description = "Where it listens (default: ${DEFAULT-VALUE}; 0 for any free port).")
  private int port;

  @Option(
      names = "--listen",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description = {
        "Who may reach it: this machine only (default: ${DEFAULT-VALUE}), or an address of this",
        "machine, or 0.0.0.0 for every network it is on. Beyond this machine readers must be named."
      })
  private String listen;

  @Override
  public Integer call() throws InterruptedException {
    if (port < 0 || port > 65535) {
      throw new ParameterException(spec.commandLine(), "--port must be 0 to 65535, not " + port);
    }
    InetAddress address = address();
    PrintWriter out = spec.commandLine().getOut();
    try (Archive archive = Archive.open(root, Projections.all());
        Desk desk = Desk.start(archive, address, port, Clock.systemUTC())) {
      Thread stop = new Thread(desk::close, "stop");
      Runtime.getRuntime().addShutdownHook(stop);
      out.println(
          String.format(
              Locale.ROOT, "The desk is open at http://%s:%d/ until Ctrl-C.", listen, desk.port()));
      desk.await();
    }
    return 0;
  }

  private InetAddress address() {
    try {
      return InetAddress.getByName(listen);
    } catch (UnknownHostException e) {
      throw new ParameterException(
          spec.commandLine(), "--listen must be an address of this machine, not " + listen);
    }
  }
}
