package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.finding.Polygon;
import rakelight.inscription.Suggestion;
import rakelight.photo.Face;
import rakelight.photo.MarkerRow;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Alternative;
import rakelight.reading.FaceView;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.Slot;

@Command(
    name = "proposals",
    description = {
      "Shows what the machine takes the faces to say; people confirm or correct it.",
      "A dot under a letter: it may be another."
    })
final class Proposals implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(names = "--json", description = "One JSON object a face, one a line.")
  private boolean json;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (Archive archive = Archive.open(root, Projections.all())) {
      PhotoStore photos = new PhotoStore(archive);
      for (Proposal proposal : Proposer.newest(archive)) {
        Optional<Face> face = proposal.face().flatMap(photos::face);
        Optional<MarkerRow> marker = face.map(Face::marker).flatMap(photos::marker);
        if (json) {
          JsonLines.print(out, object(proposal, marker, face, photos));
        } else {
          print(proposal, marker, face, photos, out);
        }
      }
    }
    return 0;
  }

  private static void print(
      Proposal proposal,
      Optional<MarkerRow> marker,
      Optional<Face> face,
      PhotoStore photos,
      PrintWriter out) {
    String where =
        marker
            .map(row -> "marker " + row.number() + ", face " + face.map(Face::name).orElse(""))
            .orElseGet(() -> "on no marker: " + file(proposal, photos));
    out.println(where);
    if (proposal.lines().isEmpty()) {
      out.println("    nothing could be read; it needs a visit in other light");
    }
    List<Suggestion> suggestions = Suggestion.of(proposal);
    for (int i = 0; i < suggestions.size(); i++) {
      out.println(
          String.format(
              Locale.ROOT, "%4d  %s", proposal.lines().get(i).number(), suggestions.get(i).text()));
    }
    FaceView leading = proposal.views().get(0);
    beside(
        leading.emblems().size(),
        "carved area that isn't letters",
        "carved areas that aren't letters",
        out);
    beside(
        leading.otherStones().size(),
        "other stone in the picture",
        "other stones in the picture",
        out);
    out.println();
  }

  private static void beside(int count, String one, String several, PrintWriter out) {
    if (count > 0) {
      out.println("      (" + count + " " + (count == 1 ? one : several) + ")");
    }
  }

  private static String file(Proposal proposal, PhotoStore photos) {
    return photos
        .photograph(proposal.photographs().get(0))
        .map(Photograph::originalPath)
        .orElse("a photograph");
  }

  private static ObjectNode object(
      Proposal proposal, Optional<MarkerRow> marker, Optional<Face> face, PhotoStore photos) {
    ObjectNode object = JsonLines.object().put("proposal", proposal.id().toString());
    marker.ifPresent(row -> object.put("marker", row.number()));
    face.ifPresent(side -> object.put("face", side.name()));
    ArrayNode photographs = object.putArray("photographs");
    proposal.photographs().forEach(id -> photographs.add(id.toString()));
    ArrayNode files = object.putArray("files");
    proposal
        .photographs()
        .forEach(
            id ->
                photos
                    .photograph(id)
                    .ifPresent(photograph -> files.add(photograph.originalPath())));
    ArrayNode views = object.putArray("views");
    for (FaceView view : proposal.views()) {
      ObjectNode one = views.addObject().put("photograph", view.photograph().toString());
      polygon(one.putArray("outline"), view.outline());
      ArrayNode emblems = one.putArray("emblems");
      view.emblems().forEach(area -> polygon(emblems.addArray(), area));
      ArrayNode stones = one.putArray("otherStones");
      view.otherStones().forEach(area -> polygon(stones.addArray(), area));
    }
    ArrayNode lines = object.putArray("lines");
    for (ProposedLine line : proposal.lines()) {
      ObjectNode one = lines.addObject();
      one.put("line", line.number());
      one.put("text", line.text());
      one.put("photograph", line.photograph().toString());
      polygon(one.putArray("box"), line.box());
      ArrayNode letters = one.putArray("letters");
      for (Slot slot : line.lattice().slots()) {
        ObjectNode letter = letters.addObject();
        letter.put("best", slot.best());
        letter.put("p", slot.p());
        polygon(letter.putArray("box"), line.letterBox(slot));
        ArrayNode alternatives = letter.putArray("alternatives");
        for (Alternative alternative : slot.alternatives()) {
          alternatives.addArray().add(alternative.text()).add(alternative.p());
        }
      }
    }
    return object;
  }

  private static void polygon(ArrayNode array, Polygon polygon) {
    polygon.points().forEach(p -> array.addArray().add(rounded(p.x())).add(rounded(p.y())));
  }

  private static double rounded(double pixels) {
    return Math.round(pixels * 10) / 10.0;
  }
}
