package rakelight.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.BadInputException;
import rakelight.archive.ProposalId;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.PlainWords;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.FacePictures;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

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
      description = "The face; not needed where the marker has one, or one named front.")
  private @Nullable String faceName;

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
      ReadingStore readings = new ReadingStore(archive);
      Face face = face(archive);
      out.println("Marker " + marker + ", " + face.name());
      readings
          .current(face.id())
          .ifPresent(
              reading -> {
                out.println("Read before by " + reading.reader() + ":");
                Leiden.printLines(reading.inscription())
                    .forEach(line -> out.println("    " + line));
              });
      ProposalStore proposals = new ProposalStore(archive);
      Optional<Proposal> proposal = proposals.latest(face.id());
      if (proposal.isPresent()) {
        picture(archive, proposal.get(), out);
      } else {
        out.println("No machine has read this face; `propose` makes it try.");
      }
      ReadingDialog dialog =
          new ReadingDialog(
              in,
              out,
              proposal.map(found -> suggestions(readings, found)).orElse(List.of()),
              readings.draft(face.id(), reader),
              proposal.map(Proposal::id),
              basis,
              draft -> {
                keepUsed(proposals, proposal, draft.proposal());
                readings.keepDraft(face.id(), draft, reader);
              });
      Optional<ReadingDialog.Signed> signed = dialog.run();
      if (signed.isPresent()) {
        keepUsed(proposals, proposal, dialog.proposal());
        Reading reading =
            readings.sign(
                face.id(),
                signed.get().inscription(),
                signed.get().basis(),
                dialog.proposal(),
                reader);
        out.println(
            "Signed by " + reader + ". To take it back: undo " + root + " " + reading.decision());
        new MarkerStore(archive)
            .marker(face.marker())
            .ifPresent(row -> SoughtCommand.tell(archive, Set.of(row.number()), out));
      }
    }
    return 0;
  }

  /** Where two readers read, neither is shown what the machine takes names and dates to be. */
  private static List<Suggestion> suggestions(ReadingStore readings, Proposal proposal) {
    return readings.required() > 1
        ? Suggestion.heldBack(proposal, PlainWords::contains)
        : Suggestion.of(proposal);
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

  /** A proposal that a person has used is kept for ever. */
  private void keepUsed(
      ProposalStore proposals, Optional<Proposal> newest, Optional<ProposalId> used) {
    newest
        .filter(proposal -> used.filter(proposal.id()::equals).isPresent())
        .ifPresent(proposal -> proposals.keep(proposal, reader));
  }

  private static void picture(Archive archive, Proposal proposal, PrintWriter out)
      throws IOException {
    try {
      out.println(
          "Open beside this: " + new FacePictures(archive).lines(proposal).toAbsolutePath());
    } catch (BadInputException e) {
      out.println("The photograph can't be shown: " + e.getMessage());
    }
  }
}
