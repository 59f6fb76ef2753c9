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
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.person.PlainWords;
import rakelight.photo.Face;
import rakelight.photo.MarkerRow;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Alternative;
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
      ReadingStore readings = new ReadingStore(archive);
      for (Proposal proposal : Proposer.newest(archive)) {
        Optional<Face> face = proposal.face().flatMap(photos::face);
        Optional<MarkerRow> marker = face.map(Face::marker).flatMap(photos::marker);
        boolean heldBack = readings.required() > 1 && isSealed(readings, face);
        List<Suggestion> suggestions =
            heldBack
                ? Suggestion.heldBack(proposal, PlainWords::contains)
                : Suggestion.of(proposal);
        if (json) {
          JsonLines.print(out, object(proposal, suggestions, heldBack, marker, face, photos));
        } else {
          print(proposal, suggestions, marker, face, photos, out);
        }
      }
    }
    return 0;
  }

  /** Two who read the same face mustn't both follow the machine in names and dates. */
  private static boolean isSealed(ReadingStore readings, Optional<Face> face) {
    return face.map(known -> readings.ofFace(known.id()).sealed()).orElse(true);
  }

  private static void print(
      Proposal proposal,
      List<Suggestion> suggestions,
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
    for (int i = 0; i < suggestions.size(); i++) {
      out.println(
          String.format(
              Locale.ROOT, "%4d  %s", proposal.lines().get(i).number(), suggestions.get(i).text()));
    }
    out.println();
  }

  private static String file(Proposal proposal, PhotoStore photos) {
    return photos
        .photograph(proposal.photographs().get(0))
        .map(Photograph::originalPath)
        .orElse("a photograph");
  }

  private static ObjectNode object(
      Proposal proposal,
      List<Suggestion> suggestions,
      boolean heldBack,
      Optional<MarkerRow> marker,
      Optional<Face> face,
      PhotoStore photos) {
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
    ArrayNode lines = object.putArray("lines");
    for (ProposedLine line : proposal.lines()) {
      ObjectNode one = lines.addObject();
      one.put("line", line.number());
      one.put("text", heldBack ? suggestions.get(line.number() - 1).text() : line.text());
      one.put("photograph", line.photograph().toString());
      polygon(one.putArray("box"), line.box());
      ArrayNode letters = one.putArray("letters");
      for (Slot slot : line.lattice().slots()) {
        ObjectNode letter = letters.addObject();
        if (!heldBack) {
          letter.put("best", slot.best());
          letter.put("p", slot.p());
        }
        polygon(letter.putArray("box"), line.letterBox(slot));
        if (heldBack) {
          continue;
        }
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
