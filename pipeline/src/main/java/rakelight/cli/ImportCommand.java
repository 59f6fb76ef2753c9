package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.publish.epidoc.EpidocException;
import rakelight.publish.epidoc.EpidocImport;
import rakelight.work.FileWork;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.RefusedException;

@Command(
    name = "import",
    description =
        "Takes readings made elsewhere from EpiDoc XML: as your draft, or, with --sign, as what an"
            + " earlier witness has.")
final class ImportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1..*", arity = "1..*", paramLabel = "FILE.xml")
  private List<Path> files;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Option(
      names = "--marker",
      paramLabel = "NUMBER",
      description = "The marker it is of, if the file doesn't say or means another; one file only.")
  private @Nullable String marker;

  @Option(
      names = "--face",
      paramLabel = "NAME",
      description = "Likewise the face; for a file of one text.")
  private @Nullable String face;

  @Option(
      names = "--sign",
      description =
          "Sign it under your name with the file as the earlier witness. The file must say who read"
              + " it.")
  private boolean signing;

  @Option(
      names = "--notes",
      description =
          "Print each thing in a file that a reading has no place for or that breaks a rule; else"
              + " they are counted.")
  private boolean withNotes;

  @Override
  public Integer call() {
    if ((marker != null || face != null) && files.size() > 1) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--marker and --face go with one file, not with " + files.size());
    }
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    int failed = 0;
    try (Archive archive = Archive.open(root, Projections.all())) {
      NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
      FileWork work = new FileWork(archive);
      for (Path file : files) {
        try {
          List<EpidocImport> texts =
              EpidocImport.read(file, Optional.ofNullable(marker), Optional.ofNullable(face));
          List<FileWork.Taken> taken = work.take(texts, signing, by);
          for (int i = 0; i < texts.size(); i++) {
            tell(file, texts.get(i), taken.get(i));
          }
        } catch (EpidocException e) {
          failed++;
          err.println(file + ", " + e.getMessage() + " Nothing is taken.");
        } catch (RefusedException e) {
          failed++;
          err.println(file + ": " + Refusals.words(e.refused()) + " Nothing is taken.");
        } catch (EpidocImport.RefusedException e) {
          failed++;
          err.println(file + ": " + e.getMessage() + " Nothing is taken.");
        } catch (NoSuchFileException e) {
          failed++;
          err.println(file + ": there is no such file.");
        } catch (IOException e) {
          failed++;
          err.println(file + ": can't be read (" + e.getMessage() + ").");
        }
      }
    }
    if (files.size() > 1) {
      out.println((files.size() - failed) + " of " + files.size() + " files taken.");
    }
    return failed == 0 ? 0 : 1;
  }

  private void tell(Path file, EpidocImport read, FileWork.Taken taken) {
    List<String> notes = taken == FileWork.Taken.KNOWN ? List.of() : read.notes();
    if (withNotes) {
      notes.forEach(note -> spec.commandLine().getErr().println(file + ", " + note));
    }
    spec.commandLine()
        .getOut()
        .println(
            file
                + ": marker "
                + read.marker()
                + ", "
                + read.face()
                + ": "
                + words(taken)
                + (withNotes || notes.isEmpty() ? "" : "; " + counted(notes)));
  }

  private static String counted(List<String> notes) {
    return notes.size() + (notes.size() == 1 ? " note" : " notes") + " (--notes shows them)";
  }

  private String words(FileWork.Taken taken) {
    return switch (taken) {
      case DRAFTED -> "your draft; look at it and sign it with `read`";
      case SIGNED -> "signed by " + reader + ", from an earlier witness";
      case KNOWN -> "a reading of this archive, unchanged; nothing to do";
    };
  }
}
