package rakelight.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.DerivationKey;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.PictureSource;
import rakelight.photo.Showing;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;
import rakelight.relief.FaceLight;
import rakelight.relief.LightStrips;
import rakelight.relief.LineStrips;
import rakelight.relief.LinesDrawn;
import rakelight.relief.Overlay;
import rakelight.relief.RakedFace;
import rakelight.relief.ReliefPictures;

/**
 * What the ledger has each stage work on as things stand now: the one place where lights, bearings
 * and places of pictures are looked up. What changes there changes an input, and so a key.
 */
final class StageInputs {
  private final PhotoStore photos;
  private final ProposalStore proposals;

  StageInputs(PhotoStore photos, ProposalStore proposals) {
    this.photos = photos;
    this.proposals = proposals;
  }

  /** The proposal as the machine made it, before anybody drew lines on it. */
  Proposal asMade(Proposal proposal) {
    return proposal.mends().flatMap(proposals::kept).map(this::asMade).orElse(proposal);
  }

  /** Whether its photographs are in the archive; their ingest may have been undone since. */
  boolean areThere(Proposal proposal) {
    return proposal.photographs().stream().allMatch(id -> photos.photograph(id).isPresent());
  }

  /** A photograph of a face to merge. */
  MergeFace.View view(Showing showing, DerivationKey reading) {
    Photograph photograph = showing.photograph();
    return new MergeFace.View(photograph.source(), reading, showing.others());
  }

  /** Lines that people drew change no picture of the whole face. */
  ReliefPictures.Input relief(Proposal shown) {
    Proposal proposal = asMade(shown);
    List<Polygon> lines = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      toLeading(proposal, line).ifPresent(move -> lines.add(line.box().map(move::map)));
    }
    double capitalPx =
        proposal.lines().stream()
            .mapToDouble(ProposedLine::heightPx)
            .sorted()
            .skip(proposal.lines().size() / 2)
            .findFirst()
            .orElse(0);
    return new ReliefPictures.Input(raked(proposal), capitalPx, lines);
  }

  /** The lines of a proposal that are cut out together. */
  record Together(Proposal proposal, List<ProposedLine> lines) {}

  /** A line among those it is cut out with, and its number there. */
  record Strips(Together with, int number) {}

  /** The strips of the line of this number, or of the place where one may be. */
  Strips strips(Proposal proposal, int number) {
    int lines = proposal.lines().size();
    return number <= lines
        ? strips(proposal, proposal.lines().get(number - 1))
        : alone(proposal, proposal.unsure().get(number - lines - 1).line());
  }

  private static Strips alone(Proposal proposal, ProposedLine line) {
    return new Strips(new Together(proposal, List.of(line.numbered(1))), 1);
  }

  /** A line that was drawn has strips of its own; the others those the machine's proposal has. */
  private Strips strips(Proposal proposal, ProposedLine line) {
    if (line.drawnBy().isPresent()) {
      return alone(proposal, line);
    }
    Proposal made = asMade(proposal);
    int number =
        made.lines().stream()
            .filter(line::isWhere)
            .findFirst()
            .map(ProposedLine::number)
            .orElseThrow();
    return new Strips(new Together(made, made.lines()), number);
  }

  /** All lines of a proposal, by what is cut out together. */
  List<Together> strips(Proposal proposal) {
    Proposal made = asMade(proposal);
    List<Together> strips = new ArrayList<>();
    strips.add(new Together(made, made.lines()));
    proposal.lines().stream()
        .filter(line -> line.drawnBy().isPresent())
        .forEach(line -> strips.add(strips(proposal, line).with()));
    proposal.unsure().forEach(one -> strips.add(alone(proposal, one.line()).with()));
    return strips;
  }

  /** What the strips of relief images are made of. */
  LineStrips.Input reliefStrips(Together together) {
    FaceView leading = together.proposal().views().get(0);
    return new LineStrips.Input(
        ReliefPictures.KIND.key(relief(together.proposal())),
        leading.outline(),
        leading.proportion(),
        laid(together));
  }

  /**
   * What the strips of a photograph are made of.
   *
   * @param toLeading from its pixels to those of the leading photograph
   */
  LightStrips.Input lightStrips(Together together, PhotographId photograph, Homography toLeading) {
    return new LightStrips.Input(source(photograph), toLeading, laid(together));
  }

  private static List<LineStrips.Line> laid(Together together) {
    List<LineStrips.Line> lines = new ArrayList<>();
    for (ProposedLine line : together.lines()) {
      toLeading(together.proposal(), line)
          .ifPresent(move -> lines.add(new LineStrips.Line(line.number(), line.found(), move)));
    }
    return lines;
  }

  LinesDrawn.Input lines(Proposal proposal) {
    List<Overlay.Line> lines = new ArrayList<>();
    for (ProposedLine line : proposal.lines()) {
      toLeading(proposal, line).ifPresent(move -> lines.add(drawn(line, move)));
    }
    FaceView leading = proposal.views().get(0);
    return new LinesDrawn.Input(source(leading.photograph()), leading.outline(), lines);
  }

  /** The photographs that lie over the leading one. */
  RakedFace raked(Proposal proposal) {
    FaceView leading = proposal.views().get(0);
    List<RakedFace.View> views = new ArrayList<>();
    for (FaceView view : proposal.views()) {
      Optional<Homography> move =
          view == leading ? Optional.of(Homography.identity()) : view.toLeading();
      if (move.isPresent()) {
        Photograph photograph = photograph(view.photograph());
        Optional<FaceId> face = proposal.face().or(photograph::face);
        views.add(new RakedFace.View(photograph.source(), move.get(), light(photograph, face)));
      }
    }
    return new RakedFace(leading.outline(), leading.proportion(), views);
  }

  private PictureSource source(PhotographId id) {
    return photograph(id).source();
  }

  private Photograph photograph(PhotographId id) {
    return photos.photograph(id).orElseThrow();
  }

  private Optional<FaceLight> light(Photograph photograph, Optional<FaceId> face) {
    return FaceLight.of(
        photograph.light(), face.flatMap(photos::face).flatMap(Face::bearingDegrees));
  }

  private static Optional<Homography> toLeading(Proposal proposal, ProposedLine line) {
    return proposal.view(line.photograph()).toLeading();
  }

  private static Overlay.Line drawn(ProposedLine line, Homography toLeading) {
    return new Overlay.Line(
        line.number(),
        line.box().map(toLeading::map),
        line.lattice().slots().stream()
            .filter(slot -> !slot.best().isBlank() && slot.to() > slot.from())
            .map(
                slot ->
                    new Overlay.Letter(
                        line.letterBox(slot).map(toLeading::map), slot.p() >= LineLattice.SURE))
            .toList());
  }
}
