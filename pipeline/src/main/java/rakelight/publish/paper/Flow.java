package rakelight.publish.paper;

import java.io.IOException;
import java.util.function.IntFunction;
import rakelight.marker.Caution;
import rakelight.publish.paper.Paper.Cut;

/**
 * A text that flows down pages of A4, in columns if need be, the standing caution at the foot of
 * each and the page's number beside it.
 */
public final class Flow {
  private static final float MARGIN_MM = 18;
  private static final float FOOT_MM = 22;
  private static final float HEAD_MM = 22;
  private static final float GUTTER_MM = 6;

  /** Of the size of the letters, from line to line. */
  private static final float LEADING = 1.35f;

  private final Paper paper;
  private final String head;
  private final IntFunction<String> numbers;
  private PrintedPage leaf;
  private float y;
  private int pages;
  private int columns = 1;
  private int column;
  private float top;

  /**
   * Begins on a new page.
   *
   * @param head at the top of each page
   */
  public Flow(Paper paper, String head) throws IOException {
    this(paper, head, Integer::toString);
  }

  /**
   * @param numbers what stands at the foot of the first page, the second, and so on
   */
  public Flow(Paper paper, String head, IntFunction<String> numbers) throws IOException {
    this.paper = paper;
    this.head = head;
    this.numbers = numbers;
    leaf = paper.leaf();
    dress();
  }

  private void dress() throws IOException {
    pages++;
    paper.outside(
        () -> {
          leaf.text(Cut.PLAIN, 8.5f, head, MARGIN_MM, leaf.highMm() - 13);
          leaf.text(Cut.PLAIN, 8.5f, Caution.LOOK_ONLY, MARGIN_MM, 12);
          String number = numbers.apply(pages);
          leaf.text(
              Cut.PLAIN,
              8.5f,
              number,
              leaf.wideMm() - MARGIN_MM - paper.width(Cut.PLAIN, 8.5f, number),
              12);
        });
    top = leaf.highMm() - HEAD_MM;
    y = top;
    column = 0;
  }

  /** Goes on with a new page. */
  public void turn() throws IOException {
    leaf = paper.leaf();
    dress();
  }

  /** Sets what follows in so many columns, from here down. */
  public void columns(int count) {
    columns = count;
    column = 0;
    top = y;
  }

  /** What follows goes over the whole width again, on another page if columns were begun. */
  public void oneColumn() {
    if (columns > 1 && (column > 0 || y < top)) {
      y = FOOT_MM;
    }
    columns = 1;
    column = 0;
  }

  /** Goes on in the next column or page unless so much room is left. */
  public void room(float highMm) throws IOException {
    if (y - highMm >= FOOT_MM) {
      return;
    }
    if (column + 1 < columns) {
      column++;
      y = top;
    } else {
      turn();
    }
  }

  public void space(float highMm) {
    y -= highMm;
  }

  private float columnMm() {
    return (leaf.wideMm() - 2 * MARGIN_MM - (columns - 1) * GUTTER_MM) / columns;
  }

  private float leftMm() {
    return MARGIN_MM + column * (columnMm() + GUTTER_MM);
  }

  /**
   * Words, as many lines as they need.
   *
   * @param indentMm of all its lines
   * @param furtherMm more, of all but the first
   */
  public void words(Cut cut, float size, float indentMm, float furtherMm, String words)
      throws IOException {
    float further = 0;
    for (String line : paper.wrapped(cut, size, words, columnMm() - indentMm - furtherMm)) {
      float high = size * LEADING / Paper.POINTS;
      room(high);
      y -= high;
      leaf.text(cut, size, line, leftMm() + indentMm + further, y);
      further = furtherMm;
    }
  }

  /** A word and, at its own margin beside it, what it means. */
  public void explained(Cut cut, float size, float besideMm, String word, String meaning)
      throws IOException {
    float high = size * LEADING / Paper.POINTS;
    room(2 * high);
    leaf.text(cut, size, word, leftMm(), y - high);
    words(cut, size, besideMm, 0, meaning);
  }

  /** Words over the whole width. */
  public void words(float size, String words) throws IOException {
    words(Cut.PLAIN, size, 0, 0, words);
  }

  /** Words beside where boxes to tick stand. */
  public void beside(float size, String words) throws IOException {
    words(Cut.PLAIN, size, 8, 0, words);
  }

  /** A box to tick and words beside it. */
  public void ticked(float size, String words) throws IOException {
    room(2 * size * LEADING / Paper.POINTS);
    float high = 3.8f;
    leaf.box(leftMm(), y - high - 1.6f, high, high, 0.6f);
    beside(size, words);
  }

  /** A line to write on. */
  public void rule() throws IOException {
    room(9);
    y -= 8;
    leaf.rule(leftMm() + 8, y, leftMm() + columnMm(), 0.3f);
  }

  /** A bookmark here. */
  public void bookmark(String words, int level) {
    paper.bookmark(words, level, leaf, y);
  }

  /** The number at the foot of the page that is written on. */
  public String number() {
    return numbers.apply(pages);
  }
}
