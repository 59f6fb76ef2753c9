package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.FacePictures;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

@Command(
    name = "relief",
    description = "Writes out the pictures of a marker that bring the cut out, to look at.")
final class ReliefCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "MARKER", description = "The marker's number.")
  private String number;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FOLDER",
      description = "Where to write; made if need be.")
  private Path folder;

  @Override
  int run(Archive archive) throws IOException {
    PrintWriter out = out();
    PrintWriter err = err();
    PhotoStore photos = new PhotoStore(archive);
    Optional<Marker> marker = new MarkerStore(archive).byNumber(number);
    List<Face> faces = marker.map(row -> photos.faces(row.id())).orElse(List.of());
    if (faces.isEmpty()) {
      err.println("There is no marker " + number + " here; `photographs` lists what there is.");
      return 1;
    }
    FacePictures pictures = new FacePictures(archive);
    ProposalStore proposals = new ProposalStore(archive);
    Files.createDirectories(folder);
    int failed = 0;
    for (Face face : faces) {
      Optional<Proposal> proposal = proposals.latest(face.id());
      if (proposal.isEmpty()) {
        err.println(
            "Marker " + number + ", face " + face.name() + " has no proposal; run `propose`.");
        failed++;
        continue;
      }
      try {
        write(pictures.lines(proposal.get()), face, "lines.jpg", out);
        for (Map.Entry<String, Path> relief : pictures.reliefs(proposal.get()).entrySet()) {
          write(relief.getValue(), face, relief.getKey() + ".png", out);
        }
        Optional<Path> heights = pictures.heights(proposal.get());
        if (heights.isPresent()) {
          write(heights.get(), face, "heights.png", out);
        }
        err.println(
            "Marker "
                + number
                + ", face "
                + face.name()
                + ": "
                + pictures.lettering(proposal.get()).inWords()
                + ".");
        tell(proposal.get(), heights.isPresent(), face, photos, err);
      } catch (BadInputException e) {
        err.println("Marker " + number + ", face " + face.name() + ": " + e.getMessage());
        failed++;
      }
    }
    return failed == 0 ? 0 : 1;
  }

  /** Says what of a face with several photographs couldn't be combined; the rest was written. */
  private void tell(
      Proposal proposal, boolean combined, Face face, PhotoStore photos, PrintWriter err) {
    String where = "Marker " + number + ", face " + face.name() + ": ";
    for (FaceView view : proposal.views()) {
      if (view.toLeading().isEmpty()) {
        err.println(
            where
                + photos
                    .photograph(view.photograph())
                    .map(Photograph::originalName)
                    .orElse("a photograph")
                + " doesn't fit over the leading photograph and was left out of the shape.");
      }
    }
    if (proposal.views().size() > 1 && !combined) {
      err.println(
          where
              + "no two of its photographs fit over each other, so there is no shape; take them from"
              + " one place with the light from different sides.");
    }
  }

  private void write(Path made, Face face, String name, PrintWriter out) throws IOException {
    String plain = (number + "-" + face.name()).replaceAll("[^\\p{L}\\p{N}._-]", "_");
    Path target = folder.resolve(plain + "-" + name);
    Files.copy(made, target, StandardCopyOption.REPLACE_EXISTING);
    out.println(target);
  }
}
