package rakelight.cli;

import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
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
  private static final String ON_THIS_MACHINE = "127.0.0.1";
  private static final Pattern NAME = Pattern.compile("[A-Za-z0-9-]{1,63}(\\.[A-Za-z0-9-]{1,63})*");

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
      defaultValue = ON_THIS_MACHINE,
      description = {
        "Who may reach it: this machine only (default: ${DEFAULT-VALUE}), or an address of this",
        "machine, or 0.0.0.0 for every network it is on. Beyond this machine readers must be named."
      })
  private String listen;

  @Option(
      names = "--behind-tls",
      paramLabel = "NAME",
      description = {
        "A proxy on this machine takes requests for NAME by https and hands them on: cookies travel by",
        "https alone, and where a request comes from is what the proxy says. Readers must be named."
      })
  private @Nullable String behindTls;

  @Override
  public Integer call() throws InterruptedException {
    if (port < 0 || port > 65535) {
      throw new ParameterException(spec.commandLine(), "--port must be 0 to 65535, not " + port);
    }
    if (behindTls != null && !listen.equals(ON_THIS_MACHINE)) {
      throw new ParameterException(
          spec.commandLine(),
          "--behind-tls goes without --listen: only the proxy on this machine may reach the desk,"
              + " or anybody could say he came from elsewhere");
    }
    if (behindTls != null && !NAME.matcher(behindTls).matches()) {
      throw new ParameterException(
          spec.commandLine(),
          "--behind-tls takes the name that readers type, such as read.example.org, not "
              + behindTls);
    }
    PrintWriter out = spec.commandLine().getOut();
    try (Archive archive = Archive.open(root, Projections.all());
        Desk desk = open(archive)) {
      Thread stop = new Thread(desk::close, "stop");
      Runtime.getRuntime().addShutdownHook(stop);
      out.println(
          behindTls == null
              ? String.format(
                  Locale.ROOT,
                  "The desk is open at http://%s:%d/ until Ctrl-C.",
                  listen,
                  desk.port())
              : String.format(
                  Locale.ROOT,
                  "The desk is open at https://%s/ until Ctrl-C, if the proxy hands on to %s:%d.",
                  behindTls,
                  listen,
                  desk.port()));
      if (archive.isOnlyLookedAt()) {
        out.println("The archive's folder can't be written: there is nothing but looking.");
      }
      desk.await();
    }
    return 0;
  }

  private Desk open(Archive archive) {
    return behindTls == null
        ? Desk.start(archive, address(), port, Clock.systemUTC())
        : Desk.behindTls(archive, behindTls, port, Clock.systemUTC());
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
