package rakelight.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;

@Command(
    name = "read",
    description =
        "Goes through a face line by line with you and signs the reading under your name.")
final class ReadCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1", paramLabel = "MARKER", description = "The marker's number.")
  private String marker;

  @Option(
      names = "--face",
      paramLabel = "NAME",
      defaultValue = Face.FRONT,
      description = "The face (${DEFAULT-VALUE}).")
  private String faceName;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Mixin private BasisOptions basisOptions;

  @Override
  public Integer call() throws IOException {
    Basis basis = basisOptions.basis();
    PrintWriter out = spec.commandLine().getOut();
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    try (Archive archive = Archive.open(root, Projections.all())) {
      PhotoStore photographs = new PhotoStore(archive);
      ReadingStore readings = new ReadingStore(archive);
      Face face = photographs.faceOf(marker, faceName, reader);
      out.println("Marker " + marker + ", " + face.name());
      readings
          .current(face.id())
          .ifPresent(
              reading -> {
                out.println("Read before by " + reading.reader() + ":");
                Leiden.printLines(reading.inscription())
                    .forEach(line -> out.println("    " + line));
              });
      ReadingDialog dialog =
          new ReadingDialog(
              in,
              out,
              List.<Suggestion>of(),
              readings.draft(face.id(), reader),
              Optional.empty(),
              basis,
              draft -> readings.keepDraft(face.id(), draft, reader));
      Optional<ReadingDialog.Signed> signed = dialog.run();
      if (signed.isPresent()) {
        Reading reading =
            readings.sign(
                face.id(),
                signed.get().inscription(),
                signed.get().basis(),
                dialog.proposal(),
                reader);
        out.println(
            "Signed by " + reader + ". To take it back: undo " + root + " " + reading.decision());
      }
    }
    return 0;
  }
}
