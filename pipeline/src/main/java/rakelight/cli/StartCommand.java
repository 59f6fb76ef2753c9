package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Ground;
import rakelight.desk.Entrance;

@Command(
    name = "start",
    description = {
      "Opens the start page in the web browser: to make an archive or open one, put photographs in,",
      "have them read, back up and hand on without typing commands."
    })
final class StartCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "0",
      description = "Where it listens on this machine (default: any free port).")
  private int port;

  @Option(
      names = "--no-browser",
      description = "Says the address only; it holds a key, so that no other user comes in.")
  private boolean noBrowser;

  @Override
  public Integer call() throws IOException, InterruptedException {
    if (port < 0 || port > 65535) {
      throw new ParameterException(spec.commandLine(), "--port must be 0 to 65535, not " + port);
    }
    PrintWriter out = spec.commandLine().getOut();
    OneInstance instance = new OneInstance(OneInstance.settings());
    String running = instance.running().orElse("");
    if (!running.isEmpty()) {
      out.println("Rakelight runs already, at " + running);
      show(running);
      return 0;
    }
    try (Entrance entrance =
        Entrance.start(
            new FromPages(), OneInstance.settings(), ownProgram(), port, Clock.systemUTC())) {
      Thread stop = new Thread(entrance::close, "stop");
      Runtime.getRuntime().addShutdownHook(stop);
      instance.runsAt(entrance.address());
      out.println("Rakelight is open at " + entrance.address());
      out.flush();
      show(entrance.address());
      entrance.await();
    } finally {
      instance.ended();
    }
    return 0;
  }

  private void show(String address) {
    if (!noBrowser && !WebBrowser.show(address)) {
      spec.commandLine().getOut().println("Open that address in a web browser.");
    }
  }

  /** The words that start this program again, without a command. */
  static List<String> ownProgram() {
    String packaged = System.getProperty("jpackage.app-path", "");
    return packaged.isEmpty()
        ? List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            Rakelight.class.getName())
        : List.of(packaged);
  }

  /** Archives as the commands make and open them. */
  static final class FromPages implements Entrance.Archives {
    @Override
    public void make(Path folder, String ground, String datum, String zone) {
      Ground described;
      try {
        described = Init.ground(ground, datum, zone);
      } catch (IllegalArgumentException e) {
        throw new ArchiveException(
            String.valueOf(e.getMessage())
                .replace("--datum", "Where it is")
                .replace("--zone", "The time zone"),
            e);
      }
      Archive.init(folder, described, Projections.all()).close();
    }

    @Override
    public Archive open(Path folder) {
      return Archive.open(folder, Projections.all());
    }
  }
}
