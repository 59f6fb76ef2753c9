package rakelight.samples;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Stones whose rows are broken: long dashes between dates, wide gaps inside a line, rolls of names
 * in columns with or without something cut between them. A line with a dash or a gap in it is one
 * line; of a roll each cell is one.
 */
final class PartedStone {
  /** Dashes of one to seven capitals' length. */
  private static final String[] DASHES = {"—", "⸺", "⸻", "———", "⸻⸻"};

  private static final String[] HEADS = {"Roll of honour", "Lost at sea", "They gave their lives"};
  private static final String[] DIVIDERS = {"", "ruled", "dotted", "flowered"};

  private PartedStone() {}

  /** The same stone with other words: by its seed with dashes, with gaps, or with a roll. */
  static SampleFace of(SampleFace face, long seed) {
    SplittableRandom r = new SplittableRandom(seed ^ 0x9A47EDL);
    List<SampleLine> lines =
        switch ((int) Math.floorMod(seed, 4L)) {
          case 0 -> dashes(r, face.stone().made());
          case 1 -> gaps(r, face.stone().made());
          case 2 -> roll(r, 2, face.stone().made());
          default -> roll(r, 2 + r.nextInt(2), face.stone().made());
        };
    return new SampleFace(
        face.marker(), face.face(), face.bearingDegrees(), face.stone(), lines, face.seed());
  }

  /** What somebody would write: a dash is a dash, however long, and a gap is a space. */
  static String written(String text) {
    return text.replaceAll("[—⸺⸻]+", "—").replaceAll(" +", " ");
  }

  private static List<SampleLine> dashes(SplittableRandom r, int made) {
    List<SampleLine> lines = new ArrayList<>();
    String surname = StoneMaker.surname(r);
    StoneMaker.add(lines, 3.2, "", "In memory of");
    String name = StoneMaker.man(r) + " " + surname;
    StoneMaker.add(lines, 5, "", name.toUpperCase(Locale.ROOT));
    int age = r.nextInt(20, 90);
    StoneMaker.add(lines, 4, "", dashed(r, made - age, made));
    StoneMaker.add(lines, 3.4, "gap", "His wife");
    StoneMaker.add(lines, 4.4, "", StoneMaker.woman(r).toUpperCase(Locale.ROOT));
    int younger = r.nextInt(20, 80);
    StoneMaker.add(lines, 3.6, "", dashed(r, made - younger, made));
    return lines;
  }

  private static String dashed(SplittableRandom r, int born, int died) {
    String dash = DASHES[r.nextInt(DASHES.length)];
    String space = r.nextInt(3) == 0 ? "" : r.nextBoolean() ? " " : "  ";
    String between = space + dash + space;
    return switch (r.nextInt(4)) {
      case 0 -> "Born " + born + between + "Died " + died;
      case 1 -> "B. " + born + between + "D. " + died;
      default -> born + between + died;
    };
  }

  private static List<SampleLine> gaps(SplittableRandom r, int made) {
    List<SampleLine> lines = new ArrayList<>();
    String surname = StoneMaker.surname(r);
    StoneMaker.add(lines, 5, "", surname.toUpperCase(Locale.ROOT) + " FAMILY");
    int age = r.nextInt(20, 90);
    StoneMaker.add(lines, 4, "gap", (made - age) + gap(r) + made);
    StoneMaker.add(lines, 3.4, "", "Erected by the children");
    String woman = StoneMaker.woman(r).toUpperCase(Locale.ROOT);
    StoneMaker.add(lines, 4, "gap", woman + gap(r) + "AGED " + r.nextInt(10, 90));
    StoneMaker.add(lines, 3.4, "", "also her infant son " + StoneMaker.man(r));
    String man = StoneMaker.man(r).toUpperCase(Locale.ROOT);
    StoneMaker.add(lines, 4, "gap", man + gap(r) + r.nextInt(10, 90) + " Y.");
    return lines;
  }

  /** A gap of 2 to 9 capitals. */
  private static String gap(SplittableRandom r) {
    return " ".repeat(r.nextInt(4, 19));
  }

  private static List<SampleLine> roll(SplittableRandom r, int columns, int made) {
    List<SampleLine> lines = new ArrayList<>();
    StoneMaker.add(lines, 4.6, "", HEADS[r.nextInt(HEADS.length)].toUpperCase(Locale.ROOT));
    StoneMaker.add(lines, 3.6, "", "in the year " + made);
    String divider = DIVIDERS[r.nextInt(DIVIDERS.length)];
    String set = r.nextInt(3) > 0 ? " left" : "";
    int rows = r.nextInt(4, 8);
    for (int row = 0; row < rows; row++) {
      int cells = row == rows - 1 ? r.nextInt(1, columns + 1) : columns;
      for (int cell = 1; cell <= cells; cell++) {
        String style = "cell" + cell + "of" + columns + set;
        boolean first = cell == 1;
        StoneMaker.add(
            lines,
            columns == 2 ? 3.4 : 3,
            style + (first ? row == 0 ? " gap" : "" : " beside " + divider).stripTrailing(),
            named(r));
      }
    }
    return numberedDown(lines);
  }

  /** The same with the cells of each column numbered after those of the column before. */
  private static List<SampleLine> numberedDown(List<SampleLine> lines) {
    List<SampleLine> down = new ArrayList<>(lines);
    down.sort(Comparator.comparingInt(SampleLine::cell)); // Heads are in the first.
    return lines.stream()
        .map(l -> new SampleLine(down.indexOf(l) + 1, l.size(), l.style(), l.marked()))
        .toList();
  }

  private static String named(SplittableRandom r) {
    String given = StoneMaker.man(r);
    String name = r.nextInt(3) == 0 ? given : given.charAt(0) + ".";
    return (name + " " + StoneMaker.surname(r)).toUpperCase(Locale.ROOT);
  }
}
