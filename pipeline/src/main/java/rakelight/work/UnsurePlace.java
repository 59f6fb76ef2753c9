package rakelight.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.inscription.Draft;
import rakelight.inscription.Suggestion;
import rakelight.picture.Point;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;

/**
 * A place where a line may be, as it is put before whoever reads a face. Nothing comes of it unless
 * he takes it as a line ({@link LineDrawing#take}) or puts it away; a reading is signed without.
 *
 * @param number from 1, top to bottom
 * @param before the line of the draft that it would stand before, from 1; one more than there are
 *     for the end
 * @param p the probability that a line of letters stands there
 * @param text what may be read, in Leiden signs, as far as this reader may see it
 * @param letters its places; one without any letter if nothing could be read
 */
public record UnsurePlace(int number, int before, double p, String text, List<Place> letters) {
  private static final String UNREAD = "(+++)";

  public UnsurePlace {
    letters = List.copyOf(letters);
  }

  /** The place as a line that is shown like one. */
  public ProposedLine line() {
    return letters.get(0).on().orElseThrow();
  }

  /** Those of the proposal that a reader works from; none for whoever has nothing to read. */
  public static List<UnsurePlace> of(Work work) {
    if (work.proposal().isEmpty()
        || work.task() == Work.Task.DONE
        || work.task() == Work.Task.SETTLE) {
      return List.of();
    }
    Proposal proposal = work.proposal().get();
    int lines = proposal.lines().size();
    Proposal asIfThere = proposal.asIfThere();
    List<Suggestion> shown = Sight.shown(asIfThere, work.heldBack());
    List<Draft.Line> drafted = new ArrayList<>();
    for (int i = lines; i < shown.size(); i++) {
      Draft.Line line = shown.get(i).line();
      drafted.add(
          line.text().isEmpty()
              ? new Draft.Line(UNREAD, List.of(new Draft.Place(i + 1, 0, Draft.Decided.NOT)))
              : line);
    }
    List<List<Place>> letters =
        Place.of(
            new Draft(drafted, Optional.empty()),
            Optional.of(asIfThere),
            shown,
            work.heldBack(),
            false);
    List<List<Place>> known = Place.of(work);
    List<UnsurePlace> places = new ArrayList<>();
    for (int i = 0; i < letters.size(); i++) {
      places.add(
          new UnsurePlace(
              i + 1,
              before(proposal, asIfThere.lines().get(lines + i), known),
              proposal.unsure().get(i).p(),
              shown.get(lines + i).text(),
              letters.get(i)));
    }
    return places;
  }

  /** The line of a draft that a place stands above, by where the draft's lines are shown. */
  private static int before(Proposal proposal, ProposedLine place, List<List<Place>> known) {
    Point across = across(proposal);
    double down = down(proposal, place, across).orElse(Double.MAX_VALUE);
    for (int i = known.size(); i > 0; i--) {
      if (Place.parts(known.get(i - 1)).stream()
          .flatMap(part -> down(proposal, part, across).stream())
          .anyMatch(above -> above <= down)) {
        return i + 1;
      }
    }
    return 1;
  }

  private static Optional<Double> down(Proposal proposal, ProposedLine line, Point across) {
    return proposal
        .view(line.photograph())
        .toLeading()
        .map(move -> move.map(line.box().centre()))
        .map(p -> -p.x() * across.y() + p.y() * across.x());
  }

  /** The direction in which the lines of a proposal are read. */
  private static Point across(Proposal proposal) {
    double x = 0;
    double y = 0;
    for (ProposedLine line : proposal.lines()) {
      Point first = line.boxOf(0, 0.02).centre();
      Point last = line.boxOf(0.98, 1).centre();
      x += last.x() - first.x();
      y += last.y() - first.y();
    }
    double length = Math.hypot(x, y);
    return length > 1e-6 ? new Point(x / length, y / length) : new Point(1, 0);
  }
}
