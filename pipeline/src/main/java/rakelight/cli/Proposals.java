package rakelight.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.inscription.Suggestion;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.reading.Alternative;
import rakelight.reading.Doubt;
import rakelight.reading.FaceView;
import rakelight.reading.LineLattice;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.reading.Proposer;
import rakelight.reading.Slot;
import rakelight.reading.UnsureLine;
import rakelight.reading.Visit;
import rakelight.work.Chances;
import rakelight.work.Sight;

@Command(
    name = "proposals",
    description = {
      "Shows what the machine takes the faces to say; people confirm or correct it.",
      "A dot under a letter: it may be another. Language only leans: where it would read otherwise,"
          + " that stands in a line of its own."
    })
final class Proposals extends ArchiveCommand {
  /** An alternative below this is passed over in the list of doubts. */
  private static final double WORTH_NAMING = 0.02;

  private static final int MOST_NAMED = 5;

  @Option(names = "--json", description = "One JSON object a face, one a line.")
  private boolean json;

  @Option(names = "--marker", paramLabel = "NUMBER", description = "Only those of this marker.")
  private Optional<String> number = Optional.empty();

  @Option(
      names = "--doubts",
      paramLabel = "N",
      description = "Instead, the N letters that a person's answer would be worth most.")
  private int doubts;

  @Option(
      names = "--visits",
      description =
          "Instead, the faces to record first, in other light: those with nothing readable, then"
              + " those with most at stake.")
  private boolean visits;

  @Override
  int run(Archive archive) {
    if (doubts < 0 || (doubts == 0 && isGiven("--doubts"))) {
      throw wrong("--doubts must be 1 or more");
    }
    if (doubts > 0 && visits) {
      throw wrong("give --doubts or --visits, not both");
    }
    PrintWriter out = out();
    Sight sight = new Sight(archive);
    List<Proposal> newest = chosen(archive);
    if (doubts > 0) {
      printDoubts(
          newest.stream().filter(proposal -> !sight.isHeldBack(proposal)).toList(), archive, out);
    } else if (visits) {
      Visit.first(newest).forEach(visit -> print(visit, archive, out));
    } else {
      newest.forEach(proposal -> print(proposal, sight, archive, out));
    }
    return 0;
  }

  private List<Proposal> chosen(Archive archive) {
    List<Proposal> newest = Proposer.newest(archive);
    if (number.isEmpty()) {
      return newest;
    }
    MarkerId only = new MarkerStore(archive).named(number.get()).id();
    return newest.stream()
        .filter(proposal -> marker(proposal, archive).filter(m -> m.id().equals(only)).isPresent())
        .toList();
  }

  private void print(Proposal proposal, Sight sight, Archive archive, PrintWriter out) {
    boolean heldBack = sight.isHeldBack(proposal);
    List<Suggestion> suggestions = sight.shown(proposal);
    if (json) {
      JsonLines.print(
          out, object(proposal, suggestions, sight.unsure(proposal), heldBack, archive));
      return;
    }
    out.println(where(proposal, archive));
    if (!proposal.readable()) {
      out.println("    nothing readable; it needs a visit in other light");
      unsure(proposal, sight, out);
      out.println();
      return;
    }
    for (int i = 0; i < suggestions.size(); i++) {
      out.println(
          String.format(
              Locale.ROOT, "%4d  %s", proposal.lines().get(i).number(), suggestions.get(i).text()));
      LineLattice lattice = proposal.lines().get(i).lattice();
      if (!heldBack && !lattice.leaning().equals(lattice.best())) {
        out.println("      language leans to: " + lattice.leaning());
      }
    }
    unsure(proposal, sight, out);
    for (PhotographId id : proposal.photographs()) {
      new PhotoStore(archive)
          .photograph(id)
          .flatMap(
              shot -> shot.damage().map(damage -> shot.originalName() + " is damaged: " + damage))
          .ifPresent(line -> out.println("      (" + line + ")"));
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

  /** Where a line may be, apart from the lines: they are for whoever reads the stone. */
  private static void unsure(Proposal proposal, Sight sight, PrintWriter out) {
    List<Suggestion> suggestions = sight.unsure(proposal);
    for (int i = 0; i < suggestions.size(); i++) {
      double p = proposal.unsure().get(i).p();
      String text = suggestions.get(i).text();
      out.println(
          String.format(
              Locale.ROOT,
              "   ?  a line may be here (%.2f, %s): %s",
              p,
              Chances.words(p),
              text.isEmpty() ? "nothing could be read" : text));
    }
  }

  private static void beside(int count, String one, String several, PrintWriter out) {
    if (count > 0) {
      out.println("      (" + count + " " + (count == 1 ? one : several) + ")");
    }
  }

  private static Optional<Face> face(Proposal proposal, Archive archive) {
    return proposal.face().flatMap(new PhotoStore(archive)::face);
  }

  private static Optional<Marker> marker(Proposal proposal, Archive archive) {
    return face(proposal, archive).map(Face::marker).flatMap(new MarkerStore(archive)::marker);
  }

  private static String where(Proposal proposal, Archive archive) {
    return marker(proposal, archive)
        .map(
            row ->
                "marker "
                    + row.number()
                    + ", face "
                    + face(proposal, archive).map(Face::name).orElse(""))
        .orElseGet(() -> "on no marker: " + file(proposal, archive));
  }

  private record Asked(Proposal proposal, Doubt doubt) {}

  private void printDoubts(List<Proposal> proposals, Archive archive, PrintWriter out) {
    proposals.stream()
        .filter(Proposal::readable)
        .flatMap(proposal -> Doubt.of(proposal).stream().map(doubt -> new Asked(proposal, doubt)))
        .sorted(Comparator.comparingDouble(asked -> -asked.doubt().gain()))
        .limit(doubts)
        .forEach(asked -> print(asked.proposal(), asked.doubt(), archive, out));
  }

  private void print(Proposal proposal, Doubt doubt, Archive archive, PrintWriter out) {
    ProposedLine line = proposal.lines().get(doubt.line() - 1);
    Slot slot = line.lattice().slots().get(doubt.slot());
    if (json) {
      ObjectNode object = named(proposal, archive);
      object.put("line", doubt.line());
      object.put("slot", doubt.slot());
      object.put("letter", doubt.letter());
      object.put("field", doubt.field().name().toLowerCase(Locale.ROOT));
      object.put("gain", doubt.gain());
      object.put("text", line.text());
      alternatives(object, slot);
      JsonLines.print(out, object);
      return;
    }
    out.printf(
        Locale.ROOT,
        "%s, line %d, %s (%s, worth %.2f): %s%n",
        where(proposal, archive),
        doubt.line(),
        doubt.letter() > 0 ? "letter " + doubt.letter() : "a place where nothing may stand",
        doubt.field().name().toLowerCase(Locale.ROOT),
        doubt.gain(),
        line.text());
    out.println(
        slot.alternatives().stream()
            .filter(a -> Math.max(a.p(), a.leant()) >= WORTH_NAMING)
            .limit(MOST_NAMED)
            .map(Proposals::named)
            .collect(Collectors.joining("  ", "    ", "")));
  }

  private static String named(Alternative alternative) {
    String text =
        alternative.text().isEmpty()
            ? "nothing"
            : alternative.text().isBlank() ? "space" : alternative.text();
    long seen = Math.round(100 * alternative.p());
    long leant = Math.round(100 * alternative.leant());
    return text + " " + seen + "%" + (leant == seen ? "" : " (language: " + leant + "%)");
  }

  private void print(Visit visit, Archive archive, PrintWriter out) {
    if (json) {
      JsonLines.print(
          out,
          named(visit.proposal(), archive)
              .put("readable", visit.readable())
              .put("gain", visit.gain()));
      return;
    }
    out.println(
        where(visit.proposal(), archive)
            + (visit.readable()
                ? String.format(Locale.ROOT, ": doubts worth %.1f", visit.gain())
                : ": nothing readable"));
  }

  private static String file(Proposal proposal, Archive archive) {
    return new PhotoStore(archive)
        .photograph(proposal.photographs().get(0))
        .map(Photograph::originalPath)
        .orElse("a photograph");
  }

  private static ObjectNode named(Proposal proposal, Archive archive) {
    ObjectNode object = JsonLines.object().put("proposal", proposal.id().toString());
    marker(proposal, archive).ifPresent(row -> object.put("marker", row.number()));
    face(proposal, archive).ifPresent(side -> object.put("face", side.name()));
    return object;
  }

  private static ObjectNode object(
      Proposal proposal,
      List<Suggestion> suggestions,
      List<Suggestion> unsure,
      boolean heldBack,
      Archive archive) {
    ObjectNode object = named(proposal, archive).put("readable", proposal.readable());
    ArrayNode photographs = object.putArray("photographs");
    proposal.photographs().forEach(id -> photographs.add(id.toString()));
    ArrayNode files = object.putArray("files");
    proposal
        .photographs()
        .forEach(
            id ->
                new PhotoStore(archive)
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
      ObjectNode one = lines.addObject().put("line", line.number());
      line(one, line, suggestions.get(line.number() - 1), heldBack);
    }
    ArrayNode places = object.putArray("unsure");
    for (int i = 0; i < unsure.size(); i++) {
      UnsureLine place = proposal.unsure().get(i);
      line(places.addObject().put("p", place.p()), place.line(), unsure.get(i), heldBack);
    }
    return object;
  }

  private static void line(
      ObjectNode one, ProposedLine line, Suggestion suggestion, boolean heldBack) {
    one.put("text", heldBack ? suggestion.text() : line.text());
    if (!heldBack) {
      one.put("leaning", line.lattice().leaning());
    }
    one.put("photograph", line.photograph().toString());
    polygon(one.putArray("box"), line.box());
    ArrayNode letters = one.putArray("letters");
    for (Slot slot : line.lattice().slots()) {
      ObjectNode letter = letters.addObject();
      polygon(letter.putArray("box"), line.letterBox(slot));
      if (!heldBack) {
        letter.put("best", slot.best());
        letter.put("p", slot.p());
        alternatives(letter, slot);
      }
    }
  }

  private static void alternatives(ObjectNode object, Slot slot) {
    ArrayNode alternatives = object.putArray("alternatives");
    ArrayNode leaning = object.putArray("leaning");
    for (Alternative alternative : slot.alternatives()) {
      alternatives.addArray().add(alternative.text()).add(alternative.p());
      leaning.addArray().add(alternative.text()).add(alternative.leant());
    }
  }

  private static void polygon(ArrayNode array, Polygon polygon) {
    polygon.points().forEach(p -> array.addArray().add(rounded(p.x())).add(rounded(p.y())));
  }

  private static double rounded(double pixels) {
    return Math.round(pixels * 10) / 10.0;
  }
}
