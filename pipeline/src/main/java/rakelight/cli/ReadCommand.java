package rakelight.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.inscription.Basis;
import rakelight.inscription.Reading;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.work.Faces;
import rakelight.work.Leases;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;
import rakelight.work.Work;

@Command(
    name = "read",
    description =
        "Goes through a face line by line with you and signs the reading under your name.")
final class ReadCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "MARKER", description = "The marker's number.")
  private String marker;

  @Option(
      names = "--face",
      paramLabel = "NAME",
      description = "The face; not needed where the marker has one, or one named front.")
  private @Nullable String faceName;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Mixin private BasisOptions basisOptions;

  @Override
  int run(Archive archive) throws IOException {
    Basis basis = basisOptions.basis();
    PrintWriter out = out();
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    PhotoStore photographs = new PhotoStore(archive);
    Face face = face(archive);
    NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
    by.requireDeciding();
    Faces faces = new Faces(archive, new Leases(Clock.systemUTC()));
    Work work = faces.open(face, by);
    out.println("Marker " + marker + ", " + face.name());
    shown(work, out);
    if (work.task() == Work.Task.DONE) {
      work = faces.reopen(face, by);
      out.println("It is open to be changed; what stands stays until you sign.");
    }
    Optional<Proposal> proposal = work.proposal();
    if (proposal.isPresent()) {
      picture(archive, photographs, proposal.get(), out);
    } else {
      out.println("No machine has read this face; `propose` makes it try.");
    }
    Optional<Reading> signed = new ReadingDialog(in, out, faces, work, by, basis).run();
    if (signed.isPresent()) {
      out.println(
          "Signed by "
              + by.name()
              + ". To take it back: undo "
              + root()
              + " "
              + signed.get().decision());
      new MarkerStore(archive)
          .marker(face.marker())
          .ifPresent(row -> SoughtCommand.tell(archive, Set.of(row.number()), out));
    }
    return 0;
  }

  /** What was signed before, as far as this reader may see it. */
  private static void shown(Work work, PrintWriter out) {
    work.before().ifPresent(reading -> ReadingDialog.print(reading, "Read before by ", out));
    if (work.task() == Work.Task.SETTLE) {
      work.settling()
          .ifPresent(
              two -> {
                out.println("Two readings differ; yours settles them.");
                ReadingDialog.print(two.first(), "Read by ", out);
                ReadingDialog.print(two.second(), "Read by ", out);
              });
    }
  }

  private Face face(Archive archive) {
    Marker known = new MarkerStore(archive).named(marker);
    List<Face> faces = new PhotoStore(archive).faces(known.id());
    String wanted = faceName == null ? Face.FRONT : faceName;
    Optional<Face> named = faces.stream().filter(face -> face.name().equals(wanted)).findFirst();
    if (named.isPresent() || (faceName == null && faces.size() == 1)) {
      return named.orElseGet(() -> faces.get(0));
    }
    throw new ArchiveException(
        "Marker "
            + marker
            + (faceName == null ? " has several faces" : " has no face " + faceName)
            + "; give --face with one of: "
            + String.join(", ", faces.stream().map(Face::name).toList()));
  }

  private static void picture(
      Archive archive, PhotoStore photographs, Proposal proposal, PrintWriter out)
      throws IOException {
    if (photographs.photograph(proposal.photographs().get(0)).isEmpty()) {
      out.println("The photograph it was made from isn't here, so there is no picture.");
      return;
    }
    try {
      out.println(
          "Open beside this: " + new FacePictures(archive).lines(proposal).toAbsolutePath());
    } catch (BadInputException e) {
      out.println("The photograph can't be shown: " + e.getMessage());
    }
  }
}
