package rakelight.inscription;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A line of a draft taken apart, so that each place can be changed by itself: a gap of three
 * letters is three places here, and one again when the line is put together.
 */
final class OpenLine {
  /**
   * One place.
   *
   * @param ink a letter, or a gap of one letter or of an extent that isn't a sure number
   */
  record Cell(Sign ink, boolean spaceBefore, Draft.Place place) {
    Cell with(Draft.Place other) {
      return new Cell(ink, spaceBefore, other);
    }

    Cell after(boolean space) {
      return new Cell(ink, space, place);
    }
  }

  private final boolean joined;
  private final List<Cell> cells;
  private final List<Span> spans;
  private int lastId;

  private OpenLine(boolean joined, List<Cell> cells, List<Span> spans, int lastId) {
    this.joined = joined;
    this.cells = cells;
    this.spans = spans;
    this.lastId = lastId;
  }

  /** Takes a line apart. */
  static OpenLine of(Draft.Line line) throws LeidenException {
    OpenLine open = of(line.text());
    for (int i = 0; i < Math.min(open.size(), line.places().size()); i++) {
      open.cells.set(i, open.cells.get(i).with(line.places().get(i)));
    }
    return open;
  }

  /** Takes a line apart that no proposal shows. */
  static OpenLine of(String text) throws LeidenException {
    boolean joined = text.startsWith("|");
    Inscription inscription = Leiden.parseKept(joined ? text.substring(1) : text);
    if (inscription.lines().size() != 1) {
      throw new LeidenException(1, 1, "more than one line", "one line at a time");
    }
    OpenLine open =
        new OpenLine(joined, new ArrayList<>(), new ArrayList<>(), inscription.lastId());
    Map<SignId, SignId> lasts = new HashMap<>();
    boolean space = false;
    for (Sign sign : inscription.signs()) {
      if (sign instanceof Space) {
        space = true;
      } else if (!(sign instanceof Break)) {
        for (int i = 0; i < letters(sign); i++) {
          Sign next = i == 0 ? one(sign) : one(sign).withId(open.nextId());
          open.cells.add(new Cell(next, space && i == 0, Draft.Place.NOWHERE));
          lasts.put(sign.id(), next.id());
        }
        space = false;
      }
    }
    for (Span span : inscription.spans()) {
      boolean note = span.kind() == Span.Kind.NOTE;
      SignId last = note ? span.last() : lasts.getOrDefault(span.last(), span.last());
      open.spans.add(new Span(span.kind(), span.first(), last, span.text()));
    }
    return open;
  }

  /** How many places a letter or gap takes: those of a gap whose number is sure. */
  static int letters(Sign ink) {
    return ink instanceof Gap gap
            && gap.unit() == Gap.Unit.LETTERS
            && gap.extent() instanceof Extent.Exact exact
        ? exact.count()
        : 1;
  }

  /** One letter of a gap. */
  static Sign one(Sign ink) {
    return ink instanceof Gap gap && letters(gap) > 1
        ? new Gap(
            gap.id(), gap.reason(), new Extent.Exact(1), gap.unit(), gap.erased(), gap.doubtful())
        : ink;
  }

  int size() {
    return cells.size();
  }

  List<Cell> cells() {
    return List.copyOf(cells);
  }

  boolean joined() {
    return joined;
  }

  /** The remark on a place; empty if there is none. */
  String note(int at) {
    SignId id = cells.get(at).ink().id();
    return spans.stream()
        .filter(span -> span.kind() == Span.Kind.NOTE && span.first().equals(id))
        .map(Span::text)
        .findFirst()
        .orElse("");
  }

  /**
   * Puts another letter or gap at a place, with this remark or none. A gap of several letters takes
   * as many places.
   */
  void put(int at, Sign ink, String note) {
    Cell before = cells.get(at);
    Sign named = one(ink).withId(before.ink().id());
    for (int more = 1; more < letters(ink); more++) {
      insert(at + 1, one(ink), false, "");
    }
    cells.set(at, new Cell(named, before.spaceBefore(), before.place()));
    spans.removeIf(span -> span.kind() == Span.Kind.NOTE && span.first().equals(before.ink().id()));
    if (!note.isEmpty()) {
      spans.add(new Span(Span.Kind.NOTE, named.id(), named.id(), note));
    }
  }

  void set(int at, Cell cell) {
    cells.set(at, cell);
  }

  void insert(int at, Sign ink, boolean spaceBefore, String note) {
    for (int more = 1; more < letters(ink); more++) {
      insert(at, one(ink), false, "");
    }
    Sign named = one(ink).withId(nextId());
    cells.add(at, new Cell(named, spaceBefore, Draft.Place.NOWHERE));
    if (!note.isEmpty()) {
      spans.add(new Span(Span.Kind.NOTE, named.id(), named.id(), note));
    }
  }

  /**
   * Takes a place out; a span that began or ended there gives way, and goes if it was all of it.
   */
  void remove(int at) {
    Cell gone = cells.remove(at);
    SignId id = gone.ink().id();
    if (gone.spaceBefore() && at < cells.size()) {
      cells.set(at, cells.get(at).after(true));
    }
    List<Span> kept = new ArrayList<>();
    for (Span span : spans) {
      boolean first = span.first().equals(id);
      boolean last = span.last().equals(id);
      if (first && last) {
        continue;
      }
      SignId from = first ? cells.get(at).ink().id() : span.first();
      SignId to = last ? cells.get(at - 1).ink().id() : span.last();
      kept.add(new Span(span.kind(), from, to, span.text()));
    }
    spans.clear();
    spans.addAll(kept);
  }

  /** The places from this one on, as a line of their own; they leave this one. */
  OpenLine splitOff(int at) throws DraftEditing.RefusedException {
    List<Cell> rest = new ArrayList<>(cells.subList(at, cells.size()));
    Set<SignId> there = new LinkedHashSet<>();
    rest.forEach(cell -> there.add(cell.ink().id()));
    List<Span> moved = new ArrayList<>();
    for (Span span : spans) {
      if (there.contains(span.first()) != there.contains(span.last())) {
        throw new DraftEditing.RefusedException(
            "a sign of the line reaches over that letter; change the line's text instead");
      }
      if (there.contains(span.first())) {
        moved.add(span);
      }
    }
    boolean joined = !rest.get(0).spaceBefore();
    rest.set(0, rest.get(0).after(false));
    cells.subList(at, cells.size()).clear();
    spans.removeAll(moved);
    return new OpenLine(joined, rest, moved, lastId);
  }

  /** Takes the places of the next line to its end. */
  void append(OpenLine next) {
    Map<SignId, SignId> newIds = new HashMap<>();
    for (int i = 0; i < next.size(); i++) {
      Cell cell = next.cells.get(i);
      Sign named = cell.ink().withId(nextId());
      newIds.put(cell.ink().id(), named.id());
      cells.add(new Cell(named, i == 0 ? !next.joined : cell.spaceBefore(), cell.place()));
    }
    for (Span span : next.spans) {
      spans.add(
          new Span(
              span.kind(),
              newIds.getOrDefault(span.first(), span.first()),
              newIds.getOrDefault(span.last(), span.last()),
              span.text()));
    }
  }

  /**
   * Puts the line together again.
   *
   * @throws DraftEditing.RefusedException if what it holds now can't stand together
   */
  Draft.Line close() throws DraftEditing.RefusedException {
    if (cells.isEmpty()) {
      throw new DraftEditing.RefusedException(
          "a line holds one letter at least; take the whole line out instead");
    }
    List<Sign> signs = new ArrayList<>();
    List<Draft.Place> places = new ArrayList<>();
    Map<SignId, SignId> joinedTo = new HashMap<>();
    signs.add(new Break(nextId(), false));
    SignId before = signs.get(0).id();
    for (Cell cell : cells) {
      if (cell.spaceBefore() && signs.size() > 1) {
        signs.add(new Space(nextId()));
      }
      Sign last = signs.get(signs.size() - 1);
      if (last instanceof Gap gap
          && cell.ink() instanceof Gap next
          && Inscription.areOne(gap, next)
          && !Inscription.isSpanEdge(before, next.id(), spans)) {
        joinedTo.put(next.id(), gap.id());
        if (gap.extent() instanceof Extent.Exact one
            && next.extent() instanceof Extent.Exact more) {
          signs.set(signs.size() - 1, wider(gap, one.count() + more.count()));
          places.add(cell.place());
        }
      } else {
        signs.add(cell.ink());
        places.add(cell.place());
      }
      before = cell.ink().id();
    }
    Set<Span> kept = new LinkedHashSet<>();
    for (Span span : spans) {
      kept.add(
          new Span(
              span.kind(),
              joinedTo.getOrDefault(span.first(), span.first()),
              joinedTo.getOrDefault(span.last(), span.last()),
              span.text()));
    }
    try {
      String text = Leiden.print(new Inscription(signs, List.copyOf(kept)));
      return new Draft.Line((joined ? "|" : "") + text, places);
    } catch (IllegalArgumentException e) {
      throw new DraftEditing.RefusedException(
          "a sign of the line reaches over that letter; change the line's text instead");
    }
  }

  private static Gap wider(Gap gap, int count) throws DraftEditing.RefusedException {
    if (count > Extent.MOST) {
      throw new DraftEditing.RefusedException("a gap holds " + Extent.MOST + " letters at most");
    }
    return new Gap(
        gap.id(), gap.reason(), new Extent.Exact(count), gap.unit(), gap.erased(), gap.doubtful());
  }

  private SignId nextId() {
    return new SignId(++lastId);
  }
}
