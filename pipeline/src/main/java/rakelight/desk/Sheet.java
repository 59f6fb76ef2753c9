package rakelight.desk;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Optional;
import rakelight.marker.Caution;
import rakelight.publish.paper.Paper;
import rakelight.publish.paper.Paper.Cut;
import rakelight.publish.paper.Paper.Part;
import rakelight.publish.paper.PrintedPage;

/**
 * Prints sheets to take to the stone: the face with its lines numbered, what the machine takes them
 * to say in large letters, and under each line room to write. A sheet that has been filled in goes
 * back by {@code confirm --basis stone} or on the reading page.
 */
public final class Sheet {
  private static final float MARGIN_MM = 15;
  private static final float PICTURE_WIDE_MM = 92;
  private static final float PICTURE_HIGH_MM = 112;

  /** Large enough to read at arm's length in the open. */
  private static final float LETTER_POINTS = 19;

  private static final float LINE_HIGH_MM = 21;

  /** Lower than this nobody could write; a face of many lines goes on to another page. */
  private static final float LEAST_LINE_HIGH_MM = 15;

  private static final String[] WORDS = {
    "Write what the stone says under each line; leave a line empty if it is right as printed.",
    "A dotted line stands under letters that may be others. Write + for marks nobody can read,",
    "[.] for each letter whose surface is gone, and a dot under a letter you aren't sure of."
  };

  private Sheet() {}

  /**
   * One sheet.
   *
   * @param unsafe why to keep clear of the marker; may be empty
   * @param picture a JPEG file of the face
   * @param lines what is proposed; none is empty
   */
  record Side(
      String marker,
      String name,
      String unsafe,
      Optional<byte[]> picture,
      List<List<ShownFace.Sign>> lines) {}

  /** Writes a PDF with a page or more for each face. */
  static void write(String ground, List<Side> sides, OutputStream out) throws IOException {
    try (Paper paper = new Paper("To the stone: " + ground)) {
      for (Side side : sides) {
        new Pages(paper, ground, side).draw();
      }
      paper.save(out);
    }
  }

  /** The pages of one face. */
  private static final class Pages {
    private final Paper paper;
    private final String ground;
    private final Side side;
    private float widthMm;
    private float heightMm;

    Pages(Paper paper, String ground, Side side) {
      this.paper = paper;
      this.ground = ground;
      this.side = side;
    }

    void draw() throws IOException {
      PrintedPage page = page();
      float y = heightMm - MARGIN_MM - 20;
      y = picture(page, y);
      float fitting = (y - MARGIN_MM - 0.1f) / Math.max(1, side.lines().size());
      float high = fitting < LEAST_LINE_HIGH_MM ? LINE_HIGH_MM : Math.min(LINE_HIGH_MM, fitting);
      for (int i = 0; i < side.lines().size() || i == 0; i++) {
        if (y < MARGIN_MM + high) {
          page = page();
          y = heightMm - MARGIN_MM - 22;
        }
        if (!side.lines().isEmpty()) {
          line(page, i + 1, side.lines().get(i), y, high);
        }
        y -= high;
      }
      while (y > MARGIN_MM + high) {
        rule(page, MARGIN_MM + 9, y - (high - 6), widthMm - MARGIN_MM);
        y -= high;
      }
    }

    private PrintedPage page() throws IOException {
      PrintedPage page = paper.leaf();
      widthMm = page.wideMm();
      heightMm = page.highMm();
      paper.begin(Part.HEADING);
      text(page, 22, "Marker " + side.marker() + ", " + side.name(), MARGIN_MM, heightMm - 22);
      paper.begin(Part.PARAGRAPH);
      String keepClear =
          side.unsafe().isEmpty() ? "" : ".  Keep clear of it: noted as " + side.unsafe() + ".";
      text(page, 10, ground + keepClear, MARGIN_MM, heightMm - 29);
      text(page, 8.5f, Caution.LOOK_ONLY, MARGIN_MM, 9);
      return page;
    }

    /** The face and, beside it, by whom and in what light it was read; where the lines begin. */
    private float picture(PrintedPage content, float topMm) throws IOException {
      float besideMm = MARGIN_MM;
      float bottomMm = topMm;
      if (side.picture().isPresent()) {
        paper.begin(Part.FIGURE, "Photograph of marker " + side.marker() + ", " + side.name());
        float[] size =
            content.picture(
                side.picture().get(), MARGIN_MM, topMm, PICTURE_WIDE_MM, PICTURE_HIGH_MM);
        float wide = size[0];
        float high = size[1];
        bottomMm = topMm - high;
        besideMm = MARGIN_MM + wide + 8;
        for (int i = 0; i < side.lines().size(); i++) {
          Optional<double[]> place = side.lines().get(i).get(0).place();
          if (place.isPresent()) {
            double[] at = place.get();
            float x = (float) (MARGIN_MM + at[0] * wide - 5);
            float y = (float) (topMm - at[1] * high);
            content.filled(x, y, 4.4f, 3.8f, 1);
            text(content, 8, String.valueOf(i + 1), x + 0.6f, y + 0.8f);
          }
        }
      }
      paper.begin(Part.PARAGRAPH);
      float y = topMm - 4;
      for (String label : new String[] {"Read by", "On (date)", "Light, and from where"}) {
        text(content, 10, label, besideMm, y);
        rule(content, besideMm, y - 11, widthMm - MARGIN_MM);
        y -= 20;
      }
      for (String words :
          paper.wrapped(Cut.PLAIN, 9, String.join(" ", WORDS), widthMm - MARGIN_MM - besideMm)) {
        text(content, 9, words, besideMm, y);
        y -= 5;
      }
      return Math.min(bottomMm, y) - 12;
    }

    private void line(
        PrintedPage content, int number, List<ShownFace.Sign> line, float yMm, float high)
        throws IOException {
      paper.begin(Part.PARAGRAPH);
      text(content, 10, String.valueOf(number), MARGIN_MM, yMm);
      float wide = 0;
      for (ShownFace.Sign sign : line) {
        wide += width(shown(sign));
      }
      float room = widthMm - 2 * MARGIN_MM - 9;
      float size = Math.min(LETTER_POINTS, LETTER_POINTS * room / Math.max(wide, 1));
      float x = MARGIN_MM + 9;
      for (ShownFace.Sign sign : line) {
        String shown = shown(sign);
        float from = x + (sign.spaceBefore() ? width(" ") * size / LETTER_POINTS : 0);
        text(content, size, shown, x, yMm);
        x += width(shown) * size / LETTER_POINTS;
        if (sign.doubtful()) {
          content.dottedRule(from, yMm - 1.6f, x);
        }
      }
      rule(content, MARGIN_MM + 9, yMm - (high - 9), widthMm - MARGIN_MM);
    }

    private static String shown(ShownFace.Sign sign) {
      return (sign.spaceBefore() ? " " : "") + (sign.text().equals("·") ? "_" : sign.text());
    }

    /** In millimetres at {@link #LETTER_POINTS}. */
    private float width(String text) throws IOException {
      return paper.width(Cut.PLAIN, LETTER_POINTS, text);
    }

    private static void rule(PrintedPage content, float fromMm, float yMm, float toMm)
        throws IOException {
      content.rule(fromMm, yMm, toMm, 0.4f);
    }

    private static void text(PrintedPage content, float size, String text, float xMm, float yMm)
        throws IOException {
      content.text(Cut.PLAIN, size, text, xMm, yMm);
    }
  }
}
