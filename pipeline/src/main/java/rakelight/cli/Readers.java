package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.function.ToIntFunction;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Table;
import rakelight.inscription.Comparison;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingFile;
import rakelight.inscription.ReadingStore;
import rakelight.measure.Krippendorff;
import rakelight.measure.ReaderError;
import rakelight.work.FileWork;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

@Command(
    name = "readers",
    description = {
      "Who may sign in at the desk, how many readers each face needs, and how well they read.",
      "A passphrase is asked for, or read from the first line of standard input."
    })
final class Readers implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Override
  public Integer call() {
    return list(false);
  }

  @Command(name = "list", description = "Lists the readers and how well they read.")
  int list(@Option(names = "--json", description = "One JSON object a line.") boolean json) {
    return open(
        archive -> {
          ReadingStore readings = new ReadingStore(archive);
          Map<String, Integer> signed = new HashMap<>();
          for (FaceReadings face : readings.all()) {
            for (Reading reading : face.versions()) {
              signed.merge(reading.reader(), 1, Integer::sum);
            }
          }
          Map<String, ReaderError> errors = ReaderError.byReader(readings);
          Map<String, Role> roles = new HashMap<>();
          new ReaderStore(archive).all().forEach(reader -> roles.put(reader.name(), reader.role()));
          TreeSet<String> names = new TreeSet<>(roles.keySet());
          names.addAll(signed.keySet());
          for (String name : names) {
            print(
                json,
                name,
                roles.containsKey(name) ? roles.get(name).label() : "not admitted",
                signed.getOrDefault(name, 0),
                errors.getOrDefault(name, ReaderError.NONE));
          }
          if (names.isEmpty() && !json) {
            out().println("Nobody yet. readers " + root + " add NAME --role archivist");
          }
          return 0;
        });
  }

  @Command(name = "add", description = "Admits a reader, or changes role or passphrase.")
  int add(
      @Parameters(paramLabel = "NAME", description = "The reader's name.") String name,
      @Option(
              names = "--role",
              paramLabel = "ROLE",
              defaultValue = "reader",
              description = "archivist, reader (default) or guest.")
          String role,
      @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
          String by)
      throws IOException {
    Role known =
        Role.of(role)
            .orElseThrow(() -> wrong("--role must be archivist, reader or guest, not " + role));
    char[] passphrase = passphrase(name);
    return open(
        archive -> {
          ReaderStore readers = new ReaderStore(archive);
          readers.atTheTerminal(by).requireArchivist();
          readers.admit(name, known, passphrase, by);
          out().println(name.strip() + " may sign in as " + known.label() + ".");
          return 0;
        });
  }

  @Command(name = "remove", description = "Takes a reader's way in; what was decided stays.")
  int remove(
      @Parameters(paramLabel = "NAME", description = "The reader's name.") String name,
      @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
          String by) {
    return open(
        archive -> {
          ReaderStore readers = new ReaderStore(archive);
          readers.atTheTerminal(by).requireArchivist();
          readers.dismiss(name, by);
          out().println(name + " can't sign in any more.");
          return 0;
        });
  }

  @Command(
      name = "require",
      description = {
        "How many readers must read each face: 1, or 2 who can't see each other.",
        "With 2 a third settles where they differ."
      })
  int require(
      @Parameters(paramLabel = "1|2", description = "How many.") int readers,
      @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
          String by) {
    if (readers < 1 || readers > 2) {
      throw wrong("one reader or two, not " + readers);
    }
    return open(
        archive -> {
          ReaderStore named = new ReaderStore(archive);
          named.require(readers, named.atTheTerminal(by));
          out()
              .println(
                  readers == 1
                      ? "One reading of a face is enough."
                      : "Every face is read by two who don't see each other's reading.");
          return 0;
        });
  }

  @Command(
      name = "known",
      description = {
        "Marks faces whose text is known beforehand, to measure readers by; they come up at the",
        "desk like any other. FILE is as `confirm` takes it. Nothing of them is shown as a"
            + " reading.",
        "With --letters only the letters FILE gives are known, `+` or a gap standing for the"
            + " others:",
        "the face is read in earnest, and its reading stands as any other."
      })
  int known(
      @Parameters(paramLabel = "FILE", description = "What the faces say.") Path file,
      @Option(names = "--letters", description = "Only some letters of each face are known.")
          boolean letters,
      @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
          String by)
      throws IOException {
    ReadingFile truths;
    try {
      truths = ReadingFile.read(file);
    } catch (Table.RefusedException e) {
      e.problems().forEach(problem -> spec.commandLine().getErr().println(problem));
      return 1;
    }
    return open(
        archive -> {
          new FileWork(archive).know(truths, letters, new ReaderStore(archive).atTheTerminal(by));
          out()
              .println(
                  Counted.of(truths.entries().size(), "face") + " known to measure readers by.");
          return 0;
        });
  }

  @Command(
      name = "agreement",
      description = {
        "How far two readers of the same face agree, letter by letter: in per cent, and beyond",
        "chance (Krippendorff's alpha for names; 1 is full agreement, 0 is chance)."
      })
  int agreement(@Option(names = "--json", description = "One JSON object.") boolean json) {
    return open(
        archive -> {
          Krippendorff all = new Krippendorff();
          int faces = 0;
          for (FaceReadings face : new ReadingStore(archive).all()) {
            if (face.required() > 1 && !face.test() && face.two().isPresent()) {
              faces++;
              for (Comparison.Pair pair : face.two().get().comparison().pairs()) {
                all.add(List.of(pair.firstSays(), pair.secondSays()));
              }
            }
          }
          print(json, faces, all);
          return 0;
        });
  }

  private void print(boolean json, String name, String role, int signed, ReaderError error) {
    if (json) {
      ObjectNode object =
          JsonLines.object().put("reader", name).put("role", role).put("signed", signed);
      object.put("knownLetters", error.letters()).put("knownWrong", error.wrong());
      JsonLines.print(out(), object);
      return;
    }
    String measured = error.letters() == 0 ? "" : "; " + error.told();
    out().println(name + "  " + role + "  " + Counted.of(signed, "reading") + " signed" + measured);
  }

  private void print(boolean json, int faces, Krippendorff all) {
    OptionalDouble alpha = all.alpha();
    if (json) {
      ObjectNode object = JsonLines.object().put("faces", faces).put("letters", all.units());
      all.observed().ifPresent(observed -> object.put("agree", observed));
      alpha.ifPresent(value -> object.put("alpha", value));
      JsonLines.print(out(), object);
    } else if (faces == 0) {
      out().println("No face has been read by two readers yet.");
    } else {
      out()
          .printf(
              Locale.ROOT,
              "%s, %s: %.1f%% the same%s%n",
              Counted.of(faces, "face"),
              Counted.of(all.units(), "letter"),
              100 * all.observed().orElse(0),
              alpha.isPresent()
                  ? String.format(Locale.ROOT, ", alpha %.3f", alpha.getAsDouble())
                  : "");
    }
  }

  private int open(ToIntFunction<Archive> work) {
    try (Archive archive = Archive.open(root, Projections.all())) {
      return work.applyAsInt(archive);
    }
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }

  private static char[] passphrase(String name) throws IOException {
    Console console = System.console();
    if (console != null) {
      char[] once = console.readPassword("Passphrase for %s: ", name);
      char[] again = console.readPassword("Once more: ");
      if (once == null || !java.util.Arrays.equals(once, again)) {
        throw new ArchiveException("The two passphrases aren't the same; nothing was changed.");
      }
      return once;
    }
    String line =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)).readLine();
    if (line == null) {
      throw new ArchiveException("No passphrase was given on standard input.");
    }
    return line.toCharArray();
  }

  private CommandLine.ParameterException wrong(String message) {
    return new CommandLine.ParameterException(spec.commandLine(), message);
  }
}
