package rakelight.work;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.BadInputException;
import rakelight.finding.FoundLine;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.LeidenException;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.reading.DrawnLines;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/**
 * Lines that a reader draws on the stone: one the machine missed, or one it cut short. The machine
 * reads the line at once; the draft goes on with a proposal in which that line is his, and what he
 * has decided stays. Undone like any other change.
 */
public final class LineDrawing {
  private static final double LOWEST_PX = 6;
  private static final int MOST_POINTS = 200;

  private final Faces faces;
  private final DrawnLines drawn;
  private final PhotoStore photos;

  /**
   * @param drawn borrowed
   */
  public LineDrawing(Archive archive, Faces faces, DrawnLines drawn) {
    this.faces = faces;
    this.drawn = drawn;
    this.photos = new PhotoStore(archive);
  }

  /** How a draft looks on a proposal with another line. */
  @FunctionalInterface
  private interface Laid {
    Draft on(Proposal mended) throws LeidenException, DraftEditing.RefusedException;
  }

  /**
   * Puts in a line that the machine missed.
   *
   * @param version the state of the draft that the change is meant for
   * @param line where it will stand in the draft, 1 to one more than there are
   * @param where in pixels of the leading photograph
   * @throws RefusedException if the face has no proposal, or the change can't be made
   */
  public Work draw(Face face, NamedReader by, String version, int line, FoundLine where) {
    Work work = faces.ready(face, by, version);
    Proposal proposal = proposal(work, where);
    if (line < 1 || line > work.draft().lines().size() + 1) {
      throw Faces.impossible("a line can be put in at 1 to " + (work.draft().lines().size() + 1));
    }
    int number = numberAt(work, line);
    return withRead(work, by, withLine(proposal, number, where, by), line, number);
  }

  /**
   * Takes a place where a line may be as a line, at its place in the draft.
   *
   * @param version the state of the draft that the change is meant for
   * @param unsure which of the proposal's places, from 1
   * @throws RefusedException if there is no such place, or the change can't be made
   */
  public Work take(Face face, NamedReader by, String version, int unsure) {
    Work work = faces.ready(face, by, version);
    Proposal proposal = withPlace(work, unsure);
    int line = UnsurePlace.of(work).get(unsure - 1).before();
    int number = numberAt(work, line);
    Proposal taken = DrawnLines.taken(proposal, unsure - 1, number, by.name(), now());
    return withRead(work, by, taken, line, number);
  }

  /** Keeps a proposal that has a line more, and puts that line into the draft as it was read. */
  private Work withRead(Work work, NamedReader by, Proposal proposal, int line, int number) {
    return kept(
        work,
        by,
        proposal,
        mended ->
            DraftEditing.addRead(
                renumbered(work.draft(), number), line, asRead(work, mended, number)));
  }

  /**
   * Puts a place away where a line may be, since there is none.
   *
   * @param version the state of the draft that the change is meant for
   * @param unsure which of the proposal's places, from 1
   * @throws RefusedException if there is no such place, or the change can't be made
   */
  public Work putAway(Face face, NamedReader by, String version, int unsure) {
    Work work = faces.ready(face, by, version);
    Proposal proposal = withPlace(work, unsure);
    return kept(
        work,
        by,
        DrawnLines.without(proposal, unsure - 1, by.name(), now()),
        mended -> work.draft());
  }

  private static Proposal withPlace(Work work, int unsure) {
    return work.proposal()
        .filter(proposal -> unsure >= 1 && unsure <= proposal.unsure().size())
        .orElseThrow(() -> Faces.impossible("no place of that number may be a line"));
  }

  /**
   * Puts a line where it stands. A line that somebody typed and no photograph showed is shown from
   * then on.
   *
   * @param part which of the proposed lines that show letters of it, from 1
   * @param where in pixels of the leading photograph
   * @throws RefusedException if the face has no proposal, or the change can't be made
   */
  public Work move(Face face, NamedReader by, String version, int line, int part, FoundLine where) {
    Work work = faces.ready(face, by, version);
    Proposal proposal = proposal(work, where);
    List<List<Place>> all = Place.of(work);
    if (line < 1 || line > all.size()) {
      throw Faces.impossible("lines go from 1 to " + all.size());
    }
    List<Place> places = all.get(line - 1);
    List<ProposedLine> parts = Place.parts(places);
    if (parts.isEmpty()) {
      int number = numberAt(work, line);
      return kept(
          work,
          by,
          withLine(proposal, number, where, by),
          mended ->
              relaid(
                  work, mended, number, line, 1, places.size(), renumbered(work.draft(), number)));
    }
    if (part < 1 || part > parts.size()) {
      throw Faces.impossible("the line has parts 1 to " + parts.size());
    }
    ProposedLine moved = parts.get(part - 1);
    for (int other = 1; other <= all.size(); other++) {
      if (other != line && Place.parts(all.get(other - 1)).contains(moved)) {
        throw Faces.impossible(
            "lines "
                + Math.min(line, other)
                + " and "
                + Math.max(line, other)
                + " are one line on the stone for the machine; join them, move the line, then split"
                + " it again");
      }
    }
    int first = 1;
    while (places.get(first - 1).on().filter(on -> on != moved).isPresent()) {
      first++;
    }
    int last = first;
    while (last < places.size() && places.get(last).on().filter(on -> on != moved).isEmpty()) {
      last++;
    }
    return shown(work, by, proposal, moved, where, line, first, last);
  }

  private Work shown(
      Work work,
      NamedReader by,
      Proposal proposal,
      ProposedLine moved,
      FoundLine where,
      int line,
      int first,
      int last) {
    Proposal mended;
    try {
      mended = drawn.moved(proposal, moved.number(), where, by.name(), now());
    } catch (BadInputException e) {
      throw Faces.impossible(String.valueOf(e.getMessage()));
    }
    return kept(
        work, by, mended, on -> relaid(work, on, moved.number(), line, first, last, work.draft()));
  }

  private Proposal withLine(Proposal proposal, int number, FoundLine where, NamedReader by) {
    try {
      return drawn.withLine(proposal, number, where, by.name(), now());
    } catch (BadInputException e) {
      throw Faces.impossible(String.valueOf(e.getMessage()));
    }
  }

  private static Instant now() {
    return Instant.now().truncatedTo(ChronoUnit.MILLIS);
  }

  private Work kept(Work work, NamedReader by, Proposal mended, Laid laid) {
    Draft draft;
    try {
      draft = laid.on(mended);
    } catch (LeidenException | DraftEditing.RefusedException e) {
      throw Faces.impossible(String.valueOf(e.getMessage()));
    }
    faces.keep(work, new Draft(draft.lines(), Optional.of(mended.id())), Optional.of(mended), by);
    return faces.look(work.face(), by);
  }

  /** The proposal to draw on. */
  private Proposal proposal(Work work, FoundLine where) {
    Proposal proposal =
        work.proposal()
            .orElseThrow(
                () ->
                    Faces.impossible(
                        "no machine has looked at this face yet, so there is no photograph to draw"
                            + " on; type the line instead"));
    Photograph leading =
        photos
            .photograph(proposal.photographs().get(0))
            .orElseThrow(
                () -> Faces.impossible("the photograph to draw on isn't in the archive any more"));
    List<Point> points = where.ribbon().points();
    boolean outside =
        points.stream()
            .anyMatch(
                p ->
                    p.x() < -where.heightPx()
                        || p.y() < -where.heightPx()
                        || p.x() > leading.uprightWidthPx() + where.heightPx()
                        || p.y() > leading.uprightHeightPx() + where.heightPx());
    if (outside) {
      throw Faces.impossible("the line reaches beyond the photograph");
    }
    if (points.size() > MOST_POINTS) {
      throw Faces.impossible("a line is drawn with " + MOST_POINTS / 2 + " bends at most");
    }
    if (where.heightPx() < LOWEST_PX || where.lengthPx() < where.heightPx() / 2) {
      throw Faces.impossible(
          "nobody could read so small a line; draw it along its letters and as high as its"
              + " capitals, which need "
              + (int) LOWEST_PX
              + " pixels");
    }
    return proposal;
  }

  /** The number that a line put in there has among the proposed lines. */
  private static int numberAt(Work work, int line) {
    List<List<Place>> all = Place.of(work);
    for (int i = line - 2; i >= 0; i--) {
      List<ProposedLine> parts = Place.parts(all.get(i));
      if (!parts.isEmpty()) {
        return parts.get(parts.size() - 1).number() + 1;
      }
    }
    return all.stream()
        .flatMap(places -> Place.parts(places).stream())
        .mapToInt(ProposedLine::number)
        .findFirst()
        .orElse(work.proposal().orElseThrow().lines().size() + 1);
  }

  /** The draft on a proposal that has one line more, of this number. */
  private static Draft renumbered(Draft draft, int number) {
    return new Draft(
        draft.lines().stream()
            .map(
                line ->
                    new Draft.Line(
                        line.text(),
                        line.places().stream()
                            .map(
                                place ->
                                    place.line() >= number
                                        ? new Draft.Place(
                                            place.line() + 1, place.slot(), place.how())
                                        : place)
                            .toList()))
            .toList(),
        draft.proposal());
  }

  /** A proposed line as it is put before this reader. */
  private static Draft.Line asRead(Work work, Proposal mended, int number) {
    Draft.Line line = Sight.shown(mended, work.heldBack()).get(number - 1).line();
    return line.text().isEmpty()
        ? new Draft.Line("(+++)", List.of(new Draft.Place(number, 0, Draft.Decided.NOT)))
        : line;
  }

  /** The draft with what a line reads anew laid over some of its places. */
  private static Draft relaid(
      Work work, Proposal mended, int number, int line, int first, int last, Draft draft)
      throws LeidenException, DraftEditing.RefusedException {
    ProposedLine read = mended.lines().get(number - 1);
    Draft.Line asRead = asRead(work, mended, number);
    if (read.lattice().letters() == 0) {
      // Nothing to lay over: the letters stay, and their line is shown.
      List<Draft.Line> lines = new ArrayList<>(draft.lines());
      List<Draft.Place> places = new ArrayList<>(lines.get(line - 1).places());
      for (int i = first - 1; i < last; i++) {
        places.set(i, new Draft.Place(number, 0, places.get(i).how()));
      }
      lines.set(line - 1, new Draft.Line(lines.get(line - 1).text(), places));
      return new Draft(lines, draft.proposal());
    }
    List<Optional<Double>> before =
        Place.of(work).get(line - 1).subList(first - 1, last).stream()
            .map(place -> column(work, place, read))
            .toList();
    List<Double> after = new ArrayList<>();
    for (Draft.Place place : asRead.places()) {
      Slot slot = read.lattice().slots().get(place.slot());
      after.add((read.from(slot) + read.to(slot)) / 2);
    }
    double width =
        read.lattice().slots().stream()
            .mapToDouble(slot -> slot.to() - slot.from())
            .average()
            .orElse(1);
    return DraftEditing.relaid(
        draft,
        line,
        first,
        last,
        asRead,
        (i, j) ->
            before
                .get(i)
                .map(at -> (int) Math.round(Math.abs(at - after.get(j)) / Math.max(1e-6, width)))
                .orElse(0));
  }

  /** Where a letter stands on the strip of a line that lies on the leading photograph. */
  private static Optional<Double> column(Work work, Place place, ProposedLine line) {
    Proposal proposal = work.proposal().orElseThrow();
    if (place.stretch().isEmpty()) {
      return Optional.empty();
    }
    Stretch stretch = place.stretch().get();
    Optional<Homography> toLeading = proposal.view(stretch.on().photograph()).toLeading();
    return toLeading.map(move -> line.columnOf(move.map(stretch.box().centre())));
  }
}
