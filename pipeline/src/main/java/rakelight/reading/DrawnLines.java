package rakelight.reading;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Json;
import rakelight.archive.ProposalId;
import rakelight.archive.Sha256;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.photo.PhotoStore;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Reads lines that a reader draws on the leading photograph of a proposal, at once, on every
 * photograph that lies over it, and puts them into a new proposal. Thread-safe.
 */
public final class DrawnLines {
  /** Photographs beyond these aren't read again: a person is waiting. */
  private static final int MOST_PHOTOGRAPHS = 4;

  private final Archive archive;
  private final PhotoStore photos;
  private final ReaderOnDemand onDemand;

  /**
   * @param onDemand asked for when the first line is drawn; borrowed
   */
  public DrawnLines(Archive archive, ReaderOnDemand onDemand) {
    this.archive = archive;
    this.photos = new PhotoStore(archive);
    this.onDemand = onDemand;
  }

  /** What a new proposal follows from. */
  private record Drawn(
      ProposalId on,
      int number,
      boolean missed,
      FoundLine line,
      ReaderSettings reader,
      String by) {}

  /**
   * A proposal with a line that was missed.
   *
   * @param number that the line is to have; those from there on move down by one
   * @param line in pixels of the leading photograph
   * @param by who drew it
   * @param at when
   * @throws BadInputException if a photograph can't be decoded
   */
  public Proposal withLine(Proposal proposal, int number, FoundLine line, String by, Instant at)
      throws BadInputException {
    return drawn(proposal, number, true, line, by, at);
  }

  /**
   * A proposal of which a line stands elsewhere than the machine found it.
   *
   * @param number of the line
   * @param line in pixels of the leading photograph
   * @param by who drew it
   * @param at when
   * @throws BadInputException if a photograph can't be decoded
   */
  public Proposal moved(Proposal proposal, int number, FoundLine line, String by, Instant at)
      throws BadInputException {
    return drawn(proposal, number, false, line, by, at);
  }

  /** What a proposal follows from in which a place was said to be a line, or none. */
  private record PlaceSaid(ProposalId on, int unsure, Optional<Integer> number, String by) {}

  /**
   * A proposal in which a line stands where one may be. It keeps what was read there.
   *
   * @param unsure which of the places, from 0
   * @param number that the line is to have; those from there on move down by one
   * @param by who said so
   * @param at when
   */
  public static Proposal taken(Proposal proposal, int unsure, int number, String by, Instant at) {
    ProposedLine place = proposal.unsure().get(unsure).line();
    ProposedLine line =
        new ProposedLine(
            number,
            place.photograph(),
            place.box(),
            place.heightPx(),
            place.score(),
            shown(place.lattice()),
            Optional.of(by));
    return judged(
        proposal,
        new PlaceSaid(proposal.id(), unsure, Optional.of(number), by),
        with(proposal, line),
        at);
  }

  /**
   * A proposal without one of the places where a line may be.
   *
   * @param unsure which of them, from 0
   * @param by who said that there is none
   * @param at when
   */
  public static Proposal without(Proposal proposal, int unsure, String by, Instant at) {
    return judged(
        proposal, new PlaceSaid(proposal.id(), unsure, Optional.empty(), by), proposal.lines(), at);
  }

  private static Proposal judged(
      Proposal proposal, PlaceSaid judged, List<ProposedLine> lines, Instant at) {
    List<UnsureLine> left = new ArrayList<>(proposal.unsure());
    left.remove(judged.unsure());
    DerivationKey key = new DerivationKey(Sha256.of(Json.canonical(judged)).hex());
    return mended(proposal, key, lines, proposal.models(), at, left);
  }

  private Proposal drawn(
      Proposal proposal, int number, boolean missed, FoundLine line, String by, Instant at)
      throws BadInputException {
    MachineReader reader = onDemand.get();
    ProposedLine read =
        new ProposedLine(
            number,
            proposal.photographs().get(0),
            line.ribbon(),
            line.heightPx(),
            line.score(),
            read(proposal, line, reader),
            Optional.of(by));
    List<ProposedLine> lines;
    if (missed) {
      lines = with(proposal, read);
    } else {
      lines = new ArrayList<>(proposal.lines());
      lines.set(number - 1, read);
    }
    Set<ModelUsed> models = new LinkedHashSet<>(proposal.models());
    models.addAll(reader.settings().models().stream().skip(reader.finders().size()).toList());
    DerivationKey key =
        new DerivationKey(
            Sha256.of(
                    Json.canonical(
                        new Drawn(proposal.id(), number, missed, line, reader.settings(), by)))
                .hex());
    return mended(proposal, key, lines, List.copyOf(models), at, uncovered(proposal, line));
  }

  /** The lines of a proposal with one more. */
  private static List<ProposedLine> with(Proposal proposal, ProposedLine line) {
    List<ProposedLine> lines = new ArrayList<>(proposal.lines());
    lines.add(line.number() - 1, line);
    for (int i = line.number(); i < lines.size(); i++) {
      lines.set(i, lines.get(i).numbered(i + 1));
    }
    return lines;
  }

  /** What was made of a proposal by hand; its places are numbered after its lines. */
  private static Proposal mended(
      Proposal proposal,
      DerivationKey key,
      List<ProposedLine> lines,
      List<ModelUsed> models,
      Instant at,
      List<UnsureLine> unsure) {
    List<UnsureLine> numbered = new ArrayList<>();
    unsure.forEach(one -> numbered.add(one.numbered(lines.size() + numbered.size() + 1)));
    return new Proposal(
        ProposalId.of(proposal.face().orElseThrow().value(), key),
        key,
        proposal.face(),
        proposal.views(),
        lines,
        models,
        at,
        Optional.of(proposal.id()),
        numbered);
  }

  private static LineLattice shown(LineLattice lattice) {
    return lattice.letters() == 0 ? new LineLattice(List.of(NOTHING)) : lattice;
  }

  private LineLattice read(Proposal proposal, FoundLine line, MachineReader reader)
      throws BadInputException {
    List<Weighing.View> seen = new ArrayList<>();
    for (FaceView view : proposal.views()) {
      boolean leading = seen.isEmpty();
      if (seen.size() < MOST_PHOTOGRAPHS && (leading || view.toLeading().isPresent())) {
        LaidLine here =
            leading
                ? LaidLine.own(line)
                : new LaidLine(line, view.toLeading().orElseThrow().inverse());
        seen.add(
            new Weighing.View(
                reader
                    .readLines(
                        Proposer.pixels(
                            archive, photos.photograph(view.photograph()).orElseThrow()),
                        List.of(here))
                    .get(0),
                1));
      }
    }
    LineLattice lattice = reader.odds().weighing().merged(seen);
    return lattice.letters() == 0
        ? new LineLattice(List.of(NOTHING))
        : new Language(LetterOrder.standard()).leant(reader.odds().corrected(lattice, seen.size()));
  }

  /** What stands for a line on which no letter was read: it has a place, and no stretch. */
  private static final Slot NOTHING = Slot.ofWeights(Map.of("", 1.0), 0, 0, 0);

  /** The places of a proposal that a line, drawn on its leading photograph, doesn't cover. */
  private static List<UnsureLine> uncovered(Proposal proposal, FoundLine drawn) {
    List<Point> middle = drawn.middle();
    Point first = middle.get(0);
    Point last = middle.get(middle.size() - 1);
    double length = Math.max(1e-6, first.distance(last));
    double x = (last.x() - first.x()) / length;
    double y = (last.y() - first.y()) / length;
    UnaryOperator<Point> level = p -> new Point(p.x() * x + p.y() * y, -p.x() * y + p.y() * x);
    Polygon ribbon = drawn.ribbon().map(level);
    return proposal.unsure().stream()
        .filter(
            one ->
                proposal
                    .view(one.line().photograph())
                    .toLeading()
                    .map(move -> one.line().box().map(move::map).map(level))
                    .filter(place -> Overlaid.touch(place, ribbon))
                    .isEmpty())
        .toList();
  }
}
