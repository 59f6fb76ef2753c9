package rakelight.desk;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import rakelight.marker.Caution;

/**
 * Prints sheets to take to the stone: the face with its lines numbered, what the machine takes them
 * to say in large letters, and under each line room to write. A sheet that has been filled in goes
 * back by {@code confirm --basis stone} or on the reading page.
 */
public final class Sheet {
  private static final float POINTS_PER_MM = 72 / 25.4f;
  private static final float MARGIN_MM = 15;
  private static final float PICTURE_WIDE_MM = 92;
  private static final float PICTURE_HIGH_MM = 112;

  /** Large enough to read at arm's length in the open. */
  private static final float LETTER_POINTS = 19;

  private static final float LINE_HIGH_MM = 21;

  /** Lower than this nobody could write; a face of many lines goes on to another page. */
  private static final float LEAST_LINE_HIGH_MM = 15;

  private static final String TYPEFACE = "/net/sf/jasperreports/fonts/dejavu/DejaVuSerif.ttf";

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
    try (PDDocument document = new PDDocument();
        InputStream typeface = Sheet.class.getResourceAsStream(TYPEFACE)) {
      document.getDocumentInformation().setTitle("To the stone: " + ground);
      PDFont font =
          PDType0Font.load(
              document, new TTFParser().parse(new RandomAccessReadBuffer(typeface)), true);
      for (Side side : sides) {
        new Pages(document, font, ground, side).draw();
      }
      document.save(out);
    }
  }

  /** The pages of one face. */
  private static final class Pages {
    private final PDDocument document;
    private final PDFont font;
    private final String ground;
    private final Side side;
    private final float widthMm = PDRectangle.A4.getWidth() / POINTS_PER_MM;
    private final float heightMm = PDRectangle.A4.getHeight() / POINTS_PER_MM;

    Pages(PDDocument document, PDFont font, String ground, Side side) {
      this.document = document;
      this.font = font;
      this.ground = ground;
      this.side = side;
    }

    void draw() throws IOException {
      PDPageContentStream page = page();
      try {
        float y = heightMm - MARGIN_MM - 20;
        y = picture(page, y);
        float fitting = (y - MARGIN_MM - 0.1f) / Math.max(1, side.lines().size());
        float high = fitting < LEAST_LINE_HIGH_MM ? LINE_HIGH_MM : Math.min(LINE_HIGH_MM, fitting);
        for (int i = 0; i < side.lines().size() || i == 0; i++) {
          if (y < MARGIN_MM + high) {
            page.close();
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
      } finally {
        page.close();
      }
    }

    private PDPageContentStream page() throws IOException {
      PDPage page = new PDPage(PDRectangle.A4);
      document.addPage(page);
      PDPageContentStream content = new PDPageContentStream(document, page);
      text(content, 22, "Marker " + side.marker() + ", " + side.name(), MARGIN_MM, heightMm - 22);
      String keepClear =
          side.unsafe().isEmpty() ? "" : ".  Keep clear of it: noted as " + side.unsafe() + ".";
      text(content, 10, ground + keepClear, MARGIN_MM, heightMm - 29);
      text(content, 8.5f, Caution.LOOK_ONLY, MARGIN_MM, 9);
      return content;
    }

    /** The face and, beside it, by whom and in what light it was read; where the lines begin. */
    private float picture(PDPageContentStream content, float topMm) throws IOException {
      float besideMm = MARGIN_MM;
      float bottomMm = topMm;
      if (side.picture().isPresent()) {
        PDImageXObject image =
            PDImageXObject.createFromByteArray(document, side.picture().get(), "face");
        float scale =
            Math.min(PICTURE_WIDE_MM / image.getWidth(), PICTURE_HIGH_MM / image.getHeight());
        float wide = image.getWidth() * scale;
        float high = image.getHeight() * scale;
        bottomMm = topMm - high;
        besideMm = MARGIN_MM + wide + 8;
        content.drawImage(
            image,
            MARGIN_MM * POINTS_PER_MM,
            bottomMm * POINTS_PER_MM,
            wide * POINTS_PER_MM,
            high * POINTS_PER_MM);
        for (int i = 0; i < side.lines().size(); i++) {
          Optional<double[]> place = side.lines().get(i).get(0).place();
          if (place.isPresent()) {
            double[] at = place.get();
            float x = (float) (MARGIN_MM + at[0] * wide - 5);
            float y = (float) (topMm - at[1] * high);
            content.setNonStrokingColor(1f);
            content.addRect(
                x * POINTS_PER_MM, y * POINTS_PER_MM, 4.4f * POINTS_PER_MM, 3.8f * POINTS_PER_MM);
            content.fill();
            text(content, 8, String.valueOf(i + 1), x + 0.6f, y + 0.8f);
          }
        }
      }
      float y = topMm - 4;
      for (String label : new String[] {"Read by", "On (date)", "Light, and from where"}) {
        text(content, 10, label, besideMm, y);
        rule(content, besideMm, y - 11, widthMm - MARGIN_MM);
        y -= 20;
      }
      for (String words : wrapped(String.join(" ", WORDS), widthMm - MARGIN_MM - besideMm)) {
        text(content, 9, words, besideMm, y);
        y -= 5;
      }
      return Math.min(bottomMm, y) - 12;
    }

    private void line(
        PDPageContentStream content, int number, List<ShownFace.Sign> line, float yMm, float high)
        throws IOException {
      text(content, 10, String.valueOf(number), MARGIN_MM, yMm);
      float wide = 0;
      for (ShownFace.Sign sign : line) {
        wide += width(shown(sign));
      }
      float room = widthMm - 2 * MARGIN_MM - 9;
      float size = Math.min(LETTER_POINTS, LETTER_POINTS * room / Math.max(wide, 1));
      float x = MARGIN_MM + 9;
      content.setLineWidth(1);
      for (ShownFace.Sign sign : line) {
        String shown = shown(sign);
        float from = x + (sign.spaceBefore() ? width(" ") * size / LETTER_POINTS : 0);
        text(content, size, shown, x, yMm);
        x += width(shown) * size / LETTER_POINTS;
        if (sign.doubtful()) {
          content.setLineDashPattern(new float[] {1.2f, 1.6f}, 0);
          stroke(content, from, yMm - 1.6f, x);
          content.setLineDashPattern(new float[0], 0);
        }
      }
      rule(content, MARGIN_MM + 9, yMm - (high - 9), widthMm - MARGIN_MM);
    }

    private static String shown(ShownFace.Sign sign) {
      return (sign.spaceBefore() ? " " : "") + (sign.text().equals("·") ? "_" : sign.text());
    }

    /** In millimetres at {@link #LETTER_POINTS}. */
    private float width(String text) throws IOException {
      return font.getStringWidth(printable(text)) / 1000 * LETTER_POINTS / POINTS_PER_MM;
    }

    private List<String> wrapped(String text, float roomMm) throws IOException {
      List<String> lines = new ArrayList<>();
      StringBuilder line = new StringBuilder();
      for (String word : text.split(" ")) {
        if (!line.isEmpty() && width(line + " " + word) * 9 / LETTER_POINTS > roomMm) {
          lines.add(line.toString());
          line.setLength(0);
        }
        line.append(line.isEmpty() ? "" : " ").append(word);
      }
      lines.add(line.toString());
      return lines;
    }

    private static void rule(PDPageContentStream content, float fromMm, float yMm, float toMm)
        throws IOException {
      content.setLineWidth(0.4f);
      stroke(content, fromMm, yMm, toMm);
    }

    private static void stroke(PDPageContentStream content, float fromMm, float yMm, float toMm)
        throws IOException {
      content.moveTo(fromMm * POINTS_PER_MM, yMm * POINTS_PER_MM);
      content.lineTo(toMm * POINTS_PER_MM, yMm * POINTS_PER_MM);
      content.stroke();
    }

    private void text(PDPageContentStream content, float size, String text, float xMm, float yMm)
        throws IOException {
      content.setNonStrokingColor(0f);
      content.beginText();
      content.setFont(font, size);
      content.newLineAtOffset(xMm * POINTS_PER_MM, yMm * POINTS_PER_MM);
      content.showText(printable(text));
      content.endText();
    }

    /** What the typeface doesn't have is printed as a question mark. */
    private String printable(String text) {
      StringBuilder shown = new StringBuilder();
      text.codePoints()
          .forEach(
              point -> {
                String sign = Character.toString(point);
                try {
                  font.encode(sign);
                  shown.append(sign);
                } catch (IOException | IllegalArgumentException e) {
                  shown.append('?');
                }
              });
      return shown.toString();
    }
  }
}
