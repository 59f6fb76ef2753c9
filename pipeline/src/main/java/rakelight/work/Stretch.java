package rakelight.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.picture.Polygon;
import rakelight.reading.ProposedLine;

/**
 * Which part of a proposed line shows a letter.
 *
 * <p>A letter that has kept its slot stands there; several that share a slot share its room. A
 * machine puts the border of two slots midway between the middles of their letters, as if they were
 * of one width; here it lies where letters of their usual widths meet. A letter that has no slot
 * stands between its neighbours: in the room they leave, else in what their slots are wider than
 * such letters are (where a machine overlooks a letter it gives its neighbours the room), else in a
 * share of the slot of the one that is too wide. At the ends of a line it stands next to its
 * neighbour as far as the strip reaches. How wide letters are is reckoned from those of the line
 * that have a slot.
 *
 * @param on the proposed line
 * @param from beginning along its strip, 0 to 1
 * @param to end, 0 to 1
 * @param reckoned whether it was worked out from its neighbours and is no slot of its own
 */
public record Stretch(ProposedLine on, double from, double to, boolean reckoned) {
  private static final double SPACE_WIDTH = 0.6;

  /** Letters take a room that is so much of what they need, or more. */
  private static final double ENOUGH = 0.7;

  /** How wide a letter is against most small ones, as in common roman faces (from memory). */
  private static double usualWidth(int letter) {
    if ("iljI.,;:'’‘!|·-()".indexOf(letter) >= 0) {
      return 0.6;
    }
    if ("ftrs1".indexOf(letter) >= 0) {
      return 0.75;
    }
    if ("MWÆŒ—".indexOf(letter) >= 0) {
      return 1.75;
    }
    if ("mwæœ".indexOf(letter) >= 0) {
      return 1.45;
    }
    return Character.isUpperCase(letter) || letter == '&'
        ? 1.3
        : Character.isDigit(letter) ? 1.1 : 1;
  }

  /** What a letter is, as far as its place goes. */
  record Sought(String text, boolean spaceBefore, Optional<Slotted> slotted) {}

  /** A slot of a proposed line. */
  record Slotted(ProposedLine on, double from, double to) {
    boolean isSameAs(Slotted other) {
      return on == other.on && from == other.from && to == other.to;
    }
  }

  /** Where it lies on the photograph that the line was read on, four corners. */
  public Polygon box() {
    return on.boxOf(from, to);
  }

  /** The stretch of every letter of a line of a draft; empty where nobody can say. */
  static List<Optional<Stretch>> of(List<Sought> letters) {
    return new Line(letters).stretches();
  }

  /** The reckoning for one line. */
  private static final class Line {
    private final List<Sought> letters;
    private final double[] from;
    private final double[] to;
    private final boolean[] known;
    private final ProposedLine[] on;

    Line(List<Sought> letters) {
      this.letters = letters;
      int n = letters.size();
      from = new double[n];
      to = new double[n];
      known = new boolean[n];
      on = new ProposedLine[n];
      for (int i = 0; i < n; i++) {
        int at = i;
        letters
            .get(i)
            .slotted()
            .filter(slotted -> slotted.to() > slotted.from())
            .ifPresent(slotted -> put(at, slotted.on(), slotted.from(), slotted.to()));
      }
    }

    private void put(int at, ProposedLine line, double begin, double end) {
      on[at] = line;
      from[at] = Math.max(0, begin);
      to[at] = Math.min(1, end);
      known[at] = true;
    }

    List<Optional<Stretch>> stretches() {
      boolean[] read = known.clone();
      meet();
      shareSlots();
      int n = letters.size();
      for (int i = 0; i < n; i++) {
        if (!known[i]) {
          int end = i;
          while (end < n && !known[end]) {
            end++;
          }
          run(i, end);
          i = end;
        }
      }
      List<Optional<Stretch>> stretches = new ArrayList<>();
      for (int i = 0; i < n; i++) {
        stretches.add(
            known[i]
                ? Optional.of(new Stretch(on[i], from[i], to[i], !read[i]))
                : Optional.empty());
      }
      return stretches;
    }

    /**
     * With middles a and b and widths v and w, letters meet at x = a + v/2 = b - w/2, and midway
     * between a and b is x + (w - v)/4.
     */
    private void meet() {
      int n = letters.size();
      double[] begins = from.clone();
      double[] ends = to.clone();
      for (int i = 0; i < n; i++) {
        if (!known[i]) {
          continue;
        }
        double quarter = unit(on[i]) / 4;
        boolean left = i > 0 && known[i - 1] && on[i - 1] == on[i] && !isSameSlot(i - 1, i);
        boolean right = i + 1 < n && known[i + 1] && on[i + 1] == on[i] && !isSameSlot(i, i + 1);
        if (left && from[i] - to[i - 1] < quarter) {
          begins[i] = from[i] + quarter * (width(i - 1) - width(i));
        } else if (left && letters.get(i).spaceBefore()) {
          begins[i] = from[i] + quarter * (SPACE_WIDTH - width(i));
        }
        if (right && from[i + 1] - to[i] < quarter) {
          ends[i] = to[i] + quarter * (width(i) - width(i + 1));
        } else if (right && letters.get(i + 1).spaceBefore()) {
          ends[i] = to[i] + quarter * (width(i) - SPACE_WIDTH);
        }
      }
      for (int i = 0; i < n; i++) {
        if (known[i] && ends[i] > begins[i]) {
          put(i, on[i], begins[i], ends[i]);
        }
      }
    }

    /** Letters that lie in one slot lie there side by side. */
    private void shareSlots() {
      for (int i = 0; i < letters.size(); i++) {
        int end = i + 1;
        while (known[i] && end < letters.size() && isSameSlot(i, end)) {
          end++;
        }
        if (end > i + 1) {
          spread(i, end, on[i], from[i], to[i], false);
        }
        i = end - 1;
      }
    }

    private boolean isSameSlot(int a, int b) {
      Optional<Slotted> one = letters.get(a).slotted();
      Optional<Slotted> other = letters.get(b).slotted();
      return one.isPresent() && other.isPresent() && one.get().isSameAs(other.get());
    }

    /** Letters from {@code first} to before {@code end}, side by side over a stretch. */
    private void spread(
        int first, int end, ProposedLine line, double begin, double finish, boolean spaceAfter) {
      double whole = width(first, end, spaceAfter);
      double scale = (finish - begin) / whole;
      double reached = begin;
      for (int i = first; i < end; i++) {
        if (letters.get(i).spaceBefore() && i > first) {
          reached += scale * SPACE_WIDTH;
        }
        double next = reached + scale * width(i);
        put(i, line, reached, next);
        reached = next;
      }
    }

    /** How wide letters are, in widths of most, with the spaces between them. */
    private double width(int first, int end, boolean spaceAfter) {
      double width = spaceAfter ? SPACE_WIDTH : 0;
      for (int i = first; i < end; i++) {
        width += width(i) + (i > first && letters.get(i).spaceBefore() ? SPACE_WIDTH : 0);
      }
      return width;
    }

    private double width(int at) {
      String text = letters.get(at).text();
      return text.isEmpty() ? 1 : usualWidth(text.codePointAt(0));
    }

    /** The width of most letters on a strip: the middle one of those that have a slot. */
    private double unit(ProposedLine line) {
      double[] units = new double[letters.size()];
      int n = 0;
      for (int i = 0; i < units.length; i++) {
        if (on[i] == line && letters.get(i).slotted().isPresent()) {
          units[n++] = (to[i] - from[i]) / width(i);
        }
      }
      java.util.Arrays.sort(units, 0, n);
      return units[n / 2];
    }

    /** Finds room for letters without a slot. */
    private void run(int first, int end) {
      boolean left = first > 0;
      boolean right = end < letters.size();
      if (left && right && on[first - 1] == on[end]) {
        between(first, end);
        return;
      }
      int placed = left ? after(first, end) : first;
      if (right) {
        before(placed, end);
      }
    }

    private void between(int first, int end) {
      int left = first - 1;
      ProposedLine line = on[left];
      double unit = unit(line);
      double lead = letters.get(first).spaceBefore() ? SPACE_WIDTH * unit : 0;
      double trail = letters.get(end).spaceBefore() ? SPACE_WIDTH * unit : 0;
      double need = unit * width(first, end, false) + lead + trail;
      double room = from[end] - to[left];
      double spareLeft = spare(left, unit);
      double spareRight = spare(end, unit);
      double spare = spareLeft + spareRight;
      if (room < need && spare > 0 && room + spare >= ENOUGH * need) {
        double part = Math.min(1, (need - room) / spare);
        to[left] -= part * spareLeft;
        from[end] += part * spareRight;
        room = from[end] - to[left];
      }
      if (room >= ENOUGH * need) {
        double scale = room / need;
        spread(first, end, line, to[left] + lead * scale, from[end] - trail * scale, false);
      } else if (spareLeft >= spareRight) {
        spread(left, end, line, from[left], Math.max(to[left], from[end]), trail > 0);
      } else {
        spread(first, end + 1, line, Math.min(to[left], from[end]), to[end], false);
      }
    }

    /** By how much a letter's slot is wider than such a letter. */
    private double spare(int at, double unit) {
      return Math.max(0, to[at] - from[at] - unit * width(at));
    }

    /** Letters after the last that has a slot on its strip; the first that found no room. */
    private int after(int first, int end) {
      int left = first - 1;
      ProposedLine line = on[left];
      double unit = unit(line);
      if (end == letters.size() && isTwoInOne(left, first, end, unit)) {
        spread(left, end, line, from[left], to[left], false);
        return end;
      }
      double reached = to[left];
      for (int i = first; i < end; i++) {
        reached += letters.get(i).spaceBefore() ? SPACE_WIDTH * unit : 0;
        double next = reached + unit * width(i);
        if ((reached + next) / 2 > 1) {
          return i;
        }
        put(i, line, reached, next);
        reached = next;
      }
      return end;
    }

    /** Letters before the first that has a slot on its strip. */
    private void before(int first, int end) {
      ProposedLine line = on[end];
      double unit = unit(line);
      if (first == 0 && first < end && isTwoInOne(end, first, end, unit)) {
        spread(first, end + 1, line, from[end], to[end], false);
        return;
      }
      double reached = from[end];
      for (int i = end - 1; i >= first; i--) {
        reached -= letters.get(i + 1).spaceBefore() ? SPACE_WIDTH * unit : 0;
        double next = reached - unit * width(i);
        if ((reached + next) / 2 < 0) {
          return;
        }
        put(i, line, next, reached);
        reached = next;
      }
    }

    /** Whether a neighbour's slot is so wide that it holds the letters, too. */
    private boolean isTwoInOne(int neighbour, int first, int end, double unit) {
      return spare(neighbour, unit) >= ENOUGH * unit * width(first, end, false);
    }
  }
}
